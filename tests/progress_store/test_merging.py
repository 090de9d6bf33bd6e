"""Logs of several machines taken in: in whatever order, and as often as one likes."""

from __future__ import annotations

import json
import shutil
from datetime import timedelta
from itertools import permutations
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from progress_store import Record, State, Store, StoreError, record_to_json
from tests.progress_store.logs import COPIES, LOG, lines, names, some, written
from tests.progress_store.making import RULES, START, attempt, store


def record_of(opened: Store) -> str:
    """Return the record as JSON."""
    return json.dumps(record_to_json(opened.record(), str))


def ids(opened: Store) -> list[str]:
    """Return the ids in order of time."""
    return [each.id for each in opened.attempts]


@settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.sets(st.integers(0, 29)), min_size=3, max_size=3), st.integers(0, 5))
def test_the_order_of_merging_does_not_matter(tmp_path: Path, held: list[set[int]], seed: int) -> None:
    """Three folders taken in in any order, or lying there as copies, give one state and one record."""
    pool = some(seed)
    for number, indices in enumerate(held):
        written(tmp_path / str(number), [pool[index] for index in sorted(indices)])
    expected = [each for index, each in enumerate(pool) if index in set().union(*held)]
    records = {json.dumps(record_to_json(Record.of(expected, RULES), str))}
    for order in [*permutations("012"), None]:
        shutil.rmtree(tmp_path / "all", ignore_errors=True)
        if order is None:
            for number, name in enumerate(COPIES[:3]):
                written(tmp_path / "all", [], name).write_bytes((tmp_path / str(number) / LOG).read_bytes())
        with store(tmp_path / "all") as opened:
            for folder in order or ():
                opened.take_in(tmp_path / folder)
            assert opened.state == State.of(expected, RULES)
            records.add(record_of(opened))
        with store(tmp_path / "all") as again:
            assert again.state == State.of(expected, RULES)
            records.add(record_of(again))
    assert len(records) == 1


def test_two_machines_merged_both_ways_are_equal(tmp_path: Path) -> None:
    """Practised apart from a common beginning, with clocks of different offsets; twice adds nothing."""
    common, here, there = some(0), some(1), some(2)
    for name, own in (("here", here), ("there", there)):
        with store(tmp_path / name) as opened:
            for each in [*common, *own]:
                opened.keep(each)
    with store(tmp_path / "here") as one:
        assert one.take_in(tmp_path / "there") == (30, 60)
    with store(tmp_path / "there") as other:
        assert other.take_in(tmp_path / "here") == (30, 90)
        assert other.take_in(tmp_path / "here") == (0, 90)
        assert other.attempts == one.attempts
        assert other.state == one.state == State.of([*common, *here, *there], RULES)
        assert record_of(other) == record_of(one)


def test_an_older_answer_taken_in_counts_in_its_place(tmp_path: Path) -> None:
    """One alone, earlier than all: the state is made anew, saved, and right at the next start."""
    with store(tmp_path / "here") as here:
        here.keep(attempt(5))
        written(tmp_path / "there", [attempt(1, right=False)])
        here.take_in(tmp_path / "there")
        assert here.state == State.of([attempt(1, right=False), attempt(5)], RULES)
        assert here.state.skills["steps 1:2"].results == ("miss", "clean")
        here.keep(attempt(6))
    with store(tmp_path / "here") as again:
        assert again.state == State.of([attempt(1, right=False), attempt(5), attempt(6)], RULES)


CLASHING = [
    attempt(2, id="same", right=False),
    attempt(1, id="same"),
    attempt(1, id="same", other={"note": "a"}),
]


@pytest.mark.parametrize("order", list(permutations(range(3))))
def test_of_different_attempts_with_one_id_the_first_by_order_counts(
    tmp_path: Path, order: tuple[int, ...]
) -> None:
    """In whatever order they come, and it is told; at the same time their text decides."""
    for number in order:
        written(tmp_path / str(number), [CLASHING[number]])
    with store(tmp_path / "all") as opened:
        for number in order:
            opened.take_in(tmp_path / str(number))
        assert opened.attempts == (CLASHING[2],)
        assert any("different answers under one id (1 in all)" in notice for notice in opened.notices)
        assert opened.state == State.of(CLASHING[2:], RULES)
    with store(tmp_path / "all") as again:
        assert again.attempts == (CLASHING[2],)
        assert again.state == State.of(CLASHING[2:], RULES)


def test_a_clash_between_copies_is_told_and_decided_the_same_way(tmp_path: Path) -> None:
    """The log's own attempt gives way to an earlier one of a copy."""
    written(tmp_path, CLASHING[:1])
    written(tmp_path, CLASHING[1:2], COPIES[0])
    with store(tmp_path) as opened:
        assert opened.attempts == (CLASHING[1],)
        assert "different answers under one id" in opened.notices[0]
    with store(tmp_path) as again:
        assert again.attempts == (CLASHING[1],)


def test_the_copies_of_the_other_folder_come_in_too(tmp_path: Path) -> None:
    """Without being renamed there."""
    written(tmp_path / "there", [attempt(0)])
    written(tmp_path / "there", [attempt(1)], COPIES[0])
    with store(tmp_path / "here") as here:
        assert here.take_in(tmp_path / "there") == (2, 2)
    assert names(tmp_path / "there") == {LOG, COPIES[0]}


def test_a_log_exchanged_while_open_loses_no_answer(tmp_path: Path) -> None:
    """A program that keeps folders in step may put another log here, without its last line end."""
    with store(tmp_path) as opened:
        opened.keep(attempt(0))
        (tmp_path / LOG).rename(tmp_path / COPIES[0])
        written(tmp_path, []).write_bytes(lines([attempt(1)]).rstrip())
        opened.keep(attempt(2))
    with store(tmp_path) as again:
        assert again.attempts == (attempt(0), attempt(1), attempt(2))
        assert again.state == State.of(again.attempts, RULES)


def test_taking_in_refuses_this_very_folder(tmp_path: Path) -> None:
    """By whatever name it is given."""
    written(tmp_path / "here", [attempt(0)])
    (tmp_path / "link").symlink_to(tmp_path / "here")
    with store(tmp_path / "here") as here:
        for name in ("here", "link"):
            with pytest.raises(StoreError, match="is this data folder itself"):
                here.take_in(tmp_path / name)


def test_a_clock_set_wrong_moves_an_answer_and_loses_none(tmp_path: Path) -> None:
    """A machine an hour behind: its answers stand where its clock put them, in every order of merging."""
    behind = [
        attempt(number, id=f"behind {number}", at=START + timedelta(minutes=number - 60))
        for number in range(3)
    ]
    written(tmp_path, [attempt(0)])
    written(tmp_path, behind, COPIES[1])
    with store(tmp_path) as opened:
        assert ids(opened) == [*(each.id for each in behind), attempt(0).id]
