"""What a reader says when it cannot take a file."""

from __future__ import annotations


class FoldFileError(ValueError):
    """A FOLD file that cannot be read; the message is one sentence that says what to change.

    It names places by key and index and never repeats text from the file.
    """


def counted(number: int, thing: str) -> str:
    """Return a number with its noun, as in "1 line" and "2 lines"."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"
