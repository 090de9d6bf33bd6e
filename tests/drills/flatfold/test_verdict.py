"""Layer verdicts on known sheets: free labels, orders that run in a circle, tries that are used up."""

from __future__ import annotations

from itertools import product

import networkx as nx  # type: ignore[import-untyped]
import pytest

from drills.flatfold import LayerSolution, TearingError, bits, completions, failing, folds, solve_layers
from drills.geometry import Chance, Point
from drills.pattern import CreasePattern, faces
from drills.structures import Stretch, draw
from tests.drills.flatfold.assorted import KINDS, any_map, assorted, faults_of_order, folds_anew, plain
from tests.drills.sheets import map_sheet, miura, square_twist, star, triangle_twist, ways
from tests.independent.layers import does_fold


def test_the_layers_of_a_square_twist_run_in_a_circle() -> None:
    """The twist with a mountain square folds, and its four pleats lie over each other in a ring.

    That orders may be cyclic is said in FOLD 1.2 (github.com/edemaine/fold, doc/spec.md) of this figure.
    """
    pattern = square_twist()
    inner = {Point(1, 0), Point(0, 1), Point(-1, 0), Point(0, -1)}
    square = [e for e in pattern.creases if set(pattern.ends(e)) <= inner]
    assert len(square) == 4
    found = solve_layers(
        pattern.with_labels("M" if e in square else k for e, k in enumerate(pattern.labels()))
    )
    assert found.folds
    assert faults_of_order(pattern, found) == []
    over = nx.DiGraph((face, under) for face, below in enumerate(found.below) for under in bits(below))
    rings = [set(ring) for ring in nx.simple_cycles(over)]
    pleats = {
        face
        for face, cycle in enumerate(faces(pattern))
        if len(inner & {pattern.vertices[vertex] for vertex in cycle}) == 2
    }
    assert len(pleats) == 4
    assert pleats in rings


def test_a_square_twist_folds_in_sixteen_ways() -> None:
    """Each labelling of the twist that folds at its points folds as a whole: sixteen (own count)."""
    pattern = square_twist()
    labellings = list(completions(pattern, pattern.labels()))
    assert len(labellings) == 16
    for labels in labellings:
        labelled = pattern.with_labels(labels)
        found = solve_layers(labelled)
        assert found.folds
        assert found.labels == labels
        assert folds_anew(labelled)


UNLABELLED = [square_twist(), map_sheet(3, 3), map_sheet(2, 6), map_sheet(4, 4), miura(3, 4)]
UNLABELLED += [draw(stretch).unlabelled() for stretch in (Stretch((1, 1)), Stretch((2, 1)), Stretch((2, 2)))]


@pytest.mark.parametrize("pattern", UNLABELLED)
def test_labels_that_are_free_are_chosen_so_that_the_sheet_folds(pattern: CreasePattern) -> None:
    """Every crease gets a label; the sheet folds with them, at each point and for the other solver."""
    found = solve_layers(pattern)
    assert found.folds
    labelled = pattern.with_labels(found.labels)
    assert "U" not in found.labels
    assert failing(labelled, found.labels, folds) == ()
    assert does_fold(plain(labelled))
    assert faults_of_order(labelled, found) == []


@pytest.mark.long
def test_labels_that_are_given_are_kept() -> None:
    """Half of the labels of a sheet taken away by chance: the others stay, and both solvers agree."""
    for number, pattern in enumerate(assorted(40, "half")):
        chance = Chance(f"half {number}")
        taken = frozenset(chance.shuffled(pattern.creases)[::2])
        partly = pattern.with_labels("U" if e in taken else k for e, k in enumerate(pattern.labels()))
        found = solve_layers(partly)
        assert found.folds is folds_anew(partly)
        if found.folds:
            kept = zip(found.labels, partly.labels(), strict=True)
            assert all(after == before or before == "U" for after, before in kept)
            assert does_fold(plain(partly.with_labels(found.labels)))


@pytest.mark.parametrize("corners", [((0, 0), (4, 0), (2, 3)), ((0, 0), (6, 0), (2, 4))])
def test_the_acute_triangle_twist_folds_with_no_labels(corners: tuple[tuple[int, int], ...]) -> None:
    """Pleats square to the sides of an acute triangle: no labelling suits all three corners (own count)."""
    pattern = triangle_twist([Point(*corner) for corner in corners])
    assert solve_layers(pattern) == LayerSolution(False)
    assert not folds_anew(pattern)


def test_what_does_not_close_tears() -> None:
    """Round a point with 45, 135, 90 and 90 degrees the faces do not meet again."""
    with pytest.raises(TearingError):
        solve_layers(star(ways((1, 0), (1, 1), (-1, 0), (0, -1))))


def test_without_tries_what_needs_a_search_is_left_open() -> None:
    """A map of which nothing is labelled follows from nothing: one try is too few, some are enough."""
    pattern = map_sheet(3, 3)
    assert solve_layers(pattern, tries=0) == LayerSolution(None)
    assert solve_layers(pattern, tries=1) == LayerSolution(None)
    assert solve_layers(pattern).folds


@pytest.mark.long
def test_fewer_tries_never_make_a_wrong_verdict() -> None:
    """With no tries, one, two or three the verdict is the right one or is left open."""
    open_ones = 0
    sheets = [any_map(Chance(f"tries {number}")) for number in range(20)] + list(assorted(24, "tries"))
    for pattern in sheets:
        for tries in range(4):
            found = solve_layers(pattern, tries).folds
            assert found in (None, folds_anew(pattern))
            open_ones += found is None
    assert open_ones > 10


def test_a_labelled_sheet_that_needs_a_search() -> None:
    """Some maps labelled in full are not settled by what follows from their labels alone."""
    sheets = [any_map(Chance(f"search {number}")) for number in range(30)]
    needing = [pattern for pattern in sheets if solve_layers(pattern, tries=0).folds is None]
    assert needing
    for pattern in needing:
        assert solve_layers(pattern).folds is folds_anew(pattern)


def test_mountains_and_valleys_exchanged_turn_the_order_over() -> None:
    """A sheet folds if and only if it folds with all kinds exchanged, as seen from behind."""
    for pattern in assorted(24, "exchanged"):
        assert solve_layers(pattern).folds is solve_layers(pattern.switched(pattern.creases)).folds


def test_which_face_comes_first_does_not_matter() -> None:
    """The edges of a sheet in any order give the same verdict."""
    for number, pattern in enumerate(assorted(16, "mixed")):
        edges = Chance(f"mixed {number}").shuffled(pattern.edges)
        assert (
            solve_layers(CreasePattern(pattern.vertices, tuple(edges))).folds is solve_layers(pattern).folds
        )


def test_a_point_with_four_right_angles() -> None:
    """Three of one kind and one of the other fold, two of each do not (Maekawa-Justin)."""
    pattern = star(ways((1, 0), (0, 1), (-1, 0), (0, -1)))
    for kinds in product(KINDS, repeat=4):
        told = dict(zip(pattern.creases, kinds, strict=True))
        labelled = pattern.with_labels(told.get(edge, "B") for edge in range(len(pattern.edges)))
        assert solve_layers(labelled).folds is (kinds.count("M") in (1, 3))
