"""Building a crease pattern from lines: clip to the paper, split where lines meet, join at points."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from drills.geometry import Exact, Point, Symmetry, meetings, move_between, moved
from drills.pattern.crease_pattern import CreasePattern, Edge, Label, Role


class Line(NamedTuple):
    """A straight crease as it is drawn, before it is split where others meet it."""

    start: Point
    end: Point
    role: Role
    label: Label


class Paper(NamedTuple):
    """A rectangular sheet: its left, bottom, right and top edge, in grid squares."""

    left: Exact
    bottom: Exact
    right: Exact
    top: Exact

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """The corners counterclockwise from the lower left."""
        return (
            Point(self.left, self.bottom),
            Point(self.right, self.bottom),
            Point(self.right, self.top),
            Point(self.left, self.top),
        )


def build(lines: Iterable[Line], paper: Paper) -> CreasePattern:
    """Return the pattern of these lines on the paper; what runs outside or along its edge is left out.

    Two lines on top of each other raise ValueError.
    """
    corners = paper.corners
    border = [Line(a, b, "border", "B") for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]
    inside = [kept for line in lines if (kept := clipped(line, paper))]
    return _joined(_split(border + inside))


def with_lines(pattern: CreasePattern, lines: Iterable[Line]) -> CreasePattern:
    """Return the pattern with further lines on its paper, points and edges again in sorted order.

    Two lines on top of each other raise ValueError.
    """
    drawn = [Line(*pattern.ends(index), edge.role, edge.label) for index, edge in enumerate(pattern.edges)]
    return replace(_joined(_split([*drawn, *lines])), has_grid=pattern.has_grid)


def clipped(line: Line, paper: Paper) -> Line | None:
    """Return the part of a line on the paper, or None where nothing of it crosses the sheet."""
    (x, y), (to_x, to_y) = line.start, line.end
    left, bottom, right, top = paper
    if max(x, to_x) <= left or min(x, to_x) >= right or max(y, to_y) <= bottom or min(y, to_y) >= top:
        return None
    if left <= x <= right and left <= to_x <= right and bottom <= y <= top and bottom <= to_y <= top:
        return line
    way = move_between(line.start, line.end)
    first, last = Fraction(0), Fraction(1)
    limits = (
        (way.dx, paper.left - line.start.x, paper.right - line.start.x),
        (way.dy, paper.bottom - line.start.y, paper.top - line.start.y),
    )
    for slope, low, high in limits:
        if slope == 0:
            if not low < 0 < high:
                return None
            continue
        near, far = sorted((Fraction(low) / slope, Fraction(high) / slope))
        first, last = max(first, near), min(last, far)
    if first >= last:
        return None
    return line._replace(start=moved(line.start, way, first), end=moved(line.start, way, last))


def _split(lines: Sequence[Line]) -> list[Line]:
    """Return the pieces of the lines between the points where they meet; ValueError where two overlap."""
    cuts: list[set[Point]] = [{line.start, line.end} for line in lines]
    for one, two, points in meetings([(line.start, line.end) for line in lines]):
        if len(points) > 1:
            raise ValueError(f"two creases lie on top of each other between {points[0]} and {points[1]}")
        cuts[one].update(points)
        cuts[two].update(points)
    return [piece for line, points in zip(lines, cuts, strict=True) for piece in _pieces(line, points)]


def _pieces(line: Line, cuts: set[Point]) -> list[Line]:
    # points on one line are in order along it, one way or the other, when they are sorted
    return [line._replace(start=start, end=end) for start, end in pairwise(sorted(cuts))]


def _joined(pieces: Sequence[Line]) -> CreasePattern:
    """Return the pattern of pieces that meet only at their ends, points and edges in sorted order."""
    points = sorted({point for piece in pieces for point in (piece.start, piece.end)})
    number = {point: index for index, point in enumerate(points)}
    edges = (
        Edge.joining(number[piece.start], number[piece.end], piece.role, piece.label) for piece in pieces
    )
    return CreasePattern(tuple(points), tuple(sorted(edges)))


def turned(pattern: CreasePattern, symmetry: Symmetry) -> CreasePattern:
    """Return the pattern's image under a symmetry of the square, with its lower left corner at (0, 0)."""
    return to_origin(_mapped(pattern, symmetry.of))


def to_origin(pattern: CreasePattern) -> CreasePattern:
    """Return the pattern shifted so that its lower left corner is (0, 0)."""
    left, bottom, _, _ = pattern.box
    return shifted(pattern, -left, -bottom)


def shifted(pattern: CreasePattern, right: Exact, up: Exact) -> CreasePattern:
    """Return the pattern moved so many squares to the right and up."""
    return _mapped(pattern, lambda point: Point(point.x + right, point.y + up))


def _mapped(pattern: CreasePattern, image: Callable[[Point], Point]) -> CreasePattern:
    """Return the image of the pattern, its points and edges again in sorted order."""
    images = [image(point) for point in pattern.vertices]
    order = sorted(range(len(images)), key=lambda vertex: images[vertex])
    number = {vertex: place for place, vertex in enumerate(order)}
    edges = (
        Edge.joining(number[edge.start], number[edge.end], edge.role, edge.label) for edge in pattern.edges
    )
    return CreasePattern(tuple(images[vertex] for vertex in order), tuple(sorted(edges)))
