"""The paper's edge: found by walking round the outside of what is drawn."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence, Set
from itertools import pairwise

from drills.fold_file.read import Ends, FoldFileError
from drills.geometry import Exact, HalfEdge, Move, Pair, cross, dot, face_walk
from drills.pattern import Label


def paper_edge(
    raw_points: Sequence[Pair],
    pairs: Sequence[Ends],
    labels: Sequence[Label],
    numbers: Sequence[int],
    tolerance: Exact,
) -> frozenset[int]:
    """Return the lines round the outside; all those labelled B must be among them.

    Lines meet only at their ends; ``numbers`` are those of the file's edges that they are of. FoldFileError
    says what is wrong.
    """
    joined = neighbours(pairs)
    ring = walk_round(raw_points, joined)
    outer = lines_of(ring, pairs)
    drawn = {line for line, label in enumerate(labels) if label == "B"}
    if not (is_simple(ring) and is_convex(raw_points, ring, tolerance) and drawn <= outer):
        raise FoldFileError(_why(raw_points, pairs, drawn, outer - drawn, numbers, tolerance))
    loose = set(joined) - reached(joined, ring[0])
    if loose:
        number = min(numbers[line] for line, pair in enumerate(pairs) if pair[0] in loose)
        raise FoldFileError(f"Edge {number} is not joined to the paper's edge; join it or take it out.")
    return outer


def _why(
    raw_points: Sequence[Pair],
    pairs: Sequence[Ends],
    drawn: Set[int],
    beyond: Set[int],
    numbers: Sequence[int],
    tolerance: Exact,
) -> str:
    """Return what is wrong with the paper's edge as it is labelled."""
    if not drawn:
        return "No closed convex edge of the paper lies round the creases; draw it with edges labelled B."
    joined = neighbours([pairs[line] for line in sorted(drawn)])
    uneven = {vertex for vertex, others in joined.items() if len(others) != 2}
    if uneven:
        number = min(numbers[line] for line in drawn if uneven.intersection(pairs[line]))
        return (
            f"The paper's edge is open or branches at edge {number};"
            " draw it once all the way round, with edges labelled B."
        )
    if len(reached(joined, next(iter(joined)))) < len(joined):
        return "The paper has a hole or is in several pieces; save one piece of paper without holes."
    if not beyond or not is_convex(raw_points, walk_round(raw_points, joined), tolerance):
        return "The paper is not convex; save a sheet without notches, such as a square or a strip."
    number = min(numbers[line] for line in beyond)
    return f"Edge {number} runs beyond the paper's edge; shorten it or take it out."


def neighbours(pairs: Sequence[Ends]) -> dict[int, list[int]]:
    """Return per point those that it is joined to."""
    found: dict[int, list[int]] = {}
    for one, two in pairs:
        found.setdefault(one, []).append(two)
        found.setdefault(two, []).append(one)
    return found


def walk_round(raw_points: Sequence[Pair], joined: Mapping[int, Sequence[int]]) -> list[int]:
    """Return the points passed on a walk round the outside, counterclockwise, from the lowest one on.

    A point that comes twice says that the walk did not get round: lines stick out, hang on one point, or lie
    on top of each other.
    """

    def onward(last: int, here: int) -> int:
        return _sharpest_right(raw_points, here, _move(raw_points, here, last), joined[here])

    start = min(joined, key=lambda vertex: (raw_points[vertex][1], raw_points[vertex][0]))
    first = _sharpest_right(raw_points, start, Move(-1, 0), joined[start])
    ring: list[int] = []
    passed: set[int] = set()
    seen: set[HalfEdge] = set()
    last = ahead = start
    for last, ahead in face_walk((start, first), onward, seen):
        ring.append(last)
        passed.add(last)
        # walking on would pass each of many lines that stick out, in time that grows with their square
        if ahead in passed:
            break
    is_round = ahead == start and onward(last, start) == first
    return ring if is_round else [*ring, ahead]


def is_simple(ring: Sequence[int]) -> bool:
    """Whether the ring passes three points or more, and none of them twice."""
    return len(ring) > 2 and len(set(ring)) == len(ring)


def is_convex(raw_points: Sequence[Pair], ring: Sequence[int], tolerance: Exact) -> bool:
    """Whether no point of a counterclockwise ring is more than the tolerance behind the line past it."""
    moves = [_move(raw_points, one, two) for one, two in pairwise([*ring, *ring[:2]])]
    for one, two in pairwise(moves):
        area, whole = cross(one, two), Move(one.dx + two.dx, one.dy + two.dy)
        # the point's distance from the line past it is area / |whole|: squared, so that it stays exact
        if area < 0 and area * area > tolerance * tolerance * dot(whole, whole):
            return False
    return True


def lines_of(ring: Sequence[int], pairs: Iterable[Ends]) -> frozenset[int]:
    """Return the lines between neighbours of a ring of points."""
    sides = {frozenset(side) for side in pairwise([*ring, ring[0]])}
    return frozenset(line for line, pair in enumerate(pairs) if frozenset(pair) in sides)


def reached(joined: Mapping[int, Sequence[int]], start: int) -> set[int]:
    """Return the points that hang together with one."""
    found, waiting = {start}, [start]
    while waiting:
        for other in joined[waiting.pop()]:
            if other not in found:
                found.add(other)
                waiting.append(other)
    return found


def _sharpest_right(raw_points: Sequence[Pair], here: int, back: Move, others: Sequence[int]) -> int:
    """Return the first of the others that a hand comes to, turning counterclockwise from ``back``."""
    best, best_move = others[0], _move(raw_points, here, others[0])
    for other in others[1:]:
        move = _move(raw_points, here, other)
        if _is_before(back, move, best_move):
            best, best_move = other, move
    return best


def _is_before(back: Move, one: Move, two: Move) -> bool:
    half = _half(back, one) - _half(back, two)
    return half < 0 or (half == 0 and cross(one, two) > 0)


def _half(back: Move, move: Move) -> int:
    """Return 0 for a turn from ``back`` of up to half a turn (but above none), 1 for a greater one."""
    area = cross(back, move)
    return int(area < 0 or (area == 0 and dot(back, move) > 0))


def _move(raw_points: Sequence[Pair], start: int, end: int) -> Move:
    (x, y), (end_x, end_y) = raw_points[start], raw_points[end]
    return Move(end_x - x, end_y - y)
