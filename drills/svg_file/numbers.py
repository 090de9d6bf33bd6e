"""Numbers, lengths and transforms as SVG 1.1 writes them (w3.org/TR/SVG11, chapters 4 and 7)."""

from __future__ import annotations

import re
from math import cos, hypot, isfinite, radians, sin, tan
from typing import Final, NamedTuple

from drills.fold_file import MOST_EDGES, FoldFileError

_NUMBER: Final = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?")
_SEPARATORS: Final = re.compile(r"[\s,]*")
_LENGTH: Final = re.compile(rf"\s*({_NUMBER.pattern})\s*(px|pt|pc|mm|cm|in|%|)\s*")
_UNITS: Final = {"": 1.0, "px": 1.0, "pt": 96 / 72, "pc": 16.0, "mm": 96 / 25.4, "cm": 960 / 25.4, "in": 96.0}
_CALL: Final = re.compile(r"\s*,?\s*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^()]*)\)")
_BAD_TRANSFORM: Final = "The SVG has a transform that cannot be read; save it anew without transforms."
_FARTHEST: Final = 1e9
_LONGEST: Final = 60


class Matrix(NamedTuple):
    """x becomes a x + c y + e, y becomes b x + d y + f."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def of(self, x: float, y: float) -> tuple[float, float]:
        """Return the image of a point."""
        return self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f

    def after(self, first: Matrix) -> Matrix:
        """Return the matrix that does the other one first, then this one."""
        a, b, c, d, _, _ = first
        e, f = self.of(first.e, first.f)
        return Matrix(
            self.a * a + self.c * b,
            self.b * a + self.d * b,
            self.a * c + self.c * d,
            self.b * c + self.d * d,
            e,
            f,
        )

    @property
    def scale(self) -> float:
        """How long a step of one may become."""
        return max(hypot(self.a, self.b), hypot(self.c, self.d))


def numbers_in(text: str) -> list[float]:
    """Return numbers apart by spaces, commas or signs; FoldFileError where there is anything else."""
    found, at = [], _SEPARATORS.match(text).end()  # type: ignore[union-attr]  # it matches nothing too
    while at < len(text):
        number = _NUMBER.match(text, at)
        if number is None:
            raise FoldFileError(
                "The SVG has a list of numbers that cannot be read; save it anew as plain SVG."
            )
        found.append(checked(number[0]))
        if len(found) > 2 * MOST_EDGES:
            raise FoldFileError("The SVG has too long a list of numbers; save a smaller part of the pattern.")
        at = _SEPARATORS.match(text, number.end()).end()  # type: ignore[union-attr]
    return found


def checked(text: str) -> float:
    """Return a number that is neither too long nor too far from zero."""
    value = float(text) if len(text) <= _LONGEST else _FARTHEST * 2
    if not isfinite(value) or abs(value) > _FARTHEST:
        raise FoldFileError("The SVG has a number that is too long or too large; scale the pattern down.")
    return value


def length_in(text: str | None, whole: float) -> float:
    """Return a length in user units, of a percentage that part of the whole; 0 where none is given."""
    if text is None:
        return 0.0
    found = _LENGTH.fullmatch(text)
    if found is None:
        raise FoldFileError("The SVG has a length that cannot be read; save it anew with plain numbers.")
    value = checked(found[1])
    return value * whole / 100 if found[2] == "%" else value * _UNITS[found[2]]


def decimals_in(text: str) -> int:
    """Return the most decimals of a number in the text."""
    most = 0
    for number in _NUMBER.finditer(text):
        mantissa, _, exponent = number[0].lower().partition("e")
        most = max(most, len(mantissa.partition(".")[2]) - int(exponent or 0))
    return most


def matrix_of(text: str | None) -> Matrix:
    """Return what a transform attribute does; FoldFileError where it cannot be read."""
    matrix, at = Matrix(), 0
    text = (text or "").rstrip(" \t\r\n,")
    while at < len(text):
        call = _CALL.match(text, at)
        if call is None:
            raise FoldFileError(_BAD_TRANSFORM)
        matrix = matrix.after(_called(call[1], numbers_in(call[2])))
        at = call.end()
    return matrix


def _called(name: str, given: list[float]) -> Matrix:
    match name, given:
        case "matrix", [a, b, c, d, e, f]:
            return Matrix(a, b, c, d, e, f)
        case "translate", [x, *rest] if len(rest) < 2:
            return Matrix(e=x, f=rest[0] if rest else 0.0)
        case "scale", [x, *rest] if len(rest) < 2:
            return Matrix(a=x, d=rest[0] if rest else x)
        case "rotate", [angle, *rest] if len(rest) in (0, 2):
            x, y = rest or (0.0, 0.0)
            c, s = cos(radians(angle)), sin(radians(angle))
            return Matrix(e=x, f=y).after(Matrix(c, s, -s, c)).after(Matrix(e=-x, f=-y))
        case "skewX", [angle]:
            return Matrix(c=tan(radians(angle)))
        case "skewY", [angle]:
            return Matrix(b=tan(radians(angle)))
    raise FoldFileError(_BAD_TRANSFORM)
