"""What to mark and to crease of a slanted stretch, each in the order of work."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from typing import Literal, NamedTuple, TypeAlias

from drills.geometry import Exact
from drills.pattern import Label
from drills.structures import Triangle

DotKind: TypeAlias = Literal["corner", "turning point", "edge"]

_FOLDED: frozenset[Label] = frozenset({"M", "V"})


class Dot(NamedTuple):
    """A vertex to mark: a corner, a turning point, or where a crease runs off at the paper's ``edge``.

    ``across`` and ``down`` are squares from the sheet's top left corner. The place is a crossing of a
    grid ``grid`` times finer, 1 where it is one of the grid itself.
    """

    vertex: int
    kind: DotKind
    across: Exact
    down: Exact
    grid: int

    @property
    def is_on_line(self) -> bool:
        """Whether it lies on a line of the grid, at a crossing or between two."""
        return self.across.denominator == 1 or self.down.denominator == 1


class RepeatedStep(NamedTuple):
    """The smallest whole-number step, right and down positive, and how often it is made, maybe in part."""

    across: int
    down: int
    times: Exact


@dataclass(frozen=True)
class Crease:
    """A straight line to crease in one go: its vertices in order, the edges between them, their labels.

    ``step`` leads from its first vertex to its last. The first is a corner or turning point where
    one is; ``is_counted`` says that both are grid crossings, so that squares can be counted.
    """

    vertices: tuple[int, ...]
    edges: tuple[int, ...]
    labels: tuple[Label, ...]
    step: RepeatedStep
    is_counted: bool


@dataclass(frozen=True)
class StretchPlan:
    """What to mark and to crease of one stretch, each in the order of work.

    ``corners`` are S, A, T, B by vertex, None off the paper; ``sides`` the steps along the shallow and
    the steep side, None where not shown from corner to corner; ``is_equal`` is None where too little
    is on the paper to tell; a middle line, if there is one, comes first of the ``inside`` lines.
    """

    triangle: Triangle
    corners: tuple[int | None, int | None, int | None, int | None]
    sides: tuple[RepeatedStep | None, RepeatedStep | None]
    is_equal: bool | None
    dots: tuple[Dot, ...]
    outline: tuple[Crease, ...]
    inside: tuple[Crease, ...]
    has_middle: bool

    @property
    def creases(self) -> tuple[Crease, ...]:
        """All that is creased, in order."""
        return self.outline + self.inside

    @property
    def is_labelled(self) -> bool:
        """Whether each crease is known to be a mountain or a valley."""
        return all(_FOLDED.issuperset(crease.labels) for crease in self.creases)

    def valleys(self) -> Iterator[tuple[int, ...]]:
        """Yield the vertices of each longest straight row of valley edges, in the order of work."""
        for crease in self.creases:
            place = 0
            for label, row in groupby(crease.labels):
                start, place = place, place + len(list(row))
                if label == "V":
                    yield crease.vertices[start : place + 1]

    def is_crossed(self, dot: Dot) -> bool:
        """Whether a side that can be creased by counting squares crosses a line of the grid at the dot."""
        counted = (side.vertices for side in self.outline if side.is_counted)
        return dot.is_on_line and any(dot.vertex in vertices for vertices in counted)
