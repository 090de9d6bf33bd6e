"""Lists out of a FOLD frame and pairs out of a list, with a sentence where one cannot be taken."""

from __future__ import annotations

from typing import Final

from drills.files.frames import Frame
from drills.files.refusals import FoldError
from drills.files.spots import Ends

MOST_VERTICES: Final = 60_000
MOST_EDGES: Final = 150_000


def rows_of(frame: Frame, key: str, most: int, length: int | None = None) -> list[object]:
    """Return a list of the frame, of the given length if one is given, not empty and not too long."""
    rows = frame.get(key)
    if not isinstance(rows, list) or not rows:
        raise FoldError(f"The file has no list {key}; save it as FOLD 1.2 with this list.")
    if len(rows) > most:
        raise FoldError(f"{key} has more than {most} entries; save a smaller part of the pattern.")
    if length is not None and len(rows) != length:
        raise FoldError(f"{key} has {len(rows)} entries and should have {length}; give one for each.")
    return rows


def pair_of(row: object, vertices: int, key: str, index: int) -> Ends:
    """Return an entry of a list that names two different vertices out of so many."""
    if type(row) is not list or len(row) != 2:
        raise FoldError(f"{key}[{index}] is not a pair; give the two vertices that the edge joins.")
    one, two = row
    if type(one) is not int or type(two) is not int:
        raise FoldError(
            f"{key}[{index}] holds something that is no whole number; give vertices by their index."
        )
    if not (0 <= one < vertices and 0 <= two < vertices):
        raise FoldError(f"{key}[{index}] names a vertex that is not there; use 0 to {vertices - 1}.")
    if one == two:
        raise FoldError(f"{key}[{index}] joins a vertex to itself; give it two different ends.")
    return one, two
