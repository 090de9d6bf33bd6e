"""Skills that are easily taken for one another, to be met close together."""

from __future__ import annotations

from collections.abc import Mapping

PAIRS = (
    ("steps read 1:2", "steps read 1:3"),
    ("steps read 1:3", "steps read 1:4"),
    ("steps read 3:4", "steps read 2:3"),
    ("steps place 1:2", "steps place 1:3"),
    ("steps place 1:3", "steps place 1:4"),
    ("steps place 3:4", "steps place 2:3"),
    ("sinks mark equal few", "sinks mark unequal"),
    ("sinks mark equal many", "sinks mark several"),
    ("sinks points equal few", "sinks points unequal"),
    ("sinks join equal many", "sinks join unequal"),
    ("labels one", "labels nothing"),
    ("labels pair", "labels hinge"),
    ("labels side", "labels line"),
    ("find pleats", "find roof"),
    ("find roof", "find diamond"),
)
"""Common practice, no source: the same numbers nearly, a ridge beside an inside line, a look-alike."""


def partners_of(skill: str) -> tuple[str, ...]:
    """Return the skills that one is easily taken for, none where there is none."""
    return _PARTNERS.get(skill, ())


def _partners() -> Mapping[str, tuple[str, ...]]:
    both = [*PAIRS, *(pair[::-1] for pair in PAIRS)]
    return {skill: tuple(other for one, other in both if one == skill) for skill, _ in both}


_PARTNERS = _partners()
