"""An answer as a line of text: it comes back as it was given."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drills.geometry import Point, Step
from drills.questions import KINDS, MarkedPlaces, Marks, codes_of, given_of, make

FORMS = [(kind, form) for kind, row in KINDS.items() for form in row.forms]


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_the_right_answer_of_every_form_comes_back(kind: str, form: str) -> None:
    """By the line that its verdict carries, and with the same verdict."""
    drill = make(next(codes_of(kind, form, KINDS[kind].nearest_level(2), 11)))
    given = drill.question.right_answer(drill)
    verdict = drill.judge(given)
    again = given_of(drill.question.takes, verdict.given)
    assert again == given
    assert drill.judge(again) == verdict
    assert 0 < len(verdict.given) <= 200


@pytest.mark.parametrize(
    ("given", "line"),
    [
        (Step(1, -3, 2), "1,-3,2"),
        (Point(Fraction(1, 2), 3), "1/2,3"),
        (Marks(frozenset({12, 4})), "{4 12}"),
        (Marks(frozenset()), "{}"),
        (MarkedPlaces(frozenset({Point(4, 5), Point(Fraction(7, 2), 0)})), "{7/2,0 4,5}"),
        (7, "7"),
    ],
)
def test_lines_stay_as_they_are(given: object, line: str) -> None:
    """Logs have them for ever."""
    assert given_of(type(given), line) == given


@pytest.mark.parametrize(
    "line", ["", "1", "1,2,3,4", "{1 2}x", "1e9,1,1", "1/0,1,1", "a,b,c", "1" * 12 + ",1,1"]
)
def test_another_line_is_refused(line: str) -> None:
    """A log comes from a file: nothing in it is trusted."""
    with pytest.raises((ValueError, TypeError)):
        given_of(Step, line)
