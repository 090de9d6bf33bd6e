"""Lessons: pages that tell, show and ask, gone through one after the other; nothing in them is kept."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from drills.questions import Drill, Verdict
from trainer.practice.attempts import Measured
from trainer.practice.choosing import Stage
from trainer.practice.drill_source import DrillSource
from trainer.practice.making import DrillMaker, NotReadyError, Wanted, made


class Part(NamedTuple):
    """What is told, how to make the drill that follows, and how much of it is done for the person."""

    tells: str
    make: DrillMaker
    stage: Stage = "alone"


class Page(NamedTuple):
    """What a page is about, and its parts; the last one is always the person's own."""

    title: str
    parts: tuple[Part, ...]

    @classmethod
    def of(cls, title: str, *parts: Part) -> Page:
        """Return the page with these parts."""
        return cls(title, parts)


@dataclass(frozen=True)
class LessonPlan:
    """The pages of a lesson; ``why`` says of a drill why it is met, with {} for the page it is on."""

    title: str
    pages: tuple[Page, ...]
    why: str
    are_turned: bool

    def page_in_words(self, reached: int) -> str:
        """Return where it goes on, as the end of a line; empty where it begins with its first page."""
        return f", page {reached} of {len(self.pages)}" if 1 <= reached <= len(self.pages) else ""


class Lesson(DrillSource):
    """Goes through pages part by part; ``remember`` is told the page that is reached, 0 at the end."""

    def __init__(
        self, plan: LessonPlan, page: int = 1, remember: Callable[[int], None] = lambda page: None
    ) -> None:
        """Begin at a page, counted from 1; at the first where there is no such page."""
        self.plan, self._remember = plan, remember
        self._page = page - 1 if 1 <= page <= len(plan.pages) else 0
        self._part = -1

    @property
    def title(self) -> str:
        """What the lesson is called."""
        return self.plan.title

    @property
    def subject(self) -> str:
        """What the page in hand is about."""
        return self.page.title

    @property
    def is_over(self) -> bool:
        """Whether the last page was gone on from."""
        return self._page >= len(self.plan.pages)

    @property
    def reached(self) -> int:
        """The page in hand, counted from 1; 0 once it is over."""
        return 0 if self.is_over else self._page + 1

    @property
    def page(self) -> Page:
        """The page in hand, at the end still the last one."""
        return self.plan.pages[min(self._page, len(self.plan.pages) - 1)]

    @property
    def part(self) -> Part:
        """The part of the page in hand."""
        return self.page.parts[max(self._part, 0)]

    @property
    def progress(self) -> str:
        """Which page it is."""
        number = len(self.plan.pages)
        return f"{min(self._page + 1, number)} of {number}"

    @property
    def heading(self) -> str:
        """The page, which names its drill: no code makes it."""
        return f"{self.title}, page {self.progress}: {self.page.title}."

    @property
    def tells(self) -> str:
        """What is told before the drill in hand."""
        return self.part.tells

    @property
    def stage(self) -> Stage:
        """How much of the drill in hand is done for the person."""
        return self.part.stage

    @property
    def why(self) -> str:
        """Why the drill in hand is met."""
        return self.plan.why.format(self.progress)

    @property
    def turns_pages(self) -> bool:
        """Whether its pages can be turned."""
        return self.plan.are_turned

    def turn_on(self) -> bool:
        """Turn to the next page, whose first part comes next; whether there is one."""
        return self.turn_to(self._page + 2)

    def turn_back(self) -> bool:
        """Turn to the beginning of the page, or from there to the page before; whether there is one."""
        return self.turn_to(self._page + 1 if self._part > 0 else self._page)

    def turn_to(self, page: int) -> bool:
        """Turn to a page, counted from 1, whose first part comes next; whether there is one."""
        if not 1 <= page <= len(self.plan.pages):
            return False
        self._page, self._part = page - 1, -1
        return True

    def next_drill(self, take: Callable[[Wanted], Drill] = made) -> Drill | None:
        """Return the drill of the next part, of this page or the next, None after the last."""
        before = self._page, self._part
        self._part += 1
        if self._part == len(self.page.parts):
            self._page, self._part = self._page + 1, 0
        try:
            drill = None if self.is_over else take(self.part.make)
        except NotReadyError:
            self._page, self._part = before
            raise
        self._remember(self.reached)
        return drill

    def coming(self) -> Iterator[Wanted]:
        """Yield how to make the drill of the next part, then the first of each page, the nearest first."""
        after = [part.make for page in self.plan.pages[self._page : self._page + 2] for part in page.parts]
        yield from after[self._part + 1 : self._part + 2]
        if self.turns_pages:
            numbers = sorted(range(len(self.plan.pages)), key=lambda number: abs(number - self._page))
            yield from (self.plan.pages[number].parts[0].make for number in numbers)

    def keep(self, drill: Drill, verdict: Verdict, measured: Measured, helped: bool) -> None:
        """Keep nothing: this is for learning."""
