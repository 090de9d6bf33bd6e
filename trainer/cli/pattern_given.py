"""The pattern that an argument names: a crease pattern's file, or a drill's code."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from drills.fold_file import MOST_MIB, FoldFileError, ImportedPattern, read_sheet
from drills.pattern import CreasePattern
from drills.questions.code import CodeError, parse_code
from drills.questions.kinds import make, read_code
from trainer.cli.parser import CommandError

A_FILE = "a FOLD file that is there"


class Given(NamedTuple):
    """A pattern with the numbers of its vertices and edges where it is from, as in Sheet."""

    pattern: CreasePattern
    exact: bool
    vertices: Sequence[int]
    edges: Sequence[int]
    pieces: Mapping[int, int]
    notices: Sequence[str]


def pattern_given(text: str) -> Given:
    """Return the pattern of a code, or of the file at this path; CommandError or CodeError say why not."""
    try:
        parse_code(text)
    except CodeError:
        sheet = sheet_in_file(text, f"{A_FILE}, or a code such as labels-3-41")
        return Given(sheet.pattern, sheet.exact, sheet.vertices, sheet.edges, sheet.pieces, sheet.notices)
    return _of_code(text)


def sheet_in_file(path: str, wanted: str = A_FILE) -> ImportedPattern:
    """Return the sheet in a file; CommandError says what is wrong with it, or asks for what is wanted."""
    try:
        return read_sheet(_bytes_of(Path(path)))
    except FoldFileError as refusal:
        raise CommandError(str(refusal)) from None
    except OSError:
        raise CommandError(f"The file cannot be read; give the path of {wanted}.") from None


def _bytes_of(path: Path) -> bytes:
    """Return the file's bytes, but no more than one over the most that is read."""
    with path.open("rb") as file:
        return file.read(MOST_MIB * 1024 * 1024 + 1)


def _of_code(text: str) -> Given:
    code = read_code(text)
    try:
        pattern = make(code).truth
    except RuntimeError as error:
        raise CommandError(f"The drill {code} failed its own check; take another seed.") from error
    return Given(pattern, True, range(len(pattern.vertices)), range(len(pattern.edges)), {}, ())
