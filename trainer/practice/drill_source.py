"""Where drills come from: what a drill screen goes through, and codes whose sheets were not shown yet."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Iterator
from copy import copy
from itertools import islice
from typing import NamedTuple

from drills.geometry import Chance
from drills.questions import (
    ALONE,
    KINDS,
    SINGLE_STRETCHES,
    AnySheet,
    Code,
    Drill,
    Verdict,
    codes_for,
    codes_of,
    spec,
)
from drills.structures import TRIANGLE_345, Stretch
from progress_store import Judged
from trainer.practice.attempts import Measured
from trainer.practice.choosing import Stage
from trainer.practice.making import Wanted, made

SEEDS = 10**6
"""Fresh drills draw their seed below this; larger seeds are kept for measuring."""
TRIED = 20
SEARCHED = 1000
"""A triangle that so many codes do not have is not there."""


class AnsweredBefore(NamedTuple):
    """An answer that was given before, None where it is not known, its verdict, and what is said below it."""

    given: object | None
    verdict: Verdict
    says: str


class DrillSource(ABC):
    """Drills one after the other, what is told of them, and what becomes of the answers."""

    @property
    @abstractmethod
    def title(self) -> str:
        """What it is called."""

    @property
    @abstractmethod
    def subject(self) -> str:
        """What the drill in hand is about."""

    @property
    @abstractmethod
    def progress(self) -> str:
        """How far it has come."""

    @property
    @abstractmethod
    def why(self) -> str:
        """Why the drill in hand is met, in one sentence."""

    @property
    def heading(self) -> str:
        """What names the drill in hand where no code makes it; empty where one does."""
        return ""

    @property
    def tells(self) -> str:
        """What is told before the drill in hand, and above its answer where that is worked."""
        return ""

    @property
    def stage(self) -> Stage:
        """How much of the drill in hand is done for the person."""
        return "alone"

    @property
    def was_seen(self) -> bool:
        """Whether the drill in hand was on the screen before, so that its time says nothing."""
        return False

    @property
    def seconds_left(self) -> int | None:
        """The time left, None where it does not go by time."""
        return None

    @property
    def tells_at_end(self) -> bool:
        """Whether no verdict is told, and no help given, before the end."""
        return False

    @property
    def ends_on_time(self) -> bool:
        """Whether the drill in hand is broken off when the time is over."""
        return False

    @property
    def turns_pages(self) -> bool:
        """Whether it has pages that can be turned on and back."""
        return False

    def answered_before(self, drill: Drill) -> AnsweredBefore | None:
        """Return what was answered to the drill in hand some time ago, where it is only looked at."""
        return None

    @abstractmethod
    def next_drill(self, take: Callable[[Wanted], Drill] = made) -> Drill | None:
        """Return the next drill, taken from where it is made, None at the end; DrillError where it fails.

        Where that raises NotReadyError, the source is as before, and asked again it takes the same drill.
        """

    def coming(self) -> Iterable[Wanted]:
        """Return what the next drill may be made from, the likeliest first; this changes nothing."""
        return ()

    @abstractmethod
    def keep(self, drill: Drill, verdict: Verdict, measured: Measured, helped: bool) -> Judged | None:
        """Keep an answer; StoreError where it cannot be written."""

    def keep_rest(self) -> None:
        """Keep what could not be written before; StoreError where it still cannot."""
        return

    def looked_at(self, drill: Drill) -> None:
        """Go on from a drill that was worked for the person."""
        return

    def turn_to(self, page: int) -> bool:
        """Turn to a page, counted from 1; whether there is one."""
        return False

    def turn_on(self) -> bool:
        """Turn to the next page; whether there is one."""
        return False

    def turn_back(self) -> bool:
        """Turn to the beginning of the page, or to the page before; whether there is one."""
        return False


class FreshCodes:
    """Draws codes; of the first twenty that fit, the first whose sheet it has not given yet."""

    def __init__(self, chance: Chance) -> None:
        self._chance = chance
        self._shown: set[AnySheet] = set()

    def copied(self) -> FreshCodes:
        """Return one that draws the same from here on."""
        other = copy(self)
        other._chance, other._shown = copy(self._chance), set(self._shown)
        return other

    def was_shown(self, code: Code) -> None:
        """Note a code that comes from elsewhere."""
        self._shown.add(spec(code).sheet)

    def of_skill(self, skill: str, level: int) -> Code:
        """Return a code of a skill, at the nearest level that trains it."""
        return self._unlike_any(codes_for(skill, level, self._chance.below(SEEDS)))

    def of_form(self, kind: str, form: str, level: int) -> Code:
        """Return a code of a form at a level, whatever skill it trains."""
        return self._unlike_any(codes_of(kind, form, level, self._chance.below(SEEDS)))

    def of_triangle(self, triangle: str, kind: str, form: str, level: int) -> Code | None:
        """Return a code whose sheet is a lone stretch of a triangle; None where the level has none."""
        first = self._chance.below(SEEDS)
        if next(codes_with(triangle, kind, form, level, first), None) is None:
            return None
        return self._unlike_any(codes_with(triangle, kind, form, level, first))

    def _unlike_any(self, codes: Iterator[Code]) -> Code:
        for code in islice(codes, TRIED):
            if (sheet := spec(code).sheet) not in self._shown:
                break
        self._shown.add(sheet)
        return code


def levels_with(triangle: str, kind: str = "") -> list[int]:
    """Return the levels, of a kind or of any, at which a stretch of a triangle fills a sheet alone."""
    if triangle == TRIANGLE_345.name:
        having = list(range(1, ALONE + 1))
    else:
        having = [
            level
            for level, singles in SINGLE_STRETCHES.items()
            if any(each.triangle.name == triangle for each in singles)
        ]
    return [level for level in having if not kind or level in KINDS[kind].levels]


def has_triangle(code: Code, triangle: str) -> bool:
    """Whether a code's sheet is a lone stretch of this triangle."""
    sheet = spec(code).sheet
    return isinstance(sheet, Stretch) and sheet.triangle.name == triangle


def codes_with(triangle: str, kind: str, form: str, level: int, seed: int) -> Iterator[Code]:
    """Yield, of the next thousand codes from a seed on, those whose sheet is a lone stretch of a triangle."""
    codes = islice(codes_of(kind, form, level, seed), SEARCHED)
    yield from (code for code in codes if has_triangle(code, triangle))
