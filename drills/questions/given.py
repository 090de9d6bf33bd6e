"""What a person answered as one short line of text, which a log keeps, and back.

"12" is a number, "1,2,1" a step or "1/2,3" a point by its numbers, "{12 15}" what was marked: edges, vertices
or points; "{}" is nothing at all.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Final

from drills.geometry import Exact, Point, as_int

LONGEST: Final = 200
"""A longer line is not kept: so much is marked only by somebody who marks all there is."""
_NUMBER: Final = re.compile(r"-?[0-9]{1,9}(/0*[1-9][0-9]{0,8})?", re.ASCII)


def given_in_text(given: object) -> str:
    """Return an answer in a line, empty where it is too long."""
    match given:
        case (frozenset() as marks,):
            line = f"{{{' '.join(map(_word, sorted(marks)))}}}"
        case _:
            line = _word(given)
    return line if len(line) <= LONGEST else ""


def given_of(takes: type, line: str) -> object:
    """Return the answer of a type that a line is of; ValueError or TypeError where it is of no such one."""
    if line.startswith("{") and line.endswith("}"):
        return takes(frozenset(map(_mark, line[1:-1].split())))
    return takes(*_numbers(line))


def _word(thing: object) -> str:
    return ",".join(map(str, thing)) if isinstance(thing, tuple) else str(thing)


def _mark(word: str) -> object:
    numbers = _numbers(word)
    return Point(*numbers) if len(numbers) > 1 else numbers[0]


def _numbers(word: str) -> list[Exact]:
    numbers = word.split(",")
    if not all(map(_NUMBER.fullmatch, numbers)):
        raise ValueError("no such number")
    return [as_int(Fraction(number)) for number in numbers]
