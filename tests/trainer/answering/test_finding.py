from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.geometry import Point, is_whole
from drills.pattern import ROLES
from drills.questions import ALONE, Drill, MarkedPlaces, Outlines, make
from drills.structures import lies_within
from tests.drills.questions.codes import codes, levels_of
from tests.trainer.answering.made import board, drill, of_form
from trainer.answering import ARROW_MOVES, STRIDE, FindingInput
from trainer.board import Arrow, Look
from trainer.ways_of_asking import input_for

ARROWS: tuple[Arrow, ...] = ("left", "right", "up", "down")
CODES = [f"find-{level}-{seed}" for level in levels_of("find") for seed in (1, 2)]


def finding(code: str = "find-2-1") -> FindingInput:
    """Return the answer input of a drill that asks where slanted stretches are."""
    entry = input_for(drill(code))
    assert isinstance(entry, FindingInput)
    return entry


def places(*points: Point) -> MarkedPlaces:
    """Return an answer of these places."""
    return MarkedPlaces(frozenset(points))


def test_the_crossing_under_the_cursor_is_marked() -> None:
    """And the mark is taken away by the same key; the board and the words say so."""
    entry = finding()
    first = entry.at
    entry.mark()
    assert entry.answer() == places(first)
    assert entry.look().marked.points == {first}
    assert entry.look().cursor_at == first
    assert entry.says()[0].endswith("(marked).")
    assert entry.says()[1] == "Marked: 1"
    entry.go("right")
    assert entry.at == Point(first.x + 1, first.y)
    assert "(marked)" not in entry.says()[0]
    entry.mark()
    assert entry.answer() == places(first, entry.at)
    entry.go("left")
    entry.mark()
    assert entry.look().marked.points == {Point(first.x + 1, first.y)}


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.sampled_from(CODES), st.lists(st.sampled_from(ARROWS), max_size=60))
def test_the_cursor_stays_on_paper(code: str, arrows: list[Arrow]) -> None:
    """It begins half way down the left edge; an arrow goes one square, at an edge none."""
    entry = finding(code)
    left, bottom, right, top = entry.drill.pattern.box
    assert entry.at == Point(left, (bottom + top) // 2)
    for arrow in arrows:
        before = entry.at
        entry.go(arrow)
        assert left <= entry.at.x <= right
        assert bottom <= entry.at.y <= top
        assert is_whole(entry.at)
        assert entry.at == before or (entry.at.x - before.x, entry.at.y - before.y) == ARROW_MOVES[arrow]


@pytest.mark.parametrize("code", CODES)
def test_tab_stops_lie_as_far_apart_on_every_sheet(code: str) -> None:
    """Row by row from the top left, four squares apart, whatever is on the sheet; back again in reverse."""
    entry = finding(code)
    left, bottom, right, top = entry.drill.pattern.box
    entry.at, went = Point(left, top), []
    for _ in range(2 * int((right - left) * (top - bottom))):
        entry.next_point(back=False)
        went.append(entry.at)
    stops = list(dict.fromkeys(went))
    assert went == (stops * len(went))[: len(went)]
    assert stops == sorted(stops, key=lambda point: (-point.y, point.x))
    assert stops[0] == Point(left + STRIDE // 2, top - STRIDE // 2)
    assert all(left < x < right and bottom < y < top for x, y in stops)
    assert {(x - stops[0].x) % STRIDE for x, _ in stops} == {0}
    assert {(y - stops[0].y) % STRIDE for _, y in stops} == {0}
    across, down = len({x for x, _ in stops}), len({y for _, y in stops})
    assert len(stops) == across * down
    assert (across + 1) * STRIDE > right - left - STRIDE // 2
    for stop in reversed([*went[:-1]]):
        entry.next_point(back=True)
        assert entry.at == stop


LATER = [pytest.param(level, 300, marks=pytest.mark.long) for level in levels_of("find") if level <= ALONE]


@pytest.mark.parametrize(("level", "number"), [(2, 40), *LATER])
def test_marking_without_looking_is_right_in_one_of_five_at_most(level: int, number: int) -> None:
    """Mark and answer where the cursor begins: over so many drills."""
    entries = (input_for(make(code)) for code in codes("find", "mark", level, range(number)))
    right = 0
    for entry in entries:
        assert isinstance(entry, FindingInput)
        entry.mark()
        right += entry.drill.judge(entry.answer()).right
    assert 5 * right <= number


def test_tab_from_between_the_stops_begins_anew() -> None:
    """Forward at the first stop, back at the last."""
    entry = finding()
    entry.next_point(back=False)
    first = entry.at
    entry.next_point(back=True)
    last = entry.at
    assert first != last
    for back, stop in ((False, first), (True, last)):
        entry.at = Point(0, 0)
        entry.next_point(back=back)
        assert entry.at == stop


def test_taking_back_takes_the_latest_marking_or_unmarking_first() -> None:
    """Place by place, and at last it does nothing."""
    entry = finding()
    first = entry.at
    entry.mark()
    entry.go("up")
    entry.mark()
    second = entry.at
    entry.go("down")
    entry.mark()
    for marked in ({first, second}, {first}, set(), set()):
        entry.undo()
        assert entry.look().marked.points == marked


def test_every_crossing_is_clicked_where_it_is_drawn() -> None:
    """The middle of a crossing's cell marks it, a second click takes the mark away."""
    entry = finding()
    scale = board(entry.drill)
    for crossing in scale.crossings():
        column, row = scale.cell(crossing)
        for answer in (places(crossing), None):
            entry.point_at(scale, column + 0.5, row + 0.5)
            assert entry.at == crossing
            assert entry.answer() == answer


def test_nothing_marked_is_no_answer_by_itself() -> None:
    """That there is nothing to mark has a key of its own, which the sentence names."""
    entry = finding()
    assert entry.answer() is None
    assert "0" in entry.missing()
    assert entry.nothing() == places()


def test_every_right_answer_can_be_clicked() -> None:
    """In each stretch lies a crossing of the grid, on the smallest sheets and on those that are cut."""
    for made in of_form("find", "mark"):
        entry, scale = finding(made.code), board(made)
        for crossing in one_in_each(made):
            column, row = scale.cell(crossing)
            entry.point_at(scale, column + 0.5, row + 0.5)
        assert made.judge(entry.answer() or entry.nothing()).right, made.code


def one_in_each(made: Drill) -> set[Point]:
    """Return for each stretch a crossing that lies in it."""
    assert isinstance(made.question.answer, Outlines)
    crossings = board(made).crossings()
    return {
        next(spot for spot in crossings if lies_within(made.pattern, outline, spot))
        for outline in made.question.answer.edges
    }


def test_no_word_and_no_look_says_where_a_stretch_is() -> None:
    """Of each place its numbers alone are said, and the board shows cursor and marks alone."""
    for made in of_form("find", "mark", range(1, 3), range(2, 6)):
        entry = finding(made.code)
        for _ in range(12):
            entry.next_point(back=False)
            words = " ".join(entry.says())
            assert not any(role in words for role in (*ROLES.values(), "stretch", "slanted"))
            look = entry.look()
            assert look == Look(ruled=True, scanned=True, cursor_at=entry.at)
