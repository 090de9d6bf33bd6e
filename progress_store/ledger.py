"""What a start goes on from without reading the log: the state, and each judged drill as a row of columns.

Both follow from the log and are made anew from it whenever anything does not fit. The rows grow with the log,
in a file beside the state, as long as each answer is later than all before.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from pathlib import Path
from typing import Any, Final, NamedTuple
from zlib import crc32

from progress_store.attempt import Attempt
from progress_store.columns import ROW, Columns, Texts
from progress_store.files import opened, private
from progress_store.pace import PaceKey
from progress_store.state import Judged, Rules, State

NAME: Final = "state.columns"
_DAYS_KEPT: Final = 4
"""Offsets from UTC differ by 36 hours at most, so a later answer is never of an earlier day than these."""


class Days(NamedTuple):
    """How many practice days had answers, and the latest of them as ordinals."""

    number: int = 0
    latest: tuple[int, ...] = ()

    def with_day(self, day: int) -> Days:
        """Return the days after an answer later than all before."""
        if day in self.latest:
            return self
        return Days(self.number + 1, tuple(sorted((*self.latest, day))[-_DAYS_KEPT:]))


class Ledger:
    """The state and the rows of all attempts of a log, none of them dated ahead of the clock."""

    def __init__(self, folder: Path, state: State, columns: Columns, days: Days) -> None:
        self.state, self.columns, self.days = state, columns, days
        self._path = folder / NAME
        self._sum = 0
        self._kept = 0

    @classmethod
    def of(cls, folder: Path, attempts: Iterable[tuple[Attempt, int]], rules: Rules) -> Ledger:
        """Return the ledger of attempts in order of time, each with the byte where its line begins."""
        ledger = cls(folder, State(rules), Columns(), Days())
        for attempt, line in attempts:
            ledger.add(attempt, line)
        return ledger

    @classmethod
    def loaded(cls, folder: Path, state: State, fields: dict[str, Any]) -> Ledger:
        """Return the ledger that was saved, given its fields and its state.

        Raises ValueError, TypeError, LookupError or OSError where its rows are not those that were written.
        """
        with opened(folder / NAME) as file:
            rows = file.read(ROW.size * state.attempts)
        if len(rows) != ROW.size * state.attempts or crc32(rows) != fields["rows"]:
            raise ValueError("not the rows that were written")
        columns = Columns(
            bytearray(rows),
            Texts(fields["skills"]),
            Texts(PaceKey(*key) for key in fields["keys"]),
            Texts(fields["slips"]),
            Texts(fields["purposes"]),
            Texts(fields["taken_for"]),
        )
        ledger = cls(folder, state, columns, Days(fields["days"][0], tuple(fields["days"][1])))
        ledger._sum, ledger._kept = fields["rows"], len(rows)
        return ledger

    def follows(self, attempts: Sequence[Attempt], latest: datetime) -> bool:
        """Whether attempts come in order of time after all there are, none later than a time."""
        orders = [each.order for each in attempts]
        last = self.state.last
        in_order = orders == sorted(set(orders)) and (last is None or last < orders[0])
        return in_order and attempts[-1].at <= latest

    def add(self, attempt: Attempt, line: int) -> Judged:
        """Count in an attempt later than all before, with where its line begins; return its judgement."""
        self.state, judged = self.state.step(attempt)
        row = self.columns.add(judged, line)
        self._sum = crc32(row, self._sum)
        self.days = self.days.with_day(attempt.practice_day.toordinal())
        return judged

    def fields(self) -> dict[str, object]:
        """Return what has to be kept beside the state and the rows, as JSON fields."""
        columns = self.columns
        return {
            "rows": self._sum,
            "days": [self.days.number, list(self.days.latest)],
            "skills": columns.skills.all,
            "keys": [list(key) for key in columns.keys.all],
            "slips": columns.slips.all,
            "purposes": columns.purposes.all,
            "taken_for": columns.taken_for.all,
        }

    def write(self) -> None:
        """Write the rows that are not in the file yet; raises OSError.

        It need not be on the disk: by its check sum the next start knows whether it is.
        """
        rows = self.columns.rows
        if self._kept == len(rows):
            return
        if not self._path.exists():
            self._kept = 0
        with open(self._path, "r+b" if self._kept else "wb", opener=private) as file:
            file.seek(self._kept)
            file.write(memoryview(rows)[self._kept :])
            file.truncate()
        self._kept = len(rows)
