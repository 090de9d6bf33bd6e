"""The experiment for oneself: its coin, what it moves, and what it shows."""

from __future__ import annotations

from pathlib import Path
from random import Random
from typing import Any

import pytest

from progress_store import (
    EXPERIMENT_DAYS,
    WITH_COIN,
    Attempt,
    Columns,
    Share,
    State,
    comes_back,
    difference_interval,
    experiment,
    has_coin,
    replay,
)
from tests.progress_store.making import RULES, attempt, store

RULE = "of the tests" + WITH_COIN
BACK = next(name for name in map(str, range(99)) if comes_back(attempt(0, id=name, rule=RULE)))
NOT_BACK = next(name for name in map(str, range(99)) if not comes_back(attempt(0, id=name, rule=RULE)))


def tossed(back: bool, number: int, day: int, **changes: Any) -> Attempt:
    """Return a miss whose id lets it come back, or not."""
    names = (f"{day}-{number}-{more}" for more in range(99))
    ids = (name for name in names if comes_back(attempt(0, id=name, rule=RULE)) == back)
    return attempt(number, day, id=next(ids), rule=RULE, right=False, misses=1, **changes)


def columns(log: list[Attempt]) -> Columns:
    """Return the log as columns."""
    return Columns.of(replay(log, RULES)[1])


@pytest.mark.parametrize(
    ("one", "other", "interval"),
    [
        # R. G. Newcombe, Statistics in Medicine 17 (1998) 873-890, table II, method 10 (from memory)
        (Share(56, 70), Share(48, 80), (0.0524, 0.3339)),
        (Share(9, 10), Share(3, 10), (0.1705, 0.8090)),
        (Share(10, 10), Share(0, 10), (0.6075, 1.0)),
    ],
)
def test_the_interval_of_a_difference(one: Share, other: Share, interval: tuple[float, float]) -> None:
    """To the four digits that are printed."""
    assert difference_interval(one, other) == pytest.approx(interval, abs=6e-5)


def test_the_coin_follows_from_the_id_and_is_fair() -> None:
    """Of 4,000 ids 1,874 to 2,126 come back but once in 15,000 such tests (four standard deviations)."""
    tosses = [comes_back(attempt(0, id=f"id {number}", rule=RULE)) for number in range(4000)]
    assert tosses == [comes_back(attempt(1, id=f"id {number}", rule=RULE)) for number in range(4000)]
    assert 1874 <= sum(tosses) <= 2126


def test_without_the_experiment_every_miss_comes_back() -> None:
    """And only drills of the round of the day have a coin."""
    assert comes_back(attempt(0, id=NOT_BACK, rule="of the tests"))
    assert not has_coin(attempt(0, id=NOT_BACK, rule=RULE, purpose="picked"))


@pytest.mark.parametrize("back", [True, False])
def test_the_state_owes_what_the_coin_says(back: bool) -> None:
    """The same in whatever order the attempts are merged, as it is read off the id."""
    log = [attempt(0, day=0), tossed(back, 1, 0)]
    for order in (log, log[::-1]):
        assert State.of(order, RULES).skills["steps 1:2"].owed is back


def test_a_unit_is_the_first_miss_of_a_day_and_the_first_drill_of_a_later_one() -> None:
    """By hand: three units that came back, of which one was right; one that did not, right."""
    log = [
        tossed(True, 0, 0),
        attempt(1, 0, right=False, misses=1, rule=RULE),  # what came back, missed once more: no unit
        attempt(0, 1),  # right
        tossed(False, 0, 2),
        attempt(1, 2),  # the same day: no outcome
        attempt(0, 3, helped=True),  # with help: none
        attempt(0, 4),  # right
        tossed(True, 0, 5),
        tossed(True, 0, 6),  # the outcome of day 5, and as it only came back no unit of its own
        tossed(True, 0, EXPERIMENT_DAYS),
        attempt(0, EXPERIMENT_DAYS + 1, right=False, misses=1),
    ]
    found = experiment(columns(log))
    assert found
    assert (found.back, found.not_back) == (Share(1, 3), Share(1, 1))
    assert (found.days, found.is_over) == (EXPERIMENT_DAYS + 1, True)
    assert found.difference == pytest.approx(1 / 3 - 1)
    assert experiment(columns([attempt(0), attempt(1, right=False)])) is None


def test_it_finds_a_difference_that_is_there_and_says_how_small_a_one_it_sees() -> None:
    """A simulated person: right in 90 of 100 where it came back, else in 50: 40 points."""
    chance, log = Random(7), list[Attempt]()
    for day in range(0, 200, 2):
        for number in range(4):
            miss = tossed(chance.random() < 0.5, number, day, skill=f"steps 1:{number}")
            right = chance.random() < (0.9 if comes_back(miss) else 0.5)
            after = attempt(20 + number, day + 1, skill=f"steps 1:{number}", right=right)
            # one that is right once more clears what is owed before the next miss
            log += [miss, after, attempt(40 + number, day + 1, skill=f"steps 1:{number}")]
    found = experiment(columns(sorted(log, key=lambda each: each.order)))
    assert found
    assert found.interval[0] < 0.4 < found.interval[1]
    assert found.interval[0] > 0
    # by hand for two sides of 200 near 70 in 100: 2.8 * sqrt(0.21 * 2 / 200)
    assert found.sees == pytest.approx(0.128, abs=0.01)


def test_a_store_without_and_with_its_ledger_tells_the_same(tmp_path: Path) -> None:
    """The coin lies in the columns beside the log too."""
    log = [tossed(True, 0, 0), attempt(0, 1), tossed(False, 0, 2), attempt(0, 3)]
    with store(tmp_path) as made:
        for each in log:
            made.keep(each)
        told = made.record().experiment
    with store(tmp_path) as again, store(tmp_path, writable=False) as reader:
        assert again.record().experiment == reader.record().experiment == told
    assert told == experiment(columns(log))
