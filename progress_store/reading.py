"""Reading a log: every whole line that is an attempt, what else stands in it, and what is told of that."""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import BinaryIO, Final, NamedTuple

from progress_store.attempt import Attempt, AttemptSet
from progress_store.files import StoreError, opened, reason, shown
from progress_store.fingerprint import LogHash, hash_on
from progress_store.line import LONGEST_LINE, NEWER, begins_as_ours, is_object, is_torn_of_ours, read

MOST_ODD: Final = 100_000
_LINES_NAMED: Final = 5


class ForeignLogError(StoreError):
    """The refusal of a file that has the name of a log and no line of ours."""


@dataclass(slots=True)
class Reading:
    """What a log holds: attempts, each id once; lines that do not count by number, from 1.

    `unreadable` says why; `newer` are answers of a newer program with none of ours after them.
    `length` and `digest` cover the whole lines, in bytes; `torn`: more bytes follow that are no whole line;
    `open_ended`: the last whole line lacks its line end. `ours`: a line of ours is in it, be it damaged.
    `starts` has the byte where the line of each attempt begins, in the order of the set of attempts.
    """

    attempts: AttemptSet = field(default_factory=AttemptSet)
    unreadable: dict[int, str] = field(default_factory=dict)
    newer: list[int] = field(default_factory=list)
    length: int = 0
    digest: LogHash = field(default_factory=LogHash)
    torn: bool = False
    open_ended: bool = False
    ours: bool = False
    starts: array[int] = field(default_factory=lambda: array("q"))

    @property
    def is_sound(self) -> bool:
        """Whether every byte belongs to an attempt, and no two attempts share an id."""
        return not (self.unreadable or self.newer or self.torn or self.attempts.clashing)


def read_log(path: Path) -> Reading:
    """Return what a log holds, nothing if there is none; raises StoreError if it is no file or unreadable.

    Unreadable is also what has more than 100,000 lines that do not count; a file with lines, none of
    them ours, raises ForeignLogError.
    """
    reading = Reading()
    try:
        if path.exists():
            _refuse_other_things(path)
            with opened(path) as file:
                _read_lines(file, path, reading)
                hash_on(reading.digest, file, reading.length)
    except OSError as error:
        raise StoreError(
            f"{shown(path)} cannot be read ({reason(error)});"
            " make it readable or give another folder with --data."
        ) from None
    return reading


def _refuse_other_things(path: Path) -> None:
    if not path.is_file():
        raise StoreError(f"{shown(path)} is not a file; move it away or give another folder with --data.")


def _read_lines(file: BinaryIO, path: Path, reading: Reading) -> None:
    is_foreign = False
    for number, line in enumerate(_lines(file), 1):
        if not line.ended and not is_object(line.head):
            reading.torn = True
            # after foreign lines a beginning proves nothing
            reading.ours |= not is_foreign and is_torn_of_ours(line.head)
            is_foreign |= not reading.ours
            break
        _count(line.head, number, reading)
        reading.length += line.size
        reading.open_ended = not line.ended
        is_foreign |= not reading.ours and not line.head.isspace()
        if len(reading.unreadable) + len(reading.newer) > MOST_ODD:
            raise _too_odd(path, reading)
    if is_foreign and not reading.ours:
        raise ForeignLogError(
            f"{shown(path)} has no line of Slantwise's; move it away or give another folder with --data."
        )


def _too_odd(path: Path, reading: Reading) -> StoreError:
    kind = StoreError if reading.ours else ForeignLogError
    return kind(f"{shown(path)} has more than {MOST_ODD:,} lines that are no answers; move it away.")


class _Line(NamedTuple):
    head: bytes
    size: int
    ended: bool


def _lines(file: BinaryIO) -> Iterator[_Line]:
    """Yield each line; of one that is too long only the head is kept, which is never an attempt."""
    while head := file.readline(LONGEST_LINE + 1):
        size, piece = len(head), head
        while not piece.endswith(b"\n") and (more := file.readline(LONGEST_LINE)):
            size, piece = size + len(more), more
        yield _Line(head, size, piece.endswith(b"\n"))


def _count(line: bytes, number: int, reading: Reading) -> None:
    found = read(line)
    if isinstance(found, Attempt):
        reading.attempts.add(found)
        if len(reading.attempts) > len(reading.starts):
            reading.starts.append(reading.length)
        # newer answers before one of ours do not make it a newer log
        reading.unreadable.update(dict.fromkeys(reading.newer, NEWER))
        reading.newer.clear()
        reading.ours = True
    elif found.newer:
        reading.newer.append(number)
        reading.ours = True
    else:
        reading.unreadable[number] = found.why
        reading.ours |= begins_as_ours(line)


def refuse_newer(reading: Reading, path: Path) -> None:
    """Raise StoreError if a newer program wrote any line of a log: we must not add to it."""
    if reading.newer:
        raise StoreError(
            f"{shown(path)} was written by a newer Slantwise;"
            " update this one, or give another folder with --data."
        )


def told(reading: Reading, path: Path, *, writable: bool) -> list[str]:
    """Return a sentence for each thing in a log that is not counted, unreadable lines apart."""
    notices = []
    if reading.torn:
        put = "was put aside in a file next to it" if writable else "is left as it is"
        notices.append(f"The last line of {shown(path)} was torn; it {put} and is not counted.")
    if reading.newer:
        lines = _numbered(reading.newer)
        notices.append(f"A newer Slantwise wrote {lines} of {shown(path)}; update this one to count it.")
    notices.extend(told_of_clashes(len(reading.attempts.clashing), path))
    return notices


def told_of_unreadable(unreadable: Iterable[int], path: Path, *, own: bool) -> list[str]:
    """Return a sentence if lines of a log are unreadable; those of one's own can be put aside."""
    if not (numbers := sorted(unreadable)):
        return []
    way_out = "; slantwise record --repair puts it aside" if own else ""
    lines = _numbered(numbers)
    return [f"{shown(path)} is unreadable in {lines}; that stays in place and is not counted{way_out}."]


def told_of_clashes(how_many: int, path: Path) -> list[str]:
    """Return a sentence if different answers share an id in a log, or in it and another."""
    if not how_many:
        return []
    return [f"{shown(path)} has different answers under one id ({how_many} in all); the earlier one counts."]


def _numbered(numbers: Sequence[int]) -> str:
    named = ", ".join(str(number) for number in numbers[:_LINES_NAMED])
    more = len(numbers) - _LINES_NAMED
    return f"{'line' if len(numbers) == 1 else 'lines'} {named}" + (f" and {more} more" if more > 0 else "")
