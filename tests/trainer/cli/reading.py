"""A reader of the plain text alone: it knows how the lines are written, and nothing of drills."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction

Place = tuple[Fraction, Fraction]

_PLACE = r"\((?:\d+ )?\d+(?:/\d+)?; (?:\d+ )?\d+(?:/\d+)?\)"
_CREASE = re.compile(rf"(?:([a-z]{{2}}): )?from ({_PLACE}) to ({_PLACE})((?:, [a-z45' -]+)*)")
_POINT = re.compile(rf"([a-z]{{2}}): ({_PLACE})")


@dataclass(frozen=True)
class Crease:
    """A crease as it is written: its ends across and down, then role and label where they are said."""

    start: Place
    end: Place
    words: tuple[str, ...]

    @property
    def ratio(self) -> Fraction:
        """How far down for each square across, without its sign; -1 for a crease that runs up and down."""
        across, down = abs(self.end[0] - self.start[0]), abs(self.end[1] - self.start[1])
        return down / across if across else Fraction(-1)


@dataclass
class Sheet:
    """What the text of a drill says."""

    size: tuple[int, int]
    question: str
    creases: dict[str, Crease] = field(default_factory=dict)
    points: dict[str, Place] = field(default_factory=dict)

    def meeting(self, place: Place) -> Iterator[Crease]:
        """Yield the creases that end at a place."""
        yield from (crease for crease in self.creases.values() if place in (crease.start, crease.end))

    def is_on_edge(self, place: Place) -> bool:
        """Whether a place is on the paper's edge."""
        return any(value in (0, most) for value, most in zip(place, self.size, strict=True))


def read_sheet(text: str) -> Sheet:
    """Read the text of a drill; an AssertionError says which line is not as promised."""
    _, sheet_line, *lines, question, _ = text.strip().splitlines()
    size = re.match(r"The sheet is (\d+) across and (\d+) down\. Places are ", sheet_line)
    assert size, sheet_line
    assert question.startswith("Question: ")
    sheet = Sheet((int(size[1]), int(size[2])), question.removeprefix("Question: "))
    for number, line in enumerate(lines):
        if crease := _CREASE.fullmatch(line):
            words = tuple(crease[4].split(", ")[1:])
            sheet.creases[crease[1] or f"line {number}"] = Crease(place(crease[2]), place(crease[3]), words)
        elif point := _POINT.fullmatch(line):
            sheet.points[point[1]] = place(point[2])
        else:
            assert line in ("Points:", "Creases:"), line
    return sheet


def place(text: str) -> Place:
    """Return a place as it is written: "(3; 1)" or "(2 1/2; 1)"."""
    across, down = (sum(map(Fraction, number.split(" "))) for number in text.strip("()").split("; "))
    return Fraction(across), Fraction(down)


def places_in(text: str) -> list[Place]:
    """Return the places that a sentence names, in its order."""
    return [place(found) for found in re.findall(_PLACE, text)]
