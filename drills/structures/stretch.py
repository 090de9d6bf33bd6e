"""The slanted stretch (in full: Pythagorean stretch) with its hinges and the pleats around it.

Far corners S = (0, 0) and T, side corners A on the shallow side from S and B on the steep side;
T = A + B. A half turn about the middle exchanges S with T and A with B, so every line is drawn
once, seen from A, and the rest is its half turn. Lines are counted by rank from the one through S.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import accumulate, pairwise, product
from typing import Literal, TypeAlias, get_args

from drills.geometry import FACINGS, Direction, Point, direction_of, move_between, moved
from drills.pattern import OTHER_LABEL, CreasePattern, Label, Line, Paper, build, turned
from drills.structures.block import DOWN, LEFT, RIGHT, UP, Block, LeavingHinge, Outline
from drills.structures.designs import BlockDesign, Tile, turned_directions
from drills.structures.sheets import Corners, SheetDesign, draw
from drills.structures.triangle import TRIANGLE_345, Parallelogram, Triangle, label_of_rank

Side: TypeAlias = Literal["shallow", "steep"]

_MOST_UNITS = 4

_OUT = Direction(1, -1)
_HINGE_WAY = {"shallow": Direction(0, -1), "steep": Direction(1, 0)}


@dataclass(frozen=True)
class Stretch(BlockDesign, SheetDesign):
    """One way to draw a stretch; before any crop two different ones are never the same figure.

    ``units`` are the unit sides of the triangle that the shallow and the steep side are long;
    ``hinges`` say for A and for B which side's pleats the hinge runs across; ``pleats`` lie around
    it; ``facing`` picks one of FACINGS; ``exchanged`` swaps mountains and valleys; ``crop`` cuts so
    many squares off at the left, bottom, right and top. ``widths`` are those of the pleats round A,
    round B and outside in squares, None for all the triangle's own. ValueError where they do not
    divide the sides, or differ while the sides are unequal.
    """

    units: tuple[int, int]
    hinges: tuple[Side, Side] = ("shallow", "shallow")
    pleats: int = 1
    facing: int = 0
    exchanged: bool = False
    crop: tuple[int, int, int, int] = (0, 0, 0, 0)
    triangle: Triangle = TRIANGLE_345
    widths: tuple[int, int, int] | None = None

    def __post_init__(self) -> None:
        reaches, (at_a, at_b, outside) = self.shape.reaches, self.pleat_widths
        if min(at_a, at_b, outside) < 1 or reaches[0] % at_a or reaches[1] % at_b:
            raise ValueError(
                f"Pleats {at_a} and {at_b} squares wide must fill the {reaches[0]} and {reaches[1]} "
                "round the side corners; take widths that divide these."
            )
        if not self.is_equal and not at_a == at_b == outside:
            raise ValueError("Pleats round unequal sides run into each other; give all of them one width.")

    @cached_property
    def shape(self) -> Parallelogram:
        """The outline before the stretch is turned to its facing."""
        return Parallelogram(self.triangle, self.units)

    @property
    def pleat_widths(self) -> tuple[int, int, int]:
        """The widths in squares of the pleats round A, round B and outside."""
        return self.widths or (self.triangle.width,) * 3

    @property
    def turned(self) -> tuple[int, int]:
        """The numbers of pleats that turn at the shallow side from A and at the steep side from B."""
        at_a, at_b, _ = self.pleat_widths
        return self.shape.reaches[0] // at_a, self.shape.reaches[1] // at_b

    @property
    def is_equal(self) -> bool:
        """Whether both sides are as many units long, so that a middle line joins S to T."""
        return self.units[0] == self.units[1]

    @property
    def inside_lines(self) -> int:
        """The number of inside lines of the whole stretch, before any crop."""
        return sum(self.turned) - 1

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the sheet in squares, as it faces."""
        paper = self.paper
        size = int(paper.right - paper.left), int(paper.top - paper.bottom)
        return size if FACINGS[self.facing].b == 0 else (size[1], size[0])

    @cached_property
    def paper(self) -> Paper:
        """The sheet before it is turned to its facing: the outline's box, the pleats around, the crop."""
        far, around = self.corners[2], self.pleats * self.pleat_widths[2]
        left, bottom, right, top = self.crop
        return Paper(left - around, bottom - around, far.x + around - right, far.y + around - top)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """S, A, T, B before the stretch is turned to its facing."""
        return self.shape.corners

    def label_of_rank(self, rank: int) -> Label:
        """Return the label of a pleat or inside line: even ranks are one kind, odd ranks the other."""
        return label_of_rank(rank + self.exchanged)

    def drawn(self) -> CreasePattern:
        """Return the labelled pattern, its lower left paper corner at (0, 0)."""
        return turned(build(_lines(self), self.paper), FACINGS[self.facing])

    def outlines(self) -> tuple[Outline, ...]:
        """Return its corners S, A, T, B on the sheet."""
        return (outline(self),)

    def parts_that_go_in(self) -> tuple[Corners, ...]:
        """Return the two triangles that go in when the stretch collapses, each from its side corner."""
        _, a, far, _ = self.corners
        reach = min(self.units)
        shallow, steep = self.triangle.unit_sides
        triangle = (a, moved(a, shallow, -reach), moved(a, steep, reach))
        half_turned = tuple(Point(far.x - p.x, far.y - p.y) for p in triangle)
        first, second = ([on_sheet(self, p) for p in corners] for corners in (triangle, half_turned))
        return (first[0], first[1], first[2]), (second[0], second[1], second[2])

    def block(self) -> Block:
        """Return its block without pleats around it; ValueError where its sides are unequal.

        The pleats round unequal sides spiral, so they never close into an edge.
        """
        if not self.is_equal:
            raise ValueError("Only a stretch of equal sides is a block; give both sides as many pleats.")
        bare = replace(self, pleats=0, crop=(0, 0, 0, 0))
        pattern = draw(bare)
        lines = tuple(
            Line(*pattern.ends(edge), pattern.edges[edge].role, pattern.edges[edge].label)
            for edge in pattern.creases
        )
        width, height = bare.size
        return Block(
            width,
            height,
            lines,
            tuple(_leaving_hinges(pattern)),
            bare.label_of_rank(0),
            (outline(bare),),
            bare.pleat_widths[2],
        )


def _leaving_hinges(pattern: CreasePattern) -> Iterator[LeavingHinge]:
    """Yield the hinges whose last piece ends at the paper's edge; beyond it they alternate."""
    inner = frozenset(pattern.interior)
    for index in pattern.creases:
        edge = pattern.edges[index]
        if edge.role == "hinge" and not {edge.start, edge.end} <= inner:
            ends = pattern.ends(index)
            start, end = ends if edge.start in inner else ends[::-1]
            yield LeavingHinge(end, direction_of(move_between(start, end)), OTHER_LABEL[edge.label])


def _lines(stretch: Stretch) -> Iterator[Line]:
    yield from _inside_lines(stretch)
    yield from _far_ridges(stretch)
    yield from _round_corner(stretch, 0)
    for line in _round_corner(stretch, 1):
        yield _half_turned(stretch, line)


def _distances(stretch: Stretch, corner: int) -> list[int]:
    """Return the distances of the pleat lines from A (0) or B (1), that of the corner itself first."""
    width, outside = stretch.pleat_widths[corner], stretch.pleat_widths[2]
    turned = max(stretch.shape.reaches) // width
    return list(accumulate([width] * turned + [outside] * stretch.pleats, initial=0))


def _round_corner(stretch: Stretch, corner: int) -> Iterator[Line]:
    """Yield the outline, ridge, hinge and pleat lines seen from A (0), or B's (1) before a half turn.

    The corner counts as a line; t pleats away the rank is t less. A ridge piece is of the kind of
    the line at its inner end, and the hinge's first piece the opposite of the ridge's.
    """
    place, rank, way = stretch.corners[1], stretch.turned[corner], _HINGE_WAY[stretch.hinges[corner]]
    for t, (near, far) in enumerate(pairwise(_distances(stretch, corner))):
        kind, pleat = stretch.label_of_rank(rank - t), stretch.label_of_rank(rank - t - 1)
        yield Line(moved(place, _OUT, near), moved(place, _OUT, far), "ridge", kind)
        yield Line(moved(place, way, near), moved(place, way, far), "hinge", pleat)
        for side, reach in enumerate(stretch.shape.reaches):
            end = stretch.shape.along(side, far)
            yield Line(end, moved(place, _OUT, far), "pleat", pleat)
            if far <= reach:
                yield Line(stretch.shape.along(side, near), end, "outline", kind)


def _far_ridges(stretch: Stretch) -> Iterator[Line]:
    """Yield the ridges that run outward from S and T."""
    for t, (near, far) in enumerate(pairwise(_distances(stretch, 0))):
        for side, reach in enumerate(stretch.shape.reaches):
            if near >= reach:
                ends = stretch.shape.along(side, near), stretch.shape.along(side, far)
                yield Line(*ends, "ridge", stretch.label_of_rank(stretch.turned[0] - t))


def _inside_lines(stretch: Stretch) -> Iterator[Line]:
    """Yield the inside lines from the one next to A to the one through S, then those nearer B."""
    for corner, (number, width) in enumerate(zip(stretch.turned, stretch.pleat_widths, strict=False)):
        for t in range(1, number + 1 - corner):
            line = Line(*stretch.shape.across(t * width), "inside", stretch.label_of_rank(number - t))
            yield _half_turned(stretch, line) if corner else line


def _half_turned(stretch: Stretch, line: Line) -> Line:
    opposite = stretch.shape.opposite
    return line._replace(start=opposite(line.start), end=opposite(line.end))


def on_sheet(stretch: Stretch, point: Point) -> Point:
    """Return where a point, given from S as the stretch is defined, lies on the drawn sheet."""
    facing = FACINGS[stretch.facing]
    corners = [facing.of(corner) for corner in stretch.paper.corners]
    image = facing.of(point)
    return Point(image.x - min(c.x for c in corners), image.y - min(c.y for c in corners))


def outline(stretch: Stretch) -> Outline:
    """Return the corners S, A, T, B on the sheet."""
    s, a, t, b = (on_sheet(stretch, corner) for corner in stretch.corners)
    return s, a, t, b


def stretch_tiles(triangles: tuple[Triangle, ...]) -> Iterator[Tile]:
    """Yield stretches of equal sides, of these triangles, whose outer pleats are one square wide."""
    shapes = [shape for triangle in triangles for shape in _shapes(triangle)]
    all_hinges: list[tuple[Side, Side]] = list(product(get_args(Side), repeat=2))
    for (triangle, units, widths), hinges, facing in product(shapes, all_hinges, range(len(FACINGS))):
        stretch = Stretch((units, units), hinges, pleats=0, facing=facing, triangle=triangle, widths=widths)
        at_a, at_b = hinges
        leaving = [DOWN if at_a == "shallow" else RIGHT, UP if at_b == "shallow" else LEFT]
        is_varied = widths is not None and len(set(widths)) > 1
        directions = turned_directions(leaving, FACINGS[facing])
        yield Tile("stretch", stretch, *stretch.size, directions, True, is_varied)


def _shapes(triangle: Triangle) -> Iterator[tuple[Triangle, int, tuple[int, int, int] | None]]:
    """Yield units and widths; where pleats one square wide are not the triangle's own, a single unit."""
    if triangle.width > 1:
        yield triangle, 1, (1, 1, 1)
        return
    for units in range(1, _MOST_UNITS + 1):
        yield triangle, units, None
        if units > 1:
            yield from ((triangle, units, (*at, 1)) for at in ((units, 1), (1, units), (units, units)))
