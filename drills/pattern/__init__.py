"""Crease patterns: the frozen pattern, how it is built from lines, and places in words."""

from __future__ import annotations

from drills.pattern.building import (
    Line,
    Paper,
    build,
    clipped,
    shifted,
    to_origin,
    turned,
)
from drills.pattern.crease_pattern import (
    OTHER_LABEL,
    CreasePattern,
    Edge,
    Label,
    Role,
    Run,
    bent_runs,
    face_cycles,
    faces,
    straight_runs,
)
from drills.pattern.words import (
    LABELS,
    ROLES,
    across_down,
    mixed,
    number_of,
    place,
    place_of,
    roles_in_words,
    step_in_words,
    step_with_directions,
    times,
)

__all__ = [
    "LABELS",
    "OTHER_LABEL",
    "ROLES",
    "CreasePattern",
    "Edge",
    "Label",
    "Line",
    "Paper",
    "Role",
    "Run",
    "across_down",
    "bent_runs",
    "build",
    "clipped",
    "face_cycles",
    "faces",
    "mixed",
    "number_of",
    "place",
    "place_of",
    "roles_in_words",
    "shifted",
    "step_in_words",
    "step_with_directions",
    "straight_runs",
    "times",
    "to_origin",
    "turned",
]
