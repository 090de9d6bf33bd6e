"""Slanted creases that are no stretch, in open fields: bands of slanted ridges, and twists.

A band are two parallel ridges of step 3 and 1 across a field of level pleats, which run on between
them in steps of 4 and 3. A twist is an outline of slanted creases with nothing inside, from whose
corners pleats run to the paper's edge. All have the steps of a stretch, and none is one.
"""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import product
from typing import Literal, NamedTuple, TypeAlias

from drills.geometry import SYMMETRIES, Chance, Direction, Point, move_between, moved
from drills.pattern import OTHER_LABEL, CreasePattern, Line, Paper, build, to_origin, turned
from drills.structures.block import DOWN, LEFT, RIGHT, UP, LookAlike, Outline
from drills.structures.sheets import SheetDesign, draw, labelled
from drills.structures.stretch import Stretch
from drills.structures.triangle import label_of_rank

_FAR = 100


class _OpenField(SheetDesign):
    """A sheet whose creases run on beyond the paper, turned to its ``facing``, one of SYMMETRIES by index."""

    facing: int

    @property
    @abstractmethod
    def paper(self) -> Paper:
        """The paper before it is turned."""

    @abstractmethod
    def lines(self) -> Iterator[Line]:
        """Yield the creases before the sheet is turned."""

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the paper in squares."""
        left, bottom, right, top = self.paper
        size = int(right - left), int(top - bottom)
        return size if SYMMETRIES[self.facing].b == 0 else (size[1], size[0])

    def drawn(self) -> CreasePattern:
        """Return the labelled pattern, for which a layer order was found."""
        pattern = turned(to_origin(build(self.lines(), self.paper)), SYMMETRIES[self.facing])
        return labelled(pattern.switched(pattern.creases) if self.exchanged else pattern)

    def placed(self, corners: Outline) -> Outline:
        """Return where corners lie on the sheet once it is turned."""
        symmetry = SYMMETRIES[self.facing]
        paper = [symmetry.of(corner) for corner in self.paper.corners]
        left, bottom = min(p.x for p in paper), min(p.y for p in paper)
        one, two, three, four = (
            Point(image.x - left, image.y - bottom) for image in map(symmetry.of, corners)
        )
        return one, two, three, four


class Above(NamedTuple):
    """A stretch above a band: its units, the squares at its left and right, the pleats above it."""

    units: int
    left: int
    right: int
    top: int

    @property
    def width(self) -> int:
        """The squares from edge to edge."""
        return self.left + 4 * self.units + self.right

    @property
    def below(self) -> int:
        """The squares from the stretch down to where all pleats run from edge to edge."""
        return max(self.left, self.right)

    @property
    def height(self) -> int:
        """The squares from the paper's top down to there."""
        return self.top + 3 * self.units + self.below

    @property
    def stretch(self) -> Stretch:
        """The stretch with pleats enough around it; its hinges run up and to the right."""
        return Stretch((self.units, self.units), ("steep", "shallow"), max(self.below, self.top) + 1)


@dataclass(frozen=True)
class Band(_OpenField):
    """A band across a field of level pleats, ``above`` it a stretch, or nothing but pleats.

    ``apart`` says how many steps of 4 and 3 lead from ridge to ridge; ``start`` how many squares above
    the paper's lower edge the lower ridge meets its left edge, less than 0 where it begins at the lower
    one. ValueError where the band runs into the stretch, or off the paper.
    """

    width: int
    height: int
    apart: int
    start: int
    above: Above | None = None
    facing: int = 0
    exchanged: bool = False

    def __post_init__(self) -> None:
        end = Fraction(self.width, 3)
        if end + self.start < 2 or end + self._gap > self._top:
            raise ValueError("The band must show at the right edge, below the stretch; choose another start.")

    @property
    def paper(self) -> Paper:
        """The paper; the lower ridge meets its left edge, or what goes on from it, at (0, 0)."""
        return Paper(0, -self.start, self.width, self.height - self.start)

    @property
    def _gap(self) -> Fraction:
        """How many squares the upper ridge lies above the lower one."""
        return Fraction(5 * self.apart, 3)

    @property
    def _top(self) -> int:
        """The height up to which all pleats run from edge to edge."""
        return self.height - self.start - (self.above.height if self.above else 0)

    def lines(self) -> Iterator[Line]:
        """Yield the ridges, the pleats bent at them, and the stretch above."""
        across, shift = Direction(3, 1), Direction(4 * self.apart, 3 * self.apart)
        for corner in (Point(0, 0), moved(Point(0, 0), shift)):
            yield Line(moved(corner, across, -_FAR), moved(corner, across, _FAR), "ridge", "U")
        for rank in range(-_FAR, _FAR):
            lower = moved(Point(0, 0), across, rank)
            upper = moved(lower, shift)
            yield Line(lower, moved(lower, RIGHT, 4 * _FAR), "pleat", label_of_rank(rank))
            yield Line(lower, upper, "pleat", label_of_rank(rank))
            if upper.y <= self._top:
                yield Line(upper, moved(upper, LEFT, 4 * _FAR), "pleat", label_of_rank(rank))
        if self.above:
            yield from self._stretch_lines(self.above)

    def _stretch_lines(self, above: Above) -> Iterator[Line]:
        """Yield the lines of the stretch and round it down to where all pleats run from edge to edge."""
        pattern = draw(above.stretch)
        around = Point(above.stretch.pleats, above.stretch.pleats)
        to_place = move_between(around, Point(above.left, self._top + above.below))
        # the stretch counts ranks from its own first line, the field from the ridge: they may differ by one
        is_other = label_of_rank(self._top - 3 * self.apart) != label_of_rank(-above.below)
        for edge in pattern.creases:
            start, end = (moved(point, to_place) for point in pattern.ends(edge))
            role, label = pattern.edges[edge][2:]
            if max(start.y, end.y) > self._top:
                yield Line(start, end, role, OTHER_LABEL[label] if is_other else label)

    def outlines(self) -> tuple[Outline, ...]:
        """Return the corners S, A, T, B of the stretch above, if there is one."""
        if not self.above:
            return ()
        to_place = Direction(self.above.left, self._top + self.above.below)
        s, a, t, b = (moved(corner, to_place) for corner in self.above.stretch.corners)
        return (self.placed((s, a, t, b)),)

    def look_alikes(self) -> tuple[LookAlike, ...]:
        """Return the band from edge to edge."""
        rise = Fraction(self.width, 3)
        corners = (
            Point(0, 0),
            Point(self.width, rise),
            Point(self.width, rise + self._gap),
            Point(0, self._gap),
        )
        return (LookAlike("band", self.placed(corners)),)


TwistName: TypeAlias = Literal["2 and 1", "3 and 1", "3 and 2", "parallelogram", "other parallelogram"]


class _Shape(NamedTuple):
    """The corners of a twist, counterclockwise, and of each side the way its two pleats leave."""

    corners: Outline
    ways: tuple[Direction, Direction, Direction, Direction]


def _square(p: int, q: int) -> _Shape:
    return _Shape((Point(0, 0), Point(p, q), Point(p - q, p + q), Point(-q, p)), (DOWN, RIGHT, UP, LEFT))


_PARALLELOGRAM = (Point(0, 0), Point(6, 2), Point(8, 6), Point(2, 4))
_TWISTS: Mapping[TwistName, _Shape] = {
    "2 and 1": _square(2, 1),
    "3 and 1": _square(3, 1),
    "3 and 2": _square(3, 2),
    "parallelogram": _Shape(_PARALLELOGRAM, (DOWN, Direction(1, -1), UP, Direction(-1, 1))),
    "other parallelogram": _Shape(_PARALLELOGRAM, (Direction(-1, -1), DOWN, Direction(1, 1), UP)),
}


@dataclass(frozen=True)
class Twist(_OpenField):
    """A square twist by the step of its sides, or one with the outline of a stretch, with nothing inside.

    ``margins`` are the squares of paper at its left, bottom, right and top.
    """

    name: TwistName
    margins: tuple[int, int, int, int]
    facing: int = 0
    exchanged: bool = False

    @property
    def paper(self) -> Paper:
        """The paper; the twist's first corner lies at (0, 0)."""
        xs, ys = zip(*_TWISTS[self.name].corners, strict=True)
        left, bottom, right, top = self.margins
        return Paper(min(xs) - left, min(ys) - bottom, max(xs) + right, max(ys) + top)

    def lines(self) -> Iterator[Line]:
        """Yield the sides, and from both ends of each a pleat to the paper's edge."""
        corners, ways = _TWISTS[self.name]
        for place, way in enumerate(ways):
            start, end = corners[place], corners[(place + 1) % 4]
            yield Line(start, end, "ridge", "U")
            for corner in (start, end):
                yield Line(corner, moved(corner, way, _FAR), "pleat", "U")

    def outlines(self) -> tuple[Outline, ...]:
        """None: it is no stretch."""
        return ()

    def look_alikes(self) -> tuple[LookAlike, ...]:
        """Return the twist."""
        return (LookAlike("twist", self.placed(_TWISTS[self.name].corners)),)


def draw_twist(chance: Chance, widest: int, highest: int) -> Twist:
    """Return a twist on paper of at most so many squares."""
    name = chance.pick(tuple(_TWISTS))
    facing = chance.below(len(SYMMETRIES))
    bare = Twist(name, (0, 0, 0, 0), facing).paper
    room = (widest, highest) if SYMMETRIES[facing].b == 0 else (highest, widest)
    spare = (room[0] - int(bare.right - bare.left), room[1] - int(bare.top - bare.bottom))
    left, bottom, right, top = (2 + chance.below(each // 2 - 1) for each in (*spare, *spare))
    return Twist(name, (left, bottom, right, top), facing, chance.one_in(2))


def draw_band(chance: Chance, widest: int, highest: int, has_stretch: bool) -> Band:
    """Return a band on paper of at most so many squares, below a stretch or by itself."""
    bands = _bands_with_stretch(widest, highest) if has_stretch else _bands_alone(widest, highest)
    width, height, apart, start, above = chance.pick(bands)
    facing = chance.pick((0, 2, 4, 6) if width > highest or height > widest else range(len(SYMMETRIES)))
    return Band(width, height, apart, start, above, facing, chance.one_in(2))


_Size: TypeAlias = tuple[int, int, int, int, Above | None]


def _bands_alone(widest: int, highest: int) -> list[_Size]:
    sizes = product(range(widest - 2, widest + 1), range(highest - 2, highest + 1), (1, 2), range(-2, 3))
    return [(*size, None) for size in sizes]


@lru_cache(maxsize=8)
def _bands_with_stretch(widest: int, highest: int) -> tuple[_Size, ...]:
    """Return sizes in which a band shows below a stretch with two pleats or more at either side."""
    found: list[_Size] = []
    for units, top in product((1, 2), (1, 2)):
        room = range(2, widest - 4 * units - 1)
        for left, right in product(room, room):
            if left + 4 * units + right <= widest:
                found += _sizes_below(Above(units, left, right, top), highest)
    return tuple(found)


def _sizes_below(above: Above, highest: int) -> Iterator[_Size]:
    rise = Fraction(above.width, 3)
    for height in range(above.height + 3, highest + 1):
        for apart in (1, 2):
            for start in range(-above.width // 3, 1):
                if rise + start >= 2 and rise + Fraction(5 * apart, 3) <= height - start - above.height:
                    yield above.width, height, apart, start, above
