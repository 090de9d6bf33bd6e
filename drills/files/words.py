"""Numbers of things in words."""

from __future__ import annotations


def counted(number: int, thing: str) -> str:
    """Return a number with its noun, as in "1 line" and "2 lines"."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"
