from __future__ import annotations

import re

import pytest

from drills.flatfold import balances
from drills.geometry import Point, Step
from drills.pattern import place_of
from drills.questions import KINDS, Drill, MarkedPlaces, Marks, Outlines, ReadStep, Verdict
from drills.structures import Stretch
from tests.drills.questions.codes import place_outside, right_answer
from tests.trainer.answering.made import FORMS, board, drill, marked, nothing_wrong, of_form
from trainer.answering import verdict_look
from trainer.board import Look, draw_board, points_at
from trainer.board.palette import Ink, Mark
from trainer.board.static_layer import layer_of
from trainer.ways_of_asking import input_for

MARKED = [
    (kind, form) for kind, form in FORMS if KINDS[kind].forms[form].question.takes in (Marks, MarkedPlaces)
]
"""The forms that are answered by marks."""
A_PLACE = re.compile(r"\([0-9/ ]+; [0-9/ ]+\)")


def shown(made: Drill, given: object) -> tuple[Look, Verdict]:
    """Return how the board shows the verdict on an answer, and the verdict."""
    verdict = made.judge(given)
    return verdict_look(made, verdict, input_for(made).look()), verdict


def wrong_of(made: Drill) -> Marks | MarkedPlaces:
    """Return an answer that has one mark too few and one too many, or one where there is nothing."""
    if isinstance(made.question.answer, Outlines):
        given = right_answer(made)
        assert isinstance(given, MarkedPlaces)
        return MarkedPlaces(frozenset([*sorted(given.points)[1:], place_outside(made)]))
    assert isinstance(made.question.answer, Marks)
    right = sorted(made.question.answer.items)
    others = made.pattern.interior if made.question.marks_points else made.pattern.creases
    return marked([*right[1:], next(other for other in others if other not in right)])


def test_the_staircase_of_a_step_is_drawn() -> None:
    """Across, then up, as often as it repeats, from the start of the lit crease to its end."""
    made = drill("steps-3-1")
    look, _ = shown(made, Step(1, 1, 1))
    assert isinstance(made.question, ReadStep)
    lit = made.question.lit
    start, end = (made.pattern.vertices[vertex] for vertex in (lit.start, lit.end))
    x, y = start
    assert look.staircase[:3] == (start, Point(x + 1, y), Point(x + 1, y - 2))
    assert look.staircase[-1] == end
    assert len(look.staircase) == 7
    assert look.lit == frozenset(lit.edges)


def test_the_right_place_is_shown_beside_the_chosen_one() -> None:
    """On the bare grid, with the way there."""
    made = drill("steps-1-3-place")
    look, _ = shown(made, Point(1, 1))
    assert look.bare
    assert look.missed.points == {Point(4, 3)}
    assert look.wrong.points == {Point(1, 1)}
    assert look.staircase[-1] == Point(4, 3)
    right, _ = shown(made, Point(4, 3))
    assert right.right.points == {Point(4, 3)}
    assert right.missed == right.wrong == Look().marked


@pytest.mark.parametrize(("kind", "form"), MARKED)
def test_misses_and_false_alarms_are_drawn_apart(kind: str, form: str) -> None:
    """As many as the verdict counts; what was marked while answering is gone."""
    for made in of_form(kind, form):
        look, verdict = shown(made, wrong_of(made))
        assert not verdict.right
        if isinstance(made.question.answer, Outlines):
            missed = [outline for outline in made.question.answer.edges if outline <= look.missed.edges]
            counts = [len(missed), len(look.wrong.points)]
        else:
            by_points = made.question.marks_points
            counts = [len(seen.points if by_points else seen.edges) for seen in (look.missed, look.wrong)]
        assert counts == [verdict.misses, verdict.false_alarms]
        assert look.marked == Look().marked


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_a_right_answer_has_no_miss_on_the_board(kind: str, form: str) -> None:
    """Nor a false alarm; cursor and hiding are gone, and the board can be drawn."""
    for made in of_form(kind, form):
        look, verdict = shown(made, right_answer(made))
        assert verdict.right
        assert look.missed == look.wrong == look.marked == Look().marked
        assert not look.hidden
        assert look.cursor_edge is None
        assert look.cursor_at is None
        assert len(draw_board(made.pattern, look, board(made)).lines) == board(made).rows


@pytest.mark.parametrize("form", ["mark", "points", "join"])
def test_the_parts_that_go_in_are_shaded(form: str) -> None:
    """After every answer about inside lines on a sheet that shows the whole outline."""
    for made in of_form("sinks", form):
        look, _ = shown(made, wrong_of(made))
        assert any(look.shaded) or is_cut(made)
        assert len(look.shaded) % 2 == 0
        parts = [set(part) for part in look.shaded]
        assert not parts or not set.intersection(*parts)
        assert all(set(cycle) <= set(range(len(made.pattern.vertices))) for part in parts for cycle in part)


def is_cut(made: Drill) -> bool:
    """Whether the paper's edge may cut through the outline, or there is none."""
    return not isinstance(made.design, Stretch) or any(made.design.crop)


def test_a_stretch_that_was_found_is_lit_whole() -> None:
    """Its outline is shown as right, or as missed, with one sign in its middle, and nothing else is lit."""
    for made in of_form("find", "mark"):
        assert isinstance(made.question.answer, Outlines)
        look, _ = shown(made, right_answer(made))
        assert look.right.edges == frozenset().union(*made.question.answer.edges)
        look, _ = shown(made, MarkedPlaces(frozenset()))
        assert look.missed.edges == frozenset().union(*made.question.answer.edges)
        assert look.outlines == made.question.answer.edges
        signs = characters(made, look).count("!")
        assert signs == len(made.question.answer.edges)
        assert not look.shaded


def characters(made: Drill, look: Look) -> str:
    """Return what the board shows in this look, row by row."""
    lines = draw_board(made.pattern, look, board(made)).lines
    return "\n".join("".join(span.text for span in line) for line in lines)


def test_points_out_of_balance_are_drawn() -> None:
    """At every point out of balance its counts, at every wrong label what it was and should be."""
    for made in of_form("labels", "mark"):
        look, _ = shown(made, marked([]))
        labels = made.pattern.labels()
        off = [v for v in made.pattern.interior if not balances(made.pattern, labels, v)]
        assert {point for point, _ in look.counts} == points_at(made.pattern, off)
        for vertex, (_, words) in zip(off, look.counts, strict=True):
            meeting = [labels[edge] for edge in made.pattern.around[vertex]]
            assert words == f"{meeting.count('M')}M {meeting.count('V')}V"
        assert isinstance(made.question.answer, Marks)
        for edge, words in look.notes:
            assert words == f"{labels[edge]}>{made.truth.labels()[edge]}"
        assert {edge for edge, _ in look.notes} == made.question.answer.items
        seen = characters(made, look)
        assert all(words in seen for _, words in (*look.notes, *look.counts))


@pytest.mark.parametrize(("kind", "form"), [form for form in FORMS if form[0] != "steps"])
def test_all_is_dim_but_what_is_judged_kept_and_told(kind: str, form: str) -> None:
    """Cells of a crease that is none of these are passed over; those of a true one are bold and not.

    Signs, words and the dots at tips of flaps stand out wherever they are.
    """
    for made in of_form(kind, form):
        look, _ = shown(made, wrong_of(made))
        drawn = draw_board(made.pattern, look, board(made))
        styles = [span.style for line in drawn.lines for span in line for _ in span.text]
        layer = layer_of(made.pattern, board(made), look.labels, frozenset())
        true = look.right.edges | look.missed.edges
        bright = true | look.wrong.edges | look.kept | look.lit | frozenset(look.angles)
        inside = [set(layer.edges[edge]) - layer.keep for edge in true]
        assert all(styles[cell].mark is not Mark.PASSED for cells in inside for cell in cells)
        lit = {cell for edge in bright for cell in layer.edges[edge]}
        for edge in set(made.pattern.creases) - bright:
            far = [cell for cell in layer.edges[edge] if not near(cell, lit, board(made).columns)]
            unwritten = [cell for cell in far if styles[cell].ink not in (Ink.SIGN, Ink.REASON, Ink.POINT)]
            assert all(styles[cell].mark is Mark.PASSED for cell in unwritten)


def near(cell: int, cells: set[int], columns: int) -> bool:
    """Whether a cell is one of these, or beside one."""
    return any(cell + row * columns + place in cells for row in (-1, 0, 1) for place in (-1, 0, 1))


def test_signs_of_the_verdict_are_on_the_board() -> None:
    """Missed, too many and out of balance can be told without colour."""
    made = drill("labels-2-1")
    look, _ = shown(made, wrong_of(made))
    assert {"×", "!", ">"} <= set(characters(made, look))  # noqa: RUF001  (the board's sign)
    assert "?" not in characters(made, look)


def test_a_hint_for_steps_has_no_number() -> None:
    """It says how to read, not what is read."""
    for form in ("read", "place"):
        for made in of_form("steps", form):
            assert not any(sign.isdigit() for sign in made.question.hint(made))


def test_a_hint_for_finding_is_the_same_for_every_sheet() -> None:
    """Whether or not there is a stretch; no place is named."""
    hints = {made.question.hint(made) for made in of_form("find", "mark", range(1, 9), range(2, 5))}
    assert len(hints) == 1
    assert not A_PLACE.search(hints.pop())


def test_a_hint_names_none_of_the_points_asked_for() -> None:
    """The corner of the outline that it names is neither a turning point nor the end of the line."""
    for form in ("points", "join"):
        for made in of_form("sinks", form, range(1, 9)):
            assert isinstance(made.question.answer, Marks)
            for vertex in made.question.answer.items:
                assert place_of(made.pattern, vertex) not in made.question.hint(made)


def test_a_hint_for_inside_lines_is_the_same_where_there_are_none() -> None:
    """A sheet with only the outline's tip gets no other sentence than the rest."""
    sentences = {
        A_PLACE.sub("HERE", made.question.hint(made))
        for made in of_form("sinks", "mark", range(1, 30))
        if wholly(made)
    }
    assert len(sentences) == 1


def wholly(made: Drill) -> bool:
    """Whether a corner of the outline is on the sheet for the hint to name."""
    return A_PLACE.search(made.question.hint(made)) is not None


def test_a_hint_for_labels_names_a_point_to_count_at() -> None:
    """Where something is wrong, a point whose counts are off; it says nothing of the creases there."""
    for made in of_form("labels", "mark", range(1, 16)):
        if made.spec.detail == "nothing":
            continue
        labels = made.pattern.labels()
        off = [v for v in made.pattern.interior if not balances(made.pattern, labels, v)]
        assert any(place_of(made.pattern, vertex) in made.question.hint(made) for vertex in off)
        assert not re.search("mountain,|valley,|wrong", made.question.hint(made))


def a_hint(code: str) -> str:
    """Return the hint of a drill."""
    made = drill(code)
    return made.question.hint(made)


def test_a_hint_does_not_tell_that_nothing_is_wrong() -> None:
    """It is the same sentence with another place, and the place is one that creases meet at."""
    a_wrong_one = A_PLACE.sub("HERE", a_hint("labels-2-1"))
    faultless = list(nothing_wrong())
    assert len(faultless) > 10
    for made in faultless:
        assert A_PLACE.sub("HERE", made.question.hint(made)) == a_wrong_one
        assert any(
            place_of(made.pattern, vertex) in made.question.hint(made) for vertex in made.pattern.interior
        )
