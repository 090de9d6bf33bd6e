"""What the strokes of SVG drawings stand for: confirmed once, remembered for drawings with the same ones."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from trainer.given import InputError, Meaning

if TYPE_CHECKING:
    from drills.pattern import Label
    from drills.svg_file import Stroke, SvgDrawing
    from progress_store import JsonFile

NAME = "strokes.json"
_SCHEMA = 1
_MOST_ORIGINS = 200
WORDS = {"M": "mountain", "V": "valley", "B": "paper's edge", "F": "left out", "U": "open"}
HOW = "M mountain, V valley, B paper's edge, F flat or no crease, U open"


def known(folder: Path) -> Meaning:
    """Return what is remembered in a data folder, as a meaning."""

    def meaning(svg: SvgDrawing) -> Sequence[Label]:
        labels = Remembered(folder).labels(svg.strokes)
        if labels is None:
            raise InputError(
                "What the strokes of this SVG stand for is not known yet; slantwise check FILE asks you once."
            )
        return labels

    return meaning


class Remembered:
    """The origins whose strokes were confirmed, in a file of the data folder."""

    def __init__(self, folder: Path) -> None:
        from progress_store import JsonFile

        self.notices: list[str] = []
        self._folder = folder
        self._file: JsonFile = JsonFile(folder / NAME, _SCHEMA, self.notices.append, writable=True)
        self._origins = self._file.read(_origins) or []

    def labels(self, strokes: Sequence[Stroke]) -> tuple[Label, ...] | None:
        """Return the labels of an origin that has all these strokes, the one confirmed last, or None."""
        from drills.svg_file import LABELS_BY_LETTER

        keys = [_key(stroke) for stroke in strokes]
        for origin in reversed(self._origins):
            if all(origin.get(key) in LABELS_BY_LETTER for key in keys):
                return tuple(LABELS_BY_LETTER[origin[key]] for key in keys)
        return None

    def keep(self, strokes: Sequence[Stroke], labels: Sequence[Label]) -> None:
        """Remember what the strokes of an origin stand for."""
        origin = dict(zip(map(_key, strokes), map(str, labels), strict=True))
        others = [other for other in self._origins if other.keys() != origin.keys()]
        self._origins = [*others, origin][-_MOST_ORIGINS:]
        self._folder.mkdir(parents=True, exist_ok=True)
        self._file.write({"origins": self._origins})


def _key(stroke: Stroke) -> str:
    return "|".join(stroke)


def _origins(fields: dict[str, object]) -> list[dict[str, str]]:
    found = fields["origins"]
    if not isinstance(found, list) or not all(isinstance(origin, dict) for origin in found):
        raise ValueError("no list of origins")
    return [{str(key): str(value) for key, value in origin.items()} for origin in found]


def strokes_in_words(svg: SvgDrawing, labels: Sequence[Label]) -> list[str]:
    """Return a line for each stroke: its number, its look, how many lines it has, what it may stand for."""
    return [
        f"  {number}  {stroke.in_words()}: {_lines(svg.stroke_of.count(number - 1))}; {WORDS[label]}"
        for number, (stroke, label) in enumerate(zip(svg.strokes, labels, strict=True), start=1)
    ]


def _lines(count: int) -> str:
    return "1 line" if count == 1 else f"{count} lines"


def letters_of(text: str, strokes: int) -> tuple[Label, ...]:
    """Return the labels that letters stand for, one a stroke; InputError where they are not."""
    from drills.svg_file import LABELS_BY_LETTER

    letters = text.upper().replace(" ", "").replace(",", "")
    if len(letters) != strokes or not set(letters) <= LABELS_BY_LETTER.keys():
        raise InputError(f"Give a letter for each of the {strokes} strokes in order: {HOW}.")
    return tuple(LABELS_BY_LETTER[letter] for letter in letters)
