"""Known sheets that several tests fold: maps, the Miura pattern, twists and bases."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from hypothesis import strategies as st

from drills.geometry import AnyMove, Direction, Point, move_between, moved
from drills.pattern import CreasePattern, Edge, Label, Line, Paper, Role, build, to_origin
from drills.structures import Side, Stretch

SIDES: tuple[Side, ...] = ("shallow", "steep")
HINGES: tuple[tuple[Side, Side], ...] = tuple((at_a, at_b) for at_a in SIDES for at_b in SIDES)


Figure: TypeAlias = frozenset[tuple[frozenset[Point], Role, Label]]


def figure(pattern: CreasePattern) -> Figure:
    """Return the figure drawn, wherever it stands: two patterns are the same figure if these are equal."""
    home = to_origin(pattern)
    return frozenset(
        (frozenset(home.ends(index)), edge.role, edge.label) for index, edge in enumerate(home.edges)
    )


def ways(*pairs: tuple[int, int]) -> list[Direction]:
    """Return whole-number directions."""
    return [Direction(*pair) for pair in pairs]


def star(directions: list[Direction]) -> CreasePattern:
    """Return the sheet with one interior point, from which an unlabelled crease leaves each way."""
    centre = Point(0, 0)
    lines = (Line(centre, moved(centre, way, 9), "other", "U") for way in directions)
    return build(lines, Paper(-1, -1, 1, 1))


def map_sheet(rows: int, columns: int) -> CreasePattern:
    """Return the unlabelled map of so many rows and columns of unit squares."""
    across = (Line(Point(0, y), Point(columns, y), "other", "U") for y in range(1, rows))
    upright = (Line(Point(x, 0), Point(x, rows), "other", "U") for x in range(1, columns))
    return build([*across, *upright], Paper(0, 0, columns, rows))


def miura(rows: int, columns: int) -> CreasePattern:
    """Return the unlabelled Miura pattern of so many parallelograms with sides (2, 0) and (1, 2)."""
    places = [(i, j) for i in range(columns + 1) for j in range(rows + 1)]
    number = {place: index for index, place in enumerate(places)}
    edges = []
    for i, j in places:
        for ahead, on_border in (((i + 1, j), j in (0, rows)), ((i, j + 1), i in (0, columns))):
            if ahead in number:
                ends = number[i, j], number[ahead]
                kind = ("border", "B") if on_border else ("other", "U")
                edges.append(Edge.joining(*ends, *kind))  # type: ignore[arg-type]
    return CreasePattern(tuple(Point(2 * i + j % 2, 2 * j) for i, j in places), tuple(edges))


def square_twist() -> CreasePattern:
    """Return the unlabelled square twist in its grid form: a diamond and four rays along the grid."""
    corners = [Point(1, 0), Point(0, 1), Point(-1, 0), Point(0, -1)]
    rays = {
        Point(1, 0): ((1, 0), (0, 1)),
        Point(0, 1): ((0, 1), (-1, 0)),
        Point(-1, 0): ((-1, 0), (0, -1)),
        Point(0, -1): ((0, -1), (1, 0)),
    }
    sides = [Line(a, b, "other", "U") for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]
    arms = [
        Line(corner, moved(corner, Direction(*way), 9), "other", "U")
        for corner, ways in rays.items()
        for way in ways
    ]
    return build(sides + arms, Paper(-3, -3, 3, 3))


def triangle_twist(corners: list[Point]) -> CreasePattern:
    """Return a counterclockwise triangle with two rays from each corner, square to its two sides."""
    return build(_triangle_lines(corners), Paper(-9, -9, 15, 15))


def _triangle_lines(corners: list[Point]) -> Iterator[Line]:
    for a, b in zip(corners, corners[1:] + corners[:1], strict=True):
        side = move_between(a, b)
        outward = Direction(int(side.dy), -int(side.dx))
        yield Line(a, b, "other", "U")
        yield Line(a, moved(a, outward, 20), "other", "U")
        yield Line(b, moved(b, outward, 20), "other", "U")


def small_stretches() -> st.SearchStrategy[Stretch]:
    """Draw stretches of 3-4-5 with one to three pleats turned by each side and up to two around."""
    number = st.integers(min_value=1, max_value=3)
    return st.builds(
        Stretch,
        units=st.tuples(number, number),
        hinges=st.sampled_from(HINGES),
        pleats=st.integers(min_value=0, max_value=2),
        facing=st.integers(min_value=0, max_value=3),
        exchanged=st.booleans(),
    )


def is_slanted(direction: AnyMove) -> bool:
    """Whether a crease runs neither along the grid nor at 45 degrees."""
    return direction.dx != 0 and direction.dy != 0 and abs(direction.dx) != abs(direction.dy)
