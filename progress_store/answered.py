"""What was answered, as far as it must be known: from the ledger of the start before, or all of the log."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from datetime import date, datetime
from typing import Final, NamedTuple

from progress_store.attempt import APART, Attempt, AttemptSet, Purpose, stamp
from progress_store.files import StoreError, reason
from progress_store.ledger import Ledger
from progress_store.log import Log
from progress_store.merge import beside, count_copies, may_have_copies, take_in_copies
from progress_store.missed import open_among, open_misses
from progress_store.reading import Reading, refuse_newer, told
from progress_store.record import Record
from progress_store.saved_state import SavedState
from progress_store.standing import FURTHEST_AHEAD, Standing
from progress_store.state import Judged, Rules, State, replay
from progress_store.yardsticks import Yardstick, yardsticks

READINGS: Final = 5
"""So often a reader looks at a log whose last line is torn, as long as it changes meanwhile."""


class Everything(NamedTuple):
    """All attempts, by id and in order of time."""

    known: AttemptSet
    standing: Standing


class Answered:
    """The attempts of a log and the state they make.

    A start goes on from the ledger where the log is as it was left, and reads no line of it. Anything odd, or
    an answer that is not later than all before, has the whole log read; the next start then makes a ledger.
    `unreadable` are the lines that do not count and why.
    """

    def __init__(
        self,
        log: Log,
        saved: SavedState,
        rules: Rules,
        clock: Callable[[], datetime],
        tell: Callable[[str], None],
        *,
        writable: bool,
    ) -> None:
        self._log, self._saved, self._rules, self._clock, self._tell = log, saved, rules, clock, tell
        self._writable = writable
        self.unreadable: Mapping[int, str] = {}
        self._all: Everything | None = None
        self._measuring: list[Attempt] | None = None
        self._ledger = None if may_have_copies(log.path) else saved.go_on(log, self._furthest)
        if self._ledger is None:
            self._read()
        elif writable:
            log.refuse_unwritable()

    @property
    def all(self) -> Everything:
        """All attempts, read from the log if they were not yet."""
        return self._all or self._read_later()

    @property
    def state(self) -> State:
        """What follows from the attempts by now."""
        return self._ledger.state if self._ledger else self.all.standing.state

    @property
    def ahead(self) -> int:
        """How many answers are dated ahead of the clock."""
        return 0 if self._ledger else self.all.standing.ahead

    @property
    def how_many(self) -> int:
        """How many attempts there are."""
        return len(self._ledger.columns) if self._ledger else len(self.all.standing.attempts)

    def latest(self, number: int) -> tuple[Attempt, ...]:
        """Return the latest attempts, so many of them, in order of time."""
        return self._at(range(max(0, self.how_many - number), self.how_many))

    @property
    def measuring(self) -> tuple[Attempt, ...]:
        """The attempts by now that belong to yardsticks, in order of time."""
        if self._ledger is None:
            return self.of_purpose("yardstick")
        if self._measuring is None:
            self._measuring = list(self.of_purpose("yardstick"))
        return tuple(self._measuring)

    def of_purpose(self, purpose: Purpose) -> tuple[Attempt, ...]:
        """Return the attempts by now of a purpose, in order of time."""
        if self._ledger is None:
            return tuple(each for each in self.all.standing.by_now if each.purpose == purpose)
        return self._at(self._ledger.columns.places(purpose))

    @property
    def met(self) -> Mapping[tuple[str, str], int]:
        """How many drills of each kind and form were by now left to the person alone."""
        if self._ledger:
            return self._ledger.columns.met()
        by_now = self.all.standing.by_now
        return Counter((each.kind, each.form) for each in by_now if each.purpose not in APART)

    def days_with(self, today: date) -> int:
        """Return how many practice days had attempts, today counted as one of them."""
        if self._ledger:
            return self._ledger.days.with_day(today.toordinal()).number
        return len({attempt.practice_day for attempt in self.all.standing.attempts} | {today})

    def record(self) -> Record:
        """Return the record of all attempts."""
        measured = self._measured()
        if self._ledger is None or measured is None:
            return Record.of(self.all.standing.attempts, self._rules)
        return Record.worked_out(self._ledger.columns, measured, self._ledger.state)

    def missed(self, number: int) -> tuple[Attempt, ...]:
        """Return the latest misses that are open, so many of them, the latest first."""
        if self._ledger is None:
            return tuple(open_among(self.all.standing.by_now)[:number])
        return self._at(open_misses(self._ledger.columns)[:number])

    def yardsticks(self) -> list[Yardstick]:
        """Return the yardsticks of all attempts, in order of time."""
        measured = self._measured()
        return yardsticks(measured or replay(self.all.standing.attempts, self._rules)[1])

    def knows(self, identity: str) -> bool:
        """Whether an attempt of this id is in the log."""
        if self._all is None:
            try:
                if not self._log.mentions(identity):
                    return False
            except (OSError, ValueError):  # away or cut short, of which writing tells
                return False
        return identity in self.all.known

    def make_ready(self, attempts: Sequence[Attempt]) -> None:
        """Read all now, if these attempts, about to be written, do not simply follow what there is."""
        if self._ledger is None:
            return
        is_untouched = self._log.is_untouched()
        if is_untouched and self._ledger.follows(attempts, self._furthest):
            return
        self._all = self._read_later() if self._all is None or not is_untouched else self._all
        self._ledger = None

    def add(self, attempt: Attempt, start: int) -> Judged:
        """Count in an attempt that was written, whose line begins at a byte; return how it was judged."""
        if self._measuring is not None and attempt.purpose == "yardstick":
            self._measuring.append(attempt)
        judged = self._ledger.add(attempt, start) if self._ledger else None
        if self._all is None and judged is not None:
            return judged
        self.all.known.add(attempt)
        return self.all.standing.keep(attempt)

    def take_in(self, attempts: Iterable[Attempt]) -> None:
        """Count in attempts of another machine that were written, and save what follows."""
        known, standing = self.all
        self._ledger = None
        known.add_all(attempts)
        standing.work_out(known)
        self.save()

    def save(self) -> None:
        """Save the state; it can always be made from the log, so a failure is told and nothing more."""
        try:
            self._saved.save(self.state, self._log, self._ledger)
        except OSError as error:
            self._tell(f"The state cannot be saved ({reason(error)}); make room. The log has every attempt.")

    @property
    def _furthest(self) -> datetime:
        """The time after which an attempt is dated ahead of the clock."""
        return stamp(self._clock())[0] + FURTHEST_AHEAD

    def _read(self) -> None:
        """Read log and copies, and make a ledger where nothing is odd in them."""
        reading, came = self._read_to_write() if self._writable else self._read_with_copies()
        self.unreadable = reading.unreadable
        standing = Standing(reading.attempts, self._rules, self._clock)
        self._all = Everything(reading.attempts, standing)
        saved = self._saved.load(self._log)
        if self._writable and reading.is_sound and not (came or standing.ahead):
            lines = sorted(zip(reading.attempts, reading.starts, strict=True), key=lambda each: each[0].order)
            self._ledger = Ledger.of(self._log.path.parent, lines, self._rules)
            standing.resume(self._ledger.state)
        elif standing.resume(None if came else saved):
            return
        else:
            standing.work_out()
        if self._writable and standing.attempts:
            self.save()

    def _read_to_write(self) -> tuple[Reading, bool]:
        """Return what the log holds, mended and with its copies, and whether any attempt came from those."""
        reading = self._log.read()
        for notice in told(reading, self._log.path, writable=True):
            self._tell(notice)
        refuse_newer(reading, self._log.path)
        self._log.mend(reading)
        own = len(reading.attempts)
        take_in_copies(reading.attempts, self._log, self._tell)
        return reading, len(reading.attempts) > own

    def _read_with_copies(self) -> tuple[Reading, bool]:
        """Return what log and copies hold, and whether the log lacks any of it; write nothing."""
        # copies first: a writer in another window adds to the log first and renames copies then
        found, copies = beside(self._log.path, self._tell)
        reading = self._read_beside_a_writer()
        for notice in told(reading, self._log.path, writable=False):
            self._tell(notice)
        return reading, count_copies(found, copies, reading.attempts, self._log.path, self._tell)

    def _read_beside_a_writer(self) -> Reading:
        """Return what the log holds; a line that was still being written is not taken for a torn one."""
        for _ in range(READINGS):
            reading = self._log.read()
            if not reading.torn or self._log.is_untouched():
                break
        return reading

    def _read_later(self) -> Everything:
        """Read the whole log after a start without it; the ledger stays if it is of this very log."""
        reading, ledger = self._log.read(), self._ledger
        self._all = Everything(reading.attempts, Standing(reading.attempts, self._rules, self._clock))
        if ledger and not (reading.is_sound and len(reading.attempts) == len(ledger.columns)):
            self._ledger, self.unreadable = None, reading.unreadable
        if not self._all.standing.resume(self._ledger.state if self._ledger else None):
            self._all.standing.work_out()
        return self._all

    def _measured(self) -> list[Judged] | None:
        """Return the drills of yardsticks by the ledger, None where there is none, or the log is away."""
        measuring, ledger = self.measuring, self._ledger
        places = ledger.columns.places("yardstick") if ledger else []
        if ledger is None or len(places) != len(measuring):
            return None
        return [ledger.columns.judged(*each) for each in zip(places, measuring, strict=True)]

    def _at(self, places: Sequence[int]) -> tuple[Attempt, ...]:
        """Return the attempts of some rows; of a log that is not what it was, those that stand there now."""
        if self._ledger and self._all is None and self._log.is_untouched():
            with suppress(StoreError):
                return tuple(self._log.attempts_at(self._ledger.columns.lines(places)))
            if not self._log.path.exists():
                return ()  # away for a while; what is known of it stays
        attempts = self.all.standing.attempts
        return tuple(attempts[place] for place in places if place < len(attempts))
