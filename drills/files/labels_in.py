"""The labels of a FOLD frame: from edges_assignment, or from the signs of edges_foldAngle."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drills.files.frames import Frame
from drills.files.lists_in import MOST_EDGES, rows_of
from drills.files.refusals import FoldError
from drills.files.words import counted
from drills.files.written import Written, sign_of
from drills.pattern.crease_pattern import Label

_LABEL_OF: Final[dict[object, Label]] = {"B": "B", "M": "M", "V": "V", "F": "F", "U": "U", "J": "F"}
_UNLABELLED: Final = "No labels are given, so every crease may fold either way."


def labels_of(frame: Frame, edges: int) -> tuple[tuple[Label, ...], str]:
    """Return a label per edge, joins as F, and what to tell the person about them, if anything."""
    angles = _by_angle(frame, edges) if "edges_foldAngle" in frame else None
    if "edges_assignment" not in frame:
        return (angles, "") if angles else (tuple(_LABEL_OF["U"] for _ in range(edges)), _UNLABELLED)
    labels = _assigned(rows_of(frame, "edges_assignment", MOST_EDGES, edges))
    against = sum({one, two} == {"M", "V"} for one, two in zip(labels, angles or labels, strict=True))
    if against:
        return labels, f"The fold angles contradict {counted(against, 'label')}, and the labels were taken."
    return labels, ""


def _assigned(letters: Sequence[object]) -> tuple[Label, ...]:
    for index, letter in enumerate(letters):
        if letter == "C":
            raise FoldError(
                f"Edge {index} is a cut (C); take it out, as only paper without cuts can be read."
            )
        if not isinstance(letter, str) or letter not in _LABEL_OF:
            raise FoldError(f"edges_assignment[{index}] is not a label; use B, M, V, F or U.")
    return tuple(_LABEL_OF[letter] for letter in letters)


def _by_angle(frame: Frame, edges: int) -> tuple[Label, ...]:
    """Return V for an angle above zero, M below, F at zero, U where none is given."""
    by_sign: tuple[Label, Label, Label] = ("F", "V", "M")
    labels: list[Label] = []
    for index, angle in enumerate(rows_of(frame, "edges_foldAngle", MOST_EDGES, edges)):
        if isinstance(angle, bool) or not (angle is None or isinstance(angle, (int, Written))):
            raise FoldError(f"edges_foldAngle[{index}] is not a number; give it in degrees, or null.")
        labels.append("U" if angle is None else by_sign[sign_of(angle)])
    return tuple(labels)
