"""Cells of folded sheets against shapely: which faces lie over a point inside each of them."""

from __future__ import annotations

from functools import partial
from itertools import count
from math import inf

import pytest
from shapely import LineString, Polygon, polygonize, unary_union  # type: ignore[import-untyped]

from drills.flatfold import Limit, OutOfTimeError, bits, cells_of, fold
from drills.pattern import CreasePattern
from drills.structures import Stretch, draw
from tests.drills.flatfold.assorted import assorted, plain
from tests.drills.sheets import map_sheet, square_twist
from tests.independent.folded import folded
from tests.independent.overlaps import whole_places


def test_a_stretch_of_42_faces_has_about_fifty_cells() -> None:
    """Three pleats a side and three around: 42 faces, 48 different stacks (own count)."""
    pattern = draw(Stretch((3, 3), pleats=3))
    found = fold(pattern)
    assert len(found.faces) == 42
    assert len(cells_of(found).sets) == 48
    assert stacks(pattern) == stacks_by_shapely(pattern)


def test_cells_are_given_up_when_the_time_is_over() -> None:
    """A clock that ticks whenever it is looked at ends each stage: pieces, the rims of cells, conditions."""
    found = fold(draw(Stretch((3, 3), pleats=3)))
    asked = count()
    assert cells_of(found, Limit(inf, lambda: next(asked))) == cells_of(found)
    enough = next(asked)
    assert enough > len(cells_of(found).sets)
    for seconds in (1, enough // 2, enough - 3):
        with pytest.raises(OutOfTimeError):
            cells_of(found, Limit(seconds, partial(next, count())))


def stacks(pattern: CreasePattern) -> set[frozenset[int]]:
    """Return the sets of faces that lie on each other, faces numbered as the independent solver does."""
    found = fold(pattern)
    number = folded(plain(pattern)).numbered(found.faces)
    return {frozenset(number[face] for face in bits(cell)) for cell in cells_of(found).sets}


def stacks_by_shapely(pattern: CreasePattern) -> set[frozenset[int]]:
    """Return for a point inside each region between the folded edges the faces that lie over it."""
    sheet = plain(pattern)
    found = folded(sheet)
    places = whole_places(found)
    polygons = [Polygon([places[point] for point in cycle]) for cycle in found.faces]
    lines = unary_union([LineString([places[point] for point in edge]) for edge in sheet.edges])
    regions = [region for region in polygonize([lines]).geoms if region.area > 1e-9]
    inside = [region.representative_point() for region in regions]
    return {
        frozenset(face for face, polygon in enumerate(polygons) if polygon.contains(point))
        for point in inside
    }


SHEETS = [square_twist(), map_sheet(3, 4), draw(Stretch((1, 1))), draw(Stretch((2, 2), ("steep", "shallow")))]
SHEETS += [draw(Stretch((3, 1), pleats=2, facing=1)), draw(Stretch((3, 3), pleats=8))]


@pytest.mark.parametrize("pattern", SHEETS)
def test_every_stack_is_that_over_a_point_inside(pattern: CreasePattern) -> None:
    """The sets of faces are those that contain the points; none is missing, none is made up."""
    assert stacks(pattern) == stacks_by_shapely(pattern)


def test_stacks_of_sheets_of_all_sorts() -> None:
    """The same for sheets of all sorts, crops among them."""
    for pattern in assorted(16, "cells"):
        assert stacks(pattern) == stacks_by_shapely(pattern)


def test_both_ways_of_folding_lay_points_alike() -> None:
    """Folded places differ by a motion of the plane only: all distances between points are the same."""
    for pattern in assorted(24, "places"):
        ours, other = fold(pattern).points, folded(plain(pattern)).places
        scale = None
        for one in range(1, len(ours)):
            (x, y), (u, v) = ours[0], ours[one]
            (a, b), (c, d) = other[0], other[one]
            square, plain_square = (u - x) ** 2 + (v - y) ** 2, (c - a) ** 2 + (d - b) ** 2
            assert (square == 0) == (plain_square == 0)
            if square:
                scale = scale or square / plain_square
                assert square == scale * plain_square
