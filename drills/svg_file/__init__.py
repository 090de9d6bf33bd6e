"""SVG drawings of crease patterns: their straight lines, and the strokes that tell these apart."""

from __future__ import annotations

from drills.svg_file.strokes import LABELS_BY_LETTER, Stroke, likely_labels
from drills.svg_file.walk import SvgDrawing, drawing_of, read_svg

__all__ = [
    "LABELS_BY_LETTER",
    "Stroke",
    "SvgDrawing",
    "drawing_of",
    "likely_labels",
    "read_svg",
]
