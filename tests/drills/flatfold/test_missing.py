"""A crease that is taken out is named: inside lines, hinges and ridges of drills, and how each is followed.

What must hold at a point without it is Kawasaki's theorem; which creases a stretch has is known from
how it was drawn. That the hinge of a side corner may leave it either way is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Literal, TypeAlias

import pytest

from drills.flatfold import Missing, Way, check_angles, check_pattern, find_missing
from drills.flatfold.missing import mending, mending_lines, mirrored
from drills.geometry import Chance, Direction, Move, Point, on_segment
from drills.pattern import CreasePattern, Edge, Line, Paper, Run, bent_runs, build, straight_runs
from drills.questions import KINDS, codes_of, make
from drills.structures import Stretch, draw
from tests.drills.sheets import ways

Taken: TypeAlias = Literal["inside", "hinge", "ridge"]
ROLES: tuple[Taken, ...] = ("inside", "hinge", "ridge")
DOWN, RIGHT, UP, LEFT = ways((0, -1), (1, 0), (0, 1), (-1, 0))


def without(pattern: CreasePattern, run: Run) -> CreasePattern:
    """Return the pattern without a row of creases, and without points that then have none."""
    kept = [edge for index, edge in enumerate(pattern.edges) if index not in run.edges]
    used = sorted({vertex for edge in kept for vertex in edge[:2]})
    number = {vertex: place for place, vertex in enumerate(used)}
    edges = (Edge.joining(number[edge.start], number[edge.end], edge.role, edge.label) for edge in kept)
    return CreasePattern(tuple(pattern.vertices[vertex] for vertex in used), tuple(sorted(edges)))


def is_run(pattern: CreasePattern, way: Way, run: Run) -> bool:
    """Whether a way has the ends of a row of creases and goes through all its points."""
    points = [pattern.vertices[vertex] for vertex in run.vertices]
    passed = [any(on_segment(point, *piece) for piece in pairwise(way.points)) for point in points]
    return all(passed) and {points[0], points[-1]} == {way.points[0], way.points[-1]}


def taken_out(count: int) -> Iterator[tuple[CreasePattern, Run]]:
    """Yield sheets of so many drills, each with a row of creases without which angles are wrong.

    Where both ends of a crease lie on the paper's edge and it crosses nothing but what is square to it,
    the sheet folds without it too, and nothing is missing.
    """
    kinds = [
        (kind, form, level) for kind, entry in KINDS.items() for form in entry.forms for level in entry.levels
    ]
    number = found = 0
    while found < count:
        pattern = make(next(codes_of(*kinds[number % len(kinds)], number))).truth
        role = ROLES[number % len(ROLES)]
        runs = bent_runs(pattern, role) if role == "hinge" else straight_runs(pattern, role)
        shuffled = Chance(f"missing {number}").shuffled(runs)
        number += 1
        if shuffled and check_angles(without(pattern, shuffled[0])):
            found += 1
            yield pattern, shuffled[0]


def share_named(count: int) -> float:
    """Return the share of drills where what was taken out, and nothing else, is named."""
    named = 0
    for pattern, run in taken_out(count):
        assert check_pattern(pattern).missing == ()
        left = without(pattern, run)
        found = find_missing(left, check_angles(left))
        named += len(found) == 1 and any(is_run(pattern, way, run) for way in found[0].ways)
    return named / count


def test_what_is_taken_out_of_a_drill_is_named() -> None:
    """Over all kinds, forms and levels; whole sheets claim nothing."""
    assert share_named(24) >= 0.95


@pytest.mark.long
def test_what_is_taken_out_of_three_hundred_drills_is_named() -> None:
    """The same, at length."""
    assert share_named(300) >= 0.95


def test_a_side_corner_names_both_its_hinges() -> None:
    """A of the stretch may have its hinge straight down or straight right, where no label is given."""
    pattern = draw(Stretch((1, 1), hinges=("shallow", "steep"), pleats=1)).unlabelled()
    for run in straight_runs(pattern, "hinge"):
        left = without(pattern, run)
        (wrong,) = check_angles(left)
        (gap,) = find_missing(left, [wrong])
        assert len(gap.ways) == 2
        assert sum(is_run(pattern, way, run) for way in gap.ways) == 1


def test_several_are_missing() -> None:
    """Two of the three inside lines of a stretch: both are named, each by itself."""
    pattern = draw(Stretch((2, 2), pleats=2))
    left, lines = pattern, straight_runs(pattern, "inside")
    ends = {frozenset(pattern.vertices[v] for v in (run.vertices[0], run.vertices[-1])) for run in lines[:2]}
    for pair in ends:
        run = next(r for r in straight_runs(left, "inside") if pair == {*left.ends(r.edges[0])})
        left = without(left, run)
    found = find_missing(left, check_angles(left))
    assert {frozenset(way.points) for gap in found for way in gap.ways} == ends


def test_a_line_from_edge_to_edge_is_found_from_a_point_between() -> None:
    """A bent pleat without the ridge at its bend, at right angles: the ridge halves the angle."""
    bend = Point(2, 2)
    lines = [Line(bend, Point(4, 2), "pleat", "M"), Line(bend, Point(2, 4), "pleat", "M")]
    pattern = build(lines, Paper(0, 0, 4, 4))
    (gap,) = find_missing(pattern, check_angles(pattern))
    assert gap == Missing((Way((Point(0, 0), Point(4, 4)), frozenset({bend})),))


def test_nothing_mends_a_point_that_rounding_or_a_hand_spoilt() -> None:
    """Four creases, one of them off: no one crease, and no line with whole numbers, is claimed."""
    spoilt = ways((3, 1), (0, 1), (-1, 0), (0, -1))
    lines = [Line(Point(3, 3), Point(3 + 3 * x, 3 + 3 * y), "other", "M") for x, y in spoilt]
    pattern = build(lines, Paper(0, 0, 6, 6))
    assert check_angles(pattern)
    assert find_missing(pattern, check_angles(pattern)) == ()


def test_directions_that_mend_a_point() -> None:
    """Worked by hand: a T lacks its upright, a lone crease runs on, two at a right angle are halved."""
    assert mending([RIGHT, LEFT, DOWN]) == [UP]
    assert mending([RIGHT]) == [LEFT]
    assert mending_lines([RIGHT, UP]) == [Direction(1, 1)]
    assert mending_lines(ways((1, 0), (1, 1))) == []


def test_past_a_crease_the_way_back_is_mirrored() -> None:
    """Square to it a crease runs straight on; across a line of 45 degrees it turns by a right angle."""
    assert mirrored(RIGHT, Move(0, 3)) == RIGHT
    assert mirrored(RIGHT, Move(1, 1)) == DOWN
