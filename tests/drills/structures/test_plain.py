from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from drills.flatfold import failing, folds, solve_layers
from drills.geometry import Chance, Point, cross, move_between
from drills.pattern import CreasePattern
from drills.structures import draw, find_stretches, outlines, pleats_only
from tests.drills.sheets import figure

SIZES = [(6, 6), (6, 7), (12, 8), (8, 14), (14, 12), (24, 12), (13, 30), (64, 20)]


@pytest.mark.parametrize("size", SIZES)
def test_a_plain_sheet_is_pleats_that_turn_at_ridges(size: tuple[int, int]) -> None:
    """Of the size asked, proven to fold, pleat lines and one or two lines of ridges and nothing else."""
    for seed in range(8):
        sheet = pleats_only(Chance(f"plain {seed}"), *size)
        pattern = draw(sheet)
        assert tuple(pattern.box) == (0, 0, *size)
        assert {pattern.edges[edge].role for edge in pattern.creases} == {"pleat", "ridge"}
        assert len(ridges(pattern)) in (1, 2)
        assert failing(pattern, pattern.labels(), folds) == ()
        assert solve_layers(pattern).folds is True
        assert not outlines(sheet)
        assert not find_stretches(pattern)


def ridges(pattern: CreasePattern) -> set[tuple[Fraction, Fraction]]:
    """Return the 45-degree lines on which the ridges lie, each by its slope and where it meets x = 0."""
    found = set()
    for edge in pattern.creases:
        if pattern.edges[edge].role == "ridge":
            start, end = pattern.ends(edge)
            slope = Fraction(end.y - start.y) / (end.x - start.x)
            assert abs(slope) == 1
            found.add((slope, start.y - slope * start.x))
    return found


def test_every_inner_point_turns_one_pleat_line() -> None:
    """Four creases meet there: two ridge pieces in a line and two pleat lines square to each other."""
    pattern = draw(pleats_only(Chance("turns"), 20, 12))
    assert pattern.interior
    for vertex in pattern.interior:
        roles = Counter(pattern.edges[edge].role for edge in pattern.around[vertex])
        assert roles == {"ridge": 2, "pleat": 2}
        first, second = (
            move_between(*pattern.ends(e)) for e in pattern.around[vertex] if pattern.edges[e].role == "ridge"
        )
        assert cross(first, second) == 0
    assert Point(0, 0) in pattern.vertices


def test_plain_sheets_differ() -> None:
    """Forty seeds give at least thirty figures, with one ridge and with two, lying and upright."""
    patterns = [draw(pleats_only(Chance(f"differ {seed}"), 16, 12)) for seed in range(40)]
    assert len({figure(pattern) for pattern in patterns}) >= 30
    assert {len(ridges(pattern)) for pattern in patterns} == {1, 2}


def test_a_seed_always_gives_the_same() -> None:
    """The description depends on the seed alone."""
    assert pleats_only(Chance("same"), 20, 10) == pleats_only(Chance("same"), 20, 10)


@pytest.mark.parametrize("size", [(5, 20), (20, 5)])
def test_a_sheet_that_is_too_small_is_refused(size: tuple[int, int]) -> None:
    """Six squares at least."""
    with pytest.raises(ValueError, match="at least 6 by 6"):
        pleats_only(Chance("small"), *size)
