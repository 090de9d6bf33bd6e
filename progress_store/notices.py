"""What the person is told of a log that could not be read in full."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from progress_store.errors import StoreError, shown
from progress_store.reading import Reading

_LINES_NAMED = 5


def refuse_newer(reading: Reading, path: Path) -> None:
    """Raise StoreError if a newer program wrote any line of a log: we must not add to it."""
    if reading.newer:
        raise StoreError(
            f"{shown(path)} was written by a newer Slantwise;"
            " update this one, or give another folder with --data."
        )


def told(reading: Reading, path: Path, *, writable: bool) -> list[str]:
    """Return a sentence for each thing in a log that is not counted."""
    notices = []
    if reading.torn:
        put = "was put aside in a file next to it" if writable else "is left as it is"
        notices.append(f"The last line of {shown(path)} was torn; it {put} and is not counted.")
    if reading.unreadable:
        lines = _numbered(reading.unreadable)
        notices.append(f"{shown(path)} is unreadable in {lines}; that stays in place and is not counted.")
    if reading.newer:
        lines = _numbered(reading.newer)
        notices.append(f"A newer Slantwise wrote {lines} of {shown(path)}; update this one to count it.")
    notices.extend(told_of_clashes(len(reading.attempts.clashing), path))
    return notices


def told_of_clashes(how_many: int, path: Path) -> list[str]:
    """Return a sentence if different answers share an id in a log, or in it and another."""
    if not how_many:
        return []
    return [f"{shown(path)} has different answers under one id ({how_many} in all); the earlier one counts."]


def _numbered(numbers: Sequence[int]) -> str:
    named = ", ".join(str(number) for number in numbers[:_LINES_NAMED])
    more = len(numbers) - _LINES_NAMED
    return f"{'line' if len(numbers) == 1 else 'lines'} {named}" + (f" and {more} more" if more > 0 else "")
