"""The creases of a contradiction: no layers with their labels alone, and none of them is idle."""

from __future__ import annotations

import pytest

from drills.flatfold import contradiction, failing, folds, solve_layers
from drills.geometry import Point
from drills.pattern import CreasePattern, Label, Line, Paper, build
from drills.structures import Stretch, draw
from tests.drills.flatfold.assorted import plain, without_layers
from tests.drills.sheets import map_sheet, triangle_twist
from tests.independent.layers import stacking


def test_the_pinwheel_and_the_map_of_ten_have_no_layers() -> None:
    """Both pass at every point and cannot be folded.

    The 3 x 3 map: counted by two methods, no source. That there is such a 2 x 5 map: J. Justin 1994,
    cited in Demaine and O'Rourke, Geometric Folding Algorithms (2007).
    """
    for pattern in (pinwheel(), two_by_five()):
        assert failing(pattern, pattern.labels(), folds) == ()
        assert solve_layers(pattern).folds is False
        assert is_a_smallest_contradiction(pattern, contradiction(pattern))


def unit_map(columns: int, rows: int, labels: dict[tuple[float, float], Label]) -> CreasePattern:
    """Return a map, all mountains but the creases whose middles are given, which are valleys."""
    bare = map_sheet(rows, columns)
    middles = [
        tuple(sum(axis) / 2 for axis in zip(*bare.ends(e), strict=True)) for e in range(len(bare.edges))
    ]
    kinds = [labels.get((float(x), float(y)), "M") for x, y in middles]
    return bare.with_labels(
        "B" if edge.label == "B" else kind for edge, kind in zip(bare.edges, kinds, strict=True)
    )


def pinwheel() -> CreasePattern:
    """Return the 3 x 3 map whose four sides of the middle cell are mountains, valleys turning round it.

    Valleys: left of the upper left corner of the middle cell, above the upper right, right of the
    lower right, below the lower left.
    """
    return unit_map(3, 3, {(0.5, 2.0): "V", (2.0, 2.5): "V", (2.5, 1.0): "V", (1.0, 0.5): "V"})


def two_by_five() -> CreasePattern:
    """Return the 2 x 5 map with middle line M M V M M, upper creases M M M M, lower V M M V."""
    return unit_map(5, 2, {(2.5, 1.0): "V", (1.0, 0.5): "V", (4.0, 0.5): "V"})


def is_a_smallest_contradiction(pattern: CreasePattern, creases: tuple[int, ...]) -> bool:
    """Whether these creases' labels alone allow no layers, and without any one of them they do."""
    found = stacking(plain(pattern))
    literals = [found.labelled(edge, pattern.edges[edge].label) for edge in creases]
    fewer = (literals[:place] + literals[place + 1 :] for place in range(len(literals)))
    return bool(creases) and not found.allows(literals) and all(map(found.allows, fewer))


@pytest.mark.long
def test_twenty_contradictions_are_smallest() -> None:
    """Eighteen sheets that pass at every point and have no layers, with the two known maps twenty."""
    sheets = list(without_layers(18))
    assert len(sheets) == 18
    for pattern in sheets:
        assert failing(pattern, pattern.labels(), folds) == ()
        assert is_a_smallest_contradiction(pattern, contradiction(pattern))


def test_where_there_are_layers_there_is_no_contradiction() -> None:
    """A sheet that folds has none, and neither has one without labels."""
    pattern = draw(Stretch((2, 2)))
    assert contradiction(pattern) == ()
    assert contradiction(pattern.unlabelled()) == ()


def test_where_no_labels_help_every_label_is_named() -> None:
    """The acute triangle twist folds with no labels whatever, so that each label contradicts."""
    pattern = triangle_twist([Point(0, 0), Point(4, 0), Point(2, 3)])
    labelled = pattern.switched([]).with_labels("B" if edge.label == "B" else "M" for edge in pattern.edges)
    assert contradiction(labelled) == labelled.creases


def test_a_label_alone_may_clash_with_the_folds_that_have_none() -> None:
    """Cells 2, 1, 2 wide: two mountains clash; one of them beside a free crease does not."""
    lines = [Line(Point(x, 0), Point(x, 1), "other", "M") for x in (2, 3)]
    pattern = build(lines, Paper(0, 0, 5, 1))
    assert contradiction(pattern) == pattern.creases
    free = pattern.with_labels("U" if e == pattern.creases[0] else k for e, k in enumerate(pattern.labels()))
    assert contradiction(free) == ()


@pytest.mark.parametrize("tries", [0, 1])
def test_what_is_not_decided_names_no_crease(tries: int) -> None:
    """Without tries a contradiction that must be searched for is not claimed; what is claimed is one."""
    for pattern in without_layers(6):
        named = contradiction(pattern, tries)
        assert named == () or not stacking(plain(pattern)).allows(
            [stacking(plain(pattern)).labelled(edge, pattern.edges[edge].label) for edge in named]
        )
