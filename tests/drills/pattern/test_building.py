from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from drills.flatfold import check_angles, failing, folds
from drills.geometry import (
    HALF_TURN,
    SYMMETRIES,
    Point,
    Symmetry,
    cross,
    meeting,
    move_between,
    moved,
    on_segment,
)
from drills.pattern import CreasePattern, Label, Line, Paper, build, clipped, shifted, to_origin, turned
from drills.structures import Stretch, draw
from tests.drills.sheets import figure, small_stretches


def test_lines_are_split_where_they_cross_at_an_exact_point() -> None:
    """(0,0)-(3,1) and (0,1)-(1,0) cross at (3/4, 1/4): four creases with that point in common."""
    pattern = build([crease(0, 0, 3, 1), crease(0, 1, 1, 0)], Paper(0, 0, 3, 1))
    assert len(pattern.creases) == 4
    (inner,) = pattern.interior
    assert pattern.vertices[inner] == (Fraction(3, 4), Fraction(1, 4))


def crease(x0: int | Fraction, y0: int | Fraction, x1: int | Fraction, y1: int | Fraction) -> Line:
    """Return an unlabelled crease of no particular role."""
    return Line(Point(x0, y0), Point(x1, y1), "other", "U")


PAPER = Paper(0, 0, 8, 6)
numbers = st.integers(min_value=-4, max_value=12)
points = st.builds(Point, numbers, numbers)
lines = st.builds(lambda a, b: Line(a, b, "other", "U"), points, points).filter(lambda it: it.start != it.end)


@given(lines)
def test_clipping_keeps_exactly_the_part_on_the_paper(line: Line) -> None:
    """What is kept lies on the line and on the paper, and each point of the line on the paper is kept."""
    kept = clipped(line, PAPER)
    way = move_between(line.start, line.end)
    for part in range(41):
        point = moved(line.start, way, Fraction(part, 40))
        if PAPER.left < point.x < PAPER.right and PAPER.bottom < point.y < PAPER.top:
            assert kept is not None
            assert on_segment(point, kept.start, kept.end)
    if kept is not None:
        for end in (kept.start, kept.end):
            assert on_segment(end, line.start, line.end)
            assert PAPER.left <= end.x <= PAPER.right
            assert PAPER.bottom <= end.y <= PAPER.top


def test_lines_along_the_edge_or_outside_or_at_a_corner_are_left_out() -> None:
    """Nothing of such a line crosses the sheet."""
    outside = [crease(0, 0, 8, 0), crease(8, 1, 8, 5), crease(-3, 2, 0, 2), crease(9, 0, 9, 6)]
    assert [clipped(line, PAPER) for line in [*outside, crease(-1, 1, 1, -1)]] == [None] * 5
    assert build(outside, PAPER).creases == ()


@pytest.mark.parametrize("second", [crease(3, 1, 9, 3), crease(6, 2, 0, 0), crease(-3, -1, 3, 1)])
def test_two_creases_on_top_of_each_other_are_refused(second: Line) -> None:
    """A crease drawn twice along a stretch of its length raises ValueError, in whichever direction."""
    with pytest.raises(ValueError, match="on top of each other"):
        build([crease(0, 0, 6, 2), second], Paper(-3, -3, 9, 9))


def test_the_same_lines_in_another_order_give_the_same_pattern() -> None:
    """Points and edges come out sorted, so the order and sense of drawing leave no trace."""
    drawn = [crease(0, 3, 8, 3), crease(2, 0, 2, 6), crease(0, 0, 6, 6)]
    turned_round = [Line(line.end, line.start, line.role, line.label) for line in reversed(drawn)]
    assert build(drawn, PAPER) == build(turned_round, PAPER)


def meets_only_at_vertices(pattern: CreasePattern) -> bool:
    """Whether no two edges cross or touch but at a common end."""
    segments = [pattern.ends(edge) for edge in range(len(pattern.edges))]
    return all(
        set(meeting(one, two)) <= set(one) & set(two)
        for place, one in enumerate(segments)
        for two in segments[:place]
    )


@given(st.lists(lines, max_size=5))
def test_edges_meet_only_at_vertices(drawn: list[Line]) -> None:
    """Whatever lines are drawn, the pieces have no point in common but their ends."""
    try:
        pattern = build(drawn, PAPER)
    except ValueError:
        assume(False)
    assert meets_only_at_vertices(pattern)
    assert all(edge.start < edge.end for edge in pattern.edges)
    assert len(set(pattern.vertices)) == len(pattern.vertices)


def test_the_paper_has_four_corners_counterclockwise() -> None:
    """From the lower left corner to the right, up, and back to the left."""
    assert PAPER.corners == ((0, 0), (8, 0), (8, 6), (0, 6))
    assert cross(move_between(*PAPER.corners[:2]), move_between(*PAPER.corners[1:3])) == 48


def test_a_figure_does_not_depend_on_where_it_stands() -> None:
    """A shifted pattern is the same figure and comes back to the origin as it was."""
    pattern = draw(Stretch((2, 1)))
    away = shifted(pattern, Fraction(5, 3), -2)
    assert away != pattern
    assert figure(away) == figure(pattern)
    assert to_origin(away) == pattern


def test_a_figure_has_roles_and_labels() -> None:
    """Patterns that differ in one label, or in having labels, are two figures."""
    pattern = draw(Stretch((1, 1)))
    others = [pattern.switched(pattern.creases[:1]), pattern.unlabelled()]
    assert len({figure(other) for other in [pattern, *others]}) == 3


symmetries = st.sampled_from(SYMMETRIES)


@given(small_stretches(), symmetries, symmetries)
def test_symmetries_of_a_pattern_follow_one_another(stretch: Stretch, one: Symmetry, two: Symmetry) -> None:
    """Turning twice is turning by the map put together; a half turn undoes itself; the image is in order."""
    pattern = draw(stretch)
    image = turned(pattern, one)
    assert turned(image, two) == turned(pattern, one.then(two))
    assert image.box[:2] == (0, 0)
    assert (list(image.vertices), list(image.edges)) == (sorted(image.vertices), sorted(image.edges))
    assert turned(turned(pattern, HALF_TURN), HALF_TURN) == pattern


def exchanged(pattern: CreasePattern) -> CreasePattern:
    """Return the pattern with every mountain a valley and every valley a mountain."""
    return pattern.switched(range(len(pattern.edges)))


def counts(pattern: CreasePattern) -> dict[Label, int]:
    """Return how many edges carry each label."""
    return {label: pattern.labels().count(label) for label in pattern.labels()}


@given(small_stretches(), symmetries)
def test_symmetries_and_exchanging_all_labels_keep_a_sheet_folding(
    stretch: Stretch, symmetry: Symmetry
) -> None:
    """The angles and the labels of the image pass at every point, as those of the pattern do."""
    pattern = draw(stretch)
    image = turned(pattern, symmetry)
    assert counts(image) == counts(pattern)
    for sheet in (pattern, image, exchanged(pattern), exchanged(image)):
        assert check_angles(sheet) == ()
        assert failing(sheet, sheet.labels(), folds) == ()
