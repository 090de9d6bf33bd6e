"""The one door to what is remembered."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, datetime
from pathlib import Path
from types import TracebackType
from typing import NamedTuple

from progress_store import settings as settings_file
from progress_store.answered import Answered
from progress_store.attempt import Attempt, practice_day, stamp
from progress_store.files import JsonFile, StoreError, reason
from progress_store.folder import FolderLock, made, refuse_other_things
from progress_store.line import is_writable
from progress_store.log import Log
from progress_store.merge import (
    MergeResult,
    answers,
    log_of_other,
    missing_of,
)
from progress_store.minute import MinuteByClock, minutes_by_clock
from progress_store.pace import Floor
from progress_store.reading import told_of_unreadable
from progress_store.record import Record
from progress_store.saved_state import SavedState
from progress_store.settings import Settings
from progress_store.state import Judged, Rules, State, replay
from progress_store.yardsticks import Yardstick


class Repaired(NamedTuple):
    """Where unreadable lines were put, and why each was, by its number in the log."""

    aside: Path
    unreadable: Mapping[int, str]


def open_store(
    folder: Path,
    clock: Callable[[], datetime],
    floors: Mapping[str, Floor],
    levels: Mapping[str, range],
    *,
    writable: bool = True,
    wait_seconds: float = 0,
) -> Store:
    """Return the store of a data folder; raises StoreError with one sentence that says what to do.

    A writable store makes the folder if need be and holds its lock until closed, waiting so long for
    another program to let it go; any other writes nothing. `clock` gives the aware local time.
    """
    lock = FolderLock(made(folder), wait_seconds) if writable else None
    try:
        refuse_other_things(folder)
        return Store(folder, clock, Rules(floors, levels), lock)
    except BaseException:
        if lock is not None:
            lock.release()
        raise


class Store:
    """What is remembered of a person's practice; made by `open_store`, ended by `close` or a `with`."""

    def __init__(
        self, folder: Path, clock: Callable[[], datetime], rules: Rules, lock: FolderLock | None
    ) -> None:
        self.folder = folder
        self._clock, self._lock, self._notices = clock, lock, list[str]()
        self.rules = rules
        self._waiting: list[Attempt] = []
        self._log = Log(folder)
        tell, writable = self._notices.append, lock is not None
        saved = SavedState(folder, rules, tell, writable=writable)
        self._answered = Answered(self._log, saved, rules, clock, tell, writable=writable)
        self._tell_of_answers_ahead()
        self._settings_file = JsonFile(
            folder / settings_file.NAME, settings_file.SCHEMA, tell, writable=writable
        )
        self._settings = self._settings_file.read(Settings.from_json) or Settings()

    @property
    def attempts(self) -> tuple[Attempt, ...]:
        """All attempts in order of time; the whole log is read for them."""
        return tuple(self._answered.all.standing.attempts)

    @property
    def by_now(self) -> tuple[Attempt, ...]:
        """The attempts that schedule: all but those dated later than a day after now."""
        return tuple(self._answered.all.standing.by_now)

    @property
    def how_many(self) -> int:
        """How many attempts there are."""
        return self._answered.how_many

    def latest(self, number: int) -> tuple[Attempt, ...]:
        """Return the latest attempts, so many of them, in order of time."""
        return self._answered.latest(number)

    @property
    def measuring(self) -> tuple[Attempt, ...]:
        """The attempts by now that belong to yardsticks, in order of time."""
        return self._answered.measuring

    @property
    def met(self) -> Mapping[tuple[str, str], int]:
        """How many drills of each kind and form were by now left to the person alone."""
        return self._answered.met

    @property
    def days(self) -> int:
        """How many practice days had attempts, today counted as one of them."""
        return self._answered.days_with(self.today)

    @property
    def state(self) -> State:
        """What follows from the attempts by now."""
        return self._answered.state

    @property
    def settings(self) -> Settings:
        """What the person has set."""
        return self._settings

    @property
    def notices(self) -> tuple[str, ...]:
        """What the person should be told of the files, one sentence each."""
        unreadable = told_of_unreadable(self._answered.unreadable, self._log.path, own=True)
        return (*unreadable, *self._notices)

    @property
    def today(self) -> date:
        """The practice day of now."""
        return practice_day(*stamp(self._clock()))

    def record(self) -> Record:
        """Return the record of all attempts, worked out anew."""
        return self._answered.record()

    def minutes_by_clock(self) -> list[MinuteByClock]:
        """Return the minutes by the clock of all attempts by now, in order of time."""
        return minutes_by_clock(self._answered.of_purpose("minute"))

    def missed(self, number: int) -> tuple[Attempt, ...]:
        """Return the latest misses, so many of them, that two right ones of their skill have not followed."""
        return self._answered.missed(number)

    def yardsticks(self) -> list[Yardstick]:
        """Return the yardsticks of all attempts, in order of time."""
        return self._answered.yardsticks()

    def judged(self) -> list[Judged]:
        """Return how each of all attempts was judged, in order of time."""
        return replay(self.attempts, self.rules)[1]

    def keep(self, attempt: Attempt) -> Judged:
        """Write an attempt to the log and return how it was judged; when this returns it is on the disk.

        Raises StoreError if it could not be written; it then waits, and is written with the next one or
        by `keep_rest`, whichever comes first.
        """
        self._refuse_reader()
        if self._answered.knows(attempt.id) or any(attempt.id == each.id for each in self._waiting):
            raise StoreError("This attempt is in the log already; leave it out.")
        if not is_writable(attempt):
            raise StoreError("An attempt is too long for one line of the log; leave this attempt out.")
        self._waiting.append(attempt)
        return next(judged for judged in self.keep_rest() if judged.attempt == attempt)

    def keep_rest(self) -> list[Judged]:
        """Write what could not be written before, all or nothing; raises StoreError where it still cannot."""
        if not self._waiting:
            return []
        self._answered.make_ready(self._waiting)
        starts = self._log.append(self._waiting)
        written, self._waiting = self._waiting, []
        judged = [self._answered.add(*each) for each in zip(written, starts, strict=True)]
        self._answered.save()
        return judged

    @property
    def waiting(self) -> int:
        """How many attempts are not on the disk yet."""
        return len(self._waiting)

    def take_in(self, folder: Path) -> MergeResult:
        """Add what another data folder has and this has not; the other stays as it is; raises StoreError."""
        self._refuse_reader()
        others = log_of_other(folder, self._log.path.parent, self._notices.append)
        missing = missing_of(others, self._answered.all.known, folder, self._notices.append)
        if missing:
            self._log.append(missing)
            self._answered.take_in(missing)
        return MergeResult(len(missing), len(others))

    def repair(self) -> Repaired | None:
        """Put the unreadable lines of the log into a file beside it; None if there are none.

        Raises StoreError, with the log as it was.
        """
        self._refuse_reader()
        unreadable = self._answered.unreadable
        if not unreadable:
            return None
        repaired = Repaired(self._log.repair(unreadable), unreadable)
        self._answered.unreadable = {}
        self._answered.save()
        return repaired

    def save_settings(self, settings: Settings) -> None:
        """Replace the settings; raises StoreError if they could not be written."""
        self._refuse_reader()
        self._settings = settings
        try:
            self._settings_file.write(settings.to_json())
        except OSError as error:
            raise StoreError(
                f"The settings cannot be written ({reason(error)}); make room for them."
            ) from None

    def close(self) -> None:
        """Let another program in; a second call does nothing."""
        if self._lock is not None:
            self._lock.release()
            self._lock = None

    def __enter__(self) -> Store:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def _refuse_reader(self) -> None:
        if self._lock is None:
            raise StoreError("This data folder was opened only to read; close it and open it to write.")

    def _tell_of_answers_ahead(self) -> None:
        if ahead := self._answered.ahead:
            last = self._answered.latest(1)[0].at.date()
            self._notices.append(
                f"In the record, but not yet in the schedule: {answers(ahead)} dated in the future,"
                f" up to {last}; look whether the clock of this machine is right."
            )
