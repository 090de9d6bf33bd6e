"""Sheets to draw in tests, and their creases by place."""

from __future__ import annotations

from hypothesis import strategies as st

from drills.geometry import Exact, Point
from drills.pattern import CreasePattern
from drills.structures import Stretch, draw
from trainer.board import Scale, scale_for

CROPS = ((0, 0, 0, 0), (2, 1, 0, 0), (0, 1, 2, 1))
_SIDES = st.sampled_from(("shallow", "steep"))

patterns = st.builds(
    Stretch,
    units=st.tuples(st.integers(1, 3), st.integers(1, 3)),
    hinges=st.tuples(_SIDES, _SIDES),
    pleats=st.integers(0, 3),
    facing=st.integers(0, 3),
    crop=st.sampled_from(CROPS),
).map(draw)


def stretch(units: int = 1, pleats: int = 1) -> CreasePattern:
    """Return an equal-sided 3-4-5 stretch."""
    return draw(Stretch((units, units), pleats=pleats))


def vertex_at(pattern: CreasePattern, x: Exact, y: Exact) -> int:
    """Return the vertex at a place."""
    return pattern.vertices.index(Point(x, y))


def edge_between(pattern: CreasePattern, start: tuple[int, int], end: tuple[int, int]) -> int:
    """Return the edge that joins two places."""
    ends = {vertex_at(pattern, *start), vertex_at(pattern, *end)}
    return next(index for index, edge in enumerate(pattern.edges) if {edge.start, edge.end} == ends)


def of_role(pattern: CreasePattern, role: str) -> list[int]:
    """Return the edges of a role."""
    return [index for index, edge in enumerate(pattern.edges) if edge.role == role]


def fitted(pattern: CreasePattern, columns: int, rows: int) -> Scale:
    """Return the largest scale that fits, which there must be."""
    scale = scale_for(pattern, columns, rows)
    assert isinstance(scale, Scale)
    return scale
