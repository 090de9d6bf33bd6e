"""Places are written in one way wherever the program speaks, and a step in another."""

from __future__ import annotations

import re

import pytest

from drills.questions import Code, Drill, make
from tests.trainer.cli.reading import places_in
from trainer.text.asked import tags_of
from trainer.text.drill import sheet_in_text, verdict_in_text
from trainer.ways_of_asking import way_of

CODES = [
    Code(kind, level, seed, form=form)
    for kind, form in (
        ("steps", ""),
        ("steps", "place"),
        ("sinks", ""),
        ("sinks", "points"),
        ("sinks", "join"),
        ("labels", ""),
        ("find", ""),
    )
    for level, seed in ((3, 4), (5, 12))
]
NUMBERS_BY_COMMA = re.compile(r"\d,\s?\d")
PLACE_LIKE_A_STEP = re.compile(r"\d across, \d|(?:at|to|from|At) \d+ across")


def spoken(drill: Drill) -> str:
    """Return all that is said of a drill: sheet, hint, cursor, and the verdict on its own answer."""
    tags = tags_of(drill)
    answer = drill.question.right_answer(drill)
    entry = way_of(drill).input(drill, drill.question)
    words = [*sheet_in_text(drill, tags), drill.question.hint(drill), *entry.says()]
    words += verdict_in_text(drill, answer, drill.judge(answer), tags)
    return "\n".join(words)


@pytest.mark.parametrize("code", CODES, ids=str)
def test_no_place_is_written_with_a_comma_or_like_a_step(code: Code) -> None:
    """A comma between numbers is a decimal sign for some; "across" and "down" are of steps alone."""
    drill = make(code)
    words = spoken(drill).replace(drill.question.how_to_answer(), "")
    assert not NUMBERS_BY_COMMA.search(words)
    assert not PLACE_LIKE_A_STEP.search(words)
    assert places_in(words)
