"""A drill: the pattern shown, the question put, the answer that is right."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple, TypeAlias

from drills.exact.plane import Point
from drills.exact.step import Step
from drills.pattern.crease_pattern import CreasePattern
from drills.questions.spec import Spec

Ask: TypeAlias = Literal["step", "place", "edges", "vertices", "join"]


class Segment(NamedTuple):
    """A straight row of edges from one vertex to another."""

    start: int
    end: int
    edges: tuple[int, ...]


class Marks(NamedTuple):
    """The edges, or the vertices, that are to be marked."""

    items: frozenset[int]


Answer: TypeAlias = Step | Point | Marks


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
    pattern: CreasePattern
    truth: CreasePattern
    question: Question
    answer: Answer

    @property
    def code(self) -> str:
        """The code as it is typed."""
        return str(self.spec.code)

    @property
    def marks(self) -> int:
        """How many marks the right answer takes; one where there is nothing to mark."""
        return max(1, len(self.answer.items)) if isinstance(self.answer, Marks) else 1

    @property
    def shows_labels(self) -> bool:
        """Whether mountains and valleys are part of the question."""
        return any(edge.label in "MV" for edge in self.pattern.edges)
