"""Exact numbers out of JSON: decimals as they are written, never through a float, all bounded."""

from __future__ import annotations

import re
from fractions import Fraction
from math import isfinite

from drills.exact.plane import Exact, plain
from drills.files.refusals import FoldError

FARTHEST = 10**9
"""The largest coordinate taken, in grid squares; up to here a float is exact to a millionth."""

LARGEST_EXPONENT = 99

_LONGEST = 60
_FRACTION = re.compile(r"-?[0-9]{1,40}(/[0-9]{1,40})?")


def whole_of(text: str) -> int:
    """Return a JSON integer; a very long one raises FoldError."""
    check_length(text)
    return int(text)


def decimal_of(text: str) -> Fraction:
    """Return a JSON decimal exactly; a very long one or a large exponent raises FoldError."""
    check_length(text)
    exponent = text.lower().partition("e")[2] or "0"
    if abs(int(exponent)) > LARGEST_EXPONENT:
        raise FoldError("The file has a number with an exponent beyond 99; write it without one.")
    return Fraction(text)


def no_constant(_text: str) -> object:
    """Refuse NaN and Infinity, which are not numbers in JSON."""
    raise FoldError("The file has a NaN or an infinite number; give every coordinate a finite value.")


def coordinate(value: object, place: str) -> Exact:
    """Return a coordinate exactly; ``place`` names it where it must be refused."""
    if isinstance(value, bool) or not isinstance(value, (int, float, Fraction)):
        raise FoldError(f"{place} is not a number; write it as a plain number.")
    if isinstance(value, float) and not isfinite(value):
        raise FoldError(f"{place} is not finite; give it a finite value.")
    if not -FARTHEST <= value <= FARTHEST:
        raise FoldError(f"{place} is more than {FARTHEST} from zero; scale the pattern down to grid squares.")
    return plain(Fraction(repr(value)) if isinstance(value, float) else value)


def exact_coordinate(value: object, place: str) -> Exact:
    """Return a coordinate that is written as a fraction in text, such as "1/3" or "-2"."""
    if not isinstance(value, str) or not _FRACTION.fullmatch(value):
        raise FoldError(f'{place} is not a fraction in text; write it like "1/3" or "-2".')
    top, _, bottom = value.partition("/")
    if bottom and not int(bottom):
        raise FoldError(f"{place} divides by zero; give the fraction another denominator.")
    return plain(Fraction(int(top), int(bottom or 1)))


def check_length(text: str) -> None:
    """Refuse a number that takes very long to write."""
    if len(text) > _LONGEST:
        raise FoldError(f"The file has a number of more than {_LONGEST} characters; round its numbers.")
