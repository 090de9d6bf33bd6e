"""Codes as text."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.questions import KINDS, LARGEST_SEED, Code, CodeError, checked, parse_code, read_code
from tests.drills.questions.codes import FORMS, PLACES

codes = st.builds(
    lambda place, seed: checked(Code(place[0], place[2], seed, form=place[1])),
    st.sampled_from(PLACES),
    st.integers(0, LARGEST_SEED),
)


@given(codes)
def test_a_code_written_and_read_is_the_same_code(code: Code) -> None:
    """However it is typed: with space around, with its first form named, with noughts in front."""
    assert read_code(str(code)) == code
    assert read_code(f"  {code}\n") == code
    first_form = next(form for kind, form in FORMS if kind == code.kind)
    assert read_code(f"{code.kind}-0{code.level}-{code.seed}.1-{code.form or first_form}") == code


def test_codes_look_as_documented() -> None:
    """KIND-LEVEL-SEED, a later generator after a point, a further form after a hyphen."""
    assert str(Code("labels", 3, 41)) == "labels-3-41"
    assert str(Code("labels", 3, 41, 2)) == "labels-3-41.2"
    assert parse_code("labels-3-41.2") == Code("labels", 3, 41, 2)
    assert read_code("steps-1-7-place") == Code("steps", 1, 7, form="place")
    assert str(read_code("steps-1-7-read")) == "steps-1-7"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "A code looks like labels-3-41"),
        ("labels", "A code looks like labels-3-41"),
        ("labels-3", "A code looks like labels-3-41"),
        ("labels-3-", "A code looks like labels-3-41"),
        ("labels--3-41", "A code looks like labels-3-41"),
        ("labels-3--41", "A code looks like labels-3-41"),
        ("labels-3-41-", "A code looks like labels-3-41"),
        ("labels-3-41-mark-mark", "A code looks like labels-3-41"),
        ("LABELS-3-41", "A code looks like labels-3-41"),
        ("labels-3-4.1.1", "A code looks like labels-3-41"),
        ("labels-3-٤١", "A code looks like labels-3-41"),
        ("labels-3-41\x1b[2J", "A code looks like labels-3-41"),
        ("labels-3-99999999999", "A code looks like labels-3-41"),
        ("x" * 10_000, "A code looks like labels-3-41"),
        ("labels-3-1000000001", "The seed of a code is a whole number from 0 to 1000000000"),
        ("riddles-3-41", f"choose from {', '.join(KINDS)}."),
        ("steps-1-1-points", "The forms of steps are read, place"),
        ("find-3-41-points", "The forms of find are mark"),
        ("labels-0-41", "The levels of labels go from 1 to 8"),
        ("labels-9-41", "The levels of labels go from 1 to 8"),
        ("labels-99-41", "The levels of labels go from 1 to 8"),
        ("find-1-41", "The levels of find go from 2 to 8"),
        ("labels-3-41.2", "The last way of making these drills is labels-3-41;"),
        ("labels-3-41.0", "The last way of making these drills is labels-3-41;"),
        ("sinks-4-41.4", "The last way of making these drills is sinks-4-41.3;"),
        ("sinks-4-41.2-join", "The last way of making these drills is sinks-4-41-join;"),
    ],
)
def test_what_names_no_drill_is_refused_in_one_sentence(text: str, says: str) -> None:
    """The sentence says what would name one; if it repeats anything, it is the code that does."""
    with pytest.raises(CodeError) as refusal:
        read_code(text)
    sentence = str(refusal.value)
    assert says in sentence
    assert re.fullmatch(r"[A-Z](?:[^.\n\x1b]|[.](?=\d))*[.]", sentence)


@given(st.text(max_size=24))
def test_no_text_is_worse_than_refused(text: str) -> None:
    """Whatever is typed names a drill or raises CodeError."""
    try:
        code = read_code(text)
    except CodeError:
        return
    assert read_code(str(code)) == code


@pytest.mark.parametrize("seed", [-1, LARGEST_SEED + 1])
def test_a_seed_out_of_range_is_refused(seed: int) -> None:
    """A code that is made, not typed, is held to the same seeds."""
    with pytest.raises(CodeError, match="A seed is a whole number from 0 to 1000000000"):
        checked(Code("steps", 1, seed))
