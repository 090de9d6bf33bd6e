from __future__ import annotations

import pytest

from drills.flatfold import solve_layers
from drills.geometry import Chance
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
)
from tests.drills.structures.truth import area_on_paper

SIZES = [(20, 12, 3), (10, 22, 3), (26, 13, 3), (14, 10, 2)]


@pytest.mark.long
def test_a_cut_goes_through_a_stretch_and_leaves_it_to_be_found() -> None:
    """On twenty sheets: smaller paper, a stretch cut in two, each shown is found, and one at least is."""
    told = 0
    for seed in range(20):
        whole = compose(Chance(f"whole {seed}"), *SIZES[seed % 4])
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
