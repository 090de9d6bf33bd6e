"""Crease patterns written as other programs write them: scaled, shifted, rounded, mirrored."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from math import cos, sin
from random import Random
from typing import Any, TypeAlias

from drills.fold_file import ImportedPattern, read_sheet, to_fold
from drills.pattern import CreasePattern, to_origin

Figure: TypeAlias = frozenset[tuple[frozenset[tuple[object, ...]], str]]
Drawn: TypeAlias = tuple[tuple[float, float], tuple[float, float], str]


def plain_fold(pattern: CreasePattern) -> dict[str, Any]:
    """Return the pattern as a FOLD object without any key of our own."""
    return {key: value for key, value in to_fold(pattern).items() if not key.startswith("slantwise:")}


def text_of(fold: dict[str, Any]) -> bytes:
    """Return a FOLD object as text."""
    return json.dumps(fold).encode()


def read(fold: dict[str, Any]) -> ImportedPattern:
    """Return what the reader makes of a FOLD object."""
    return read_sheet(text_of(fold))


def rescaled(
    fold: dict[str, Any],
    scale: float,
    shift: tuple[float, float] = (0, 0),
    places: int = 15,
    down: bool = False,
) -> dict[str, Any]:
    """Return the object with its points scaled, shifted, maybe turned to y down, and rounded."""
    flip = -scale if down else scale
    points = [
        [round(shift[0] + x * scale, places), round(shift[1] + y * flip, places)]
        for x, y in fold["vertices_coords"]
    ]
    return {**fold, "vertices_coords": points}


def turned(fold: dict[str, Any], angle: float, places: int = 15) -> dict[str, Any]:
    """Return the object turned by an angle in radians and rounded."""
    points = [
        [round(x * cos(angle) - y * sin(angle), places), round(x * sin(angle) + y * cos(angle), places)]
        for x, y in fold["vertices_coords"]
    ]
    return {**fold, "vertices_coords": points}


def shuffled(fold: dict[str, Any], random: Random) -> dict[str, Any]:
    """Return the object with its edges in another order, some of them the other way round."""
    order = random.sample(range(len(fold["edges_vertices"])), len(fold["edges_vertices"]))
    pairs = [fold["edges_vertices"][edge] for edge in order]
    turned = [pair[::-1] if random.random() < 0.5 else pair for pair in pairs]
    labels = [fold["edges_assignment"][edge] for edge in order]
    return {**fold, "edges_vertices": turned, "edges_assignment": labels}


def figure(pattern: CreasePattern, down: bool = False) -> Figure:
    """Return the labelled figure with its lower left corner at (0, 0), mirrored if it stands y down."""
    home = to_origin(pattern)
    height = home.box[3] if down else 0
    return frozenset(
        (frozenset((p.x, height - p.y if down else p.y) for p in home.ends(edge)), home.edges[edge].label)
        for edge in range(len(home.edges))
    )


def lines_fold(lines: Iterable[Drawn]) -> dict[str, Any]:
    """Return an object that draws these lines, each with two points of its own."""
    drawn = list(lines)
    return {
        "file_spec": 1.1,
        "vertices_coords": [list(point) for start, end, _ in drawn for point in (start, end)],
        "edges_vertices": [[2 * line, 2 * line + 1] for line in range(len(drawn))],
        "edges_assignment": [label for *_, label in drawn],
    }


def border(corners: Sequence[tuple[float, float]]) -> list[Drawn]:
    """Return the paper's edge through these corners."""
    return [(one, two, "B") for one, two in zip(corners, [*corners[1:], corners[0]], strict=True)]


def square(size: float) -> list[Drawn]:
    """Return the edge of a square sheet from (0, 0) on."""
    return border([(0, 0), (size, 0), (size, size), (0, size)])
