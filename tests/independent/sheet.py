"""A labelled sheet as plain data, read from a FOLD object; nothing here or beside it uses the drills."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, NamedTuple

Place = tuple[Fraction, Fraction]


class Sheet(NamedTuple):
    """Points, x right and y up; edges as pairs of points by index; one label an edge: B, M, V, F or U."""

    points: tuple[Place, ...]
    edges: tuple[tuple[int, int], ...]
    labels: tuple[str, ...]

    def labelled(self, labels: tuple[str, ...]) -> Sheet:
        """Return the same sheet with other labels, one an edge."""
        return self._replace(labels=labels)


def sheet_of(fold: Mapping[str, Any]) -> Sheet:
    """Return the sheet of a FOLD object, from its exact coordinates where it has them."""
    coordinates = fold.get("slantwise:vertices_exact", fold["vertices_coords"])
    points = tuple((Fraction(str(x)), Fraction(str(y))) for x, y in coordinates)
    edges = tuple((int(start), int(end)) for start, end in fold["edges_vertices"])
    return Sheet(points, edges, tuple(fold["edges_assignment"]))
