from __future__ import annotations

from itertools import product

import pytest

from drills.flatfold import balances, counts_at, failing, folds, valid_at
from drills.geometry import Direction
from drills.pattern import Label
from drills.structures import Stretch, draw
from tests.drills.sheets import star


def test_counting_finds_mountains_and_valleys_that_do_not_differ_by_two() -> None:
    """Three mountains and a valley balance at a cross; two and two do not, and four to none neither."""
    cross = star([Direction(1, 0), Direction(0, 1), Direction(-1, 0), Direction(0, -1)])
    (centre,) = cross.interior
    for mountains, right in ((3, True), (1, True), (2, False), (4, False), (0, False)):
        labels = labels_around(cross.around[centre], mountains, len(cross.edges))
        assert counts_at(cross, labels, centre) == (mountains, 4 - mountains)
        assert balances(cross, labels, centre) == right
        assert failing(cross, labels, balances) == (() if right else (centre,))


def labels_around(edges: tuple[int, ...], mountains: int, count: int) -> list[Label]:
    """Return labels with so many mountains first among the given edges and valleys on the rest."""
    labels: list[Label] = ["B"] * count
    for place, edge in enumerate(edges):
        labels[edge] = "M" if place < mountains else "V"
    return labels


GRID_TWIST = (Direction(1, 0), Direction(0, 1), Direction(-1, 1), Direction(-1, -1))


@pytest.mark.parametrize(
    "directions",
    [
        GRID_TWIST,
        (
            Direction(1, 0),
            Direction(1, 1),
            Direction(0, 1),
            Direction(-1, 1),
            Direction(-1, 0),
            Direction(0, -1),
        ),
    ],
)
def test_labels_that_fold_balance_but_not_the_other_way_round(directions: tuple[Direction, ...]) -> None:
    """The full test implies |M - V| = 2 (Maekawa-Justin) and refuses some labels that balance."""
    pattern = star(list(directions))
    (centre,) = pattern.interior
    full, counted = set(), set()
    for choice in product("MV", repeat=len(directions)):
        labels: list[Label] = ["B"] * len(pattern.edges)
        for edge, label in zip(pattern.around[centre], choice, strict=True):
            labels[edge] = "M" if label == "M" else "V"
        full |= {choice} if folds(pattern, labels, centre) else set()
        counted |= {choice} if balances(pattern, labels, centre) else set()
    assert full < counted
    assert full == {tuple("M" if m else "V" for m in valid) for valid in valid_at(pattern.directions[centre])}


def test_a_drawn_stretch_has_no_failing_point() -> None:
    """Both rules hold everywhere on a sheet that folds."""
    pattern = draw(Stretch((2, 3)))
    assert failing(pattern, pattern.labels(), balances) == ()
    assert failing(pattern, pattern.labels(), folds) == ()
