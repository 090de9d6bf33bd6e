from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from drills.geometry import Step
from drills.questions import KINDS, Marks, Outlines, make, read_code, top_level, with_directions_of
from progress_store import Attempt, Purpose
from tests.drills.questions.codes import right_answer
from tests.trainer.practice.making import START, WRONG, four_kinds
from trainer.practice.attempts import Measured, Occasion, attempt_of, floors, levels
from trainer.practice.choosing import RULE

pytestmark = pytest.mark.usefixtures(four_kinds.__name__)

SEEN = Measured(5200, 3, (400, 300), "mouse")
ON = Occasion("today", "a sitting", 3, "round", RULE)


def test_an_attempt_is_what_was_asked_seen_and_judged() -> None:
    """Every field of the log line comes from the drill, the verdict, the watch or the clock."""
    drill = make(read_code("labels-3-41"))
    verdict = replace(WRONG, misses=2, false_alarms=1, taken_for="labels nothing")
    attempt = attempt_of(drill, verdict, SEEN, START, ON, helped=True)
    assert attempt == Attempt(
        id=attempt.id,
        at=datetime(2026, 3, 2, 17, 30, tzinfo=UTC),
        offset_minutes=60,
        code="labels-3-41",
        kind="labels",
        form="mark",
        level=3,
        marks=drill.question.marks,
        skill=drill.skill,
        right=False,
        misses=2,
        false_alarms=1,
        slip=None,
        helped=True,
        means="mouse",
        milliseconds=5200,
        inputs=3,
        gaps=(400, 300),
        purpose="today",
        why="round",
        rule="four running, 2",
        sitting="a sitting",
        place=3,
        taken_for="labels nothing",
    )


def test_no_two_attempts_have_one_id() -> None:
    """The same answer given twice is two attempts."""
    drill = make(read_code("steps-1-1"))
    verdict = drill.judge(right_answer(drill))
    made = {attempt_of(drill, verdict, SEEN, START, Occasion("today")).id for _ in range(20)}
    assert len(made) == 20


def test_a_slip_is_kept_by_its_name() -> None:
    """Numbers the other way round are right, and the log says what they were."""
    drill = make(read_code("steps-1-1"))
    assert isinstance(drill.question.answer, Step)
    step = drill.question.answer
    verdict = drill.judge(with_directions_of(Step(step.down, step.across), step))
    attempt = attempt_of(drill, verdict, SEEN, START, Occasion("today"))
    assert (attempt.right, attempt.slip) == (True, "exchanged")


@pytest.mark.parametrize(
    "code",
    [
        "steps-1-3",
        "steps-2-3-place",
        "sinks-3-5",
        "sinks-3-5-points",
        "labels-4-8",
        "find-2-3",
        "find-6-1",
        "sinks-7-5-join",
    ],
)
@pytest.mark.parametrize("purpose", ["today", "warm-up", "placing", "picked", "walk", "yardstick"])
def test_every_drill_fits_a_line_of_the_log(code: str, purpose: Purpose) -> None:
    """Kind, form, level and the marks needed are the drill's, whatever the purpose."""
    drill = make(read_code(code))
    attempt = attempt_of(drill, drill.judge(right_answer(drill)), SEEN, START, Occasion(purpose))
    assert (attempt.code, attempt.kind, attempt.form) == (code, drill.kind, drill.form)
    assert attempt.right
    needed = len(drill.question.answer[0]) if isinstance(drill.question.answer, Marks | Outlines) else 1
    assert attempt.marks == max(1, needed)
    assert Attempt.from_json(attempt.to_json()) == attempt


def test_floors_and_levels_are_those_of_the_kinds() -> None:
    """Steps 3 s, inside lines 1.5 s a mark, labels 8 s, places 3 s a mark (common practice, no source)."""
    assert {kind: (floor.of(1), floor.of(4)) for kind, floor in floors().items()} == {
        "steps": (3000, 3000),
        "sinks": (1500, 6000),
        "labels": (8000, 8000),
        "find": (3000, 12_000),
    }
    assert floors().keys() == levels().keys() == KINDS.keys()
    lowest = {kind: levels[0] for kind, levels in levels().items()}
    assert lowest == {"steps": 1, "sinks": 1, "labels": 1, "find": 2}
    assert max(levels[-1] for levels in levels().values()) == top_level()
