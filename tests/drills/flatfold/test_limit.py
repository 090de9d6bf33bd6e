"""Searches end: in time where they are bounded by a clock, and what was left open is said."""

from __future__ import annotations

from collections.abc import Callable
from itertools import count, product

import pytest

from drills.flatfold import (
    MOST_AT_A_POINT,
    Limit,
    OutOfTimeError,
    check_pattern,
    folds,
    solve_layers,
    valid_at,
)
from drills.geometry import Chance, Direction, Point
from drills.pattern import CreasePattern, Label, Line, Paper, build
from drills.structures import Stretch, draw
from tests.drills.flatfold.assorted import assorted
from tests.drills.sheets import map_sheet, star

LABELS: tuple[Label, ...] = ("M", "V", "U")


def open_grid(squares: int, diagonals: bool = False) -> CreasePattern:
    """Return a square grid of unlabelled creases from edge to edge."""
    size = squares
    ends = [(Point(at, 0), Point(at, size)) for at in range(1, size)]
    ends += [(Point(0, at), Point(size, at)) for at in range(1, size)]
    if diagonals:
        for shift in range(1 - size, size):
            low, high = max(0, shift), min(size, size + shift)
            ends.append((Point(low, low - shift), Point(high, high - shift)))
    return build((Line(start, end, "other", "U") for start, end in ends), Paper(0, 0, size, size))


def running_out(looks: int) -> Callable[[], float]:
    """Return a clock that stands still for so many looks and then runs away."""
    seen = count()
    return lambda: 0.0 if next(seen) <= looks else 1e9


def test_an_open_grid_is_folded_without_a_guess_too_deep() -> None:
    """Twelve squares a side, 264 open creases: labels are found; so are those with diagonals."""
    for pattern in (open_grid(12), open_grid(6, diagonals=True)):
        report = check_pattern(pattern)
        assert report.ok
        assert report.solved is not None
        assert solve_layers(
            pattern.with_labels([report.solved.get(e, label) for e, label in each(pattern)])
        ).folds


def each(pattern: CreasePattern) -> list[tuple[int, Label]]:
    """Return every edge with its label."""
    return list(enumerate(pattern.labels()))


def test_guesses_that_are_taken_back_leave_nothing_behind() -> None:
    """The labels found fold, on sheets of all sorts."""
    for pattern in assorted(12, "open"):
        found = solve_layers(pattern.unlabelled())
        assert found.folds in (True, None)
        if found.folds:
            assert solve_layers(pattern.with_labels(found.labels)).folds


@pytest.mark.parametrize("looks", [0, 1, 3, 10, 40, 200])
def test_whenever_the_time_is_over_the_report_says_what_is_open(looks: int) -> None:
    """Nothing is decided wrongly: what is not decided is named."""
    right = draw(Stretch((2, 2)))
    wrong = right.switched([right.creases[0]])
    for pattern in (right, wrong, open_grid(8), map_sheet(3, 3)):
        whole, cut = check_pattern(pattern), check_pattern(pattern, limit=Limit(1, running_out(looks)))
        assert cut.angles in ((), whole.angles)
        assert cut.labels in ((), whole.labels)
        assert cut.layers in (None, whole.layers)
        assert cut == whole or cut.left_open


def test_a_limit_that_is_over_stops_the_search() -> None:
    """At the first look at the clock."""
    with pytest.raises(OutOfTimeError):
        solve_layers(open_grid(8), limit=Limit(0, running_out(0)))


@pytest.mark.parametrize("rays", [MOST_AT_A_POINT + 2, pytest.param(502, marks=pytest.mark.long)])
def test_a_point_with_too_many_creases_is_not_judged(rays: int) -> None:
    """It is named, no fault is said of it, and the sheet is left open."""
    half = rays // 2
    ways = [Direction(1, at) for at in range(-half // 2, half - half // 2)]
    pattern = star([*ways, *(Direction(-way.dx, -way.dy) for way in ways)])
    report = check_pattern(pattern.unlabelled())
    assert len(report.crowded) == 1
    assert (report.angles, report.labels, report.layers) == ((), (), None)
    assert not report.is_decided


def test_open_labels_at_a_point_are_judged_as_by_trying_them_all() -> None:
    """Of random points with some labels given: they can fold if one of all whole labellings agrees."""
    chance, seen = Chance("open labels"), set()
    for pattern in assorted(24, "points"):
        for vertex in pattern.interior:
            around = pattern.around[vertex]
            if len(around) > 8:
                continue
            given = {edge: chance.pick(LABELS) for edge in around}
            labels = [given.get(edge, label) for edge, label in each(pattern)]
            told = folds(pattern, labels, vertex)
            assert told is agrees_with_one([given[edge] for edge in around], pattern.directions[vertex])
            seen.add(told)
    assert seen == {True, False}


def agrees_with_one(given: list[Label], directions: tuple[Direction, ...]) -> bool:
    """Whether a valid labelling of a point has the labels given."""
    return any(
        all(
            label in ("U", "M" if is_mountain else "V")
            for label, is_mountain in zip(given, valid, strict=True)
        )
        for valid in valid_at(directions)
    )


def test_all_choices_of_a_small_point() -> None:
    """Four creases at right angles: each of the 81 ways to leave labels open, against trying them all."""
    pattern = map_sheet(2, 2)
    (vertex,) = pattern.interior
    for given in product(LABELS, repeat=4):
        told = dict(zip(pattern.around[vertex], given, strict=True))
        labels = [told.get(edge, label) for edge, label in each(pattern)]
        assert folds(pattern, labels, vertex) is agrees_with_one(list(given), pattern.directions[vertex])
