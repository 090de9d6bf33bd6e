"""Which folded faces and creases lie on each other, by way of shapely: polygons, a search tree, areas."""

from __future__ import annotations

from collections.abc import Iterator
from math import lcm
from typing import NamedTuple

from shapely import LineString, Point, Polygon, STRtree  # type: ignore[import-untyped]

from tests.independent.folded import Folded
from tests.independent.sheet import Sheet

NARROW = 1e-5
"""Lengths and areas up to this are rounding errors; whole-number folded corners are 1 apart or more."""


class Crossing(NamedTuple):
    """A crease, and a face that it runs through."""

    edge: int
    face: int


class Overlaps(NamedTuple):
    """Pairs and triples of faces with a common area, what runs through creases, creases on each other.

    ``along`` are pairs of creases on each other, each with its two faces; the first faces of the two
    lie on the same side of them, and where a crease is folded so does its second.
    """

    pairs: list[tuple[int, int]]
    triples: list[tuple[int, int, int]]
    through: list[Crossing]
    along: list[tuple[int, tuple[int, int], int, tuple[int, int]]]


def overlaps(sheet: Sheet, folded: Folded) -> Overlaps:
    """Return what lies on what in a folded sheet."""
    places = whole_places(folded)
    polygons = [Polygon([places[point] for point in cycle]) for cycle in folded.faces]
    creases = {edge: LineString([places[point] for point in sheet.edges[edge]]) for edge in folded.beside}
    pairs, triples = _common_areas(polygons)
    through = list(_through(folded, polygons, creases))
    along = list(_along(folded, polygons, creases))
    return Overlaps(pairs, triples, through, along)


def whole_places(folded: Folded) -> list[tuple[float, float]]:
    """Return the folded places so enlarged that all are whole numbers.

    Where one folded corner lies on another's edge, rounded coordinates let the common area vanish.
    """
    scale = lcm(*(value.denominator for place in folded.places for value in place))
    return [(float(x * scale), float(y * scale)) for x, y in folded.places]


def _common_areas(polygons: list[Polygon]) -> tuple[list[tuple[int, int]], list[tuple[int, int, int]]]:
    """Return the pairs and triples of polygons with a common area."""
    tree = STRtree(polygons)
    parts: dict[tuple[int, int], Polygon] = {}
    for one, polygon in enumerate(polygons):
        for two in sorted(map(int, tree.query(polygon))):
            if one < two and (part := polygon.intersection(polygons[two])).area > NARROW:
                parts[one, two] = part
    triples = [
        (one, two, three)
        for (one, two), part in parts.items()
        for three in range(two + 1, len(polygons))
        if (one, three) in parts
        and (two, three) in parts
        and part.intersection(polygons[three]).area > NARROW
    ]
    return list(parts), triples


def _through(folded: Folded, polygons: list[Polygon], creases: dict[int, LineString]) -> Iterator[Crossing]:
    """Yield each crease with each face whose inside it runs through."""
    inner = [polygon.buffer(-NARROW) for polygon in polygons]
    tree = STRtree(inner)
    for edge, line in creases.items():
        for face in sorted(map(int, tree.query(line))):
            if face not in folded.beside[edge] and line.intersection(inner[face]).length > NARROW:
                yield Crossing(edge, face)


def _along(
    folded: Folded, polygons: list[Polygon], creases: dict[int, LineString]
) -> Iterator[tuple[int, tuple[int, int], int, tuple[int, int]]]:
    """Yield each two creases that share a length and have a face on the same side, these faces first."""
    edges, lines = list(creases), list(creases.values())
    middles = [polygon.centroid for polygon in polygons]
    tree = STRtree(lines)
    for one, line in zip(edges, lines, strict=True):
        for found in sorted(map(int, tree.query(line))):
            two = edges[found]
            if one < two and _shared(line, lines[found]) > NARROW:
                for first in _each_side(folded.beside[one], line, middles):
                    for second in _each_side(folded.beside[two], line, middles):
                        if _is_left(line, middles[first[0]]) == _is_left(line, middles[second[0]]):
                            yield one, first, two, second


def _each_side(faces: tuple[int, int], line: LineString, middles: list[Point]) -> Iterator[tuple[int, int]]:
    """Yield the faces of a crease, once for each side of it that has one, the face of that side first."""
    yield faces
    if _is_left(line, middles[faces[0]]) != _is_left(line, middles[faces[1]]):
        yield faces[::-1]


def _is_left(line: LineString, point: Point) -> bool:
    (x, y), (to_x, to_y) = line.coords
    return bool((to_x - x) * (point.y - y) > (to_y - y) * (point.x - x))


def _shared(one: LineString, two: LineString) -> float:
    """Return how long two straight lines run on each other."""
    (x, y), (to_x, to_y) = one.coords
    way_x, way_y = (to_x - x) / one.length, (to_y - y) / one.length
    aside = [way_x * (b - y) - way_y * (a - x) for a, b in two.coords]
    if max(map(abs, aside)) > NARROW:
        return 0.0
    low, high = sorted(way_x * (a - x) + way_y * (b - y) for a, b in two.coords)
    return float(min(high, one.length) - max(low, 0.0))
