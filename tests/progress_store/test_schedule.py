"""Published values: PyPI fsrs 6.3.2 (MIT), J. Ye et al., KDD 2022."""

from datetime import UTC, date, datetime, timedelta

import pytest
from fsrs import Card, Rating, Scheduler

from progress_store import LONGEST_DAYS, Memory, Result, State, recall, remembered
from tests.progress_store.making import RULES, attempt

DAY = date(2026, 3, 2)


def played(results: list[Result]) -> list[Memory]:
    """Return the memory after each result, each on the day the skill came round."""
    memories: list[Memory] = []
    for result in results:
        last = memories[-1] if memories else None
        memories.append(remembered(last, last.next if last is not None else DAY, result))
    return memories


@pytest.mark.parametrize(
    ("results", "intervals", "lasting"),
    [
        # PyPI fsrs 6.3.2 (MIT), J. Ye et al., KDD 2022: grades 1,3,3,3 and 2,2,2
        (["miss", "clean", "clean", "clean"], [1, 2, 6], [0.212, 1.8868, 6.2692, 17.3792]),
        (["slow", "slow", "slow"], [1, 3], [1.2931, 3.2494, 6.7283]),
    ],
)
def test_how_long_a_skill_lasts(results: list[Result], intervals: list[int], lasting: list[float]) -> None:
    """Through our own door the days are the published ones after the published intervals."""
    memory, day = remembered(None, DAY, results[0]), DAY
    found = [memory.lasting_days]
    for result, days in zip(results[1:], intervals, strict=True):
        day += timedelta(days=days)
        memory = remembered(memory, day, result)
        found.append(memory.lasting_days)
    assert [round(days, 4) for days in found] == lasting


@pytest.mark.parametrize("lasting", [0.212, 1.0, 1.2931, 2.99, 6.2692, 17.3792, 20.9])
def test_a_skill_comes_round_once_its_recall_is_under_nine_in_ten(lasting: float) -> None:
    """On that day and not on the one before, by the published curve."""
    memory = Memory(lasting, 5.0, DAY)
    assert recall(memory, memory.next) < 0.9
    assert round(recall(memory, memory.next - timedelta(days=1)), 9) >= 0.9


@pytest.mark.parametrize(
    ("result", "lasting", "effort"),
    [("miss", 0.2120, 6.4133), ("slow", 1.2931, 5.1122), ("clean", 1.2931, 5.1122)],
)
def test_the_first_ever_counts_as_slow_at_most(result: Result, lasting: float, effort: float) -> None:
    """First grades 1 and 2 as in PyPI fsrs 6.3.2 (MIT), J. Ye et al., KDD 2022; a clean first is graded 2."""
    first = remembered(None, DAY, result)
    assert (round(first.lasting_days, 4), round(first.effort, 4)) == (lasting, effort)
    assert first.next == DAY + timedelta(days=int(lasting) + 1)


@pytest.mark.parametrize(
    ("grades", "intervals"),
    [
        # PyPI fsrs 6.3.2 (MIT), J. Ye et al., KDD 2022, with a longest interval that does not cut
        ([3, 3, 3, 3, 3, 3], [2, 11, 46, 163, 497, 1346]),
        ([3, 3, 1, 3, 3], [2, 11, 2, 5, 12]),
        ([4, 4, 4], [8, 66, 397]),
        ([3, 3, 3, 2, 4, 1, 3], [2, 11, 46, 116, 448, 7, 15]),
    ],
)
def test_the_library_still_gives_the_published_intervals(grades: list[int], intervals: list[int]) -> None:
    """Another version with other weights would be noticed here."""
    scheduler = Scheduler(learning_steps=(), relearning_steps=(), enable_fuzzing=False)
    card, given = Card(card_id=0), []
    at = datetime(2026, 3, 2, 12, tzinfo=UTC)
    for grade in grades:
        card, _ = scheduler.review_card(card, Rating(grade), at)
        given.append((card.due - at).days)
        at = card.due
    assert given == intervals


@pytest.mark.parametrize(
    ("days", "expected"),
    # PyPI fsrs 6.3.2 (MIT), J. Ye et al., KDD 2022: recall for one lasting day
    [(0, 1), (1, 0.9), (2, 0.845885), (5, 0.760528), (10, 0.692827), (100, 0.492322)],
)
def test_recall_falls_as_published(days: int, expected: float) -> None:
    """The number that ranks skills is the published curve at whole days."""
    assert round(recall(Memory(1.0, 5.0, DAY), DAY + timedelta(days=days)), 6) == expected


def test_no_interval_is_longer_than_three_weeks() -> None:
    """However well a skill holds, it comes round within 21 days."""
    memories = played(["clean"] * 8)
    assert max((memory.next - memory.last).days for memory in memories) == LONGEST_DAYS == 21
    assert memories[-1].lasting_days > LONGEST_DAYS


def test_the_clock_time_of_practice_does_not_reach_the_schedule() -> None:
    """Late one evening and early two mornings on are two days apart, as noon to noon."""
    shifts = {0: timedelta(hours=11), 1: timedelta(hours=-7), 3: timedelta(hours=11)}
    shifted = [attempt(day=day, at=attempt(day=day).at + shift) for day, shift in shifts.items()]
    plain = [attempt(day=day) for day in shifts]
    memory = State.of(shifted, RULES).skills["steps 1:2"].memory
    assert memory == State.of(plain, RULES).skills["steps 1:2"].memory
    assert memory is not None


def test_only_the_first_unhelped_drill_of_a_day_counts() -> None:
    """A helped one before it and misses after it leave the schedule alone."""
    alone = State.of([attempt(1)], RULES)
    among = State.of([attempt(0, helped=True), attempt(1), attempt(2, right=False), attempt(3)], RULES)
    assert among.skills["steps 1:2"].memory == alone.skills["steps 1:2"].memory


@pytest.mark.parametrize("purpose", ["warm-up", "walk", "yardstick"])
def test_some_purposes_never_move_the_schedule(purpose: str) -> None:
    """Warming up, the walk and the yardstick are logged and leave the day's first drill to come."""
    state = State.of([attempt(0, purpose=purpose)], RULES)
    known = state.skills.get("steps 1:2")
    assert known is None or known.next is None
    later = State.of([attempt(0, purpose=purpose), attempt(1)], RULES)
    assert later.skills["steps 1:2"].memory == State.of([attempt(1)], RULES).skills["steps 1:2"].memory


def test_flying_west_over_the_date_line_does_not_repeat_a_day() -> None:
    """A local day that comes a second time has no second first drill."""
    tokyo = attempt(0, offset_minutes=540)
    honolulu = attempt(30, offset_minutes=-600, at=tokyo.at + timedelta(hours=1))
    assert honolulu.practice_day < tokyo.practice_day
    state = State.of([tokyo, honolulu], RULES)
    assert state.skills["steps 1:2"].mastery.clean_days == 1
