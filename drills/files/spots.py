"""What the reader works with before there is a pattern: plain pairs, much faster than points."""

from __future__ import annotations

from typing import TypeAlias

from drills.exact.plane import Exact

Whole: TypeAlias = tuple[int, int]
"""A place as whole numbers of some small unit, x to the right and y up."""

Spot: TypeAlias = tuple[Exact, Exact]
"""A place in the same units, where crossings need not be whole."""

Ends: TypeAlias = tuple[int, int]
"""The two points that a line joins, by their indices."""
