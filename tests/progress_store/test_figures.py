from datetime import date

import pytest

from progress_store import (
    AfterAWeekAway,
    Attempt,
    Columns,
    Confusions,
    Errors,
    PaceChange,
    Share,
    SkillsInWeek,
    Slip,
    Taken,
    Week,
    Window,
    after_a_week_away,
    confusions,
    errors,
    pace_changes,
    replay,
    skills_by_week,
    weekly_pace,
    wilson,
)
from tests.progress_store.making import READ, RULES, attempt


def columns(attempts: list[Attempt]) -> Columns:
    """Return attempts as columns, judged one after the other."""
    return Columns.of(replay(attempts, RULES)[1])


@pytest.mark.parametrize(
    ("right", "tries", "interval"),
    [
        # R. G. Newcombe, Statistics in Medicine 17 (1998) 857-872, table I, method 3 (from memory)
        (81, 263, (0.2553, 0.3662)),
        (15, 148, (0.0624, 0.1605)),
        (0, 20, (0.0, 0.1611)),
        (1, 29, (0.0061, 0.1718)),
    ],
)
def test_the_interval_of_a_share(right: int, tries: int, interval: tuple[float, float]) -> None:
    """The 95 % score interval is the published one."""
    assert tuple(round(end, 4) for end in wilson(right, tries)) == interval


def test_the_interval_of_all_right_by_hand() -> None:
    """For n of n the lower end is n / (n + z^2): 16 of 16 gives 16 / 19.8415 = 0.8064."""
    low, high = wilson(16, 16)
    assert round(low, 4) == 0.8064
    assert high == 1.0


def test_first_drills_after_a_week_away() -> None:
    """By hand: away 7 and 8 days count, one of them right; 6 days and a second drill that day do not."""
    days = [(0, True), (6, True), (13, True), (21, False)]
    drills = [attempt(0, day, right=right) for day, right in days] + [attempt(1, 21)]
    expected = AfterAWeekAway(Share(1, 2), Window(date(2026, 3, 15), date(2026, 3, 23)))
    assert after_a_week_away(columns(drills)) == expected
    assert after_a_week_away(Columns()) is None


def test_seconds_at_the_same_form_first_week_against_last() -> None:
    """By hand: medians of 6, 5, 4 s in days 0-6, of 3, 2 s in days 14-20; too few for an interval."""
    times = [(0, 6000), (3, 5000), (6, 4000), (10, 60_000), (14, 3000), (20, 2000)]
    judged = columns([attempt(0, day, milliseconds=ms) for day, ms in times])
    assert pace_changes(judged) == [
        PaceChange(READ, 5.0, 3, 2.5, 2, None, Window(date(2026, 3, 2), date(2026, 3, 22)))
    ]


def test_there_is_no_change_of_pace_to_tell_within_two_weeks() -> None:
    """The first week and the last must not overlap."""
    assert pace_changes(columns([attempt(0, 0), attempt(0, 12)])) == []
    assert len(pace_changes(columns([attempt(0, 0), attempt(0, 13)]))) == 1


def test_misses_and_false_alarms_are_kept_apart() -> None:
    """By hand over two kinds, each with its drills and days."""
    drills = [
        attempt(0, 0, kind="labels", misses=2, right=False),
        attempt(1, 1, kind="labels", false_alarms=1, right=False),
        attempt(2, 1),
        attempt(3, 1, purpose="walk", misses=1, right=False),
    ]
    assert errors(columns(drills)) == [
        Errors("labels", 2, 1, Share(1, 2), Share(1, 2), Window(date(2026, 3, 2), date(2026, 3, 3))),
        Errors("steps", 0, 0, Share(0, 1), Share(0, 1), Window(date(2026, 3, 3), date(2026, 3, 3))),
    ]


def test_a_change_of_pace_has_an_interval_with_six_drills_in_each_week() -> None:
    """By hand: 6 s each time, then 3 s each time, leaves no doubt; one drill fewer and there is none."""
    early = [attempt(number, 0, milliseconds=6000) for number in range(6)]
    late = [attempt(number, 14, milliseconds=3000) for number in range(6)]
    (change,) = pace_changes(columns([*early, *late]))
    assert change.interval == (0.5, 0.5)
    (change,) = pace_changes(columns([*early, *late[1:]]))
    assert change.interval is None


def test_what_is_taken_for_what_by_skill() -> None:
    """By hand: drills with a miss, with a false alarm, with another's answer and with a slip alone."""
    log = [
        attempt(0, skill="find roof", kind="find", misses=2, false_alarms=1, right=False),
        attempt(1, skill="find roof", kind="find", misses=1, right=False, slip="x", taken_for="find pleats"),
        attempt(2, day=1, skill="find roof", kind="find"),
        attempt(3, skill="steps 1:2", slip="exchanged"),
        attempt(4, skill="all right"),
    ]
    assert confusions(columns(log)) == [
        Confusions(
            "find",
            "find roof",
            missed=Share(2, 3),
            marked_wrongly=Share(1, 3),
            taken=(Taken("find pleats", Share(1, 3)),),
            slips=(),
            window=Window(date(2026, 3, 2), date(2026, 3, 3)),
        ),
        Confusions(
            "steps",
            "steps 1:2",
            missed=Share(0, 1),
            marked_wrongly=Share(0, 1),
            taken=(),
            slips=(Slip("exchanged", Share(1, 1)),),
            window=Window(date(2026, 3, 2), date(2026, 3, 2)),
        ),
    ]


def test_the_walk_takes_nothing_for_anything() -> None:
    """What was half done for the person says nothing of them."""
    assert confusions(columns([attempt(0, purpose="walk", misses=1, right=False)])) == []


def test_the_median_of_each_week_at_the_form_practised_most() -> None:
    """By hand: the weeks begin on Mondays, 2 and 9 March 2026; other forms and misses do not count."""
    log = [
        *(attempt(number, number, milliseconds=1000 * (number + 1)) for number in range(7)),
        attempt(0, 8, milliseconds=2000),
        attempt(1, 8, milliseconds=9000, right=False),
        attempt(2, 8, kind="labels", form="mark", skill="labels one"),
    ]
    found = weekly_pace(columns(log))
    assert found is not None
    assert found.key == READ
    first, second = found.weeks
    assert (first.monday, first.drills, first.median_ms) == (date(2026, 3, 2), 7, 4000)
    assert first.window == Window(date(2026, 3, 2), date(2026, 3, 8))
    assert first.interval is not None
    tuesday = Window(date(2026, 3, 10), date(2026, 3, 10))
    assert second == Week(date(2026, 3, 9), 1, 2000, None, tuesday)


def test_without_a_timed_right_answer_there_are_no_weeks() -> None:
    """Nor in an empty log."""
    assert weekly_pace(Columns()) is None
    assert weekly_pace(columns([attempt(0, right=False)])) is None


def test_skills_are_counted_at_the_end_of_each_week() -> None:
    """One after the other against the words of the state, replayed up to each Sunday."""
    days = (0, 1, 2, 3, 8, 14, 15, 24, 25, 40)
    log = [
        attempt(number, day=day, skill=f"steps read 1:{number + 2}", right=(day + number) % 5 != 0)
        for day in days
        for number in range(3)
    ]
    expected = []
    for week in sorted({day // 7 for day in days}):
        until = [each for each in log if (each.at - log[0].at).days < 7 * (week + 1)]
        words = [skill.word for skill in replay(until, RULES)[0].skills.values()]
        monday = date.fromordinal(date(2026, 3, 2).toordinal() + 7 * week)
        expected.append(SkillsInWeek(monday, words.count("quick"), words.count("kept")))
    assert skills_by_week(columns(log)) == expected
    assert any(each.kept for each in expected)
    assert any(each.quick for each in expected)
    assert skills_by_week(Columns()) == []
