"""What a reader says when it cannot take a file."""

from __future__ import annotations


class FoldError(ValueError):
    """A FOLD file that cannot be read; the message is one sentence that says what to change.

    It names places by key and index and never repeats text from the file.
    """
