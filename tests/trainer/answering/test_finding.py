from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.geometry import Point, is_whole
from drills.questions import Drill, MarkedPlaces, Outlines
from drills.structures import lies_within
from tests.trainer.answering.made import board, drill, of_form
from trainer.answering import ARROW_MOVES, STRIDE, FindingInput
from trainer.board import ROLES, Arrow, Look
from trainer.ways_of_asking import input_for

ARROWS: tuple[Arrow, ...] = ("left", "right", "up", "down")
CODES = [made.code for made in of_form("find", "mark", range(1, 3))]


def finding(code: str = "find-2-1") -> FindingInput:
    """Return the hand of a drill that asks where slanted stretches are."""
    hand = input_for(drill(code))
    assert isinstance(hand, FindingInput)
    return hand


def places(*points: Point) -> MarkedPlaces:
    """Return an answer of these places."""
    return MarkedPlaces(frozenset(points))


def test_the_crossing_under_the_cursor_is_marked() -> None:
    """And the mark is taken away by the same key; the board and the words say so."""
    hand = finding()
    first = hand.at
    hand.mark()
    assert hand.answer() == places(first)
    assert hand.look().marked.points == {first}
    assert hand.look().cursor_at == first
    assert hand.says()[0].endswith("(marked).")
    assert hand.says()[1] == "Marked: 1"
    hand.go("right")
    assert hand.at == Point(first.x + 1, first.y)
    assert "(marked)" not in hand.says()[0]
    hand.mark()
    assert hand.answer() == places(first, hand.at)
    hand.go("left")
    hand.mark()
    assert hand.look().marked.points == {Point(first.x + 1, first.y)}


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.sampled_from(CODES), st.lists(st.sampled_from(ARROWS), max_size=60))
def test_the_cursor_stays_on_paper(code: str, arrows: list[Arrow]) -> None:
    """It begins in the middle; an arrow goes one square, at an edge none."""
    hand = finding(code)
    left, bottom, right, top = hand.drill.pattern.box
    assert hand.at == Point((left + right) // 2, (bottom + top) // 2)
    for arrow in arrows:
        before = hand.at
        hand.go(arrow)
        assert left <= hand.at.x <= right
        assert bottom <= hand.at.y <= top
        assert is_whole(hand.at)
        assert hand.at == before or (hand.at.x - before.x, hand.at.y - before.y) == ARROW_MOVES[arrow]


@pytest.mark.parametrize("code", CODES)
def test_tab_stops_lie_as_far_apart_on_every_sheet(code: str) -> None:
    """Row by row from the top left, four squares apart, whatever is on the sheet; back again in reverse."""
    hand = finding(code)
    left, bottom, right, top = hand.drill.pattern.box
    hand.at, went = Point(left, top), []
    for _ in range(2 * int((right - left) * (top - bottom))):
        hand.next_point(back=False)
        went.append(hand.at)
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
        hand.next_point(back=True)
        assert hand.at == stop


def test_tab_from_between_the_stops_begins_anew() -> None:
    """Forward at the first stop, back at the last."""
    hand = finding()
    hand.next_point(back=False)
    first = hand.at
    hand.next_point(back=True)
    last = hand.at
    assert first != last
    for back, stop in ((False, first), (True, last)):
        hand.at = Point(0, 0)
        hand.next_point(back=back)
        assert hand.at == stop


def test_taking_back_takes_the_latest_marking_or_unmarking_first() -> None:
    """Place by place, and at last it does nothing."""
    hand = finding()
    first = hand.at
    hand.mark()
    hand.go("up")
    hand.mark()
    second = hand.at
    hand.go("down")
    hand.mark()
    for marked in ({first, second}, {first}, set(), set()):
        hand.undo()
        assert hand.look().marked.points == marked


def test_every_crossing_is_clicked_where_it_is_drawn() -> None:
    """The middle of a crossing's cell marks it, a second click takes the mark away."""
    hand = finding()
    scale = board(hand.drill)
    for crossing in scale.crossings():
        column, row = scale.cell(crossing)
        for answer in (places(crossing), None):
            hand.point_at(scale, column + 0.5, row + 0.5)
            assert hand.at == crossing
            assert hand.answer() == answer


def test_nothing_marked_is_no_answer_by_itself() -> None:
    """That there is nothing to mark has a key of its own, which the sentence names."""
    hand = finding()
    assert hand.answer() is None
    assert "0" in hand.missing()
    assert hand.nothing() == places()


def test_every_right_answer_can_be_clicked() -> None:
    """In each stretch lies a crossing of the grid, on the smallest sheets and on those that are cut."""
    for made in of_form("find", "mark", range(1, 9)):
        hand, scale = finding(made.code), board(made)
        for crossing in one_in_each(made):
            column, row = scale.cell(crossing)
            hand.point_at(scale, column + 0.5, row + 0.5)
        assert made.judge(hand.answer() or hand.nothing()).right, made.code


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
        hand = finding(made.code)
        for _ in range(12):
            hand.next_point(back=False)
            words = " ".join(hand.says())
            assert not any(role in words for role in (*ROLES.values(), "stretch", "slanted"))
            look = hand.look()
            assert look == Look(cursor_at=hand.at)
