"""What the trainer is given from outside: the time, a pattern, or something that is of no use.

Every command loads this, so that the rooms are imported only where a pattern is asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

if TYPE_CHECKING:
    from drills.fold_file import ImportedPattern
    from drills.pattern import CreasePattern, Label
    from drills.svg_file import SvgDrawing

Meaning: TypeAlias = "Callable[[SvgDrawing], Sequence[Label]]"
"""Returns the label of each stroke of a drawing; InputError where it is not known."""

WIDEST_OFFSET = timedelta(hours=18)
"""No place on earth is further from UTC."""
A_FILE = "a FOLD or SVG file that is there"


@dataclass(frozen=True)
class Clock:
    """``now`` gives an aware local time, ``ticks`` seconds from any fixed start."""

    now: Callable[[], datetime]
    ticks: Callable[[], float]


def system_clock() -> Clock:
    """Return the clock of this machine."""
    return Clock(_local_now, monotonic)


def _local_now() -> datetime:
    """Return the local time, in UTC where the zone that is set is none that there is."""
    try:
        now = datetime.now().astimezone()
    except (ValueError, OverflowError, OSError):
        return datetime.now(UTC)
    offset = now.utcoffset()
    return now.astimezone(UTC) if offset is None or abs(offset) > WIDEST_OFFSET else now


class InputError(Exception):  # no ValueError: argparse would put a sentence of its own in its place
    """One sentence that tells the person what to do instead."""


class PatternSource(NamedTuple):
    """A pattern with the numbers that its vertices and edges have where it is from, as in ImportedPattern."""

    pattern: CreasePattern
    exact: bool
    vertices: Sequence[int]
    edges: Sequence[int]
    pieces: Mapping[int, int]
    notices: Sequence[str]


def pattern_named(text: str, meaning: Meaning | None = None) -> PatternSource:
    """Return the pattern of a code, or of the file at this path; its errors say why not."""
    # a file alone, as in `check`, needs no questions
    from drills.questions import CodeError, make, parse_code, read_code

    try:
        parse_code(text)
    except CodeError:
        sheet = sheet_in_file(text, f"{A_FILE}, or a code such as labels-3-41", meaning)
        return PatternSource(
            sheet.pattern, sheet.exact, sheet.vertices, sheet.edges, sheet.pieces, sheet.notices
        )
    pattern = make(read_code(text)).truth
    return PatternSource(pattern, True, range(len(pattern.vertices)), range(len(pattern.edges)), {}, ())


def sheet_in_file(path: str, wanted: str = A_FILE, meaning: Meaning | None = None) -> ImportedPattern:
    """Return the sheet in a file; InputError says what is wrong with it, or asks for what is wanted.

    An SVG is read where ``meaning`` tells the labels of its strokes.
    """
    from drills.fold_file import FoldFileError, is_svg, read_sheet, sheet_drawn

    try:
        text = _bytes_of(Path(path))
        if not is_svg(text) or meaning is None:
            return read_sheet(text)
        from drills.svg_file import drawing_of, read_svg

        svg = read_svg(text)
        return sheet_drawn(drawing_of(svg, meaning(svg)))
    except FoldFileError as refusal:
        raise InputError(str(refusal)) from None
    except OSError:
        raise InputError(f"The file cannot be read; give the path of {wanted}.") from None


def spare(out: Path, *read: str) -> None:
    """Raise InputError where a file to be written is one of those that are read."""
    if out.exists() and any(Path(each).exists() and out.samefile(each) for each in read):
        raise InputError(
            "That would write over the file that is read; give another name for what is written."
        )


def _bytes_of(path: Path) -> bytes:
    """Return the file's bytes, but no more than one over the most that is read."""
    from drills.fold_file import MOST_MIB

    with path.open("rb") as file:
        return file.read(MOST_MIB * 1024 * 1024 + 1)
