"""The straight lines of SVG's shapes: line, polyline, polygon, rect, and paths of straight pieces."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from math import hypot
from typing import TYPE_CHECKING, Final, NamedTuple, TypeAlias

from drills.fold_file import FoldFileError
from drills.svg_file.numbers import checked, length_in, numbers_in
from drills.svg_file.tree import name_of

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

Place: TypeAlias = tuple[float, float]
_TOKEN: Final = re.compile(r"[\s,]*([A-Za-z]|[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?)")
_TAKEN: Final = {"M": 2, "L": 2, "H": 1, "V": 1, "Z": 0, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7}
_BAD_PATH: Final = "The SVG has a path that cannot be read; save it anew as plain SVG."
_STRAIGHT: Final = 1e-6

GEOMETRY: Final = ("x", "y", "x1", "y1", "x2", "y2", "width", "height", "points", "d")
"""The attributes whose numbers are coordinates."""


class Piece(NamedTuple):
    """A straight line, or None in place of its ends where the line is curved."""

    ends: tuple[Place, Place] | None


_CURVED: Final = Piece(None)


def pieces_of(element: Element, wide: float, high: float) -> Iterator[Piece]:
    """Yield the lines of a shape in its own coordinates; percentages are of a view so wide and high."""
    match name_of(element):
        case "line":
            x1, x2 = (length_in(element.get(key), wide) for key in ("x1", "x2"))
            y1, y2 = (length_in(element.get(key), high) for key in ("y1", "y2"))
            yield Piece(((x1, y1), (x2, y2)))
        case "polyline" | "polygon" as name:
            given = numbers_in(element.get("points") or "")
            points = list(zip(given[::2], given[1::2], strict=False))
            closed = points[:1] if name == "polygon" and len(points) > 2 else []
            yield from (Piece(ends) for ends in pairwise(points + closed))
        case "rect":
            x, width = (length_in(element.get(key), wide) for key in ("x", "width"))
            y, height = (length_in(element.get(key), high) for key in ("y", "height"))
            ring = [(x, y), (x + width, y), (x + width, y + height), (x, y + height), (x, y)]
            if width and height:
                yield from (Piece(ends) for ends in pairwise(ring))
        case "path":
            yield from _path(element.get("d") or "")
        case "circle" | "ellipse":
            yield _CURVED


def _path(data: str) -> Iterator[Piece]:
    """Yield the pieces of a path (SVG 1.1, section 8.3)."""
    here = start = (0.0, 0.0)
    command, waiting = "", _tokens(data)
    token = next(waiting, None)
    while token is not None:
        if token.isalpha():
            command, token = token, None
        elif command.upper() in ("", "Z"):
            raise FoldFileError(_BAD_PATH)
        letter, relative = command.upper(), command.islower()
        if letter not in _TAKEN:
            raise FoldFileError(_BAD_PATH)
        given = []
        for _ in range(_TAKEN[letter]):
            given.append(_number(token if token is not None else next(waiting, None)))
            token = None
        end = _end(letter, relative, given, here, start)
        if letter == "M":
            start, command = end, "l" if relative else "L"
        elif letter in "LHVZ" or _is_straight(letter, relative, given, here, end):
            yield Piece((here, end))
        else:
            yield _CURVED
        here = end
        token = next(waiting, None)


def _tokens(data: str) -> Iterator[str]:
    at, data = 0, data.rstrip()
    while at < len(data):
        found = _TOKEN.match(data, at)
        if found is None:
            raise FoldFileError(_BAD_PATH)
        yield found[1]
        at = found.end()


def _number(token: str | None) -> float:
    if token is None or token.isalpha():
        raise FoldFileError(_BAD_PATH)
    return checked(token)


def _end(letter: str, relative: bool, given: list[float], here: Place, start: Place) -> Place:
    """Return where a piece ends."""
    x, y = here if relative else (0.0, 0.0)
    if letter == "Z":
        return start
    if letter == "H":
        return x + given[0], here[1]
    if letter == "V":
        return here[0], y + given[0]
    return x + given[-2], y + given[-1]


def _is_straight(letter: str, relative: bool, given: list[float], here: Place, end: Place) -> bool:
    """Whether a curve is straight all the same: its own control points lie on the line to its end."""
    if letter not in "CQ":
        return False
    x0, y0 = here if relative else (0.0, 0.0)
    dx, dy = end[0] - here[0], end[1] - here[1]
    length = hypot(dx, dy)
    controls = [
        (x0 + x - here[0], y0 + y - here[1]) for x, y in zip(given[:-2:2], given[1:-2:2], strict=True)
    ]
    return all(abs(dx * y - dy * x) <= _STRAIGHT * length * length for x, y in controls) and length > 0
