"""FOLD files made from sound ones by changes that know what such a file is built of.

Parts of a file are taken out, doubled, exchanged, put into another file, or replaced by values that are
odd in their place; numbers are moved a little or far; some texts are cut and flipped as bytes. Files that
brought something new out of the reader are changed further: guided by what it says, not by its lines.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path
from random import Random
from typing import Any, Final

from drills.fold_file import FoldFileError, ImportedPattern, read_sheet, to_fold
from drills.questions import make, read_code

STANDARD: Final = Path(__file__).parents[1] / "drills" / "fold_file" / "standard"
CODES: Final = ("labels-1-1", "sinks-2-3", "find-2-1", "labels-4-2")
MOST_KEPT: Final = 400
LONGEST: Final = 20_000
ODD: Final[tuple[Any, ...]] = (
    None, True, False, 0, -1, 1, 2, 0.5, -0.0, 1e-9, 1 + 1e-9, 1e9, 1e10, 1e-99, 1e300, 10**40, 10**80, 1 / 3,
    0.70710678, float("nan"), float("inf"), "", "B", "M", "V", "F", "U", "C", "J", "m", "1", "1/3", "1/0",
    "\x1b[31m", "\u202e", "..",
    [], {}, [[]], [0, 0], [0, 1], [1, 0], [0, 0, 1], [[0, 1]], {"vertices_coords": []},
    "creasePattern", "foldedForm",
)  # fmt: skip
KEYS: Final = (
    "file_spec", "file_frames", "frame_classes", "frame_inherit", "vertices_coords", "edges_vertices",
    "edges_assignment", "edges_foldAngle", "faces_vertices", "slantwise:vertices_exact",
    "edges_length", "file_title",
)  # fmt: skip


def sound_files() -> list[Any]:
    """Return what the files hold that all others are made from."""
    ours = [to_fold(make(read_code(code)).truth) for code in CODES]
    theirs = [json.loads(path.read_text()) for path in sorted(STANDARD.glob("*.fold"))]
    square: dict[str, Any] = {
        "vertices_coords": [[0, 0], [4, 0], [4, 4], [0, 4], [2, 2], [2, 0], [4, 2], [2, 4], [0, 2]],
        "faces_vertices": [[0, 5, 4, 8], [5, 1, 6, 4], [6, 2, 7, 4], [7, 3, 8, 4]],
    }
    lines = [[0, 5], [5, 1], [1, 6], [6, 2], [2, 7], [7, 3], [3, 8], [8, 0], [4, 5], [4, 6], [4, 7], [4, 8]]
    angled = {"vertices_coords": square["vertices_coords"], "edges_vertices": lines}
    angled["edges_foldAngle"] = [None] * 8 + [180, -180, 180, 180]
    loose = {
        "vertices_coords": [
            [0, 0],
            [9, 0],
            [9, 9],
            [0, 9],
            [0, 3],
            [9, 3],
            [3, 0],
            [3, 9],
            [0, 9.0001],
            [9, 0],
        ],
        "edges_vertices": [[0, 1], [1, 2], [2, 3], [3, 0], [4, 5], [6, 7], [0, 2], [8, 9]],
        "edges_assignment": ["B"] * 4 + ["M", "V", "U", "F"],
    }
    framed = {"file_spec": 1.1, "file_frames": [{**loose, "frame_classes": ["creasePattern"]}, square]}
    return [*ours, *theirs, square, angled, loose, framed]


class Mutants:
    """Files without end, each from a sound one or from one that was of interest."""

    def __init__(self, chance: Random) -> None:
        self._chance = chance
        self._sound = [json.dumps(each) for each in sound_files()]
        self._known: set[str] = set()
        self._kept: list[str] = []

    def __iter__(self) -> Iterator[bytes]:
        while True:
            yield self.one()

    def one(self) -> bytes:
        """Return the next file."""
        chance = self._chance
        self._parent = chance.choice(self._kept if self._kept and chance.random() < 0.5 else self._sound)
        fold = json.loads(self._parent)
        for _ in range(chance.choice([1, 1, 1, 2, 2, 3, 5, 9])):
            self._change(fold)
        self._text = json.dumps(fold)
        if len(self._text) > LONGEST:
            self._text = self._parent
        text = self._text.encode()
        return self._damaged(text) if chance.random() < 0.1 else text

    def found(self, outcome: str) -> None:
        """Tell what the reader said of the last file; where it is new, the file is changed further."""
        if outcome in self._known:
            return
        self._known.add(outcome)
        if len(self._kept) < MOST_KEPT:
            self._kept.append(self._text)

    def _change(self, fold: Any) -> None:
        """Change one part of a file, or what it draws."""
        chance = self._chance
        if isinstance(fold, dict) and chance.random() < 0.5 and self._redraw(fold):
            return
        holder, place = self._part(fold)
        if holder is None:
            return
        old, how = holder[place], chance.randrange(9)
        if how == 0:
            del holder[place]
        elif how == 1:
            holder[place] = deepcopy(chance.choice(ODD))
        elif how == 2:
            holder[chance.choice(KEYS) if isinstance(holder, dict) else place] = self._foreign()
        elif how == 3 and isinstance(holder, list):
            holder.insert(chance.randrange(len(holder) + 1), deepcopy(old))
        elif how == 4 and isinstance(holder, list):
            other = chance.randrange(len(holder))
            holder[place], holder[other] = holder[other], old
        elif how == 5 and isinstance(old, list):
            holder[place] = old * chance.choice([2, 3]) if len(old) < 200 else old[: len(old) // 2]
        elif how == 6 and isinstance(holder, list):
            holder[place] = deepcopy(holder[chance.randrange(len(holder))])
        else:
            holder[place] = self._moved(old)

    def _redraw(self, fold: dict[str, Any]) -> bool:
        """Draw a line more, or move a point to another one or onto a line; False where that cannot be."""
        chance = self._chance
        lists: list[Any] = [fold.get(key) for key in KEYS[4:7]]
        if not all(isinstance(rows, list) and len(rows) > 2 for rows in lists):
            return False
        points, edges, labels = lists
        one, two, three = (chance.randrange(len(points)) for _ in range(3))
        how = chance.randrange(4)
        if how == 0:
            edges.append([one, two])
            labels.append(chance.choice("BMVFUJ"))
        elif how == 1:
            points[one] = deepcopy(points[two])
        elif how == 2:
            labels[chance.randrange(len(labels))] = chance.choice("BMVFUJ")
        else:
            try:
                points[one] = [(a + b) / 2 for a, b in zip(points[two], points[three], strict=True)]
            except (TypeError, ValueError, OverflowError):
                return False
        return True

    def _part(self, fold: Any) -> tuple[Any, Any]:
        """Return a list or object somewhere in a file and a place in it."""
        holder, place, chance = None, None, self._chance
        at = fold
        while isinstance(at, (list, dict)) and at and (holder is None or chance.random() < 0.8):
            holder, place = at, chance.choice(list(at)) if isinstance(at, dict) else chance.randrange(len(at))
            at = holder[place]
        return holder, place

    def _foreign(self) -> Any:
        """Return a part of another file."""
        holder, place = self._part(json.loads(self._chance.choice(self._sound)))
        return None if holder is None else holder[place]

    def _moved(self, old: Any) -> Any:
        """Return a number a little or far from another, or a like value."""
        chance = self._chance
        if isinstance(old, bool) or not isinstance(old, (int, float)):
            return deepcopy(chance.choice(ODD))
        near = chance.choice([1e-12, 1e-7, 1e-5, 1e-4, 1e-3, 0.1, 1])
        moved = [
            old + near,
            old - near,
            -old,
            float(old),
            old * 1e6,
            old / 3,
            old + 1,
            old - 1,
            old * 0,
            old + 0.5,
        ]
        return chance.choice(moved)

    def _damaged(self, text: bytes) -> bytes:
        chance, damaged = self._chance, bytearray(text)
        for _ in range(chance.randrange(1, 4)):
            at = chance.randrange(len(damaged) + 1)
            how = chance.randrange(3)
            if how == 0:
                damaged[at : at + chance.randrange(9)] = b""
            elif how == 1:
                damaged[at:at] = chance.choice(
                    [b"[", b"]", b"{", b"}", b",", b'"', b"\0", b"\xff", b"1e999", b"NaN", b"-"]
                )
            elif at < len(damaged):
                damaged[at] ^= 1 << chance.randrange(8)
        return bytes(damaged)


def outcome_of(text: bytes) -> tuple[str, ImportedPattern | None]:
    """Return what the reader says of a file, without its numbers, and the sheet; other errors go on up."""
    try:
        sheet = read_sheet(text)
    except FoldFileError as refused:
        words = str(refused)
        if not words.isprintable() or not words.endswith(".") or ";" not in words or "\u202e" in words:
            raise ValueError(f"not a clean sentence: {words!r}") from None
        return re.sub(r"[0-9]+", "0", words), None
    said = " ".join(sheet.notices)
    return re.sub(r"[0-9]+", "0", f"{sheet.exact} {said}"), sheet
