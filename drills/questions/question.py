"""What every way of asking answers to: a question that knows itself, the drill it is put in, the verdict.

A way of asking is one frozen class with its typed answer. It judges what a person gives, finds its
answer again by a second route, and says in words how to answer; whoever shows, keeps or prints a
drill never needs to know which class it is.
"""

from __future__ import annotations

import json
from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any, ClassVar, Generic, Literal, NamedTuple, Self, TypeAlias, TypeVar

from drills.fold_file import to_fold
from drills.geometry import Point
from drills.pattern import CreasePattern, Label, number_of
from drills.questions.code import Spec
from drills.questions.given import given_in_text
from drills.structures import SheetDesign, faces_inside, parts_that_go_in

Slip: TypeAlias = Literal["", "exchanged", "not smallest", "more than needed"]
Fields: TypeAlias = Mapping[str, Any]
"""Fields of JSON as they are read."""

Truth = TypeVar("Truth")
Given = TypeVar("Given")


class Count(NamedTuple):
    """How many mountains and valleys meet at a vertex."""

    vertex: int
    mountains: int
    valleys: int


class Switch(NamedTuple):
    """An edge whose label is wrong: what it was and what it should be."""

    edge: int
    was: Label
    should_be: Label


Faces: TypeAlias = tuple[tuple[int, ...], ...]
"""Faces as vertex cycles."""


@dataclass(frozen=True)
class Highlights:
    """What the board shows with a verdict: edges and vertices by index, faces as vertex cycles.

    ``outlines`` are edges that are right or missed together; ``sides`` those of outlines where something
    else is asked; ``going_in`` are the faces of each part that goes in, two parts to a stretch; ``tips``
    are the flap tips that a stretch joins; ``switches`` are the wrong labels, ``counts`` those out of
    balance, and ``angles`` the creases beside the small angles that the reason speaks of.
    """

    staircase: tuple[Point, ...] = ()
    right: frozenset[int] = frozenset()
    missed: frozenset[int] = frozenset()
    extra: frozenset[int] = frozenset()
    right_points: frozenset[Point] = frozenset()
    missed_points: frozenset[Point] = frozenset()
    extra_points: frozenset[Point] = frozenset()
    outlines: tuple[frozenset[int], ...] = ()
    sides: frozenset[int] = frozenset()
    going_in: tuple[Faces, ...] = ()
    tips: frozenset[Point] = frozenset()
    switches: tuple[Switch, ...] = ()
    counts: tuple[Count, ...] = ()
    angles: tuple[int, ...] = ()


@dataclass(frozen=True)
class Verdict:
    """What came of an answer; a slip is right all the same, but counts as slow.

    ``taken_for`` is the skill whose right answer a wrong one was, empty where it is none's; ``given`` is the
    answer in a line of text, empty where it is too long for one.
    """

    right: bool
    answered: str
    truth: str
    why: str
    misses: int = 0
    false_alarms: int = 0
    slip: Slip = ""
    taken_for: str = ""
    given: str = ""
    lit: Highlights = field(default_factory=Highlights)


class Marks(NamedTuple):
    """Edges, or vertices, that are marked."""

    items: frozenset[int]

    def counted_against(self, truth: Marks, noun: str) -> str:
        """Return what was marked, with how many right, missed and too many."""
        if not self.items:
            return f"You marked no {noun}."
        right = len(truth.items & self.items)
        missed, extra = len(truth.items) - right, len(self.items) - right
        parts = [f"{right} right"] + [f"{extra} too many"] * bool(extra)
        return f"You marked {number_of(len(self.items), noun)}: {', '.join(parts)}." + not_marked(missed)


def not_marked(number: int) -> str:
    """Return how many were missed, as a sentence that follows another; empty where none was."""
    return f" You missed {number}." if number else ""


MAY_BE_NONE = "There may be none."
"""Said in every question that may have nothing to mark."""


@dataclass(frozen=True)
class Question(ABC, Generic[Truth, Given]):
    """One way of asking: the words of the question and its answer; subclasses add what is lit or hidden.

    ``ask`` is its name in JSON, ``takes`` the type of what a person gives. ``marks_points`` says that
    points are marked and not creases, ``asks_for_roles`` that what a crease is must not be told.
    """

    ask: ClassVar[str]
    takes: ClassVar[type]
    marks_points: ClassVar[bool] = False
    asks_for_roles: ClassVar[bool] = False

    says: tuple[str, ...]
    answer: Truth

    @property
    def hidden(self) -> frozenset[int]:
        """The creases that are not shown while it is asked."""
        return frozenset()

    @property
    def lit_points(self) -> frozenset[int]:
        """The vertices that are lit while it is asked."""
        return frozenset()

    @property
    def may_be_none(self) -> bool:
        """Whether its words say that there may be nothing to mark."""
        return any(MAY_BE_NONE in line for line in self.says)

    @property
    def marks(self) -> int:
        """How many marks the right answer takes; one where there is nothing to mark."""
        return 1

    @abstractmethod
    def judge(self, drill: Drill, given: Given) -> Verdict:
        """Return the verdict on an answer."""

    def taken_for(self, drill: Drill, given: Given) -> str:
        """Return the detail of the look-alike whose right answer a wrong one is; empty where it is none's."""
        return ""

    @abstractmethod
    def verify(self, pattern: CreasePattern) -> tuple[str, ...]:
        """Return why the answer is not certain on the pattern it is asked of; empty where it is.

        A second route, from where the creases run: roles and the way the drill was made play no part.
        """

    def repaired(self, pattern: CreasePattern) -> CreasePattern:
        """Return the pattern shown, with what the question made wrong put right."""
        return pattern

    @abstractmethod
    def hint(self, drill: Drill) -> str:
        """Return a little help in words that leaves the answer to be found."""

    @abstractmethod
    def right_answer(self, drill: Drill) -> Given:
        """Return an answer that is right, as a person would give it."""

    @abstractmethod
    def how_to_answer(self) -> str:
        """Return what a typed answer looks like, as the end of a sentence."""

    @abstractmethod
    def to_json(self) -> dict[str, object]:
        """Return the question as JSON fields, without its answer."""

    @abstractmethod
    def answer_to_json(self) -> dict[str, object]:
        """Return the answer as JSON fields."""

    @classmethod
    @abstractmethod
    def from_json(cls, question: Fields, answer: Fields, level: int) -> Self:
        """Return the question that these fields are of; KeyError or TypeError where they are not."""


AnyQuestion: TypeAlias = Question[Any, Any]


@dataclass(frozen=True)
class Drill:
    """One question on one sheet; ``pattern`` is what is shown, ``truth`` the sheet that folds flat."""

    spec: Spec
    design: SheetDesign
    pattern: CreasePattern
    truth: CreasePattern
    question: AnyQuestion

    @property
    def code(self) -> str:
        """The code that makes this drill anew, as it is typed; empty for a lesson's, which none makes."""
        return str(self.spec.code or self.spec.own or "")

    @property
    def kind(self) -> str:
        """The kind of question, as in codes."""
        return self.spec.kind

    @property
    def form(self) -> str:
        """The form of the kind."""
        return self.spec.form

    @property
    def level(self) -> int:
        """The level."""
        return self.spec.level

    @property
    def skill(self) -> str:
        """The one skill that it trains."""
        return self.spec.skill

    @property
    def shows_labels(self) -> bool:
        """Whether mountains and valleys are part of the question."""
        return any(edge.label in "MV" for edge in self.pattern.edges)

    def to_json(self) -> dict[str, object]:
        """Return the drill as JSON values; vertices and edges are indices into its pattern, y up.

        ValueError for a drill of a lesson, which has no code.
        """
        code = self.spec.code or self.spec.own
        if code is None:
            raise ValueError("A drill of a lesson has no code.")
        return {
            "code": str(code),
            "kind": self.kind,
            "form": self.form,
            "level": self.level,
            "seed": code.seed,
            "skill": self.skill,
            "pattern": to_fold(self.pattern),
            "question": self.question.to_json(),
            "answer": self.question.answer_to_json(),
        }

    def to_line(self, answer: bool = True) -> str:
        """Return the drill as one line of JSON, the same characters on every system."""
        fields = self.to_json()
        if not answer:
            del fields["answer"]
        return json.dumps(fields, ensure_ascii=True, separators=(", ", ": "))

    def judge(self, given: object) -> Verdict:
        """Return the verdict on an answer; TypeError where it is not of the sort the question asks for."""
        if not isinstance(given, self.question.takes):
            raise TypeError(f"{type(self.question).__name__} takes {self.question.takes.__name__}")
        verdict = replace(self.question.judge(self, given), given=given_in_text(given))
        other = "" if verdict.right else self.question.taken_for(self, given)
        if not other or other == self.spec.detail:
            return verdict
        return replace(verdict, taken_for=self.skill.removesuffix(self.spec.detail) + other)

    def parts_going_in(self) -> tuple[Faces, ...]:
        """Return the faces of each part that goes in when the sheet collapses, two parts to a stretch."""
        return tuple(faces_inside(self.truth, part) for part in parts_that_go_in(self.design))
