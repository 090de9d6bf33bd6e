"""A drill: the pattern shown, the question put, the answer that is right."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple, TypeAlias

from drills.geometry import Point, Step
from drills.pattern import CreasePattern
from drills.questions.spec import Spec
from drills.structures import SheetDesign

Ask: TypeAlias = Literal["step", "place", "edges", "vertices", "join", "structures"]


class Segment(NamedTuple):
    """A straight row of edges from one vertex to another."""

    start: int
    end: int
    edges: tuple[int, ...]


class Marks(NamedTuple):
    """The edges, or the vertices, that are to be marked."""

    items: frozenset[int]


class Outlines(NamedTuple):
    """The slanted stretches of a sheet, in order: of each the edges of its outline."""

    edges: tuple[frozenset[int], ...]


class MarkedPlaces(NamedTuple):
    """Places of the sheet, each said to lie in a slanted stretch."""

    points: frozenset[Point]


Truth: TypeAlias = Step | Point | Marks | Outlines
"""The answer that is right."""

Answer: TypeAlias = Step | Point | Marks | MarkedPlaces
"""The answer that a person gives."""


@dataclass(frozen=True)
class Question:
    """What is asked: the manner of answering, the words, and what is lit or hidden for it."""

    ask: Ask
    says: tuple[str, ...]
    lit: Segment | None = None
    counts_repeats: bool = False
    start: Point | None = None
    step: Step | None = None
    start_vertex: int | None = None
    hidden: frozenset[int] = frozenset()
    role_asked: bool = False


@dataclass(frozen=True)
class Drill:
    """One question on one sheet; ``pattern`` is what is shown, ``truth`` the sheet that folds flat."""

    spec: Spec
    sheet: SheetDesign
    pattern: CreasePattern
    truth: CreasePattern
    question: Question
    answer: Truth

    @property
    def code(self) -> str:
        """The code as it is typed."""
        return str(self.spec.code)

    @property
    def marks(self) -> int:
        """How many marks the right answer takes; one where there is nothing to mark."""
        if isinstance(self.answer, Marks | Outlines):
            return max(1, len(self.answer[0]))
        return 1

    @property
    def shows_labels(self) -> bool:
        """Whether mountains and valleys are part of the question."""
        return any(edge.label in "MV" for edge in self.pattern.edges)
