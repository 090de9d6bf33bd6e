"""What goes wrong with labels, on one known sheet: 10 x 8 squares, sides of two pieces, one pleat around."""

from __future__ import annotations

from itertools import combinations

import pytest

from drills.pattern import CreasePattern
from drills.questions import MISTAKES
from drills.structures import Stretch, draw
from tests.drills.questions.known import SHEET, edge, of_role

WIDER = draw(Stretch((2, 2), pleats=2))


def made(mistake: str, pattern: CreasePattern = SHEET) -> list[frozenset[int]]:
    """Return the sets of labels that a mistake may switch."""
    return list(MISTAKES[mistake](pattern))


def test_a_whole_side_is_switched_from_corner_to_corner() -> None:
    """Four sides of two pieces each, by hand."""
    s, a, t, b = (1, 1), (7, 3), (9, 7), (3, 5)
    middles = {(4, 2): (s, a), (8, 5): (a, t), (6, 6): (t, b), (2, 3): (b, s)}
    sides = {frozenset({edge(start, at), edge(at, end)}) for at, (start, end) in middles.items()}
    assert set(made("side")) == sides
    assert len(made("side")) == 4
    assert made("side", draw(Stretch((1, 1)))) == []


def test_any_one_label_may_be_wrong() -> None:
    """Each crease by itself, and nothing of the paper's edge."""
    assert made("one") == [frozenset({crease}) for crease in SHEET.creases]


def test_a_mountain_and_a_valley_that_meet_are_exchanged() -> None:
    """All such pairs and no others: found again among all pairs of creases."""
    inner = set(SHEET.interior)
    pairs = {
        frozenset(pair)
        for pair in combinations(SHEET.creases, 2)
        if {SHEET.edges[crease].label for crease in pair} == {"M", "V"}
        and set(SHEET.edges[pair[0]][:2]) & set(SHEET.edges[pair[1]][:2]) & inner
    }
    assert set(made("pair")) == pairs
    assert pairs


@pytest.mark.parametrize("pattern", [SHEET, WIDER])
def test_a_pleat_line_is_switched_along_two_or_three_pieces(pattern: CreasePattern) -> None:
    """The pieces hang together end to end, are all of pleat lines, and of one label as these are."""
    for chosen in made("line", pattern):
        assert 2 <= len(chosen) <= 3
        assert all(pattern.edges[crease].role == "pleat" for crease in chosen)
        assert len({pattern.edges[crease].label for crease in chosen}) == 1
        ends = [end for crease in chosen for end in pattern.edges[crease][:2]]
        assert len(set(ends)) == len(chosen) + 1
    assert {len(chosen) for chosen in made("line", WIDER)} == {2, 3}


def test_a_hinge_forgets_to_alternate_from_a_crossing_outward() -> None:
    """With two pleats around the hinge of A crosses at (8, 2) and runs on to (8, 1) and the edge (8, 0)."""
    hinges = {frozenset(chosen) for chosen in made("hinge", WIDER)}
    assert all(WIDER.edges[crease].role == "hinge" for chosen in hinges for crease in chosen)
    lowest = [sorted(map(WIDER.ends, chosen)) for chosen in hinges]
    assert [((8, 0), (8, 1))] in lowest
    assert [((8, 0), (8, 1)), ((8, 1), (8, 2))] in lowest
    assert [((8, 0), (8, 1)), ((8, 1), (8, 2)), ((8, 2), (8, 3))] in lowest
    assert not any(((8, 3), (8, 4)) in pieces for pieces in lowest), "the piece at A itself is right"
    assert len(hinges) == 6


def test_every_set_is_of_creases() -> None:
    """No mistake touches the paper's edge, and none is empty."""
    for mistake in MISTAKES:
        assert made(mistake, WIDER)
        assert all(chosen and not chosen & of_role("border") for chosen in made(mistake))
