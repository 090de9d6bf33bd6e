"""What a kind of question is: everything that differs from one kind to the next, in one row."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from drills.geometry import Chance
from drills.questions.code import NO_FEATURES, Code, Features, Spec
from drills.questions.question import AnyQuestion, Drill


class Form(NamedTuple):
    """One form of a kind: what it is called on the screen, and its way of asking."""

    words: str
    question: type[AnyQuestion]


class PaceFloor(NamedTuple):
    """No pace goal falls below this time; ``is_each``: for each mark that the right answer takes."""

    milliseconds: int
    is_each: bool


@dataclass(frozen=True, kw_only=True)
class QuestionKind:
    """One kind of question; no field has a default, so that the type checker names what is missing.

    ``forms`` come with the first one, that codes leave out, first. ``skills`` map the name of a skill,
    which begins with the kind, to its words; ``partners`` are skills easily taken for one another.
    ``lowest`` and ``highest`` are its levels, ``in_placing`` whether it helps to find a person's level,
    ``stretch_is_given`` whether a stretch is there to be read, rather than to be looked for.
    ``missed_words`` and ``taken_words`` say in the record what was missed, and what was marked wrongly
    (empty where nothing can be). ``versions`` give, by form and level, the features of each version of
    the generator, the first one first; a form and level not named has one version without any.
    ``plan`` draws what a code stands for, ``make`` builds the drill.
    """

    title: str
    forms: Mapping[str, Form]
    skills: Mapping[str, str]
    partners: tuple[tuple[str, str], ...]
    lowest: int
    highest: int
    in_placing: bool
    stretch_is_given: bool
    pace_floor: PaceFloor
    missed_words: str
    taken_words: str
    versions: Mapping[tuple[str, int], tuple[Features, ...]]
    plan: Callable[[Code, str, Features, Chance], Spec]
    make: Callable[[Spec, Chance], Drill]

    @property
    def first_form(self) -> str:
        """The form that codes leave out."""
        return next(iter(self.forms))

    @property
    def levels(self) -> range:
        """The levels there are."""
        return range(self.lowest, self.highest + 1)

    def nearest_level(self, level: int) -> int:
        """Return the level of this kind that is nearest to one of any kind."""
        return min(max(level, self.lowest), self.highest)

    def features(self, form: str, level: int) -> tuple[Features, ...]:
        """Return the features of each version of the generator for a form and level."""
        return self.versions.get((form, level), (NO_FEATURES,))
