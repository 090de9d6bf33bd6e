"""The strokes of a drawing, and what each is likely to stand for until a person says so."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final, NamedTuple

from drills.pattern import Label

LABELS_BY_LETTER: Final[Mapping[str, Label]] = {"M": "M", "V": "V", "B": "B", "F": "F", "U": "U"}
"""Mountain, valley, the paper's edge, flat (left out), and open: mountain or valley is to be found."""

# words in names of classes and groups; common practice, no source
_WORDS: Final[tuple[tuple[Label, tuple[str, ...]], ...]] = (
    ("M", ("mountain",)),
    ("V", ("valley",)),
    ("B", ("edge", "border", "boundary", "paper", "outline", "cut")),
    ("F", ("flat", "grid", "guide", "construction", "help")),
)


class Stroke(NamedTuple):
    """A way in which lines are drawn: colour, dashes (empty for none), classes or the group's name."""

    colour: str
    dash: str
    name: str

    def in_words(self) -> str:
        """Return the stroke as a person sees it."""
        dash = "dashed" if self.dash else "solid"
        return f"{self.colour}, {dash}, {self.name[:30]}" if self.name else f"{self.colour}, {dash}"


def likely_labels(strokes: Sequence[Stroke]) -> tuple[Label, ...]:
    """Return what the strokes probably stand for: by their names, else by colour, else by their dashes.

    Red is a mountain, blue a valley, black the edge, grey flat (common practice, no source). Without
    colours a dash with dots is a mountain and a plain dash a valley (A. Yoshizawa; S. Randlett 1961).
    """
    is_coloured = any(_by_colour(stroke.colour) in ("M", "V") for stroke in strokes)
    return tuple(
        _by_name(stroke.name) or (_by_colour(stroke.colour) if is_coloured else _by_dash(stroke))
        for stroke in strokes
    )


def _by_name(name: str) -> Label | None:
    lower = name.lower()
    return next((label for label, words in _WORDS if any(word in lower for word in words)), None)


def _by_colour(colour: str) -> Label:
    if not colour.startswith("#"):
        return "U"
    red, green, blue = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
    if max(red, green, blue) - min(red, green, blue) < 40:
        return "B" if max(red, green, blue) < 90 else "F"
    if red > 1.3 * max(green, blue):
        return "M"
    return "V" if blue > 1.3 * max(red, green) else "U"


def _by_dash(stroke: Stroke) -> Label:
    if not stroke.dash:
        return "B"
    return "M" if len(stroke.dash.split()) > 2 else "V"
