"""Judged drills as columns, so that figures of hundreds of thousands need no object for each.

A row has 61 bytes, lowest byte first; texts stand once in lists beside the rows and go by their place there.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from struct import Struct
from typing import TYPE_CHECKING, Any, Final, Generic, TypeVar, get_args

from progress_store.attempt import APART, Attempt
from progress_store.coin import comes_back, has_coin
from progress_store.pace import PaceKey, Result
from progress_store.state import Judged

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Rows = NDArray[Any]

ROW: Final = Struct("<q8i5IB")
NONE: Final = -(2**31)
"""Stands for None in a column of numbers."""
NOWHERE: Final = -1
_COLUMNS: Final = (
    ("line", "<i8"),
    *((name, "<i4") for name in ("day", "milliseconds", "net_ms", "goal_ms", "days_away")),
    *((name, "<i4") for name in ("marks", "misses", "false_alarms")),
    *((name, "<u4") for name in ("skill", "key", "slip", "purpose", "taken_for")),
    ("told", "u1"),
)
_RIGHT, _HELPED, _FIRST, _RESULT, _COIN = 1, 2, 4, 8, 32
BACK, NOT_BACK = 1, 2
"""How a coin fell; 0 where none was thrown."""
_RESULTS: Final[tuple[Result, ...]] = get_args(Result)

_PURPOSE: Final = Struct("<q8i3I").size
"""Where in a row its purpose stands; of its bytes the first tells all, there being so few."""

T = TypeVar("T", str, PaceKey)


class Texts(Generic[T]):
    """Texts, or keys of them, by place; the place of one that is new is at the end."""

    def __init__(self, known: Iterable[T] = ()) -> None:
        self.all: list[T] = list(known)
        self._places: dict[T, int] = {each: place for place, each in enumerate(self.all)}

    def place(self, one: T) -> int:
        """Return the place of one, given to it now if it has none."""
        place = self._places.setdefault(one, len(self.all))
        if place == len(self.all):
            self.all.append(one)
        return place


@dataclass(slots=True)
class Columns:
    """Judged drills in order of time; `line` of a row says at which byte of the log its line begins."""

    rows: bytearray = field(default_factory=bytearray)
    skills: Texts[str] = field(default_factory=Texts)
    keys: Texts[PaceKey] = field(default_factory=Texts)
    slips: Texts[str] = field(default_factory=lambda: Texts([""]))
    purposes: Texts[str] = field(default_factory=Texts)
    taken_for: Texts[str] = field(default_factory=lambda: Texts([""]))

    @classmethod
    def of(cls, judged: Iterable[Judged]) -> Columns:
        """Return the columns of some drills in order of time, which are in no log."""
        columns = cls()
        for each in judged:
            columns.add(each)
        return columns

    def __len__(self) -> int:
        return len(self.rows) // ROW.size

    def met(self) -> dict[tuple[str, str], int]:
        """Return how many drills of each kind and form were left to the person alone."""
        apart, found = self._apart(), Counter[int]()
        for *_, key, _, purpose, _, _ in ROW.iter_unpack(self.rows):
            found[key] += purpose not in apart
        met = Counter[tuple[str, str]]()
        for place, times in found.items():
            met[self.keys.all[place][:2]] += times
        return +met

    def add(self, judged: Judged, line: int = NOWHERE) -> bytes:
        """Add a drill later than all before and return its row."""
        attempt = judged.attempt
        told = _RIGHT * attempt.right | _HELPED * attempt.helped | _FIRST * judged.first
        row = ROW.pack(
            line,
            attempt.practice_day.toordinal(),
            _number(attempt.milliseconds),
            _number(judged.net_ms),
            _number(judged.goal_ms),
            _number(judged.days_away),
            attempt.marks,
            attempt.misses,
            attempt.false_alarms,
            self.skills.place(attempt.skill),
            self.keys.place(judged.pace_key),
            self.slips.place(attempt.slip or ""),
            self.purposes.place(attempt.purpose),
            self.taken_for.place(attempt.taken_for or ""),
            told | _RESULT * _RESULTS.index(judged.result) | _COIN * _coin(attempt),
        )
        self.rows += row
        return row

    def judged(self, place: int, attempt: Attempt) -> Judged:
        """Return the drill of a row, given its attempt."""
        _, _, _, net, goal, away, *_, key, _, _, _, told = ROW.unpack_from(self.rows, place * ROW.size)
        return Judged(
            attempt,
            self.keys.all[key],
            _RESULTS[told % _COIN // _RESULT],
            _or_none(net),
            _or_none(goal),
            bool(told & _FIRST),
            _or_none(away),
        )

    def places(self, purpose: str) -> list[int]:
        """Return the places of the rows of a purpose."""
        wanted = self.purposes.place(purpose)
        return [place for place, each in enumerate(self.rows[_PURPOSE :: ROW.size]) if each == wanted]

    def lines(self, places: Iterable[int]) -> list[int]:
        """Return at which byte of the log the lines of some rows begin."""
        return [ROW.unpack_from(self.rows, place * ROW.size)[0] for place in places]

    def table(self) -> Rows:
        """Return all rows as an array whose fields are the columns; no row can be added while it is held."""
        import numpy as np

        return np.frombuffer(self.rows, np.dtype(list(_COLUMNS)))

    def own(self) -> Rows:
        """Return the rows of drills that were left to the person alone, and not raced through."""
        import numpy as np

        rows = self.table()
        own: Rows = rows[~np.isin(rows["purpose"], self._apart())]
        return own

    def _apart(self) -> list[int]:
        return [self.purposes.place(purpose) for purpose in sorted(APART)]

    def timed(self) -> Rows:
        """Return the rows of answers whose time tells how quick the person is, as `counts_for_pace` says."""
        own = self.own()
        alone = own["told"] & (_RIGHT | _HELPED) == _RIGHT
        timed: Rows = own[alone & (own["milliseconds"] != NONE)]
        return timed


def is_right(rows: Rows) -> Any:
    """Return for each row whether the answer was right."""
    return rows["told"] & _RIGHT > 0


def is_helped(rows: Rows) -> Any:
    """Return for each row whether the answer was helped."""
    return rows["told"] & _HELPED > 0


def is_first(rows: Rows) -> Any:
    """Return for each row whether it was its skill's first drill of the day."""
    return rows["told"] & _FIRST > 0


def coins_of(rows: Rows) -> Any:
    """Return for each row how its coin fell."""
    return rows["told"] // _COIN


def results_of(rows: Rows) -> list[Result]:
    """Return for each row how the answer was judged."""
    return [_RESULTS[place] for place in (rows["told"] % _COIN // _RESULT).tolist()]


def grouped(rows: Rows, by: Any) -> dict[int, Rows]:
    """Return the rows in groups that are alike in `by`, one number a row; the order stays within each."""
    import numpy as np

    if not len(rows):
        return {}
    order = np.argsort(by, kind="stable")
    values, begins = np.unique(by[order], return_index=True)
    return {int(value): rows[each] for value, each in zip(values, np.split(order, begins[1:]), strict=True)}


def _coin(attempt: Attempt) -> int:
    return (BACK if comes_back(attempt) else NOT_BACK) if has_coin(attempt) else 0


def _number(value: int | None) -> int:
    return NONE if value is None else value


def _or_none(value: int) -> int | None:
    return None if value == NONE else value
