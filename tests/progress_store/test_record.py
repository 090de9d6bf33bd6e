import json
import subprocess
import sys
from typing import Any

from progress_store import Attempt, Record, attempt_rows, record_to_json, replay
from tests.progress_store.making import RULES, attempt

LOG = [
    attempt(0),
    attempt(1, right=False, slip="other way round", misses=1),
    attempt(2, milliseconds=None),
    attempt(0, day=1, skill="steps 1:3", right=False, slip="other way round"),
    attempt(1, day=1, skill="steps 1:3", right=False, slip="one off"),
    attempt(2, day=1, skill="steps 1:3", right=False, slip="one off"),
    attempt(3, day=1, skill="steps 1:3", right=False, slip="one off", taken_for="steps 1:2"),
    attempt(0, day=14, skill="sinks equal", kind="sinks", form="mark", marks=2, purpose="yardstick"),
]


def test_the_record_is_what_was_promised() -> None:
    """By hand, with the share right as a Wilson interval and no time of writing; figures come on top."""
    promised = record_to_json(Record.of(LOG, RULES), str.title)
    assert promised.pop("figures")
    assert promised == {
        "attempts": 8,
        "skills": [
            {
                "skill": "sinks equal",
                "name": "Sinks Equal",
                "tries": 1,
                "right": 1,
                "interval": [0.2065, 1.0],
                "median_ms": 4000,
                "goal_ms": None,
                "state": "new",
                "next": None,
            },
            {
                "skill": "steps 1:2",
                "name": "Steps 1:2",
                "tries": 3,
                "right": 2,
                "interval": [0.2077, 0.9385],
                "median_ms": 4000,
                "goal_ms": None,
                "state": "right",
                "next": "2026-03-04",
            },
            {
                "skill": "steps 1:3",
                "name": "Steps 1:3",
                "tries": 4,
                "right": 0,
                "interval": [0.0, 0.4899],
                "median_ms": None,
                "goal_ms": None,
                "state": "new",
                "next": "2026-03-04",
            },
        ],
        "days": [
            {"day": "2026-03-02", "tries": 3, "right": 2, "minutes": 0.1},
            {"day": "2026-03-03", "tries": 4, "right": 0, "minutes": 0.3},
            {"day": "2026-03-16", "tries": 1, "right": 1, "minutes": 0.1},
        ],
        "yardsticks": [
            {"day": "2026-03-16", "tries": 1, "right": 1, "interval": [0.2065, 1.0], "minutes": 0.1}
        ],
        "confusions": [
            {"skill": "steps 1:3", "taken_for": None, "slip": "one off", "times": 2},
            {"skill": "steps 1:2", "taken_for": None, "slip": "other way round", "times": 1},
            {"skill": "steps 1:3", "taken_for": None, "slip": "other way round", "times": 1},
            {"skill": "steps 1:3", "taken_for": "steps 1:2", "slip": None, "times": 1},
        ],
    }


def test_equal_logs_give_equal_text() -> None:
    """The order of the lines does not show, and the text is the same twice."""
    once = json.dumps(record_to_json(Record.of(LOG, RULES), str))
    assert json.dumps(record_to_json(Record.of(LOG[::-1], RULES), str)) == once


def test_the_record_of_nothing_is_empty() -> None:
    """A first start has a record too."""
    empty: dict[str, object] = {"attempts": 0, "skills": [], "days": [], "yardsticks": [], "confusions": []}
    found = record_to_json(Record.of([], RULES), str)
    assert found.pop("figures") == {
        "yardsticks": [],
        "after_a_week_away": None,
        "pace": [],
        "weeks": None,
        "errors": [],
        "experiment": None,
        "taken": [],
    }
    assert found == empty


def test_figures_have_their_drills_window_and_interval() -> None:
    """By hand from the log: an unfinished yardstick, a skill with a slip, the first form in the alphabet."""
    figures: Any = record_to_json(Record.of(LOG, RULES), str.title)["figures"]
    assert figures["yardsticks"] == [
        {"number": 1, "since": "2026-03-16", "until": "2026-03-16", "drills": 1, "whole": False}
    ]
    assert figures["taken"][1] == {
        "kind": "steps",
        "skill": "steps 1:2",
        "name": "Steps 1:2",
        "drills": 3,
        "missed": 1,
        "missed_interval": [0.0615, 0.7923],
        "marked_wrongly": 0,
        "marked_wrongly_interval": [0.0, 0.5615],
        "taken_for": [],
        "slips": [{"slip": "other way round", "times": 1, "interval": [0.0615, 0.7923]}],
        "since": "2026-03-02",
        "until": "2026-03-02",
    }
    assert figures["taken"][0]["taken_for"] == [
        {"skill": "steps 1:2", "times": 1, "interval": [0.0456, 0.6994]}
    ]
    assert figures["weeks"]["weeks"][0] == {
        "monday": "2026-03-16",
        "since": "2026-03-16",
        "until": "2026-03-16",
        "drills": 1,
        "median_ms": 4000,
        "interval": None,
    }


def test_the_walk_alone_makes_no_row_of_a_skill() -> None:
    """It counts among the attempts and the minutes of its day."""
    fields: Any = record_to_json(Record.of([attempt(0, purpose="walk")], RULES), str)
    assert (fields["attempts"], fields["skills"], len(fields["days"])) == (1, [], 1)


def times_of_the_skill(log: list[Attempt]) -> tuple[int | None, int | None]:
    """Return median and goal of the only skill in a log."""
    fields: Any = record_to_json(Record.of(log, RULES), str)
    (skill,) = fields["skills"]
    return skill["median_ms"], skill["goal_ms"]


def test_the_goal_is_that_of_the_form_met_last() -> None:
    """By hand: twelve times 4000 ms at one mark, then one drill of three marks, a form without goal yet."""
    twelve = [attempt(number) for number in range(12)]
    assert times_of_the_skill(twelve) == (4000, 5000)
    assert times_of_the_skill([*twelve, attempt(20, marks=3, milliseconds=7000)]) == (7000, None)


def test_rows_have_a_head_and_a_line_for_each_attempt() -> None:
    """Every column has its name, and what is not known is empty."""
    head, first, *rest = attempt_rows(replay(LOG, RULES)[1])
    row = dict(zip(head, first, strict=True))
    assert len(rest) == len(LOG) - 1
    assert (row["practice_day"], row["right"], row["helped"], row["slip"]) == ("2026-03-02", "yes", "no", "")
    assert dict(zip(head, rest[1], strict=True))["milliseconds"] == ""
    assert not {"gaps", "other"} & set(head)
    last = dict(zip(head, rest[-1], strict=True))
    assert (row["result"], row["net_ms"], row["first"], row["yardstick"]) == ("clean", "4000", "yes", "")
    assert (last["first"], last["days_away"], last["yardstick"]) == ("no", "", "1")


def test_importing_the_store_is_light_and_keeps_its_walls() -> None:
    """Neither scheduler nor lock is imported before it is needed, and no other room ever."""
    script = "import sys, progress_store; print(*sorted({name.split('.')[0] for name in sys.modules}))"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert not {"fsrs", "filelock", "numpy", "textual", "rich", "drills", "trainer"} & set(
        done.stdout.split()
    )
