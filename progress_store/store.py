"""The one door to what is remembered."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, datetime
from pathlib import Path
from types import TracebackType
from typing import NamedTuple

from progress_store import settings as settings_file
from progress_store.attempt import Attempt, practice_day, stamp
from progress_store.files import JsonFile, StoreError, reason
from progress_store.folder import FolderLock, made, refuse_other_things
from progress_store.line import is_writable
from progress_store.log import Log
from progress_store.merge import (
    MergeResult,
    answers,
    beside,
    count_copies,
    log_of_other,
    missing_of,
    take_in_copies,
)
from progress_store.pace import Floor
from progress_store.reading import Reading, refuse_newer, told, told_of_unreadable
from progress_store.record import Record
from progress_store.saved_state import SavedState
from progress_store.settings import Settings
from progress_store.standing import Standing
from progress_store.state import Judged, Rules, State, replay


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
        self._clock, self._lock, self._notices = clock, lock, list[str]()
        self.rules = rules
        self._waiting: list[Attempt] = []
        self._log = Log(folder)
        writable = lock is not None
        reading, unwritten = self._read() if writable else self._read_with_copies()
        self._known, self._unreadable = reading.attempts, reading.unreadable
        self._standing = Standing(self._known, rules, clock)
        self._saved = SavedState(folder, rules, self._notices.append, writable=writable)
        saved = self._saved.load(self._log)
        if not self._standing.resume(None if unwritten else saved):
            self._work_out()
        self._tell_of_answers_ahead()
        self._settings_file = JsonFile(
            folder / settings_file.NAME, settings_file.SCHEMA, self._notices.append, writable=writable
        )
        self._settings = self._settings_file.read(Settings.from_json) or Settings()

    @property
    def attempts(self) -> tuple[Attempt, ...]:
        """All attempts in order of time."""
        return tuple(self._standing.attempts)

    @property
    def by_now(self) -> tuple[Attempt, ...]:
        """The attempts that schedule: all but those dated later than a day after now."""
        return tuple(self._standing.by_now)

    @property
    def state(self) -> State:
        """What follows from the attempts by now."""
        return self._standing.state

    @property
    def settings(self) -> Settings:
        """What the person has set."""
        return self._settings

    @property
    def notices(self) -> tuple[str, ...]:
        """What the person should be told of the files, one sentence each."""
        unreadable = told_of_unreadable(self._unreadable, self._log.path, own=True)
        return (*unreadable, *self._notices)

    @property
    def today(self) -> date:
        """The practice day of now."""
        return practice_day(*stamp(self._clock()))

    def record(self) -> Record:
        """Return the record of all attempts, worked out anew."""
        return Record.of(self._standing.attempts, self.rules)

    def judged(self) -> list[Judged]:
        """Return how each of all attempts was judged, in order of time."""
        return replay(self._standing.attempts, self.rules)[1]

    def keep(self, attempt: Attempt) -> Judged:
        """Write an attempt to the log and return how it was judged; when this returns it is on the disk.

        Raises StoreError if it could not be written; it then waits, and is written with the next one or
        by `keep_rest`, whichever comes first.
        """
        self._refuse_reader()
        if attempt.id in self._known or any(attempt.id == each.id for each in self._waiting):
            raise StoreError("This attempt is in the log already; leave it out.")
        if not is_writable(attempt):
            raise StoreError("An attempt is too long for one line of the log; leave this attempt out.")
        self._waiting.append(attempt)
        return next(judged for judged in self.keep_rest() if judged.attempt == attempt)

    def keep_rest(self) -> list[Judged]:
        """Write what could not be written before, all or nothing; raises StoreError where it still cannot."""
        if not self._waiting:
            return []
        self._log.append(self._waiting)
        written, self._waiting = self._waiting, []
        judged = []
        for attempt in written:
            self._known.add(attempt)
            judged.append(self._standing.keep(attempt))
        self._save_state()
        return judged

    @property
    def waiting(self) -> int:
        """How many attempts are not on the disk yet."""
        return len(self._waiting)

    def take_in(self, folder: Path) -> MergeResult:
        """Add what another data folder has and this has not; the other stays as it is; raises StoreError."""
        self._refuse_reader()
        others = log_of_other(folder, self._log.path.parent, self._notices.append)
        missing = missing_of(others, self._known, folder, self._notices.append)
        if missing:
            self._log.append(missing)
            self._known.add_all(missing)
            self._work_out()
        return MergeResult(len(missing), len(others))

    def repair(self) -> Repaired | None:
        """Put the unreadable lines of the log into a file beside it; None if there are none.

        Raises StoreError, with the log as it was.
        """
        self._refuse_reader()
        if not self._unreadable:
            return None
        repaired = Repaired(self._log.repair(self._unreadable), self._unreadable)
        self._unreadable = {}
        self._save_state()
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

    def _read(self) -> tuple[Reading, bool]:
        """Return what the log holds, mended and with what its copies have; nothing of it is unwritten."""
        reading = self._log.read()
        self._notices.extend(told(reading, self._log.path, writable=True))
        refuse_newer(reading, self._log.path)
        self._log.mend(reading)
        take_in_copies(reading.attempts, self._log, self._notices.append)
        return reading, False

    def _read_with_copies(self) -> tuple[Reading, bool]:
        """Return what log and copies hold, and whether the log lacks any of it; write nothing."""
        # copies first: a writer in another window adds to the log first and renames copies then
        found, copies = beside(self._log.path, self._notices.append)
        reading = self._log.read()
        self._notices.extend(told(reading, self._log.path, writable=False))
        return reading, count_copies(found, copies, reading.attempts, self._log.path, self._notices.append)

    def _tell_of_answers_ahead(self) -> None:
        if ahead := self._standing.ahead:
            last = self._standing.attempts[-1].at.date()
            self._notices.append(
                f"In the record, but not yet in the schedule: {answers(ahead)} dated in the future,"
                f" up to {last}; look whether the clock of this machine is right."
            )

    def _work_out(self) -> None:
        """Make the state anew from all attempts and save it for the next start."""
        self._standing.work_out(self._known)
        if self._lock is not None and self._standing.attempts:
            self._save_state()

    def _save_state(self) -> None:
        """Save the state; it can always be made from the log, so a failure is told and nothing more."""
        try:
            self._saved.save(self.state, self._log)
        except OSError as error:
            self._notices.append(
                f"The state cannot be saved ({reason(error)}); make room. The log has every attempt."
            )
