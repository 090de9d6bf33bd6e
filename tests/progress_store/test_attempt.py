import json
from contextlib import suppress
from datetime import UTC, date, datetime, timedelta, timezone
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from progress_store import Attempt, StoreError, practice_day, stamp
from tests.progress_store.making import START, attempt


def test_a_line_reads_back_as_the_attempt_that_was_written() -> None:
    """Going to JSON text and back changes nothing, gaps and slip included."""
    written = attempt(3, slip="other way round", gaps=(200, 310), inputs=3, milliseconds=None, means="mouse")
    assert Attempt.from_json(json.loads(json.dumps(written.to_json()))) == written


def test_the_time_is_written_in_utc_to_the_millisecond() -> None:
    """A reader in any language can parse the time."""
    at = START.replace(microsecond=120_000)
    assert attempt(at=at).to_json()["at"] == "2026-03-02T12:00:00.120Z"


def test_unknown_fields_are_kept_and_written_back() -> None:
    """A field of a later writer survives our reading and writing."""
    fields = attempt().to_json() | {"mood": ["calm", 1.5]}
    assert Attempt.from_json(fields).to_json() == fields


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("id", ""),
        ("id", "a" * 201),
        ("code", "steps\x1b[2J"),
        ("skill", 7),
        ("at", "yesterday"),
        ("at", "2026-03-02T12:00:00"),
        ("at", "2026-03-02T12:00:00.0001Z"),
        ("at", "0001-01-01T00:00:00Z"),
        ("offset_minutes", 1081),
        ("level", True),
        ("marks", -1),
        ("misses", 1.0),
        ("right", 1),
        ("helped", None),
        ("slip", ""),
        ("means", "feet"),
        ("purpose", "fun"),
        ("purpose", []),
        ("milliseconds", 10**9 + 1),
        ("inputs", None),
        ("gaps", [1] * 41),
        ("gaps", "12"),
    ],
)
def test_a_field_that_does_not_fit_is_named(name: str, value: object) -> None:
    """The refusal is one sentence with the name of the field."""
    with pytest.raises(StoreError, match=f'^The field "{name}" [^.]*\\.$'):
        Attempt.from_json(attempt().to_json() | {name: value})


@pytest.mark.parametrize("name", ["schema", "sum", "kind"])
def test_a_field_that_has_a_meaning_is_no_unknown_one(name: str) -> None:
    """It would stand twice in the line."""
    with pytest.raises(StoreError, match='"other"'):
        attempt(other={name: "x"})


def test_a_missing_field_is_refused() -> None:
    """A line without its kind is no attempt."""
    fields = attempt().to_json()
    del fields["kind"]
    with pytest.raises(StoreError, match="lacks a field"):
        Attempt.from_json(fields)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.dictionaries(st.sampled_from(list(attempt().to_json())), st.none() | st.integers() | st.text()))
def test_any_wrong_value_is_refused_or_kept_exactly(changes: dict[str, Any]) -> None:
    """Nothing but StoreError comes of a damaged field."""
    fields = attempt().to_json() | changes
    with suppress(StoreError):
        assert Attempt.from_json(fields).id == fields["id"]


@pytest.mark.parametrize(
    ("at", "offset", "day"),
    [
        ("2026-03-02T03:59:59Z", 0, date(2026, 3, 1)),
        ("2026-03-02T04:00:00Z", 0, date(2026, 3, 2)),
        ("2026-03-01T18:59:00Z", 540, date(2026, 3, 1)),  # 03:59 on the 2nd in Tokyo
        ("2026-03-01T19:00:00Z", 540, date(2026, 3, 2)),  # 04:00 there
        ("2026-03-02T11:59:00Z", -480, date(2026, 3, 1)),  # 03:59 in California
        ("2026-03-29T02:30:00Z", 120, date(2026, 3, 29)),  # 04:30 summer time, the night the clocks changed
        ("2026-03-29T02:30:00Z", 60, date(2026, 3, 28)),  # the same moment with the clock not yet changed
    ],
)
def test_a_practice_day_begins_at_four_local_time(at: str, offset: int, day: date) -> None:
    """Practice after midnight belongs to the evening before, by the offset of the line itself."""
    moment = datetime.fromisoformat(at)
    assert practice_day(moment, offset) == day
    assert attempt(at=moment, offset_minutes=offset).practice_day == day


def test_a_stamp_is_utc_to_the_millisecond_with_the_local_offset() -> None:
    """A local clock gives what an attempt needs."""
    now = datetime(2026, 7, 1, 8, 30, 0, 123_999, tzinfo=timezone(timedelta(hours=5, minutes=30)))
    assert stamp(now) == (datetime(2026, 7, 1, 3, 0, 0, 123_000, tzinfo=UTC), 330)


def test_a_clock_without_an_offset_is_a_mistake_of_the_program() -> None:
    """A naive time cannot say its practice day."""
    with pytest.raises(ValueError, match="aware"):
        stamp(START.replace(tzinfo=None))
