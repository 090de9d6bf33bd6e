from datetime import date

from progress_store import Week, replay, weekly_pace
from tests.progress_store.making import READ, RULES, attempt


def test_the_median_of_each_week_at_the_form_practised_most() -> None:
    """By hand: the weeks begin on Mondays, 2 and 9 March 2026; other forms and misses do not count."""
    log = [
        *(attempt(number, number, milliseconds=1000 * (number + 1)) for number in range(7)),
        attempt(0, 8, milliseconds=2000),
        attempt(1, 8, milliseconds=9000, right=False),
        attempt(2, 8, kind="labels", form="mark", skill="labels one"),
    ]
    form, weeks = weekly_pace(replay(log, RULES)[1]) or (None, [])
    assert form == READ
    first, second = weeks
    assert first[:5] == (date(2026, 3, 2), date(2026, 3, 2), date(2026, 3, 8), 7, 4000)
    assert first.interval is not None
    assert second == Week(date(2026, 3, 9), date(2026, 3, 10), date(2026, 3, 10), 1, 2000, None)


def test_without_a_timed_right_answer_there_are_no_weeks() -> None:
    """Nor in an empty log."""
    assert weekly_pace([]) is None
    assert weekly_pace(replay([attempt(0, right=False)], RULES)[1]) is None
