"""Landmarks of a drawn stretch: where its corners lie on the sheet, and the parts that go in."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

from drills.exact.plane import Exact, Point, cross, move_between, moved
from drills.exact.symmetry import FACINGS
from drills.pattern.crease_pattern import CreasePattern
from drills.pattern.faces import faces
from drills.structures.stretch import Stretch

Corners: TypeAlias = tuple[Point, Point, Point]


def on_sheet(stretch: Stretch, point: Point) -> Point:
    """Return where a point, given from S as the stretch is defined, lies on the drawn sheet."""
    facing = FACINGS[stretch.facing]
    corners = [facing.of(corner) for corner in stretch.paper.corners]
    image = facing.of(point)
    return Point(image.x - min(c.x for c in corners), image.y - min(c.y for c in corners))


def outline(stretch: Stretch) -> tuple[Point, ...]:
    """Return the corners S, A, T, B on the sheet."""
    return tuple(on_sheet(stretch, corner) for corner in stretch.corners)


def parts_that_go_in(stretch: Stretch) -> tuple[Corners, ...]:
    """Return the two triangles that go in when the stretch collapses, each from its side corner."""
    _, a, far, _ = stretch.corners
    reach = min(stretch.units)
    shallow, steep = stretch.triangle.unit_sides
    triangle = (a, moved(a, shallow, -reach), moved(a, steep, reach))
    turned = tuple(Point(far.x - p.x, far.y - p.y) for p in triangle)
    first, second = ([on_sheet(stretch, p) for p in corners] for corners in (triangle, turned))
    return (first[0], first[1], first[2]), (second[0], second[1], second[2])


def faces_inside(pattern: CreasePattern, triangle: Sequence[Point]) -> tuple[tuple[int, ...], ...]:
    """Return the faces of the pattern, as vertex cycles, that lie within a triangle."""
    return tuple(
        cycle for cycle in faces(pattern) if all(_within(pattern.vertices[v], triangle) for v in cycle)
    )


def _within(point: Point, triangle: Sequence[Point]) -> bool:
    """Whether the point lies in the closed triangle, whichever way round it is given."""
    a, b, c = triangle
    sides: list[Exact] = [
        cross(move_between(p, q), move_between(p, point)) for p, q in ((a, b), (b, c), (c, a))
    ]
    return all(side >= 0 for side in sides) or all(side <= 0 for side in sides)
