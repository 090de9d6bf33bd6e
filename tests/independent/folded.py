"""Folded places: a face is laid against a crease by how far its points lie along and beside that crease."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from tests.independent.faces import Cycle, faces_of, turned
from tests.independent.sheet import Place, Sheet


class TornError(ValueError):
    """The faces do not fit together again once they are folded."""


class Folded(NamedTuple):
    """Faces, where each point comes to lie, which faces are upside down, the left and right face of edges."""

    faces: tuple[Cycle, ...]
    places: tuple[Place, ...]
    upside_down: tuple[bool, ...]
    beside: dict[int, tuple[int, int]]

    def numbered(self, cycles: Sequence[Cycle]) -> list[int]:
        """Return the numbers that other counterclockwise cycles have among these faces."""
        return [self.faces.index(turned(cycle)) for cycle in cycles]


def folded(sheet: Sheet) -> Folded:
    """Return the sheet with all creases folded but those labelled F; TornError where it does not close."""
    faces = faces_of(sheet)
    beside = _beside(sheet, faces)
    joins: dict[int, list[tuple[int, int]]] = {face: [] for face in range(len(faces))}
    for edge, (left, right) in beside.items():
        joins[left].append((right, edge))
        joins[right].append((left, edge))
    laid: dict[int, tuple[bool, dict[int, Place]]] = {0: (False, {p: sheet.points[p] for p in faces[0]})}
    waiting = [0]
    while waiting:
        face = waiting.pop()
        for other, edge in joins[face]:
            if other not in laid:
                over = laid[face][0] != (sheet.labels[edge] != "F")
                laid[other] = over, _laid(sheet, faces[other], edge, laid[face][1], over)
                waiting.append(other)
    places: dict[int, Place] = {}
    for _, found in laid.values():
        for point, place in found.items():
            if places.setdefault(point, place) != place:
                raise TornError(f"point {point} lies in two places")
    return Folded(
        faces,
        tuple(places[point] for point in range(len(sheet.points))),
        tuple(laid[face][0] for face in range(len(faces))),
        beside,
    )


def _beside(sheet: Sheet, faces: tuple[Cycle, ...]) -> dict[int, tuple[int, int]]:
    """Return the faces at the left and right of each edge that has two, looking from its first point."""
    left = {
        way: number
        for number, cycle in enumerate(faces)
        for way in zip(cycle, cycle[1:] + cycle[:1], strict=True)
    }
    return {
        edge: (left[start, end], left[end, start])
        for edge, (start, end) in enumerate(sheet.edges)
        if (start, end) in left and (end, start) in left
    }


def _laid(sheet: Sheet, cycle: Cycle, edge: int, laid: dict[int, Place], over: bool) -> dict[int, Place]:
    """Return where the points of a face lie, given where the ends of one of its edges do."""
    start, end = sheet.edges[edge]
    (x, y), (to_x, to_y) = sheet.points[start], sheet.points[end]
    (laid_x, laid_y), (laid_to_x, laid_to_y) = laid[start], laid[end]
    dx, dy, to_dx, to_dy = to_x - x, to_y - y, laid_to_x - laid_x, laid_to_y - laid_y
    size = dx * dx + dy * dy
    found = {}
    for point in cycle:
        px, py = sheet.points[point][0] - x, sheet.points[point][1] - y
        along, aside = Fraction(px * dx + py * dy) / size, Fraction(dx * py - dy * px) / size
        if over:
            aside = -aside
        found[point] = laid_x + along * to_dx - aside * to_dy, laid_y + along * to_dy + aside * to_dx
    return found
