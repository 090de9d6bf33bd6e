from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from drills.flatfold import failing, folds, solve_layers
from drills.geometry import Chance, Point, cross, move_between
from drills.pattern import CreasePattern
from drills.structures import (
    Beside,
    Sheet,
    Stretch,
    compose,
    cut,
    draw,
    find_stretches,
    on_paper,
    outlines,
    pleats_only,
)
from tests.drills.sheets import figure
from tests.drills.structures.truth import area_on_paper

COMPOSED = [(20, 12, 3), (10, 22, 3), (26, 13, 3), (14, 10, 2)]
PLAIN = [(6, 6), (6, 7), (8, 14), (24, 12), pytest.param((64, 20), marks=pytest.mark.long)]


@pytest.mark.parametrize("size", PLAIN)
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


@pytest.mark.long
def test_a_cut_goes_through_a_stretch_and_leaves_it_to_be_found() -> None:
    """On twenty sheets: smaller paper, a stretch cut in two, each shown is found, and one at least is."""
    told = 0
    for seed in range(20):
        whole = compose(Chance(f"whole {seed}"), *COMPOSED[seed % 4])
        part = cut(Chance(f"cut {seed}"), whole)
        if part == whole:
            continue
        told += 1
        assert (part.part, part.pleats, part.facing) == (whole.part, whole.pleats, whole.facing)
        assert all(new >= old for new, old in zip(part.crop, whole.crop, strict=True))
        shares = [area_on_paper(outline, part.size) for outline in outlines(part)]
        shown = [share for share in shares if share]
        assert any(share < 1 for share in shown)
        assert min(shown) > 0.4
        assert len(find_stretches(draw(part))) == len(shown) == len(on_paper(part))
        assert solve_layers(draw(part)).folds is True
    assert told > 15


def test_cuts_come_from_every_side_and_at_corners() -> None:
    """One side or two that meet, never two that face each other."""
    seen = set()
    whole = compose(Chance("sides"), 20, 14, 2)
    for seed in range(20):
        crop = cut(Chance(f"side {seed}"), whole).crop
        left, bottom, right, top = (new > old for new, old in zip(crop, whole.crop, strict=True))
        assert not (left and right)
        assert not (bottom and top)
        seen.add((left, bottom, right, top))
    assert {sum(sides) for sides in seen} == {1, 2}


def test_a_sheet_of_look_alikes_is_cut_too() -> None:
    """With no stretch on it a quarter to a third goes, on one side at least."""
    whole = compose(Chance("alike"), 28, 12, 3, needed=("roof",), allowed=("roof", "diamond"))
    width, height = cut(Chance("cut"), whole).size
    assert width <= 21 or height <= 9
    assert (width, height) >= (18, 8)


def test_a_sheet_that_cannot_be_cut_comes_back() -> None:
    """The smallest stretch alone, with no pleats around, is too small to lose two squares."""
    sheet = Sheet(Stretch((1, 1)), 0)
    assert cut(Chance("small"), sheet) is sheet


def test_a_seed_always_cuts_the_same() -> None:
    """The crop depends on the seed alone."""
    sheet = Sheet(Beside(Stretch((2, 2)), Stretch((2, 2), ("shallow", "shallow"))), 2)
    assert cut(Chance("one"), sheet) == cut(Chance("one"), sheet) != sheet
