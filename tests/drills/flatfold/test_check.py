"""The report on a pattern: what is wrong, where, and the fewest labels to switch."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import combinations, product

import pytest

from drills.flatfold import Report, check_pattern, clusters, failing, folds, solve_layers
from drills.geometry import Chance, Point
from drills.pattern import CreasePattern, Label, Line, Paper, build
from drills.structures import Stretch, draw
from tests.drills.flatfold.assorted import any_stretch, folds_anew, plain
from tests.drills.flatfold.test_contradiction import is_a_smallest_contradiction, pinwheel, two_by_five
from tests.drills.sheets import map_sheet, square_twist, star, triangle_twist, ways
from tests.independent.layers import does_fold


def test_a_sheet_that_folds_has_nothing_wrong() -> None:
    """A rightly labelled stretch: no fault at any point, layers found, nothing to repair or to solve."""
    report = check_pattern(draw(Stretch((2, 2))))
    assert report == Report(True, layers=True, solved={})
    assert report.ok
    assert report.is_decided


@cache
def fifty_sheets() -> tuple[CreasePattern, ...]:
    """Return fifty stretches, one in two cropped."""
    return tuple(any_stretch(Chance(f"checked {number}")) for number in range(50))


def found_and_repaired(pattern: CreasePattern, edge: int) -> bool:
    """Whether one wrong label is reported at its interior ends, and its own repair is among those found."""
    report = check_pattern(pattern.switched([edge]))
    assert report.angles == ()
    assert set(report.labels) == set(pattern.interior_ends[edge])
    if not report.labels:
        return report.layers is folds_anew(pattern.switched([edge]))
    assert report.layers is None
    assert report.is_decided
    assert not report.ok
    place = report.repairs.index(frozenset({edge}))
    return all(len(repair) == 1 for repair in report.repairs) and report.repairs_layers[place] is True


@pytest.mark.long
def test_wrong_labels_on_fifty_sheets() -> None:
    """Three creases of each of fifty sheets: one wrong label fails at its ends only (Maekawa-Justin)."""
    for number, pattern in enumerate(fifty_sheets()):
        for edge in Chance(f"wrong {number}").shuffled(pattern.creases)[:3]:
            assert found_and_repaired(pattern, edge)


@pytest.mark.long
def test_every_wrong_label_of_fifty_sheets() -> None:
    """Every single crease of fifty sheets."""
    for pattern in fifty_sheets():
        assert all(found_and_repaired(pattern, edge) for edge in pattern.creases)


def test_every_repair_on_offer_restores_each_point() -> None:
    """Switching what a repair names leaves no failing point; its layers are as the other solver finds."""
    for number, pattern in enumerate(fifty_sheets()[:12]):
        wrong = pattern.switched(Chance(f"two {number}").shuffled(pattern.creases)[:2])
        report = check_pattern(wrong)
        for repair, has_layers in zip(report.repairs, report.repairs_layers, strict=True):
            repaired = wrong.switched(repair)
            assert failing(repaired, repaired.labels(), folds) == ()
            assert has_layers is folds_anew(repaired)


def far_apart(pattern: CreasePattern) -> Iterator[tuple[int, int]]:
    """Yield two creases whose failing points are in two clusters."""
    inner = [edge for edge in pattern.creases if pattern.interior_ends[edge]]
    for one, two in combinations(inner, 2):
        broken = {*pattern.interior_ends[one], *pattern.interior_ends[two]}
        if len(list(clusters(pattern, sorted(broken)))) == 2:
            yield one, two


def test_two_faults_far_apart_are_repaired_each_by_itself() -> None:
    """The repairs are each repair of the one fault with each of the other."""
    pattern = draw(Stretch((3, 3), pleats=3))
    pairs = Chance("far").shuffled(list(far_apart(pattern)))[:6]
    assert len(pairs) == 6
    for one, two in pairs:
        first, second = (check_pattern(pattern.switched([edge])).repairs for edge in (one, two))
        both = check_pattern(pattern.switched([one, two]))
        assert set(both.repairs) == {a | b for a, b in product(first, second)}
        assert len(both.repairs) == len(first) * len(second)
        assert both.repairs_layers[both.repairs.index(frozenset({one, two}))] is True
        assert not both.more


@pytest.mark.long
def test_more_than_64_repairs_are_cut_short() -> None:
    """Seven points of a wide map, each mended by either of two creases, have 128 repairs: 64 are listed."""
    pattern = map_sheet(2, 36)
    right = check_pattern(pattern).solved
    assert right is not None
    solved = pattern.with_labels(right.get(edge, "B") for edge in range(len(pattern.edges)))
    wrong = [solved.vertices.index(Point(x, 1)) for x in range(2, 36, 5)]
    lower = [
        next(
            edge for edge in solved.around[vertex] if Point(solved.vertices[vertex].x, 0) in solved.ends(edge)
        )
        for vertex in wrong
    ]
    report = check_pattern(solved.switched(lower))
    assert set(report.labels) == set(wrong)
    assert len(report.repairs) == len(set(report.repairs)) == 64
    assert all(len(repair) == 7 for repair in report.repairs)
    assert report.more


def test_what_needs_more_than_four_labels_gets_no_repair() -> None:
    """All mountains: more than eight points of one cluster fail, and one label mends two at most."""
    pattern = draw(Stretch((2, 2)))
    wrong = all_of(pattern, "M")
    report = check_pattern(wrong)
    assert len(list(clusters(wrong, report.labels))) == 1
    assert len(report.labels) > 8
    assert report.repairs == ()
    assert report.repairs_layers == ()
    assert not report.more


def all_of(pattern: CreasePattern, kind: Label) -> CreasePattern:
    """Return the pattern with every crease of one kind."""
    return pattern.with_labels("B" if edge.label == "B" else kind for edge in pattern.edges)


BARE = [map_sheet(3, 3), map_sheet(2, 5), square_twist()]
BARE += [draw(stretch).unlabelled() for stretch in (Stretch((1, 1)), Stretch((2, 1)), Stretch((3, 3)))]


@pytest.mark.parametrize("pattern", BARE)
def test_a_sheet_without_labels_is_solved(pattern: CreasePattern) -> None:
    """Every crease gets a label, and the sheet folds with them for the other solver."""
    report = check_pattern(pattern)
    assert report.ok
    assert report.solved is not None
    assert set(report.solved) == set(pattern.creases)
    solved = pattern.with_labels(report.solved.get(edge, "B") for edge in range(len(pattern.edges)))
    assert does_fold(plain(solved))


def test_only_the_labels_that_were_missing_are_solved() -> None:
    """Given labels are no part of the solution."""
    pattern = draw(Stretch((2, 2)))
    bare = pattern.creases[::3]
    partly = pattern.with_labels("U" if e in bare else label for e, label in enumerate(pattern.labels()))
    report = check_pattern(partly)
    assert report.solved is not None
    assert set(report.solved) == set(bare)


@pytest.mark.parametrize("pattern", [pinwheel(), two_by_five()])
def test_a_map_that_passes_at_every_point_and_has_no_layers(pattern: CreasePattern) -> None:
    """No point is at fault; the layers are, and creases that clash, no one of them idle, say where."""
    report = check_pattern(pattern)
    assert (report.angles, report.labels, report.layers) == ((), (), False)
    assert (report.repairs, report.solved) == ((), None)
    assert not report.ok
    assert report.is_decided
    assert is_a_smallest_contradiction(pattern, report.clash)


def test_a_pattern_that_no_labels_suit() -> None:
    """The acute triangle twist without labels is fine at each point by itself and has no layers."""
    report = check_pattern(triangle_twist([Point(0, 0), Point(4, 0), Point(2, 3)]))
    assert report == Report(True, layers=False)


def test_wrong_angles_are_named_and_labels_there_are_not_judged() -> None:
    """45, 135, 90 and 90 degrees: the angles are at fault, whatever the labels."""
    pattern = star(ways((1, 0), (1, 1), (-1, 0), (0, -1)))
    for sheet in (pattern, all_of(pattern, "M")):
        report = check_pattern(sheet)
        assert report == Report(True, angles=pattern.interior)
        assert report.is_decided
        assert not report.ok


def test_labels_elsewhere_are_repaired_though_angles_are_wrong() -> None:
    """A fault of labels on a sheet with a wrong angle is reported and repaired, its layers left open."""
    lines = [Line(Point(0, 1), Point(6, 1), "other", "M"), Line(Point(1, 0), Point(1, 2), "other", "M")]
    lines += [Line(Point(5, 1), Point(6, 2), "other", "M")]
    report = check_pattern(build(lines, Paper(0, 0, 6, 2)))
    assert len(report.angles) == 1
    assert len(report.labels) == 1
    assert report.angles != report.labels
    assert len(report.repairs) == 4
    assert report.repairs_layers == (None,) * 4


def test_on_large_sheets_only_the_first_repairs_are_proven(monkeypatch: pytest.MonkeyPatch) -> None:
    """So that a check ends in time: with two proven at 30 faces, 2 of the 8 repairs of a sheet of 25."""
    monkeypatch.setattr("drills.flatfold.check.FACES_OF_TWO_PROVEN", 30)
    plain = map_sheet(5, 5)
    folded = plain.with_labels(solve_layers(plain).labels)
    corners = [
        next(edge for edge in folded.around[vertex] if len(folded.interior_ends[edge]) == 1)
        for vertex in folded.interior
        if sum(len(folded.interior_ends[edge]) == 1 for edge in folded.around[vertex]) == 2
    ][:3]
    report = check_pattern(folded.switched(corners))
    assert len(report.repairs) == 8
    assert report.repairs_layers[2:] == (None,) * 6
    assert None not in report.repairs_layers[:2]
