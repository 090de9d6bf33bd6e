"""The pattern that an argument names: a crease pattern's file, or a drill's code."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from drills.fold_file import MOST_MIB, FoldFileError, ImportedPattern, read_sheet
from drills.pattern import CreasePattern
from trainer.given import InputError

A_FILE = "a FOLD file that is there"


class PatternSource(NamedTuple):
    """A pattern with the numbers that its vertices and edges have where it is from, as in ImportedPattern."""

    pattern: CreasePattern
    exact: bool
    vertices: Sequence[int]
    edges: Sequence[int]
    pieces: Mapping[int, int]
    notices: Sequence[str]


def pattern_named(text: str) -> PatternSource:
    """Return the pattern of a code, or of the file at this path; its errors say why not."""
    # a file alone, as in `check`, needs no questions
    from drills.questions import CodeError, make, parse_code, read_code

    try:
        parse_code(text)
    except CodeError:
        sheet = sheet_in_file(text, f"{A_FILE}, or a code such as labels-3-41")
        return PatternSource(
            sheet.pattern, sheet.exact, sheet.vertices, sheet.edges, sheet.pieces, sheet.notices
        )
    pattern = make(read_code(text)).truth
    return PatternSource(pattern, True, range(len(pattern.vertices)), range(len(pattern.edges)), {}, ())


def sheet_in_file(path: str, wanted: str = A_FILE) -> ImportedPattern:
    """Return the sheet in a file; InputError says what is wrong with it, or asks for what is wanted."""
    try:
        return read_sheet(_bytes_of(Path(path)))
    except FoldFileError as refusal:
        raise InputError(str(refusal)) from None
    except OSError:
        raise InputError(f"The file cannot be read; give the path of {wanted}.") from None


def _bytes_of(path: Path) -> bytes:
    """Return the file's bytes, but no more than one over the most that is read."""
    with path.open("rb") as file:
        return file.read(MOST_MIB * 1024 * 1024 + 1)
