"""What a drill's sheet may be, and one way to draw any of them and to find their landmarks."""

from __future__ import annotations

from typing import TypeAlias

from drills.exact.plane import Point, on_segment
from drills.pattern.crease_pattern import CreasePattern
from drills.structures import landmarks, proof, sheets
from drills.structures.block import Outline
from drills.structures.sheets import FieldSheet, Sheet, draw_field_sheet, draw_sheet
from drills.structures.stretch import Stretch, draw

Figure: TypeAlias = Stretch | Sheet | FieldSheet


def draw_figure(figure: Figure) -> CreasePattern:
    """Return the labelled pattern of a sheet, its lower left paper corner at (0, 0)."""
    match figure:
        case Stretch():
            return draw(figure)
        case Sheet():
            return draw_sheet(figure)
        case FieldSheet():
            return draw_field_sheet(figure)


def is_proven(figure: Figure) -> bool:
    """Whether a sheet has a layer order with its labels; ValueError for several structures without one.

    Only a lone stretch is drawn before an order is sought.
    """
    return proof.is_proven(figure) if isinstance(figure, Stretch) else bool(draw_figure(figure).vertices)


def outlines(figure: Figure) -> tuple[Outline, ...]:
    """Return S, A, T, B of each slanted stretch on the sheet; a crop may leave some of them outside."""
    match figure:
        case Stretch():
            s, a, t, b = landmarks.outline(figure)
            return ((s, a, t, b),)
        case Sheet():
            return sheets.landmarks(figure)
        case FieldSheet():
            return ()


def parts_that_go_in(figure: Figure) -> tuple[landmarks.Corners, ...]:
    """Return the triangles that go in when the slanted stretches collapse, two each."""
    if isinstance(figure, Stretch):
        return landmarks.parts_that_go_in(figure)
    return tuple(part for s, a, t, b in outlines(figure) for part in ((a, s, t), (b, t, s)))


def drawn_outlines(figure: Figure) -> tuple[frozenset[int], ...]:
    """Return for each slanted stretch the edges of the drawn sheet that its outline has there."""
    pattern = draw_figure(figure)
    sides = [edge for edge in pattern.creases if pattern.edges[edge].role == "outline"]
    found = (
        frozenset(edge for edge in sides if _is_side_of(corners, *pattern.ends(edge)))
        for corners in outlines(figure)
    )
    return tuple(outline for outline in found if outline)


def _is_side_of(corners: Outline, start: Point, end: Point) -> bool:
    """Whether both ends lie on one side of a parallelogram."""
    sides = zip(corners, corners[1:] + corners[:1], strict=True)
    return any(on_segment(start, *side) and on_segment(end, *side) for side in sides)
