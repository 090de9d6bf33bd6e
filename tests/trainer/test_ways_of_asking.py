"""Every way of asking has its answer input and its manner as text."""

from __future__ import annotations

import pytest

from drills.questions import KINDS
from trainer.ways_of_asking import WAYS


@pytest.mark.parametrize("kind", KINDS)
def test_every_form_of_a_kind_can_be_answered_and_told(kind: str) -> None:
    """On the screen by its answer input, on the command line by its manner as text."""
    assert {form.question for form in KINDS[kind].forms.values()} <= WAYS.keys()


def test_no_way_of_asking_is_left_over() -> None:
    """Each is the way of some form."""
    assert {form.question for row in KINDS.values() for form in row.forms.values()} == set(WAYS)
