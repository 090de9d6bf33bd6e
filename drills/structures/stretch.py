"""The slanted stretch (in full: Pythagorean stretch) with its hinges and the pleats around it.

Far corners S = (0, 0) and T, side corners A on the shallow side from S and B on the steep side;
T = A + B. A half turn about the middle exchanges S with T and A with B, so every line is drawn
once, seen from A, and the rest is its half turn. Lines are counted by rank from the one through S.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal, TypeAlias

from drills.exact.plane import Direction, Point, moved
from drills.exact.symmetry import FACINGS
from drills.pattern.building import Line, Paper, build
from drills.pattern.crease_pattern import CreasePattern, Label
from drills.pattern.placing import turned
from drills.structures.triangle import TRIANGLE_345, Triangle

Side: TypeAlias = Literal["shallow", "steep"]

_OUT, _UP_OUT = Direction(1, -1), Direction(1, 1)
_HINGE_WAY = {"shallow": Direction(0, -1), "steep": Direction(1, 0)}


@dataclass(frozen=True)
class Stretch:
    """One way to draw a stretch; before any crop two different ones are never the same figure.

    ``units`` are the pleats that the shallow and the steep side turn; ``hinges`` say for A and for B
    which side's pleats the hinge runs across; ``facing`` picks one of FACINGS; ``exchanged`` swaps
    mountains and valleys; ``crop`` cuts so many squares off at the left, bottom, right and top.
    """

    units: tuple[int, int]
    hinges: tuple[Side, Side] = ("shallow", "shallow")
    pleats: int = 1
    facing: int = 0
    exchanged: bool = False
    crop: tuple[int, int, int, int] = (0, 0, 0, 0)
    triangle: Triangle = TRIANGLE_345

    @property
    def is_equal(self) -> bool:
        """Whether both sides turn the same number of pleats, so that a middle line joins S to T."""
        return self.units[0] == self.units[1]

    @property
    def inside_lines(self) -> int:
        """The number of inside lines of the whole stretch, before any crop."""
        return sum(self.units) - 1

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the sheet in squares, as it faces."""
        paper = self.paper
        size = int(paper.right - paper.left), int(paper.top - paper.bottom)
        return size if FACINGS[self.facing].b == 0 else (size[1], size[0])

    @property
    def paper(self) -> Paper:
        """The sheet before it is turned to its facing: the outline's box, the pleats around, the crop."""
        far, around = self.corners[2], self.pleats * self.triangle.width
        left, bottom, right, top = self.crop
        return Paper(left - around, bottom - around, far.x + around - right, far.y + around - top)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """S, A, T, B before the stretch is turned to its facing."""
        start, (shallow, steep) = Point(0, 0), self.triangle.unit_sides
        a, b = moved(start, shallow, self.units[0]), moved(start, steep, self.units[1])
        return start, a, Point(a.x + b.x, a.y + b.y), b

    def kind(self, rank: int) -> Label:
        """Return the label of a pleat or inside line: even ranks are one kind, odd ranks the other."""
        return "M" if (rank % 2 == 0) != self.exchanged else "V"


@lru_cache(maxsize=512)
def draw(stretch: Stretch) -> CreasePattern:
    """Return the labelled pattern of a stretch, its lower left paper corner at (0, 0)."""
    return turned(build(_lines(stretch), stretch.paper), FACINGS[stretch.facing])


def _lines(stretch: Stretch) -> Iterator[Line]:
    reach = max(stretch.units) + stretch.pleats
    rank_a, rank_b = stretch.units
    yield from _inside_lines(stretch)
    yield from _far_ridges(stretch, reach)
    yield from _round_corner(stretch, rank_a, stretch.hinges[0], reach)
    for line in _round_corner(stretch, rank_b, stretch.hinges[1], reach):
        yield _half_turned(line, stretch.corners[2])


def _round_corner(stretch: Stretch, rank: int, hinge: Side, reach: int) -> Iterator[Line]:
    """Yield the outline, ridge, hinge and pleat lines seen from A; B's are these after a half turn.

    ``rank`` is that of the corner; t pleats away it is rank - t. A ridge piece is of the kind of
    the line at its inner end, and the hinge's first piece the opposite of the ridge's.
    """
    corner, width = stretch.corners[1], stretch.triangle.width
    for t in range(1, reach + 1):
        kind, pleat = stretch.kind(rank - t + 1), stretch.kind(rank - t)
        turn = moved(corner, _OUT, t * width)
        yield Line(moved(corner, _OUT, (t - 1) * width), turn, "ridge", kind)
        way = _HINGE_WAY[hinge]
        yield Line(moved(corner, way, (t - 1) * width), moved(corner, way, t * width), "hinge", pleat)
        for side in (0, 1):
            yield Line(_along(stretch, side, t), turn, "pleat", pleat)
            if t <= stretch.units[side]:
                yield Line(_along(stretch, side, t - 1), _along(stretch, side, t), "outline", kind)


def _far_ridges(stretch: Stretch, reach: int) -> Iterator[Line]:
    """Yield the ridges that run outward from S and T."""
    for side, units in enumerate(stretch.units):
        for t in range(units + 1, reach + 1):
            kind = stretch.kind(stretch.units[0] - t + 1)
            yield Line(_along(stretch, side, t - 1), _along(stretch, side, t), "ridge", kind)


def _inside_lines(stretch: Stretch) -> Iterator[Line]:
    """Yield the inside lines, from the one next to A to the one next to B."""
    for t in range(1, sum(stretch.units)):
        near = _along(stretch, 0, t) if t <= stretch.units[0] else _from_b(stretch, 1, t)
        far = _along(stretch, 1, t) if t <= stretch.units[1] else _from_b(stretch, 0, t)
        yield Line(near, far, "inside", stretch.kind(stretch.units[0] - t))


def _along(stretch: Stretch, side: int, t: int) -> Point:
    """Return the point t pleats from A along the shallow (0) or steep (1) side and on along its ridge."""
    unit, units, width = stretch.triangle.unit_sides[side], stretch.units[side], stretch.triangle.width
    sense = 1 if side else -1
    end = moved(stretch.corners[1], unit, sense * min(t, units))
    return moved(end, _UP_OUT, sense * width * max(t - units, 0))


def _from_b(stretch: Stretch, side: int, t: int) -> Point:
    """Return the point on the side from B that the inside line t pleats from A meets."""
    far, back = stretch.corners[2], _along(stretch, side, sum(stretch.units) - t)
    return Point(far.x - back.x, far.y - back.y)


def _half_turned(line: Line, far: Point) -> Line:
    start, end = (Point(far.x - point.x, far.y - point.y) for point in (line.start, line.end))
    return line._replace(start=start, end=end)
