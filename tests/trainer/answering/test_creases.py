from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from drills.geometry import Point
from drills.pattern import LABELS, ROLES
from drills.questions import Drill, Marks
from tests.trainer.answering.made import board, drill, marked, of_form
from trainer.answering import CreasesInput
from trainer.board import DOTS_ACROSS, DOTS_DOWN, Look, creases_near
from trainer.ways_of_asking import input_for

Spot = tuple[float, float]
LABELLED, SINKS = "labels-2-1", "sinks-1-1"
ROLE_WORDS = re.compile("|".join(words for role, words in ROLES.items() if role != "other"))


def creases(code: str = LABELLED) -> CreasesInput:
    """Return the answer input of a drill that asks for creases."""
    entry = input_for(drill(code))
    assert isinstance(entry, CreasesInput)
    return entry


def on(entry: CreasesInput, edge: int) -> CreasesInput:
    """Return the answer input with its cursor on a crease."""
    entry.cursor = entry.track.on(edge)
    return entry


def marks(entry: CreasesInput) -> frozenset[int]:
    """Return what the board shows as marked."""
    return entry.look().marked.edges


def spots(shown: Drill) -> Iterator[Spot]:
    """Yield the middle of every cell of a board, in cells."""
    scale = board(shown)
    yield from ((x + 0.5, y + 0.5) for y in range(scale.rows) for x in range(scale.columns))


def test_a_mark_is_made_and_taken_away_by_the_same_key() -> None:
    """The crease under the cursor, and the board and the words say so."""
    entry = creases()
    edge = entry.under_cursor()
    assert edge is not None
    entry.mark()
    assert entry.answer() == marked([edge])
    assert marks(entry) == {edge}
    assert "(marked)" in " ".join(entry.says())
    entry.mark()
    assert marks(entry) == set()
    assert "(marked)" not in " ".join(entry.says())


def test_taking_back_takes_the_latest_mark_first() -> None:
    """Not the lowest number, not the one under the cursor; at last it does nothing."""
    entry = creases()
    chosen = [entry.drill.pattern.creases[place] for place in (9, 2, 5)]
    for edge in chosen:
        on(entry, edge).mark()
    for left in (chosen[:2], chosen[:1], [], []):
        entry.undo()
        assert marks(entry) == set(left)


def test_taking_back_brings_back_a_mark_that_was_taken_away() -> None:
    """A second press of Space by mistake is mended like the first."""
    entry = creases()
    chosen = [entry.drill.pattern.creases[place] for place in (9, 2)]
    for edge in chosen:
        on(entry, edge).mark()
    on(entry, chosen[0]).mark()
    assert marks(entry) == set(chosen[1:])
    entry.undo()
    assert marks(entry) == set(chosen)
    entry.undo()
    assert marks(entry) == set(chosen[:1])


@pytest.mark.parametrize("code", [LABELLED, SINKS, "labels-4-1", "sinks-4-1"])
def test_clicks_on_a_spot_go_through_the_creases_there_and_at_last_nothing(code: str) -> None:
    """Nearest first, one at a time; then the round begins anew."""
    entry = creases(code)
    scale = board(entry.drill)
    for x, y in list(spots(entry.drill))[::7]:
        near = creases_near(entry.drill.pattern, scale, x, y)
        seen = []
        for _ in range(len(near) + 1):
            entry.point_at(scale, x, y)
            seen.append(marks(entry))
        assert seen == [*({edge} for edge in near), set()]


def test_every_crease_is_marked_by_a_click_on_its_middle() -> None:
    """Where the sheet is drawn as 80 columns by 24 rows draw it, the nearest crease is the one meant."""
    for code in (LABELLED, SINKS, "sinks-4-1"):
        entry = creases(code)
        scale, pattern = board(entry.drill), entry.drill.pattern
        for edge in pattern.creases:
            (x, y), (z, w) = (scale.dot(point) for point in pattern.ends(edge))
            entry.point_at(scale, (x + z + 1) / 2 / DOTS_ACROSS, (y + w + 1) / 2 / DOTS_DOWN)
            assert entry.under_cursor() == edge
        assert marks(entry) == set(pattern.creases)


def test_a_second_click_keeps_a_mark_made_before() -> None:
    """Going on to the next crease of a spot does not take away what was marked there on purpose."""
    entry = creases()
    scale = board(entry.drill)
    crowded = next(
        spot for spot in spots(entry.drill) if len(creases_near(entry.drill.pattern, scale, *spot)) > 1
    )
    first, second, *_ = creases_near(entry.drill.pattern, scale, *crowded)
    on(entry, second).mark()
    entry.point_at(scale, *crowded)
    assert marks(entry) == {first, second}
    entry.point_at(scale, *crowded)
    assert marks(entry) == {second}


def test_a_click_beside_everything_marks_nothing() -> None:
    """Nor does it move the cursor."""
    entry = creases()
    before = entry.cursor
    entry.point_at(board(entry.drill), -30, -30)
    assert marks(entry) == set()
    assert entry.cursor == before


def test_no_word_says_which_creases_run_inside() -> None:
    """The role is what is asked: not said at any crease, and neither is a label, for there is none."""
    for made in of_form("sinks", "mark", range(1, 3)):
        for words in said_everywhere(creases(made.code)).values():
            assert not ROLE_WORDS.search(words)
            assert not re.search("|".join(LABELS.values()), words)


def test_labels_are_said_as_they_are_shown() -> None:
    """The wrong ones too, in the same words as the right ones; which are wrong is not told."""
    for made in of_form("labels", "mark", range(1, 3)):
        for edge, words in said_everywhere(creases(made.code)).items():
            crease = made.pattern.edges[edge]
            assert f", {LABELS[crease.label]}," in words
            assert ROLES[crease.role] in words
            assert "wrong" not in words


def said_everywhere(entry: CreasesInput) -> dict[int, str]:
    """Return what the answer input says at every crease that turns and steps from point to point reach."""
    said = {}
    for _ in entry.track.vertices:
        entry.next_point(back=False)
        for _ in entry.track.creases_at(entry.cursor.vertex):
            entry.turn(clockwise=True)
            assert entry.cursor.edge is not None
            said[entry.cursor.edge] = " ".join(entry.says())
    assert set(said) == set(entry.drill.pattern.creases)
    return said


def test_keys_alone_mark_every_right_answer() -> None:
    """Next point, turn and mark are enough, in either form that asks for creases."""
    for kind in ("sinks", "labels"):
        for made in of_form(kind, "mark", range(1, 3)):
            entry, truth = creases(made.code), made.question.answer
            assert isinstance(truth, Marks)
            for _ in entry.track.vertices:
                entry.next_point(back=True)
                for _ in entry.track.creases_at(entry.cursor.vertex):
                    entry.turn(clockwise=False)
                    if entry.cursor.edge in truth.items - set(entry.marks):
                        entry.mark()
            assert made.judge(marked(entry.marks)).right


def test_the_board_shows_the_cursor_and_no_more_than_the_question() -> None:
    """No crease is lit, no verdict is drawn, and labels are shown only where they are asked about."""
    for code, labels in ((LABELLED, True), (SINKS, False)):
        entry = creases(code)
        entry.go("right")
        look = entry.look()
        assert look.cursor_edge == entry.under_cursor()
        assert look.cursor_at == entry.drill.pattern.vertices[entry.cursor.vertex]
        assert look.labels is labels
        assert look.lit == frozenset()
        assert look.fault_points == frozenset()
        assert look.right == look.missed == look.wrong == Look().marked
        assert look.shaded == ()


def test_places_are_counted_from_the_top_left_corner() -> None:
    """The point under the cursor is said as on the verdict."""
    entry = creases()
    left, _, _, top = entry.drill.pattern.box
    vertex = entry.drill.pattern.vertices.index(Point(left, top))
    entry.cursor = entry.track.at(vertex)
    assert "(0; 0)" in entry.says()[0]


@pytest.mark.parametrize("code", [LABELLED, SINKS])
def test_no_mark_is_no_answer_yet(code: str) -> None:
    """That there is nothing to mark is said by a key of its own; what to do is one sentence."""
    entry = creases(code)
    assert entry.answer() is None
    assert entry.missing().endswith(".")
