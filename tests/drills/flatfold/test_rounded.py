"""Patterns whose points are not rational, judged in floats."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from math import cos, pi, sin, sqrt

import pytest

from drills.flatfold import Report, check_pattern, folds_rounded
from drills.geometry import Point
from drills.pattern import CreasePattern, Label, Line, Paper, build
from tests.drills.flatfold.assorted import KINDS


def bird_base() -> CreasePattern:
    """Return the bird base with two petals, unlabelled; its petals' points lie at 2 - sqrt 2, in floats."""
    s = Fraction(2 - sqrt(2))
    middles = [Point(s, 0), Point(0, s), Point(-s, 0), Point(0, -s)]
    corners = [Point(1, 1), Point(-1, 1), Point(-1, -1), Point(1, -1)]
    centre = Point(0, 0)
    pairs = [(centre, end) for end in (*middles, corners[1], corners[3])]
    pairs += [(middles[0], middles[1]), (middles[2], middles[3])]
    pairs += [(middles[n], corners[m % 4]) for n in range(4) for m in (n, n - 1)]
    return build((Line(a, b, "other", "U") for a, b in pairs), Paper(-1, -1, 1, 1))


def twist_at_60() -> CreasePattern:
    """Return the unlabelled square twist of radius 1 with pleats at 60 degrees to its sides, in floats."""

    def away(start: Point, length: int, degrees: int) -> Point:
        x, y = length * cos(degrees * pi / 180), length * sin(degrees * pi / 180)
        return Point(start.x + Fraction(x), start.y + Fraction(y))

    corners = [away(Point(0, 0), 1, 90 * n) for n in range(4)]
    lines = [Line(corners[n - 1], corners[n], "other", "U") for n in range(4)]
    for n, corner in enumerate(corners):
        # the sides leave a corner 135 degrees to the left and right of its own direction
        ways = 90 * n + 135 - 60, 90 * n - 135 + 120
        lines += [Line(corner, away(corner, 9, way), "other", "U") for way in ways]
    return build(lines, Paper(-4, -4, 4, 4))


def labellings_at(pattern: CreasePattern, vertex: int) -> list[dict[int, Label]]:
    """Return the labellings with which a point folds, in floats."""
    edges = pattern.around[vertex]
    found = []
    for kinds in product(KINDS, repeat=len(edges)):
        told: dict[int, Label] = dict(zip(edges, kinds, strict=True))
        labels = [told.get(edge, label) for edge, label in enumerate(pattern.labels())]
        if folds_rounded(pattern, labels, vertex):
            found.append(told)
    return found


def whole_labellings(pattern: CreasePattern) -> list[CreasePattern]:
    """Return the pattern with each labelling with which every point folds, in floats."""
    known: list[dict[int, Label]] = [{}]
    for vertex in pattern.interior:
        choices = labellings_at(pattern, vertex)
        known = [
            one | two
            for one, two in product(known, choices)
            if all(one.get(edge, label) == label for edge, label in two.items())
        ]
    return [pattern.with_labels(told.get(e, "B") for e in range(len(pattern.edges))) for told in known]


@pytest.mark.parametrize(
    ("pattern", "counts", "faces", "labellings"),
    [(bird_base(), [4, 4, 4, 4, 18], 12, 96), (twist_at_60(), [4, 4, 4, 4], 9, 16)],
)
def test_patterns_whose_points_are_not_rational(
    pattern: CreasePattern, counts: list[int], faces: int, labellings: int
) -> None:
    """Counts per point and of both sheets by one method, no source; layers are left open."""
    assert len(pattern.edges) - len(pattern.vertices) + 1 == faces
    assert sorted(len(labellings_at(pattern, vertex)) for vertex in pattern.interior) == counts
    found = whole_labellings(pattern)
    assert len(found) == labellings
    assert check_pattern(pattern).angles != ()
    assert check_pattern(pattern, exact=False) == Report(False)
    for labelled in found[:8]:
        assert check_pattern(labelled, exact=False) == Report(False)
        for edge in labelled.creases:
            wrong = labelled.switched([edge])
            report = check_pattern(wrong, exact=False)
            assert report.angles == ()
            assert set(report.labels) == set(pattern.interior_ends[edge])
            assert frozenset({edge}) in report.repairs
            assert set(report.repairs_layers) == {None}
            assert report.layers is None


def test_angles_that_are_off_are_seen_in_floats() -> None:
    """A point moved by a thousandth is no longer right, by a millionth of a millionth it is."""
    for shift, is_right in ((Fraction(1, 1000), False), (Fraction(1, 10**12), True)):
        centre = Point(shift, 2 * shift)
        rays = [Point(1, 0), Point(0, 1), Point(-1, 0), Point(0, -1)]
        pattern = build((Line(centre, ray, "other", "U") for ray in rays), Paper(-1, -1, 1, 1))
        assert (check_pattern(pattern, exact=False).angles == ()) is is_right
        assert check_pattern(pattern).angles != ()
