"""Drills verified anew: every true sheet folds for the independent solver, every answer restores it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import cycle, islice

import pytest

from drills.questions import ALONE, KINDS, LARGE, SEVERAL, Code, Drill, Marks, checked, make, newest
from tests.drills.flatfold.assorted import folds_anew
from tests.independent.layers import forget

PLACES = [
    (kind, form, level) for kind, entry in KINDS.items() for form in entry.forms for level in entry.levels
]


def test_a_first_drill() -> None:
    """The sheet of the first code of the first kind folds."""
    assert is_right(make(next(codes(1))))


def codes(count: int, from_seed: int = 0, up_to: int = LARGE) -> Iterator[Code]:
    """Yield so many codes, going round kinds, forms and levels up to one, seeds far apart."""
    rounds = cycle(place for place in PLACES if place[2] <= up_to)
    for number, (kind, form, level) in enumerate(islice(rounds, count)):
        yield newest(checked(Code(kind, level, from_seed + 1009 * number, form=form)))


def is_right(drill: Drill) -> bool:
    """Whether the true sheet folds and the answer, where it names labels, leads from what is shown to it."""
    if drill.kind == "labels":
        assert isinstance(drill.question.answer, Marks)
        assert drill.pattern.switched(drill.question.answer.items) == drill.truth
        assert drill.question.answer.items or drill.pattern == drill.truth
    return folds_anew(drill.truth)


def test_a_dozen_drills() -> None:
    """Twelve drills, going round kinds and forms, at levels up to 5."""
    assert [str(code) for code in codes(12, up_to=ALONE) if not is_right(make(code))] == []


@pytest.mark.long
def test_a_drill_of_several_structures() -> None:
    """One at level 6, labels and all."""
    assert is_right(make(newest(checked(Code("labels", SEVERAL, 2026)))))


@pytest.mark.long
def test_six_hundred_drills() -> None:
    """Six hundred more, up to level 5."""
    assert [str(code) for code in codes(600, 10**6, ALONE) if not is_right(make(code))] == []


@pytest.mark.long
@pytest.mark.parametrize(("level", "each"), [(SEVERAL, 4), (LARGE, 1)])
def test_drills_on_larger_sheets(level: int, each: int) -> None:
    """A few of each form at levels 6 and 7, whose sheets take the plain solver seconds each."""
    for kind, form, at in PLACES:
        for seed in range(each if at == level else 0):
            code = newest(checked(Code(kind, level, 10**6 + seed, form=form)))
            assert is_right(make(code)), code
            forget()


@pytest.mark.long
def test_sheets_shown_with_wrong_labels_do_not_fold() -> None:
    """What is shown with wrong labels has no layers for the independent solver either."""
    for seed in range(60):
        drill = make(checked(Code("labels", 1 + seed % SEVERAL, 5000 + seed)))
        assert isinstance(drill.question.answer, Marks)
        assert folds_anew(drill.pattern) is not bool(drill.question.answer.items)
