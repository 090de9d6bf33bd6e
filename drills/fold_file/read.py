"""From the bytes of a file to JSON values, bounded in size and nesting, with a sentence for each fault."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from typing import Final, TypeAlias

from drills.fold_file.numbers import Ends, Written, no_constant
from drills.fold_file.refusals import FoldFileError, counted

DEEPEST: Final = 64
_NOT_BRACKETS: Final = bytes(set(range(256)) - set(b"[]{}"))
_ALL_SQUARE: Final = bytes.maketrans(b"{}", b"[]")


def json_of(
    text: str | bytes, most_mib: int, whole_of: Callable[[str], object], decimal_of: Callable[[str], object]
) -> object:
    """Return a text's JSON values, numbers made by the two functions; FoldError says what is wrong."""
    if len(text) > most_mib * 1024 * 1024:
        raise FoldFileError(
            f"The file is larger than {most_mib} MiB; save the crease pattern alone, without other frames."
        )
    try:
        plain_text = text.decode("utf-8-sig") if isinstance(text, bytes) else text
        _check_nesting(plain_text)
        return json.loads(plain_text, parse_int=whole_of, parse_float=decimal_of, parse_constant=no_constant)
    except RecursionError:
        raise FoldFileError(_TOO_DEEP) from None
    except UnicodeError:
        raise FoldFileError(
            "The file is not UTF-8 text; save it as FOLD 1.2, which is JSON in UTF-8."
        ) from None
    except json.JSONDecodeError as fault:
        raise FoldFileError(
            f"The file is not JSON from line {fault.lineno} on; save it as FOLD 1.2."
        ) from None


_TOO_DEEP = "The file nests its lists too deeply; save the crease pattern as FOLD 1.2."


def _check_nesting(text: str) -> None:
    """Refuse what nests too deeply, by taking the innermost pairs of brackets away level by level."""
    brackets = text.encode().translate(_ALL_SQUARE, _NOT_BRACKETS)
    for _ in range(DEEPEST):
        inner = brackets.replace(b"[]", b"")
        if len(inner) == len(brackets):
            return
        brackets = inner
    if b"[]" in brackets:
        raise FoldFileError(_TOO_DEEP)


Frame: TypeAlias = Mapping[str, object]

_FOLDED = "This is a folded form, not a crease pattern; save the crease pattern."


def pattern_frame(data: object) -> tuple[Frame, str]:
    """Return the frame that holds the crease pattern and what to tell the person about it, if anything.

    The key frame is taken; where it is empty, the first whole crease pattern among the other frames.
    """
    if not isinstance(data, dict):
        raise FoldFileError("The file does not hold a JSON object; save the crease pattern as FOLD 1.2.")
    _check_version(data.get("file_spec", 1))
    others = _other_frames(data)
    if "vertices_coords" in data or not others:
        _check_flat(data)
        more = (
            f"The file holds {counted(len(others), 'more frame')}, and only the first one was read."
            if others
            else ""
        )
        return data, more
    for number, frame in enumerate(others, start=1):
        if _is_whole_pattern(frame):
            return frame, f"The file's first frame is empty, and frame {number} was read."
    raise FoldFileError(_why_no_frame(others))


def _check_version(spec: object) -> None:
    known = not isinstance(spec, bool) and isinstance(spec, (int, Written))
    if not known or not 1 <= float(str(spec)) < 2:
        raise FoldFileError("file_spec is not a version from 1 up to 2; save the file as FOLD 1.2.")


def _other_frames(data: Frame) -> list[Frame]:
    frames = data.get("file_frames", [])
    if not isinstance(frames, list) or not all(isinstance(frame, dict) for frame in frames):
        raise FoldFileError("file_frames is not a list of frames; save the crease pattern alone.")
    return frames


def _check_flat(frame: Frame) -> None:
    classes = _classes(frame)
    if "foldedForm" in classes and "creasePattern" not in classes:
        raise FoldFileError(_FOLDED)


def _classes(frame: Frame) -> list[object]:
    classes = frame.get("frame_classes", [])
    return classes if isinstance(classes, list) else [classes]


def _is_whole_pattern(frame: Frame) -> bool:
    has_edges = "edges_vertices" in frame or "faces_vertices" in frame
    is_own = "vertices_coords" in frame and has_edges and not frame.get("frame_inherit")
    return is_own and "creasePattern" in _classes(frame)


def _why_no_frame(frames: list[Frame]) -> str:
    if any(frame.get("frame_inherit") for frame in frames):
        return "The crease pattern's frame takes lists from another frame; save the crease pattern alone."
    if any("foldedForm" in _classes(frame) for frame in frames):
        return _FOLDED
    return "No frame of the file is a whole crease pattern; save the crease pattern alone."


MOST_VERTICES: Final = 60_000
MOST_EDGES: Final = 150_000


def rows_of(frame: Frame, key: str, most: int, length: int | None = None) -> list[object]:
    """Return a list of the frame, of the given length if one is given, not empty and not too long."""
    rows = frame.get(key)
    if not isinstance(rows, list) or not rows:
        raise FoldFileError(f"The file has no list {key}; save it as FOLD 1.2 with this list.")
    if len(rows) > most:
        raise FoldFileError(f"{key} has more than {most} entries; save a smaller part of the pattern.")
    if length is not None and len(rows) != length:
        raise FoldFileError(f"{key} has {len(rows)} entries and should have {length}; give one for each.")
    return rows


def pair_of(row: object, vertices: int, key: str, index: int) -> Ends:
    """Return an entry of a list that names two different vertices out of so many."""
    if type(row) is not list or len(row) != 2:
        raise FoldFileError(f"{key}[{index}] is not a pair; give the two vertices that the edge joins.")
    one, two = row
    if type(one) is not int or type(two) is not int:
        raise FoldFileError(
            f"{key}[{index}] holds something that is no whole number; give vertices by their index."
        )
    if not (0 <= one < vertices and 0 <= two < vertices):
        raise FoldFileError(f"{key}[{index}] names a vertex that is not there; use 0 to {vertices - 1}.")
    if one == two:
        raise FoldFileError(f"{key}[{index}] joins a vertex to itself; give it two different ends.")
    return one, two
