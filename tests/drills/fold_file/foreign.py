"""Correct sheets written as drawing programs and geometry libraries write them, all of our own making."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from functools import cache
from math import radians
from random import Random
from typing import Any

from drills.geometry import opposite
from drills.pattern import CreasePattern
from drills.structures import Roof, Stretch, beside, block_of, draw, sheet_of, with_pleats_around
from tests.drills.flatfold.test_rounded import bird_base, whole_labellings
from tests.drills.fold_file.writing import plain_fold, rescaled, shuffled, text_of, turned


@cache
def stretch() -> CreasePattern:
    """Return a stretch of 18 by 16 squares."""
    return draw(Stretch((2, 2), pleats=5))


@cache
def model() -> CreasePattern:
    """Return 32 by 32 squares with a roof between two stretches."""
    one, roof = (block_of(design) for design in (Stretch((2, 2), pleats=0), Roof(8, 6, ("up", "down"))))
    return sheet_of(with_pleats_around(beside(beside(one, roof, 0), one, 0), 13), (9, 0, 9, 0))


@cache
def base() -> CreasePattern:
    """Return a bird base, labelled, with angles of 22.5 degrees."""
    return whole_labellings(bird_base())[0]


def noisy(fold: dict[str, Any], noise: float) -> dict[str, Any]:
    """Return the object with each number off by up to the noise."""
    random = Random(5)
    points = [[value + random.uniform(-noise, noise) for value in point] for point in fold["vertices_coords"]]
    return {**fold, "vertices_coords": points}


def shuffled_text(fold: dict[str, Any]) -> bytes:
    """Return the object with its edges in another order, as indented text with a byte order mark."""
    return b"\xef\xbb\xbf" + json.dumps(shuffled(fold, Random(2)), indent=1).encode()


def unsplit(pattern: CreasePattern) -> dict[str, Any]:
    """Return an object in which pieces in a row with one label are one line."""
    waiting = set(pattern.creases)
    drawn: list[tuple[int, int, str]] = [
        (edge.start, edge.end, edge.label) for edge in pattern.edges if edge.label == "B"
    ]
    while waiting:
        first = waiting.pop()
        one, two, _, label = pattern.edges[first]
        ends = []
        for end in (one, two):
            ahead = pattern.leaving[end].get(opposite(pattern.direction(first, end)))
            while ahead and ahead[0] in waiting and pattern.edges[ahead[0]].label == label:
                waiting.remove(ahead[0])
                end = ahead[1]
                ahead = pattern.leaving[end].get(opposite(pattern.direction(ahead[0], end)))
            ends.append(end)
        drawn.append((ends[0], ends[1], label))
    return {
        **plain_fold(pattern),
        "edges_vertices": [list(line[:2]) for line in drawn],
        "edges_assignment": [line[2] for line in drawn],
    }


def with_flat_grid(fold: dict[str, Any]) -> dict[str, Any]:
    """Return the object of a sheet of 18 by 16 with every grid line drawn besides, as a flat crease."""
    lines = [((x, 0), (x, 16)) for x in range(1, 18)] + [((0, y), (18, y)) for y in range(1, 16)]
    first = len(fold["vertices_coords"])
    pairs = [[first + 2 * line, first + 2 * line + 1] for line in range(len(lines))]
    return {
        **fold,
        "vertices_coords": fold["vertices_coords"] + [list(point) for line in lines for point in line],
        "edges_vertices": fold["edges_vertices"] + pairs,
        "edges_assignment": fold["edges_assignment"] + ["F"] * len(lines),
    }


def _plain() -> dict[str, Any]:
    return plain_fold(stretch())


FOLDING: Mapping[str, Callable[[], bytes]] = {
    "centimetres, y down": lambda: text_of(rescaled(_plain(), 35 / 18, (0, 35), 4, down=True)),
    "a side of 1, six decimals": lambda: text_of(rescaled(_plain(), 1 / 18, places=6)),
    "a side of 19, noise of 1e-6": lambda: text_of(noisy(rescaled(_plain(), 19 / 18), 1e-6)),
    "millimetres, 1e-4 of the side off": lambda: text_of(noisy(rescaled(_plain(), 20), 0.036)),
    "turned by 17 degrees": lambda: text_of(turned(_plain(), radians(17), 8)),
    "turned by -31 degrees, shuffled": lambda: shuffled_text(turned(_plain(), radians(-31), 6)),
    "whole creases, not split": lambda: text_of(unsplit(stretch())),
    "grid creases beside as F": lambda: text_of(with_flat_grid(_plain())),
    "all U": lambda: text_of(plain_fold(stretch().unlabelled())),
    "32 by 32, whole creases, y down": lambda: text_of(rescaled(unsplit(model()), 11, (5, 9), 3, down=True)),
    "32 by 32, four decimals": lambda: text_of(rescaled(plain_fold(model()), 1 / 32, places=4)),
}
"""Sheets on a grid, which fold by construction."""

OFF_THE_GRID: Mapping[str, Callable[[], bytes]] = {
    "22.5 degrees, 4 decimals": lambda: text_of(rescaled(plain_fold(base()), 100, (3, 7), 4)),
    "22.5 degrees, 6 decimals": lambda: text_of(rescaled(plain_fold(base()), 1, places=6)),
    "22.5 degrees, 12 decimals": lambda: text_of(rescaled(plain_fold(base()), 100, (3, 7), 12)),
    "22.5 degrees, turned": lambda: text_of(turned(plain_fold(base()), 0.3, 7)),
    "22.5 degrees, noise": lambda: text_of(noisy(plain_fold(base()), 1e-4)),
}
"""Sheets that fold but are on no grid, so that their layers are left open."""
