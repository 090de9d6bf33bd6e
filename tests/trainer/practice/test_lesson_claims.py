"""What the pages say, checked against the pattern that the page shows."""

from __future__ import annotations

import pytest

from drills.flatfold import balances, faults, folds, is_settled_in_full, turns_around
from drills.geometry import is_whole
from drills.pattern import CreasePattern, bent_runs, step_in_words, straight_runs
from drills.plan import plan
from drills.questions import Drill, Marks, PlaceStep, ReadStep
from drills.structures import TRIANGLES, Stretch, draw, find_stretches, outlines
from trainer.practice.first_minutes import FIRST_MINUTES
from trainer.practice.further_pages import table_of_steps
from trainer.practice.lesson import Page
from trainer.practice.lesson_drills import LARGE, MarkValleys, joining_faults
from trainer.practice.lesson_pages import LESSON


def page(title: str) -> Page:
    """Return the page of this title."""
    (found,) = [page for page in (*LESSON.pages, *FIRST_MINUTES.pages) if page.title == title]
    return found


def drills_of(title: str) -> list[Drill]:
    """Return the drills of a page."""
    return [part.make() for part in page(title).parts]


def marked(drill: Drill) -> frozenset[int]:
    """Return the marks of the right answer."""
    assert isinstance(drill.question.answer, Marks)
    return drill.question.answer.items


def slanted(pattern: CreasePattern) -> list[str]:
    """Return the roles of the slanted creases in one straight piece each."""
    return [role for role in ("outline", "inside") for _ in straight_runs(pattern, role)]


def corners_of(drill: Drill) -> list[int]:
    """Return the corners of the one stretch, by vertex, far ones and side ones in turn."""
    (outline,) = outlines(drill.design)
    return [drill.truth.vertices.index(corner) for corner in outline]


def test_five_slanted_creases_four_of_them_sides() -> None:
    """The first page of the first minutes; its side ends at crossings and goes up, as is asked."""
    (drill,) = drills_of("Across and down")
    assert sorted(slanted(drill.truth)) == ["inside", *["outline"] * 4]
    assert isinstance(drill.question, ReadStep)
    assert drill.question.answer.down < 0
    assert all(is_whole(drill.truth.vertices[vertex]) for vertex in corners_of(drill))


def test_two_triangles_go_in_with_the_line_between() -> None:
    """The second page of the first minutes: the inside line is a side of both."""
    drill = FIRST_MINUTES.pages[1].parts[0].make()
    far, _, other, _ = corners_of(drill)
    (line,) = marked(drill)
    assert set(drill.truth.edges[line][:2]) == {far, other}
    assert [len(part) for part in drill.design.parts_that_go_in()] == [3, 3]
    assert all(
        {drill.truth.vertices[far], drill.truth.vertices[other]} <= set(part)
        for part in drill.design.parts_that_go_in()
    )


@pytest.mark.parametrize(
    "drill",
    [
        FIRST_MINUTES.pages[2].parts[0].make(),
        *drills_of("Checking labels"),
        *drills_of("Mountain first"),
    ],
)
def test_creases_between_two_points_off_are_the_wrong_ones(drill: Drill) -> None:
    """So the rule finds them all and nothing else, by counting alone."""
    pattern = drill.pattern
    off = [v for v in pattern.interior if not balances(pattern, pattern.labels(), v)]
    assert set(faults(pattern)) == set(off)
    assert joining_faults(pattern) == marked(drill)
    assert len(off) == 2 * len(marked(drill))


def test_four_ridges_end_at_the_outline_and_pleat_lines_bend_at_its_sides() -> None:
    """One at each corner; at each turning point one pleat line from outside and one inside line."""
    drill, *_ = drills_of("What a stretch is")
    pattern, corners = drill.truth, corners_of(drill)
    (found,) = find_stretches(pattern)
    meeting = {
        v: [pattern.edges[edge].role for edge in pattern.around[v]] for v in range(len(pattern.vertices))
    }
    assert [meeting[corner].count("ridge") for corner in corners] == [1, 1, 1, 1]
    assert found.turning_points
    for vertex in found.turning_points:
        assert sorted(meeting[vertex]) == ["inside", "outline", "outline", "pleat"]


def test_the_example_of_a_step_is_the_other_side_of_the_same_sheet() -> None:
    """So it does not read as the answer."""
    part = page("Reading a side").parts[1]
    drill = part.make()
    assert isinstance(drill.question, ReadStep)
    answer = step_in_words(drill.question.answer, with_times=True)
    assert answer == "2 across 1 down, twice"
    assert answer not in part.tells
    assert "2 across 6 down is 1 across 3 down, twice." in part.tells


def test_the_cursor_has_gone_across() -> None:
    """On the half worked page of placing."""
    part = page("Placing a step").parts[0]
    assert part.stage == "half"
    assert isinstance(part.make().question, PlaceStep)
    assert "The cursor has gone across for you." in part.tells


def test_where_nothing_is_wrong_no_label_is_called_wrong() -> None:
    """On the page where mountains are to be switched."""
    truths = [drill.judge(drill.question.right_answer(drill)).truth for drill in drills_of("Mountain first")]
    assert truths == ["1 mountain is to be a valley.", "2 mountains are to be valleys."]
    assert all(isinstance(drill.question, MarkValleys) for drill in drills_of("Mountain first"))


def test_what_is_left_to_switch_are_pieces_of_sides() -> None:
    """On the second sheet; on the first all sides are mountains already, as another test says."""
    _, drill = drills_of("Mountain first")
    assert {drill.truth.edges[edge].role for edge in marked(drill)} == {"outline"}


def test_three_and_one_or_four_and_two() -> None:
    """On the sheet that says so, four or six creases meet at each point inside."""
    _, drill = drills_of("Checking labels")
    assert {len(drill.truth.around[vertex]) for vertex in drill.truth.interior} == {4, 6}


@pytest.mark.parametrize("drill", drills_of("The smallest angle"))
def test_counts_are_right_where_the_smallest_angle_is_not(drill: Drill) -> None:
    """Two wrong creases meet at a point of right counts, beside an angle smaller than both its neighbours."""
    pattern, (one, other) = drill.pattern, marked(drill)
    (shared,) = set(pattern.edges[one][:2]) & set(pattern.edges[other][:2])
    assert balances(pattern, pattern.labels(), shared)
    assert not folds(pattern, pattern.labels(), shared)
    turns, around = turns_around(pattern.directions[shared]), pattern.around[shared]
    alike = [
        at
        for at, turn in enumerate(turns)
        if turn.is_below(turns[at - 1])
        and turn.is_below(turns[(at + 1) % len(turns)])
        and len({pattern.edges[around[at]].label, pattern.edges[around[(at + 1) % len(around)]].label}) == 1
    ]
    assert len(alike) == 1


@pytest.mark.parametrize("drill", drills_of("The smallest angle"))
def test_counting_alone_would_switch_one_other_crease(drill: Drill) -> None:
    """The one between the two points that are off balances all counts, but does not fold; two do."""
    pattern = drill.pattern
    off = {v for v in pattern.interior if not balances(pattern, pattern.labels(), v)}
    (between,) = [edge for edge in pattern.creases if set(pattern.edges[edge][:2]) <= off]
    assert len(off) == 2
    assert between not in marked(drill)
    switched = pattern.switched(frozenset({between}))
    assert all(balances(switched, switched.labels(), vertex) for vertex in switched.interior)
    assert faults(switched)
    assert is_settled_in_full(pattern, marked(drill))


def test_on_the_first_page_of_the_smallest_angle_its_point_is_told() -> None:
    """With its right counts, so that the text speaks of what is lit."""
    drill, _ = drills_of("The smallest angle")
    assert "the counts are right, but two valleys stand beside the smallest angle" in drill.question.says[-1]


@pytest.mark.parametrize("drill", drills_of("Unequal sides"))
def test_no_line_joins_the_far_corners_of_unequal_sides(drill: Drill) -> None:
    """Each inside line leads from a far corner to a turning point; two sides make two steps, two only one."""
    pattern, (far, _, other, _) = drill.truth, corners_of(drill)
    (found,) = find_stretches(pattern)
    ends = [{run.vertices[0], run.vertices[-1]} for run in straight_runs(pattern, "inside")]
    assert {far, other} not in ends
    assert all(len(pair & {far, other}) == 1 and len(pair & set(found.turning_points)) == 1 for pair in ends)
    assert len(ends) == 2
    assert isinstance(drill.design, Stretch)
    assert sorted(drill.design.units) == [1, 2]


def test_pleat_lines_close_into_rings_round_equal_sides_alone() -> None:
    """Those around the outline; round unequal sides not one comes back to its beginning."""
    _, drill = drills_of("Unequal sides")
    assert not any(run.vertices[0] == run.vertices[-1] for run in bent_runs(drill.truth, "pleat"))
    assert any(run.vertices[0] == run.vertices[-1] for run in bent_runs(draw(LARGE), "pleat"))
    assert [len(part) for part in drill.design.parts_that_go_in()] == [3, 3]


def test_what_is_on_the_paper_is_asked() -> None:
    """A piece of an inside line that runs off the paper counts, its end there is no turning point."""
    drill, _ = drills_of("Cut by the paper's edge")
    pattern = drill.truth
    at_edge = set(range(len(pattern.vertices))) - set(pattern.interior)
    (found,) = find_stretches(pattern)
    assert any(at_edge & set(pattern.edges[edge][:2]) for edge in marked(drill))
    assert marked(drill) == set(found.inside)
    assert not at_edge & set(found.turning_points)


def test_a_stretch_shows_without_two_of_its_corners() -> None:
    """It has slanted sides, and inside lines that begin at them."""
    _, drill = drills_of("Cut by the paper's edge")
    (found,) = find_stretches(drill.truth)
    assert found.corners.count(None) == 2
    on_sides = {vertex for edge in found.outline for vertex in drill.truth.edges[edge][:2]}
    assert all(on_sides & set(drill.truth.edges[edge][:2]) for edge in found.inside)


def test_the_table_of_steps() -> None:
    """By hand from half angles; the width is the narrowest that keeps each turning point on a crossing."""
    assert list(table_of_steps())[1:] == [
        "3-4-5    3-1 1-2 4-3    1",
        "5-12-13  5-1 2-3 12-5   2",
        "8-15-17  4-1 3-5 15-8   3",
        "7-24-25  7-1 3-4 24-7   3",
        "20-21-29 5-2 3-7 21-20  6",
    ]
    for triangle in TRIANGLES:
        fine = [w for w in range(1, triangle.width + 1) if is_on_crossings(triangle.name, w)]
        assert fine == [triangle.width]


def is_on_crossings(name: str, width: int) -> bool:
    """Whether all turning points of a triangle's stretches with pleats this wide lie on crossings."""
    (triangle,) = [each for each in TRIANGLES if each.name == name]
    (p, q), (r, s) = triangle.shallow, triangle.steep
    return (width * p) % q == 0 and (width * s) % r == 0


def test_wide_pleats_leave_one_inside_line_of_three() -> None:
    """Twice as wide, half as many turn."""
    _, drill, _ = drills_of("Other triangles, other pleats")
    assert isinstance(drill.design, Stretch)
    assert (len(marked(drill)), len(straight_runs(draw(LARGE), "inside"))) == (1, 3)
    assert (drill.design.turned, LARGE.turned) == ((1, 1), (2, 2))
    assert drill.design.pleat_widths == (2, 2, 2)


def test_two_turning_points_lie_on_halves_where_a_side_crosses_the_grid() -> None:
    """The pleats are narrower than the triangle needs."""
    *_, drill = drills_of("Other triangles, other pleats")
    assert isinstance(drill.design, Stretch)
    assert max(drill.design.pleat_widths) < drill.design.triangle.width
    (planned,) = plan(drill.truth)
    dots = [dot for dot in planned.dots if dot.kind == "turning point"]
    assert sorted(dot.grid for dot in dots) == [1, 1, 2, 2]
    assert all(planned.is_crossed(dot) for dot in dots if dot.grid > 1)


def test_trade_words_come_once() -> None:
    """Where they first come in the lesson."""
    told = " ".join(part.tells for page in LESSON.pages for part in page.parts)
    for word in ("Pythagorean stretch", "mountain-valley assignment", "sawhorse", "Elias stretch"):
        assert told.count(word) == 1
