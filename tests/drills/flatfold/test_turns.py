"""Sheets with open creases whose pleats take turns, held against the independent solver."""

from __future__ import annotations

import pytest

from drills.flatfold import check_pattern, solve_layers
from drills.flatfold.turns import solve_in_turns
from drills.geometry import Chance
from drills.pattern import OTHER_LABEL, CreasePattern
from drills.structures import Stretch, compose, draw
from tests.drills.flatfold.assorted import faults_of_order, without_layers


def open_creases(pattern: CreasePattern) -> CreasePattern:
    """Return the sheet with every second crease left open."""
    kept = set(pattern.creases[::2])
    return pattern.with_labels(
        "U" if e.label != "B" and n not in kept else e.label for n, e in enumerate(pattern.edges)
    )


def test_a_bare_stretch_gets_labels_that_fold() -> None:
    """The independent solver finds no fault in the order, nor in its labels."""
    bare = draw(Stretch((2, 2), pleats=6)).unlabelled()
    found = solve_in_turns(bare)
    assert found.folds
    assert faults_of_order(bare, found) == []


def test_pleats_take_turns() -> None:
    """With 17 pleats around a stretch the labels are those by rank, or all of these exchanged."""
    drawn = draw(Stretch((3, 3), pleats=17))
    found = solve_in_turns(drawn.unlabelled())
    assert found.labels in (drawn.labels(), tuple(OTHER_LABEL[label] for label in drawn.labels()))


def test_labels_that_are_there_stay() -> None:
    """Every second crease of a stretch keeps its label."""
    half = open_creases(draw(Stretch((2, 2), pleats=6)))
    found = solve_in_turns(half)
    assert found.folds
    assert all(new == old for new, old in zip(found.labels, half.labels(), strict=True) if old != "U")
    assert faults_of_order(half, found) == []


def test_nothing_is_found_where_nothing_folds() -> None:
    """Sheets without layers, by the independent solver: labelled, it is left to others to say so."""
    assert all(solve_in_turns(pattern).folds is None for pattern in without_layers(4))


@pytest.mark.long
def test_a_bare_sheet_of_236_faces_is_decided() -> None:
    """A search among layers alone comes to no end; where pleats take turns the independent solver agrees."""
    bare = draw(compose(Chance("big 64"), 64, 20, 6)).unlabelled()
    assert solve_layers(bare).folds is None
    report = check_pattern(bare)
    assert report.ok
    assert report.solved is not None
    assert set(report.solved) == set(bare.creases)
    assert faults_of_order(bare, solve_in_turns(bare)) == []
