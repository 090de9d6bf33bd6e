"""Counts of layer orders against published ones.

OEIS (records read in oeis/oeisdata): A000136 stamps, A001415 maps of two rows, A001418 square maps;
W. F. Lunnon, Math. Comp. 22 (1968) 193-199. Convention there: labelled, one reference face face up,
stacks read from the top, no symmetry removed.
"""

from __future__ import annotations

from math import comb

import pytest

from drills.flatfold import bits, fold
from drills.geometry import Point
from drills.pattern import CreasePattern, Label, Line, Paper, build
from drills.structures import Stretch, draw
from tests.drills.flatfold.counting import count_foldable, count_orders, orders_of
from tests.drills.sheets import map_sheet, square_twist, star, triangle_twist, ways

STAMPS = (1, 2, 6, 16, 50, 144, 462, 1392)
TWO_ROWS = (2, 8, 60, 320, 1980, 10512)


def strip(*widths: int, labels: str = "") -> CreasePattern:
    """Return a strip of cells of these widths, creases from left to right labelled so, or U."""
    places = [sum(widths[: index + 1]) for index in range(len(widths) - 1)]
    letters: dict[str, Label] = {"M": "M", "V": "V", "U": "U"}
    kinds = [letters[label] for label in labels or "U" * len(places)]
    lines = [Line(Point(x, 0), Point(x, 1), "other", kind) for x, kind in zip(places, kinds, strict=True)]
    return build(lines, Paper(0, 0, sum(widths), 1))


@pytest.mark.parametrize(("stamps", "orders"), list(enumerate(STAMPS, start=1)))
def test_stamps(stamps: int, orders: int) -> None:
    """A strip of n labelled stamps stacks in A000136(n) ways."""
    assert count_orders(strip(*[1] * stamps)) == orders


@pytest.mark.parametrize(("columns", "orders"), list(enumerate(TWO_ROWS, start=1)))
def test_maps_of_two_rows(columns: int, orders: int) -> None:
    """A 2 x n map folds in A001415(n) ways."""
    assert count_orders(map_sheet(2, columns)) == orders


def test_the_map_of_nine() -> None:
    """The 3 x 3 map folds in A001418(3) = 1368 ways."""
    assert count_orders(map_sheet(3, 3)) == 1368


def _stacks(pattern: CreasePattern) -> set[str]:
    """Return the stacks of a 2 x 2 map, cells numbered in reading order, read from the top."""
    folded = fold(pattern)
    numbers = []
    for cycle in folded.faces:
        xs = sum(pattern.vertices[v].x for v in cycle) / 4
        ys = sum(pattern.vertices[v].y for v in cycle) / 4
        numbers.append(1 + int(xs > 1) + 2 * int(ys < 1))
    up = folded.over[numbers.index(1)]
    found = set()
    for order in orders_of(pattern):
        heights = [len(bits(below)) for below in order.below]
        stack = sorted(range(4), key=lambda face: heights[face], reverse=not up)
        found.add("".join(str(numbers[face]) for face in stack))
    return found


def test_the_printed_list_of_the_map_of_four() -> None:
    """A001418 prints the eight foldings of the 2 x 2 map, labels in reading order."""
    printed = {"1243", "1342", "2134", "2431", "3124", "3421", "4213", "4312"}
    assert _stacks(map_sheet(2, 2)) == printed


@pytest.mark.parametrize(
    ("a", "b", "orders"),
    [(a, 1, count) for a, count in zip(range(3, 10), (4, 5, 6, 7, 8, 9, 10), strict=True)]
    + [(a, 2, count) for a, count in zip(range(4, 8), (11, 13, 15, 17), strict=True)]
    + [(5, 3, 22), (6, 3, 25)],
)
def test_mountains_then_valleys(a: int, b: int, orders: int) -> None:
    """A strip M^a V^b folds in ab + b^2 - b + 1 ways (Hull et al., DMTCS 27:3 (2025), arXiv:2503.23661)."""
    assert (
        count_orders(strip(*[1] * (a + b + 1), labels="M" * a + "V" * b)) == orders == a * b + b * b - b + 1
    )


@pytest.mark.parametrize(("blocks", "orders"), list(enumerate((2, 4, 10, 25, 70), start=1)))
def test_blocks_of_two(blocks: int, orders: int) -> None:
    """MM VV MM ... folds in a product of two Catalan numbers of ways (same source; ceil by own count)."""
    labels = "".join("MM" if block % 2 == 0 else "VV" for block in range(blocks))
    catalan = [comb(2 * n, n) // (n + 1) for n in range(8)]
    assert count_orders(strip(*[1] * (2 * blocks + 1), labels=labels)) == orders
    assert orders == catalan[blocks // 2 + 1] * catalan[-(-blocks // 2) + 1]


@pytest.mark.parametrize("creases", range(1, 8))
def test_pleats_and_rolls(creases: int) -> None:
    """Alternating labels fold in one way, n mountains in n ways (counted, no source)."""
    assert count_orders(strip(*[1] * (creases + 1), labels=("MV" * creases)[:creases])) == 1
    assert count_orders(strip(*[1] * (creases + 1), labels="M" * creases)) == creases


@pytest.mark.parametrize(("widths", "labellings"), [((2, 1, 2), 2), ((2, 1, 1, 2), 6), ((3, 1, 2, 3), 4)])
def test_strips_of_uneven_cells(widths: tuple[int, ...], labellings: int) -> None:
    """A short cell between longer ones needs two different creases (big-little-big in one dimension)."""
    assert count_foldable(strip(*widths)) == (2 ** (len(widths) - 1), labellings)
    assert count_orders(strip(*widths)) == labellings


@pytest.mark.parametrize(
    ("rows", "columns", "at_points", "whole"),
    [(2, 2, 8, 8), (2, 3, 32, 32), (2, 4, 128, 128), (2, 5, 512, 504), (3, 3, 256, 252)],
)
def test_labelled_maps(rows: int, columns: int, at_points: int, whole: int) -> None:
    """Labellings that fold at each point, 2^(creases - points), and those that fold as a whole.

    That a 2 x 5 labelling cannot be folded: J. Justin 1994, cited in Demaine and O'Rourke, Geometric
    Folding Algorithms (2007). The other numbers were counted by two methods, no source.
    """
    assert count_foldable(map_sheet(rows, columns)) == (at_points, whole)


def test_known_patterns() -> None:
    """Counts by two methods, no source: asterisk 112 and 336 orders, both bases 18, twist 16, triangle 0."""
    asterisk = star(ways((1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)))
    assert count_foldable(asterisk) == (112, 112)
    assert count_orders(asterisk) == 336
    preliminary = star(ways((1, 0), (0, 1), (-1, 0), (0, -1), (1, 1), (-1, -1)))
    waterbomb = star(ways((1, 1), (-1, 1), (-1, -1), (1, -1), (1, 0), (-1, 0)))
    for base in (preliminary, waterbomb):
        assert count_foldable(base) == (18, 18)
        assert count_orders(base) == 18
    assert count_foldable(square_twist()) == (16, 16)
    assert count_orders(square_twist()) == 16
    for corners in (((0, 0), (4, 0), (2, 3)), ((0, 0), (6, 0), (2, 4))):
        assert count_foldable(triangle_twist([Point(*corner) for corner in corners])) == (0, 0)


def test_most_labellings_of_the_smallest_stretch_have_no_layers() -> None:
    """Of 396 labellings that fold at each point 120 fold as a whole (counted by two programs, no source)."""
    assert count_foldable(draw(Stretch((1, 1), pleats=1)).unlabelled()) == (396, 120)
