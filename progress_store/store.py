"""The one door to what is remembered."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime
from pathlib import Path
from types import TracebackType

from progress_store import settings as settings_file
from progress_store.attempt import Attempt, practice_day, stamp
from progress_store.files import FolderLock, JsonFile, StoreError, reason, shown
from progress_store.log import Log, is_writable
from progress_store.merge import (
    MergeResult,
    copies_beside,
    count_copies,
    log_of_other,
    missing_of,
    refuse_newer,
    take_in_copies,
    told,
)
from progress_store.pace import Floor
from progress_store.record import Record
from progress_store.saved_state import SavedState
from progress_store.settings import Settings
from progress_store.state import Judged, Rules, State, replay


def open_store(
    folder: Path,
    clock: Callable[[], datetime],
    floors: Mapping[str, Floor],
    levels: Mapping[str, range],
    *,
    writable: bool = True,
) -> Store:
    """Return the store of a data folder; raises StoreError with one sentence that says what to do.

    A writable store makes the folder if need be and holds its lock until closed; any other writes nothing.
    `clock` gives the aware local time.
    """
    lock = FolderLock(_made(folder)) if writable else None
    try:
        _refuse_other_things(folder)
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
        # before the log: a writer in another window adds to the log first and renames copies then
        copies = copies_beside(self._log.path, self._notices.append)
        reading = self._log.read()
        self._notices.extend(told(reading, self._log.path, writable=writable))
        if writable:
            refuse_newer(reading, self._log.path)
            self._log.mend(reading)
        self._known, unwritten = reading.attempts, False
        if copies and writable:
            take_in_copies(copies, self._known, self._log, self._notices.append)
        elif copies:
            unwritten = count_copies(copies, self._known, self._log, self._notices.append)
        self._attempts = sorted(self._known, key=lambda attempt: attempt.order)
        self._saved = SavedState(folder, rules, self._notices.append, writable=writable)
        saved = self._saved.load(self._log)
        self._state = self._worked_out() if saved is None or unwritten else saved
        self._settings_file = JsonFile(
            folder / settings_file.NAME, settings_file.SCHEMA, self._notices.append, writable=writable
        )
        self._settings = self._settings_file.read(Settings.from_json) or Settings()

    @property
    def attempts(self) -> tuple[Attempt, ...]:
        """All attempts in order of time."""
        return tuple(self._attempts)

    @property
    def state(self) -> State:
        """What follows from the attempts so far."""
        return self._state

    @property
    def settings(self) -> Settings:
        """What the person has set."""
        return self._settings

    @property
    def notices(self) -> tuple[str, ...]:
        """What the person should be told of the files, one sentence each."""
        return tuple(self._notices)

    @property
    def today(self) -> date:
        """The practice day of now."""
        return practice_day(*stamp(self._clock()))

    def record(self) -> Record:
        """Return the record of all attempts, worked out anew."""
        return Record.of(self._attempts, self.rules)

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
        return self._count(written)

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
            self._count(missing)
        return MergeResult(len(missing), len(others))

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

    def _worked_out(self) -> State:
        """Return the state made anew from all attempts, saved for the next start."""
        self._state = State.of(self._attempts, self.rules)
        if self._lock is not None and self._attempts:
            self._save_state()
        return self._state

    def _count(self, attempts: Sequence[Attempt]) -> list[Judged]:
        """Take attempts of the log into the state; one that is not the latest makes all count anew."""
        self._known.add_all(attempts)
        last = self._state.last
        if len(attempts) == 1 and (last is None or attempts[0].order > last):
            self._attempts.append(attempts[0])
            self._state, judged = self._state.step(attempts[0])
            judgements = [judged]
        else:
            self._attempts = sorted(self._known, key=lambda attempt: attempt.order)
            self._state, judgements = replay(self._attempts, self.rules)
        self._save_state()
        wanted = {attempt.id for attempt in attempts}
        return [judged for judged in judgements if judged.attempt.id in wanted]

    def _save_state(self) -> None:
        """Save the state; it can always be made from the log, so a failure is told and nothing more."""
        try:
            self._saved.save(self._state, self._log)
        except OSError as error:
            self._notices.append(
                f"The state cannot be saved ({reason(error)}); make room. The log has every attempt."
            )


def _made(folder: Path) -> Path:
    """Make the folder if need be and return it."""
    _refuse_other_things(folder)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise StoreError(
            f"The folder {shown(folder)} cannot be made ({reason(error)}); give another one with --data."
        ) from None
    return folder


def _refuse_other_things(folder: Path) -> None:
    try:
        if not folder.exists() or folder.is_dir():
            return
    except OSError as error:
        raise StoreError(
            f"The folder {shown(folder)} cannot be read ({reason(error)}); give another one with --data."
        ) from None
    raise StoreError(f"{shown(folder)} is not a folder; give another one with --data.")
