"""The 45-degree stretch: a diamond in a field of vertical pleat lines that run level inside it.

It looks like a slanted stretch at a glance but has no slanted line: its four sides are 45-degree
ridges. Left and right corner have one hinge each, straight out across the field. Top and bottom
corner have two ridges and a vertical line, so a hinge leaves each sideways, or one line joins them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import product
from typing import Literal, TypeAlias, get_args

from drills.geometry import QUARTER_TURN, SYMMETRIES, Point
from drills.pattern import CreasePattern, Line, Paper, build, turned
from drills.structures.block import LEFT, RIGHT, Block, LeavingHinge, LookAlike, Outline, quarter_turned
from drills.structures.designs import BlockDesign, Tile, block_of, turned_directions
from drills.structures.roof import ROOF_HINGES, Roof, RoofHinge
from drills.structures.sheets import SheetDesign, labelled
from drills.structures.triangle import Triangle, label_of_rank

Sideways: TypeAlias = Literal["left", "right"]

SIDEWAYS_HINGES: list[tuple[Sideways, Sideways]] = list(product(get_args(Sideways), repeat=2))

_LARGEST = 2


@dataclass(frozen=True)
class Diamond:
    """A 45-degree stretch: its middle and half diagonal on the grid, its field from x = 0 to ``field``.

    ``hinges`` say to which side the top and the bottom hinge leave; None: straight through, which no
    labels by rank fold. The vertical pleat line at x has rank x. ValueError where it leaves the field.
    """

    x: int
    y: int
    half: int
    field: int
    hinges: tuple[Sideways, Sideways] | None = ("right", "right")

    def __post_init__(self) -> None:
        if self.half < 1 or not self.half <= self.x <= self.field - self.half:
            raise ValueError(f"The 45-degree stretch round x = {self.x} must lie between 0 and {self.field}.")

    @property
    def corners(self) -> Outline:
        """Its corners counterclockwise from the left one."""
        x, y, half = self.x, self.y, self.half
        return Point(x - half, y), Point(x, y - half), Point(x + half, y), Point(x, y + half)

    @property
    def rows(self) -> tuple[tuple[int, Sideways], ...]:
        """The heights at which a hinge leaves the field, with the side to which it leaves."""
        if self.hinges is None:
            return (self.y, "left"), (self.y, "right")
        top, bottom = self.hinges
        return (self.y, "left"), (self.y, "right"), (self.y + self.half, top), (self.y - self.half, bottom)


def diamond_field(diamond: Diamond, high: int) -> Iterator[Line]:
    """Yield a field of vertical pleat lines from height 0 to high with the diamond in it."""
    upright = (Line(Point(x, 0), Point(x, high), "pleat", label_of_rank(x)) for x in range(1, diamond.field))
    yield from _cut_field(upright, diamond)
    yield from _diamond_lines(diamond)


def _cut_field(lines: Iterable[Line], diamond: Diamond) -> Iterator[Line]:
    """Yield vertical pleat lines, from below upwards, without what of them lies inside the diamond."""
    for line in lines:
        reach = diamond.half - abs(int(line.start.x) - diamond.x)
        if reach <= 0:
            yield line
        else:
            yield line._replace(end=Point(line.end.x, diamond.y - reach))
            yield line._replace(start=Point(line.start.x, diamond.y + reach))


def _diamond_lines(diamond: Diamond) -> Iterator[Line]:
    """Yield the sides, inside lines and hinges of a diamond, labelled by rank."""
    yield from _sides(diamond)
    yield from _level_lines(diamond)
    yield from _side_hinges(diamond)
    if diamond.hinges is None:
        yield from _through(diamond)
        return
    for row, side in diamond.rows[2:]:
        yield from _across(diamond, row, side)


def _sides(diamond: Diamond) -> Iterator[Line]:
    """Yield the four sides; a piece is of the kind of the line at its end nearer the top or bottom."""
    for right in (-1, 1):
        for up in (-1, 1):
            for away in range(diamond.half):
                rank = diamond.x - away
                start = Point(diamond.x + right * (away + 1), diamond.y + up * (diamond.half - away - 1))
                end = Point(diamond.x + right * away, diamond.y + up * (diamond.half - away))
                yield Line(start, end, "ridge", label_of_rank(rank))


def _level_lines(diamond: Diamond) -> Iterator[Line]:
    for height in range(1 - diamond.half, diamond.half):
        reach = diamond.half - abs(height)
        y = diamond.y + height
        yield Line(
            Point(diamond.x - reach, y),
            Point(diamond.x + reach, y),
            "pleat",
            label_of_rank(diamond.x - reach),
        )


def _side_hinges(diamond: Diamond) -> Iterator[Line]:
    """Yield the hinges of the side corners: each piece is of the kind of the pleat line it comes from."""
    for x in range(diamond.x - diamond.half, 0, -1):
        yield Line(Point(x, diamond.y), Point(x - 1, diamond.y), "hinge", label_of_rank(x))
    for x in range(diamond.x + diamond.half, diamond.field):
        yield Line(Point(x, diamond.y), Point(x + 1, diamond.y), "hinge", label_of_rank(x))


def _across(diamond: Diamond, row: int, side: Sideways) -> Iterator[Line]:
    """Yield the hinge of the top or bottom: each piece is of the kind of the pleat line it comes to."""
    step, end = (-1, 0) if side == "left" else (1, diamond.field)
    for x in range(diamond.x, end, step):
        yield Line(Point(x, row), Point(x + step, row), "hinge", label_of_rank(x + step))


def _through(diamond: Diamond) -> Iterator[Line]:
    """Yield the line from top to bottom without labels, which ranks do not give."""
    for y in range(diamond.y - diamond.half, diamond.y + diamond.half):
        yield Line(Point(diamond.x, y), Point(diamond.x, y + 1), "hinge", "U")


@dataclass(frozen=True)
class Framed(BlockDesign):
    """A diamond in the field of vertical pleat lines of an upright roof, which is given lying."""

    diamond: Diamond
    roof: Roof

    def block(self) -> Block:
        """Return the upright roof with the diamond in it.

        ValueError where the diamond does not lie strictly between the ends of the ridge line, so that
        two hinges would meet.
        """
        diamond, roof = self.diamond, self.roof
        if diamond.field != roof.height:
            raise ValueError(
                f"The field of the 45-degree stretch must be {roof.height} pleats wide, as its roof."
            )
        low, high = diamond.y - diamond.half, diamond.y + diamond.half
        if not roof.height // 2 < low <= high < roof.width - roof.height // 2:
            raise ValueError("The 45-degree stretch must lie between the ends of the ridge line.")
        frame = quarter_turned(block_of(roof))
        return replace(
            frame,
            lines=(*_cut_open(frame, diamond), *_diamond_lines(diamond)),
            leaving_hinges=(*frame.leaving_hinges, *_leaving_hinges(diamond)),
            look_alikes=(LookAlike("diamond", diamond.corners), *frame.look_alikes),
        )


def _cut_open(frame: Block, diamond: Diamond) -> Iterator[Line]:
    """Yield the frame's lines, the upright pleat lines in the diamond's rows cut open."""
    for line in frame.lines:
        low, high = sorted((line.start, line.end), key=lambda point: point.y)
        if low.x == high.x and low.y < diamond.y - diamond.half and high.y > diamond.y + diamond.half:
            yield from _cut_field([line._replace(start=low, end=high)], diamond)
        else:
            yield line


def _leaving_hinges(diamond: Diamond) -> Iterator[LeavingHinge]:
    """Yield where the diamond's hinges leave; those of its side corners are of the kind they come from."""
    sides = {"left": (0, LEFT), "right": (diamond.field, RIGHT)}
    for row, side in diamond.rows:
        x, direction = sides[side]
        yield LeavingHinge(Point(x, row), direction, label_of_rank(0 if row == diamond.y else 1))


def diamond_tiles(_: tuple[Triangle, ...]) -> Iterator[Tile]:
    """Yield diamonds in upright frames as narrow as they or two pleats wider, in every place along them."""
    for half, more, slack in product(range(1, _LARGEST + 1), (0, 2), (0, 1, 2)):
        field = 2 * half + more
        length = field + 2 * half + 2 + slack
        for hinges, roof_hinges, up in product([*SIDEWAYS_HINGES, None], ROOF_HINGES, range(slack + 1)):
            diamond = Diamond(field // 2, field // 2 + half + 1 + up, half, field, hinges)
            roof = Roof(length, field, roof_hinges)
            directions = turned_directions(roof.directions, QUARTER_TURN) | {LEFT, RIGHT}
            is_by_rank = _is_by_rank(hinges, roof_hinges)
            upright = Tile("diamond", Framed(diamond, roof), field, length, directions, is_by_rank)
            yield from (upright, upright.upright())


def _is_by_rank(hinges: tuple[Sideways, Sideways] | None, roof: tuple[RoofHinge, RoofHinge]) -> bool:
    """Whether ranks give a diamond in its upright frame labels that fold; measured with pleats around.

    Where both of its hinges leave to one side none of the frame's may, where one leaves to each side
    not both of the frame's to one.
    """
    across = [{"up": "left", "down": "right"}.get(hinge) for hinge in roof]
    if hinges is None:
        return False
    if hinges[0] == hinges[1]:
        return hinges[0] not in across
    return across[0] is None or across[0] != across[1]


@dataclass(frozen=True)
class FieldSheet(SheetDesign):
    """One diamond in an open field of pleats, so many squares high; no block, so a sheet alone."""

    diamond: Diamond
    height: int
    facing: int = 0
    exchanged: bool = False

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the paper in squares."""
        size = self.diamond.field, self.height
        return size if SYMMETRIES[self.facing].b == 0 else (size[1], size[0])

    def drawn(self) -> CreasePattern:
        """Return the labelled pattern, for which a layer order was found."""
        paper = Paper(0, 0, self.diamond.field, self.height)
        pattern = turned(build(diamond_field(self.diamond, self.height), paper), SYMMETRIES[self.facing])
        return labelled(pattern.switched(pattern.creases) if self.exchanged else pattern)

    def outlines(self) -> tuple[Outline, ...]:
        """None: nothing in it is slanted."""
        return ()

    def look_alikes(self) -> tuple[LookAlike, ...]:
        """Return the diamond."""
        symmetry = SYMMETRIES[self.facing]
        paper = [symmetry.of(corner) for corner in Paper(0, 0, self.diamond.field, self.height).corners]
        left, bottom = min(p.x for p in paper), min(p.y for p in paper)
        one, two, three, four = (
            Point(image.x - left, image.y - bottom) for image in map(symmetry.of, self.diamond.corners)
        )
        return (LookAlike("diamond", (one, two, three, four)),)
