"""Many decimals at once, exactly: each as a whole number of one power of ten."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple, TypeAlias

from drills.files.numbers_in import FARTHEST, LARGEST_EXPONENT, check_length
from drills.files.refusals import FoldError


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
        raise FoldError(f"A coordinate is more than {FARTHEST} from zero; scale the pattern down.")
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
        raise FoldError("The file has a number with an exponent beyond 99; write it without one.")
    whole, _, part = mantissa.partition(".")
    return int(whole + part), int(exponent or 0) - len(part)
