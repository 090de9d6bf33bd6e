"""Drills on a sheet of one's own: of each kind and form, found again from where the creases run."""

from __future__ import annotations

import pytest

from drills.flatfold import check_pattern
from drills.geometry import move_between
from drills.questions import (
    KINDS,
    CodeError,
    OwnCode,
    OwnDrillError,
    ReadStep,
    checked_own,
    make_own,
    parse_own_code,
)
from drills.questions.own import ASKED_OF_OWN
from drills.structures import OwnSheet, Stretch, draw
from tests.drills.sheets import is_slanted, map_sheet

HASH = "0123456789ab"
WORKED = draw(Stretch((2, 2), pleats=1))
FORMS = [(kind, form) for kind in ASKED_OF_OWN for form in KINDS[kind].forms]


@pytest.mark.parametrize(("kind", "form"), FORMS)
@pytest.mark.parametrize("seed", range(3))
def test_each_form_is_asked_of_it(kind: str, form: str, seed: int) -> None:
    """Roles of the file play no part; the right answer is right, and the code makes the drill anew."""
    bare = WORKED.__class__(
        WORKED.vertices,
        tuple(e._replace(role="border" if e.label == "B" else "other") for e in WORKED.edges),
    )
    code = checked_own(OwnCode(kind, HASH, seed, form))
    drill = make_own(OwnSheet.of(bare), code)
    assert drill.judge(drill.question.right_answer(drill)).right
    assert drill.skill in KINDS[kind].skills
    assert parse_own_code(drill.code) == code
    assert make_own(OwnSheet.of(bare), code).to_line() == drill.to_line()


def test_roles_follow_from_where_creases_run() -> None:
    """Those of a drawn sheet are found again, hinges as pleat lines: both run along the grid."""
    found = OwnSheet.of(WORKED).pattern
    wanted = ["pleat" if edge.role == "hinge" else edge.role for edge in WORKED.edges]
    assert [edge.role for edge in found.edges] == wanted


def test_one_label_is_switched() -> None:
    """The checker, which knows nothing of the question, finds that one repair and no other."""
    drill = make_own(OwnSheet.of(WORKED), OwnCode("labels", HASH, 5))
    report = check_pattern(drill.pattern)
    assert report.repairs == (drill.question.answer.items,)
    assert len(drill.question.answer.items) == 1


def test_steps_are_asked_of_slanted_creases() -> None:
    """By where the lit crease runs, over many seeds."""
    for seed in range(20):
        drill = make_own(OwnSheet.of(WORKED), OwnCode("steps", HASH, seed))
        assert isinstance(drill.question, ReadStep)
        lit = drill.question.lit
        assert is_slanted(move_between(WORKED.vertices[lit.start], WORKED.vertices[lit.end]))


def test_what_cannot_be_asked() -> None:
    """Each time one sentence: nothing slanted, no turning point, labels that cannot fold."""
    grid = draw(Stretch((1, 1), pleats=1))
    with pytest.raises(OwnDrillError, match="No turning point"):
        make_own(OwnSheet.of(grid), OwnCode("sinks", HASH, 1, "points"))
    line = next(e for e in grid.creases if len(grid.interior_ends[e]) == 2)
    with pytest.raises(OwnDrillError, match="does not fold flat"):
        make_own(OwnSheet.of(grid.switched([line])), OwnCode("find", HASH, 1))
    flat = map_sheet(1, 3).with_labels("B" if edge.label == "B" else "M" for edge in map_sheet(1, 3).edges)
    with pytest.raises(OwnDrillError, match="No slanted crease"):
        make_own(OwnSheet.of(flat), OwnCode("steps", HASH, 1))


@pytest.mark.parametrize("text", ["labels-own-12-3", "labels-own-0123456789AB-3", "labels-3-41", "own", ""])
def test_other_texts_are_no_such_codes(text: str) -> None:
    """Twelve small hexadecimal digits, no more and no fewer."""
    assert parse_own_code(text) is None


def test_codes_of_no_drill() -> None:
    """A kind or form that there is not, a seed that is too large."""
    for code in (
        OwnCode("cranes", HASH, 1),
        OwnCode("sinks", HASH, 1, "read"),
        OwnCode("find", HASH, 10**10),
    ):
        with pytest.raises(CodeError):
            checked_own(code)
