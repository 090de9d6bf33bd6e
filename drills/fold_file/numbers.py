"""Numbers as a file writes them: decimal text kept exact, whole numbers, points as they are read."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from math import isfinite
from typing import NamedTuple, TypeAlias

from drills.fold_file.refusals import FoldFileError
from drills.geometry import Exact, as_int

Whole: TypeAlias = tuple[int, int]
"""A place as whole numbers of some small unit, x to the right and y up."""

Spot: TypeAlias = tuple[Exact, Exact]
"""A place in the same units, where crossings need not be whole."""

Ends: TypeAlias = tuple[int, int]
"""The two points that a line joins, by their indices."""


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
        raise FoldFileError("The file has a number with an exponent beyond 99; write it without one.")
    return Fraction(text)


def no_constant(_text: str) -> object:
    """Refuse NaN and Infinity, which are not numbers in JSON."""
    raise FoldFileError("The file has a NaN or an infinite number; give every coordinate a finite value.")


def coordinate(value: object, place: str) -> Exact:
    """Return a coordinate exactly; ``place`` names it where it must be refused."""
    if isinstance(value, bool) or not isinstance(value, (int, float, Fraction)):
        raise FoldFileError(f"{place} is not a number; write it as a plain number.")
    if isinstance(value, float) and not isfinite(value):
        raise FoldFileError(f"{place} is not finite; give it a finite value.")
    if not -FARTHEST <= value <= FARTHEST:
        raise FoldFileError(
            f"{place} is more than {FARTHEST} from zero; scale the pattern down to grid squares."
        )
    return as_int(Fraction(repr(value)) if isinstance(value, float) else value)


def exact_coordinate(value: object, place: str) -> Exact:
    """Return a coordinate that is written as a fraction in text, such as "1/3" or "-2"."""
    if not isinstance(value, str) or not _FRACTION.fullmatch(value):
        raise FoldFileError(f'{place} is not a fraction in text; write it like "1/3" or "-2".')
    top, _, bottom = value.partition("/")
    if bottom and not int(bottom):
        raise FoldFileError(f"{place} divides by zero; give the fraction another denominator.")
    return as_int(Fraction(int(top), int(bottom or 1)))


def check_length(text: str) -> None:
    """Refuse a number that takes very long to write."""
    if len(text) > _LONGEST:
        raise FoldFileError(f"The file has a number of more than {_LONGEST} characters; round its numbers.")


class Written(str):
    """A decimal as it stands in the file, kept as text until it is needed."""

    __slots__ = ()


Number: TypeAlias = int | Written


class Scaled(NamedTuple):
    """Per number as written the whole number it is when multiplied by 10 ** places."""

    values: Mapping[Number, int]
    places: int


def scaled(numbers: Iterable[Number]) -> Scaled:
    """Return the numbers exactly, or raise FoldError where one is too long or too far from zero."""
    parts = {number: _parts(number) for number in set(numbers)}
    places = max((-power for _, power in parts.values()), default=0)
    places = max(places, 0)
    values = {number: digits * 10 ** (places + power) for number, (digits, power) in parts.items()}
    farthest = FARTHEST * 10**places
    if not all(-farthest <= value <= farthest for value in values.values()):
        raise FoldFileError(f"A coordinate is more than {FARTHEST} from zero; scale the pattern down.")
    return Scaled(values, places)


def sign_of(number: Number) -> int:
    """Return 1, 0 or -1."""
    digits = number if isinstance(number, int) else _parts(number)[0]
    return (digits > 0) - (digits < 0)


def _parts(number: Number) -> tuple[int, int]:
    """Return a whole number and the power of ten that it is multiplied by."""
    if isinstance(number, int):
        return number, 0
    check_length(number)
    mantissa, _, exponent = number.lower().partition("e")
    if exponent and abs(int(exponent)) > LARGEST_EXPONENT:
        raise FoldFileError("The file has a number with an exponent beyond 99; write it without one.")
    whole, _, part = mantissa.partition(".")
    return int(whole + part), int(exponent or 0) - len(part)
