"""The paper's edge: found by walking round the outside of what is drawn."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence, Set
from itertools import pairwise

from drills.fold_file.numbers import Ends, Spot
from drills.fold_file.refusals import FoldFileError
from drills.geometry import Exact
from drills.pattern import Label


def neighbours(pairs: Sequence[Ends]) -> dict[int, list[int]]:
    """Return per point those that it is joined to."""
    found: dict[int, list[int]] = {}
    for one, two in pairs:
        found.setdefault(one, []).append(two)
        found.setdefault(two, []).append(one)
    return found


def walk_round(spots: Sequence[Spot], joined: Mapping[int, Sequence[int]]) -> list[int]:
    """Return the points passed on a walk round the outside, counterclockwise, from the lowest one on.

    A point that comes twice says that the walk did not get round: lines stick out, hang on one point, or lie
    on top of each other.
    """
    start = min(joined, key=lambda vertex: (spots[vertex][1], spots[vertex][0]))
    first = ahead = _next(spots, start, (-1, 0), joined[start])
    ring, here = [start], start
    passed = {start}
    while ahead not in passed:
        ring.append(ahead)
        passed.add(ahead)
        here, ahead = ahead, _next(spots, ahead, _move(spots, ahead, here), joined[ahead])
    is_round = ahead == start and _next(spots, start, _move(spots, start, here), joined[start]) == first
    return ring if is_round else [*ring, ahead]


def is_simple(ring: Sequence[int]) -> bool:
    """Whether the ring passes three points or more, and none of them twice."""
    return len(ring) > 2 and len(set(ring)) == len(ring)


def is_convex(spots: Sequence[Spot], ring: Sequence[int], near: Exact) -> bool:
    """Whether no point of a counterclockwise ring is more than ``near`` behind the line past it."""
    moves = [_move(spots, one, two) for one, two in pairwise([*ring, *ring[:2]])]
    for (dx, dy), (ex, ey) in pairwise(moves):
        area = dx * ey - dy * ex
        whole = (dx + ex) * (dx + ex) + (dy + ey) * (dy + ey)
        if area < 0 and area * area > near * near * whole:
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


def _next(spots: Sequence[Spot], here: int, back: Spot, others: Sequence[int]) -> int:
    """Return the first of the others that a hand comes to, turning counterclockwise from ``back``."""
    best, best_move = others[0], _move(spots, here, others[0])
    for other in others[1:]:
        move = _move(spots, here, other)
        if _is_before(back, move, best_move):
            best, best_move = other, move
    return best


def _is_before(back: Spot, one: Spot, two: Spot) -> bool:
    half = _half(back, one) - _half(back, two)
    return half < 0 or (half == 0 and _cross(one, two) > 0)


def _half(back: Spot, move: Spot) -> int:
    """Return 0 for a turn from ``back`` of up to half a turn (but above none), 1 for a greater one."""
    area = _cross(back, move)
    return int(area < 0 or (area == 0 and back[0] * move[0] + back[1] * move[1] > 0))


def _cross(one: Spot, two: Spot) -> Exact:
    return one[0] * two[1] - one[1] * two[0]


def _move(spots: Sequence[Spot], one: int, two: int) -> Spot:
    return spots[two][0] - spots[one][0], spots[two][1] - spots[one][1]


def paper_edge(
    spots: Sequence[Spot], pairs: Sequence[Ends], labels: Sequence[Label], numbers: Sequence[int], near: Exact
) -> frozenset[int]:
    """Return the lines round the outside; all those labelled B must be among them.

    Lines meet only at their ends; ``numbers`` are those of the file's edges that they are of. FoldError
    says what is wrong.
    """
    joined = neighbours(pairs)
    ring = walk_round(spots, joined)
    outer = lines_of(ring, pairs)
    drawn = {line for line, label in enumerate(labels) if label == "B"}
    if not (is_simple(ring) and is_convex(spots, ring, near) and drawn <= outer):
        raise FoldFileError(_why(spots, pairs, drawn, outer - drawn, numbers, near))
    loose = set(joined) - reached(joined, ring[0])
    if loose:
        number = min(numbers[line] for line, pair in enumerate(pairs) if pair[0] in loose)
        raise FoldFileError(f"Edge {number} is not joined to the paper's edge; join it or take it out.")
    return outer


def _why(
    spots: Sequence[Spot],
    pairs: Sequence[Ends],
    drawn: Set[int],
    beyond: Set[int],
    numbers: Sequence[int],
    near: Exact,
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
    if not beyond or not is_convex(spots, walk_round(spots, joined), near):
        return "The paper is not convex; save a sheet without notches, such as a square or a strip."
    number = min(numbers[line] for line in beyond)
    return f"Edge {number} runs beyond the paper's edge; shorten it or take it out."
