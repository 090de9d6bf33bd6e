"""Which frame of a FOLD file is the crease pattern (github.com/edemaine/fold, doc/spec.md)."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeAlias

from drills.files.refusals import FoldError
from drills.files.words import counted
from drills.files.written import Written

Frame: TypeAlias = Mapping[str, object]

_FOLDED = "This is a folded form, not a crease pattern; save the crease pattern."


def pattern_frame(data: object) -> tuple[Frame, str]:
    """Return the frame that holds the crease pattern and what to tell the person about it, if anything.

    The key frame is taken; where it is empty, the first whole crease pattern among the other frames.
    """
    if not isinstance(data, dict):
        raise FoldError("The file does not hold a JSON object; save the crease pattern as FOLD 1.2.")
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
    raise FoldError(_why_no_frame(others))


def _check_version(spec: object) -> None:
    known = not isinstance(spec, bool) and isinstance(spec, (int, Written))
    if not known or not 1 <= float(str(spec)) < 2:
        raise FoldError("file_spec is not a version from 1 up to 2; save the file as FOLD 1.2.")


def _other_frames(data: Frame) -> list[Frame]:
    frames = data.get("file_frames", [])
    if not isinstance(frames, list) or not all(isinstance(frame, dict) for frame in frames):
        raise FoldError("file_frames is not a list of frames; save the crease pattern alone.")
    return frames


def _check_flat(frame: Frame) -> None:
    classes = _classes(frame)
    if "foldedForm" in classes and "creasePattern" not in classes:
        raise FoldError(_FOLDED)


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
