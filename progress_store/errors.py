"""What the store says when it cannot do what was asked."""

from pathlib import Path


class StoreError(Exception):
    """One sentence that tells the person what to do."""


def shown(path: Path) -> str:
    """Return the path as text without control characters, fit for a terminal."""
    return "".join(sign if sign.isprintable() else "?" for sign in str(path))


def reason(error: OSError) -> str:
    """Return the system's short reason, such as "No space left on device"."""
    return error.strerror or type(error).__name__
