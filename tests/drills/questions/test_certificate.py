"""The certificate finds a fault in every drill that was tampered with."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from drills.geometry import Point, Step
from drills.questions import kinds
from drills.questions.certificate import check_drill
from drills.questions.code import Code
from drills.questions.drill import Drill, Marks, Outlines, Truth
from drills.questions.kinds import make, read_code
from tests.drills.questions.codes import FORMS, drills, levels_of
from tests.drills.questions.known import (
    SHEET,
    edge,
    find_stretch,
    join_points,
    mark_inside,
    mark_points,
    of_role,
    place_side,
    read_side,
    vertex,
    wrong_labels,
)

UNSURE = ("The answer is not certain.",)


@pytest.mark.parametrize(
    ("drill", "answers"),
    [
        (read_side(), [Step(3, -1, 1), Step(6, -2, 1), Step(3, 1, 2), Step(1, -3, 2), Marks(frozenset())]),
        (place_side(), [Point(7, 4), Point(4, 2), Step(3, -1, 2)]),
        (
            mark_inside(),
            [of_role("outline"), of_role("inside") | {0}, frozenset({edge((1, 1), (9, 7))}), frozenset()],
        ),
        (mark_points(), [frozenset({vertex(4, 2)}), frozenset({vertex(1, 1)}), frozenset()]),
        (join_points(), [frozenset({vertex(6, 6)}), frozenset({vertex(8, 5), vertex(6, 6)}), frozenset()]),
        (wrong_labels([edge((1, 1), (4, 2))]), [frozenset({edge((4, 2), (7, 2))}), frozenset()]),
        (wrong_labels([]), [frozenset({edge((1, 1), (4, 2))})]),
        (
            find_stretch(),
            [
                Outlines(()),
                Outlines((of_role("inside"),)),
                Outlines((of_role("outline") - {edge((1, 1), (4, 2))},)),
                Outlines((of_role("outline"),) * 2),
                of_role("outline"),
            ],
        ),
    ],
)
def test_a_wrong_answer_is_not_certain(drill: Drill, answers: list[Truth | frozenset[int]]) -> None:
    """Of each form: a step not reduced or turned, too few and too many marks, another point or outline."""
    assert check_drill(drill) == ()
    for answer in answers:
        given = Marks(answer) if isinstance(answer, frozenset) else answer
        assert check_drill(replace(drill, answer=given)) == UNSURE


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_a_switched_label_of_the_true_sheet_is_found(kind: str, form: str) -> None:
    """Whichever crease of the true sheet is switched, its inner ends are named."""
    for level in levels_of(kind)[:: 2 if kind == "find" else 1]:
        (drill,) = drills(kind, form, level, range(7, 8))
        for crease in drill.truth.creases[:: 5 + len(drill.truth.creases) // 20]:
            found = check_drill(replace(drill, truth=drill.truth.switched([crease])))
            ends = drill.truth.interior_ends[crease]
            assert found[: len(ends)] == tuple(
                f"The labels at vertex {end} cannot fold." for end in sorted(ends)
            )


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_a_moved_vertex_is_found(kind: str, form: str) -> None:
    """A point a third of a square to the right and a fifth up spoils the angles at itself or beside it."""
    for level in levels_of(kind)[:: 2 if kind == "find" else 1]:
        (drill,) = drills(kind, form, level, range(7, 8))
        for at in drill.truth.interior[:: 1 + len(drill.truth.interior) // 15]:
            x, y = drill.truth.vertices[at]
            aside = Point(x + Fraction(1, 3), y + Fraction(1, 5))
            points = tuple(aside if v == at else p for v, p in enumerate(drill.truth.vertices))
            found = check_drill(replace(drill, truth=replace(drill.truth, vertices=points)))
            assert any(sentence.startswith("The angles at vertex") for sentence in found)


def test_labels_shown_that_are_not_the_true_ones_with_the_wrong_switched_are_found() -> None:
    """One more label switched on the sheet shown, or one less, and the answer is not certain."""
    drill = wrong_labels([edge((1, 1), (4, 2))])
    for shown in (SHEET, drill.pattern.switched([edge((4, 2), (7, 3))])):
        assert check_drill(replace(drill, pattern=shown)) == UNSURE


def test_a_drill_with_a_fault_is_never_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    """The maker raises rather than give out a drill whose certificate fails, and says for which code."""
    monkeypatch.setattr(kinds, "check_drill", lambda drill: ("The answer is not certain.",))
    with pytest.raises(RuntimeError, match=r"steps-1-987654 is not fit to be shown: The answer"):
        make(Code("steps", 1, 987654))


def test_the_same_code_gives_the_same_drill() -> None:
    """Made a second time from nothing, a drill is equal in every part."""
    for text in ("steps-4-5", "sinks-4-5-join", "labels-4-5", "find-4-5", "sinks-6-5", "labels-7-5"):
        first = make(read_code(text))
        make.cache_clear()
        second = make(read_code(text))
        assert first is not second
        assert first == second
