"""Moving a whole pattern: symmetries of the square, shifts, and the canonical form of a figure."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from drills.exact.plane import Exact, Point
from drills.exact.symmetry import Symmetry
from drills.pattern.crease_pattern import CreasePattern, Edge, Label, Role

Figure: TypeAlias = frozenset[tuple[frozenset[Point], Role, Label]]


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


def figure(pattern: CreasePattern) -> Figure:
    """Return the figure drawn, wherever it stands: two patterns are the same figure if these are equal."""
    home = to_origin(pattern)
    return frozenset(
        (frozenset(home.ends(index)), edge.role, edge.label) for index, edge in enumerate(home.edges)
    )


def _mapped(pattern: CreasePattern, image: Callable[[Point], Point]) -> CreasePattern:
    """Return the image of the pattern, its points and edges again in sorted order."""
    images = [image(point) for point in pattern.vertices]
    order = sorted(range(len(images)), key=lambda vertex: images[vertex])
    number = {vertex: place for place, vertex in enumerate(order)}
    edges = (
        Edge.joining(number[edge.start], number[edge.end], edge.role, edge.label) for edge in pattern.edges
    )
    return CreasePattern(tuple(images[vertex] for vertex in order), tuple(sorted(edges)))
