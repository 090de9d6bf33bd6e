"""Ranks of pleat lines: counted one by one; only whether a rank is even says what kind the line is."""

from __future__ import annotations

from drills.pattern.crease_pattern import Label


def kind(rank: int) -> Label:
    """Return the label of a pleat line of this rank: mountain where it is even, valley where it is odd."""
    return "V" if rank % 2 else "M"
