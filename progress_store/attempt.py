"""One answered drill, as it stands in one line of the log."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from dataclasses import fields as fields_of
from datetime import UTC, date, datetime, timedelta
from sys import intern
from typing import Final, Literal, get_args

from progress_store.files import StoreError

OF_THE_LINE: Final = frozenset({"schema", "sum"})
"""Fields that a line of the log adds to those of its attempt."""
MOST_GAPS: Final = 40
LONGEST_TEXT: Final = 200
LARGEST: Final = 10**9
DEEPEST: Final = 20
DAY_BEGINS: Final = timedelta(hours=4)

InputDevice = Literal["keys", "mouse", "text"]
Purpose = Literal["today", "warm-up", "placing", "picked", "walk", "yardstick", "minute"]
APART: Final[frozenset[Purpose]] = frozenset({"walk", "minute"})
"""What is half worked, or raced through by the clock, is in no figure of how well the person reads."""

_TEXTS = ("id", "code", "kind", "form", "skill")
_COUNTS = ("level", "marks", "misses", "false_alarms", "inputs")
_CHOICES = {"means": frozenset(get_args(InputDevice)), "purpose": frozenset(get_args(Purpose))}
_FIRST, _LAST = datetime(1900, 1, 1, tzinfo=UTC), datetime(9000, 1, 1, tzinfo=UTC)
"""A machine without a battery for its clock wakes up in 1970; what is practised then is kept as well."""
WIDEST_OFFSET: Final = 18 * 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Attempt:
    """One answered drill: `at` in UTC to the millisecond, times and the last 40 gaps between inputs in ms.

    `marks` is how many were needed; `milliseconds` is None where the time means nothing (idle, window left).
    `why` and `rule` say why it was asked, and by which rule in which version; `place` is its place, from 1,
    in the `sitting`, `taken_for` the skill whose answer was given, and `given` the answer itself in a line of
    text. None where nobody can say.
    Making one with a value that does not fit raises StoreError.
    """

    id: str
    at: datetime
    offset_minutes: int
    code: str
    kind: str
    form: str
    level: int
    marks: int
    skill: str
    right: bool
    misses: int = 0
    false_alarms: int = 0
    slip: str | None = None
    helped: bool = False
    means: InputDevice = "keys"
    milliseconds: int | None
    inputs: int
    gaps: tuple[int, ...] = ()
    purpose: Purpose = "today"
    why: str | None = None
    rule: str | None = None
    sitting: str | None = None
    place: int | None = None
    taken_for: str | None = None
    given: str | None = None
    other: Mapping[str, object] = field(default_factory=dict, hash=False)

    def __post_init__(self) -> None:
        if (name := _misfit(self)) is not None:
            raise StoreError(f'The field "{name}" of an attempt does not fit; leave this attempt out.')

    @property
    def practice_day(self) -> date:
        """The local day it counts for; a practice day begins at 04:00."""
        return practice_day(self.at, self.offset_minutes)

    @property
    def order(self) -> tuple[datetime, str]:
        """What attempts are sorted by: the time, then the id."""
        return self.at, self.id

    def to_json(self) -> dict[str, object]:
        """Return the fields as they stand in the log, those of an unknown kind last and as they came."""
        known: dict[str, object] = {name: getattr(self, name) for name in _FIELDS}
        known = {name: value for name, value in known.items() if value is not None or name not in _ADDED}
        known["at"] = self.at.isoformat(timespec="milliseconds").replace("+00:00", "Z")
        known["gaps"] = list(self.gaps)
        return {**known, **self.other}

    @classmethod
    def from_json(cls, fields: Mapping[str, object]) -> Attempt:
        """Return the attempt of a log line's fields; raises StoreError naming the field that does not fit."""
        known = {name: fields[name] for name in _FIELDS if name in fields}
        known["at"] = _utc(fields.get("at"))
        known |= {name: intern(value) for name in _REPEATED if type(value := known.get(name)) is str}
        if isinstance(gaps := known.get("gaps"), list):
            known["gaps"] = tuple(gaps)
        unknown = sorted(fields.keys() - _FIELDS - OF_THE_LINE)
        other = {name: fields[name] for name in unknown} if unknown else _NOTHING
        try:
            return cls(**known, other=other)  # type: ignore[arg-type]
        except TypeError:
            raise StoreError("An attempt lacks a field; leave this attempt out.") from None


_FIELDS: Final = {each.name: None for each in fields_of(Attempt) if each.name != "other"}
_ADDED: Final = ("why", "rule", "sitting", "place", "taken_for", "given")
"""Fields that a line may lack: logs are older than they are."""
_REPEATED: Final = ("kind", "form", "skill", "means", "purpose", "why", "rule", "sitting", "taken_for")
_NOTHING: Final[Mapping[str, object]] = {}
"""With the texts that every other line repeats: one of each for hundreds of thousands of attempts."""
_NAMES_TAKEN: Final = OF_THE_LINE | _FIELDS.keys()


def practice_day(at: datetime, offset_minutes: int) -> date:
    """Return the local practice day of a time in UTC; it begins at 04:00 by the given offset."""
    return (at + timedelta(minutes=offset_minutes) - DAY_BEGINS).date()


def stamp(now: datetime) -> tuple[datetime, int]:
    """Return an aware local time as UTC to the millisecond and its offset from UTC in minutes."""
    offset = now.utcoffset()
    if offset is None:
        raise ValueError("the clock must give an aware time")
    at = now.astimezone(UTC)
    return at.replace(microsecond=at.microsecond // 1000 * 1000), round(offset.total_seconds() / 60)


def _utc(value: object) -> datetime | None:
    try:
        at = datetime.fromisoformat(value) if isinstance(value, str) else None
        return at.astimezone(UTC) if at is not None and at.tzinfo is not None else None
    except (ValueError, OverflowError):
        return None


def _misfit(attempt: Attempt) -> str | None:
    """Return the name of the first field that does not fit, or None."""
    for name in _TEXTS:
        if not _is_text(getattr(attempt, name)):
            return name
    for name in _COUNTS:
        if not _is_count(getattr(attempt, name)):
            return name
    for name, choices in _CHOICES.items():
        value = getattr(attempt, name)
        if type(value) is not str or value not in choices:
            return name
    return _misfit_of_its_own(attempt)


def _misfit_of_its_own(attempt: Attempt) -> str | None:
    offset, gaps = attempt.offset_minutes, attempt.gaps
    fits = {
        "at": _is_time(attempt.at),
        "offset_minutes": type(offset) is int and -WIDEST_OFFSET <= offset <= WIDEST_OFFSET,
        "right": type(attempt.right) is bool,
        "helped": type(attempt.helped) is bool,
        "slip": _is_text_or_none(attempt.slip),
        **{name: _is_text_or_none(getattr(attempt, name)) for name in _ADDED if name != "place"},
        "place": attempt.place is None or _is_count(attempt.place),
        "milliseconds": attempt.milliseconds is None or _is_count(attempt.milliseconds),
        "other": not attempt.other.keys() & _NAMES_TAKEN and _is_shallow(attempt.other),
        "gaps": type(gaps) is tuple and len(gaps) <= MOST_GAPS and all(map(_is_count, gaps)),
    }
    return None if all(fits.values()) else next(name for name in fits if not fits[name])


def _is_time(at: object) -> bool:
    return isinstance(at, datetime) and at.tzinfo is UTC and not at.microsecond % 1000 and _FIRST < at < _LAST


def _is_text(value: object) -> bool:
    return type(value) is str and 0 < len(value) <= LONGEST_TEXT and value.isprintable()


def _is_text_or_none(value: object) -> bool:
    return value is None or _is_text(value)


def _is_count(value: object) -> bool:
    return type(value) is int and 0 <= value <= LARGEST


def _is_shallow(fields: Mapping[str, object]) -> bool:
    """Whether fields of an unknown kind lie at most 20 deep: what is read can then be written too."""
    layer: list[object] = list(fields.values())
    for _ in range(DEEPEST):
        if not layer:
            return True
        layer = [inner for each in layer for inner in _inside(each)]
    return False


def _inside(value: object) -> Iterable[object]:
    if isinstance(value, dict):
        return value.values()
    return value if isinstance(value, list) else ()


class AttemptSet:
    """Attempts by id: of two that share one the first by order stays, whichever was added first.

    `clashing` has the ids that different attempts share.
    """

    def __init__(self, attempts: Iterable[Attempt] = ()) -> None:
        self._by_id: dict[str, Attempt] = {}
        self.clashing: set[str] = set()
        self.add_all(attempts)

    def add_all(self, attempts: Iterable[Attempt]) -> None:
        """Count attempts in."""
        for attempt in attempts:
            self.add(attempt)

    def add(self, attempt: Attempt) -> None:
        """Count an attempt in."""
        if self.clashes(attempt):
            self.clashing.add(attempt.id)
        if self.lacks(attempt):
            self._by_id[attempt.id] = attempt

    def lacks(self, attempt: Attempt) -> bool:
        """Whether adding an attempt would change which attempts there are."""
        known = self._by_id.get(attempt.id)
        return known is None or (known != attempt and _rank(attempt) < _rank(known))

    def clashes(self, attempt: Attempt) -> bool:
        """Whether a different attempt has this one's id."""
        known = self._by_id.get(attempt.id)
        return known is not None and known != attempt and _rank(known) != _rank(attempt)

    def __contains__(self, identity: str) -> bool:
        return identity in self._by_id

    def __iter__(self) -> Iterator[Attempt]:
        return iter(self._by_id.values())

    def __len__(self) -> int:
        return len(self._by_id)


def _rank(attempt: Attempt) -> tuple[object, str]:
    return attempt.order, json.dumps(attempt.to_json(), sort_keys=True)
