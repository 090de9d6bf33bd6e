from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from progress_store import (
    WHOLE,
    AnswerRate,
    Attempt,
    Record,
    Share,
    State,
    TimeRatio,
    Window,
    Yardstick,
    record_to_json,
    replay,
    sittings,
    yardsticks,
)
from tests.progress_store.making import RULES, START, attempt


def test_each_yardstick_has_its_number_days_and_drills() -> None:
    """Whole with 16 drills; one that was left is numbered too, and drills of practice do not count."""
    one, left = found(*drills(0), attempt(3, 5), *drills(14, 7))
    assert (one.number, one.window) == (1, Window(date(2026, 3, 2), date(2026, 3, 2)))
    assert (one.right, one.is_whole) == (Share(16, 16), True)
    assert (left.number, len(left.drills), left.is_whole) == (2, 7, False)


def drills(day: int, number: int = WHOLE, **changes: Any) -> list[Attempt]:
    """Return the drills of a yardstick, a minute apart, four of each of four skills."""
    usual = {"purpose": "yardstick"} | changes
    return [
        attempt(minute, day, **{"skill": f"steps {minute % 4}", "code": f"steps-3-{day}{minute:02}", **usual})
        for minute in range(number)
    ]


def found(*log: Attempt) -> list[Yardstick]:
    """Return the yardsticks of a log."""
    return yardsticks(replay(log, RULES)[1])


def test_a_yardstick_may_run_past_four_in_the_morning_or_be_taken_up_the_same_day() -> None:
    """Six drills from 03:57 on, the last ones of the next practice day; or two parts fifteen hours apart."""
    night = START.replace(hour=3, minute=57)
    past = [
        attempt(minute, at=night + timedelta(minutes=minute), code=f"a-{minute}", purpose="yardstick")
        for minute in range(6)
    ]
    days = {each.practice_day for each in past}
    assert len(days) == 2
    assert [len(each) for each in sittings(past)] == [6]
    later = attempt(99, at=START + timedelta(hours=15), code="b", purpose="yardstick")
    assert [len(each) for each in sittings([*drills(0, 7), later])] == [8]
    next_day = attempt(99, at=START + timedelta(hours=17), code="b", purpose="yardstick")
    assert [len(each) for each in sittings([*drills(0, 7), next_day])] == [7, 1]


def test_a_yardstick_across_four_in_the_morning_is_one_in_the_record() -> None:
    """By hand: begun at 03:55, its last drill at 04:10; its row and its figure are of all sixteen drills."""
    night = START.replace(hour=3, minute=55)
    log = [replace(each, at=night + timedelta(minutes=minute)) for minute, each in enumerate(drills(0))]
    fields: Any = record_to_json(Record.of(log, RULES), str)
    (row,) = fields["yardsticks"]
    (figure,) = fields["figures"]["yardsticks"]
    assert (row["day"], row["tries"], row["right"]) == ("2026-03-01", 16, 16)
    assert (figure["since"], figure["until"], figure["drills"]) == ("2026-03-01", "2026-03-02", 16)
    assert row["minutes"] == round(16 * 4 / 60, 1)
    assert [day["tries"] for day in fields["days"]] == [5, 11]


def test_the_first_answer_to_a_code_counts() -> None:
    """The same yardstick on two machines whose logs were merged."""
    wrong = [
        attempt(30 + minute, id=f"other {minute}", code=each.code, right=False, purpose="yardstick")
        for minute, each in enumerate(drills(0))
    ]
    (one,) = found(*drills(0), *wrong)
    assert one.right == Share(16, 16)


def test_right_a_minute_is_over_the_timed_drills() -> None:
    """By hand: 16 right in 16 times 4 s; without a time nothing is said."""
    assert found(*drills(0))[0].rate == AnswerRate(15.0, 16)
    half = [*drills(0, 8), *drills(0, 16, milliseconds=None)[8:]]
    assert found(*half)[0].rate == AnswerRate(15.0, 8)
    assert found(*drills(0, milliseconds=None))[0].rate is None


def test_time_against_the_first_is_by_pairs_of_one_skill() -> None:
    """By hand: half the time in every pair; pairs with a miss or without a time do not count."""
    one, other = found(*drills(0), *drills(14, milliseconds=2000))
    assert one.against_first is None
    assert other.against_first == TimeRatio(0.5, (0.5, 0.5), 16)
    wrong = [*drills(14, 16, milliseconds=2000)[:4], *drills(14, 16, right=False)[4:]]
    assert found(*drills(0), *wrong)[1].against_first == TimeRatio(0.5, None, 4)
    assert found(*drills(0), *drills(14, milliseconds=None))[1].against_first is None


def test_one_that_was_left_is_neither_compared_nor_compared_with() -> None:
    """The first that is whole is the measure of those after it."""
    left, first, unfinished, later = found(*drills(0, 7), *drills(14), *drills(28, 5), *drills(42))
    assert [each.against_first for each in (left, first, unfinished)] == [None] * 3
    assert later.against_first == TimeRatio(1.0, (1.0, 1.0), 16)


def test_a_yardstick_moves_neither_skills_nor_levels() -> None:
    """Nor the days since a skill was met, even where it is missed from end to end."""
    before = State.of([attempt(0)], RULES)
    after = State.of([attempt(0), *drills(1, right=False), *drills(2, skill="steps 1:2")], RULES)
    assert after.skills == before.skills
    assert after.levels == before.levels
