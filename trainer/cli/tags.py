"""Two-letter tags for what can be marked, in reading order: from the top left corner, row by row."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import chain, product
from string import ascii_lowercase

from drills.exact.plane import Exact
from drills.pattern.crease_pattern import CreasePattern
from drills.pattern.places import across_down
from drills.questions.drill import Drill

_ReadingOrder = tuple[Exact, Exact]


def tags_of(drill: Drill) -> Mapping[int, str]:
    """Return the tag of each point that can be marked where points are asked for, else of each crease."""
    asks_points = drill.question.ask in ("vertices", "join")
    items = points_in_order(drill) if asks_points else creases_in_order(drill)
    return dict(zip(items, _tags(), strict=False))


def creases_in_order(drill: Drill) -> list[int]:
    """Return the creases that are shown, by index, in reading order."""
    pattern = drill.pattern
    shown = [edge for edge in pattern.creases if edge not in drill.question.hidden]
    return sorted(
        shown, key=lambda edge: [_order(pattern, vertex) for vertex in ends_in_order(pattern, edge)]
    )


def points_in_order(drill: Drill) -> list[int]:
    """Return the points where creases that are shown end, by index, in reading order."""
    ends = {vertex for edge in creases_in_order(drill) for vertex in drill.pattern.edges[edge][:2]}
    return sorted(ends, key=lambda vertex: _order(drill.pattern, vertex))


def ends_in_order(pattern: CreasePattern, edge: int) -> list[int]:
    """Return the two ends of an edge in reading order."""
    ends = pattern.edges[edge]
    return sorted((ends.start, ends.end), key=lambda vertex: _order(pattern, vertex))


def _order(pattern: CreasePattern, vertex: int) -> _ReadingOrder:
    across, down = across_down(pattern, pattern.vertices[vertex])
    return down, across


def _tags() -> Iterator[str]:
    """Yield aa, ab, ... zz, and on with three letters for the largest sheets."""
    for letters in chain(product(ascii_lowercase, repeat=2), product(ascii_lowercase, repeat=3)):
        yield "".join(letters)
