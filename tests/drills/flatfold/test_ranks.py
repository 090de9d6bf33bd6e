"""Labels found for bare sheets: inside lines and pleats in turn, wherever the drill itself has them so.

That neighbouring pleat lines are a mountain and a valley is common practice, no source. Inside lines are
put in order by where they run, with nothing from how the labels were found.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

import pytest

from drills.flatfold import check_pattern, solve_layers
from drills.flatfold.ranks import bent_lines, takes_turns
from drills.geometry import Exact
from drills.pattern import CreasePattern, Label, Run, straight_runs_among
from drills.questions import KINDS, codes_of, make
from drills.structures import Found, Stretch, draw, find_stretches


def labels_across(pattern: CreasePattern, found: Found, labels: Sequence[Label]) -> list[set[Label]]:
    """Return the labels of each inside line of a stretch, in order from one side corner to the other."""
    runs = straight_runs_among(pattern, found.inside)
    dx, dy = max(pattern.direction(run.edges[0], run.vertices[0]) for run in runs)

    def across(run: Run) -> Exact:
        start = pattern.vertices[run.vertices[0]]
        return dx * start.y - dy * start.x

    return [{labels[edge] for edge in run.edges} for run in sorted(runs, key=across)]


def in_turn(pattern: CreasePattern, labels: Sequence[Label]) -> bool:
    """Whether each inside line of every stretch is of one kind, and its neighbours are of the other."""
    for found in find_stretches(pattern):
        kinds = labels_across(pattern, found, labels)
        if any(len(kind) > 1 for kind in kinds) or any(one == two for one, two in pairwise(kinds)):
            return False
    return True


def sheets_in_turn(count: int) -> Iterator[CreasePattern]:
    """Yield the sheets of so many drills whose own labels, which fold, have their inside lines in turn."""
    kinds = [
        (kind, form, level) for kind, entry in KINDS.items() for form in entry.forms for level in entry.levels
    ]
    number = found = 0
    while found < count:
        pattern = make(next(codes_of(*kinds[number % len(kinds)], number))).truth
        number += 1
        if find_stretches(pattern) and in_turn(pattern, pattern.labels()):
            found += 1
            yield pattern


def share_in_turn(count: int) -> float:
    """Return on what share of bare sheets inside lines are in turn; what is found folds, none is refused."""
    good = 0
    for pattern in sheets_in_turn(count):
        bare = pattern.unlabelled()
        report = check_pattern(bare)
        if report.layers is None:
            continue
        solved = report.solved
        assert solved is not None
        labels = [solved.get(edge, label) for edge, label in enumerate(bare.labels())]
        assert solve_layers(bare.with_labels(labels)).folds
        good += in_turn(pattern, labels)
    return good / count


def test_bare_sheets_are_labelled_in_turn() -> None:
    """Over all kinds, forms and levels."""
    assert share_in_turn(20) == 1


@pytest.mark.long
def test_three_hundred_bare_sheets_are_labelled_in_turn() -> None:
    """Nearly all: where none is found by rank a search finds what folds, and the report says so."""
    assert share_in_turn(300) >= 0.95


def test_a_report_says_whether_labels_are_in_turn() -> None:
    """Found in turn for a bare stretch, not said where none was open; one line switched is not in turn."""
    pattern = draw(Stretch((2, 2), pleats=2))
    assert check_pattern(pattern).in_turn is None
    assert check_pattern(pattern.unlabelled()).in_turn is True
    assert takes_turns(pattern, pattern.labels())
    assert not takes_turns(pattern, pattern.switched(bent_lines(pattern)[0]).labels())


def test_a_pleat_line_is_one_line_round_its_bends() -> None:
    """The stretch with 1 pleat a side and 2 around: rings of pleat lines, none of it a ridge or a hinge."""
    pattern = draw(Stretch((1, 1), pleats=2))
    for line in bent_lines(pattern):
        if len(line) > 1:
            assert {pattern.edges[edge].role for edge in line} <= {"pleat", "inside"}
            assert len({pattern.edges[edge].label for edge in line}) == 1
