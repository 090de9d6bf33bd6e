"""Folded positions: where every point lies when all creases are folded, exactly.

A face is carried by z -> a z + b, or a conj(z) + b where it is turned over, with Gaussian
rationals a and b, |a| = 1. Reflecting in a line through p along d is z -> u conj(z) + p - u conj(p)
with u = d*d / |d|^2, so folded coordinates stay rational.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from math import gcd, lcm
from typing import NamedTuple

from drills.geometry import Direction, HalfEdge, IntPair
from drills.pattern import CreasePattern, faces


class _Carry(NamedTuple):
    """The map of one face: a = (ax, ay) / divisor, b = (bx, by) / divisor, and whether it is turned over."""

    ax: int
    ay: int
    bx: int
    by: int
    divisor: int
    over: bool

    def of(self, point: IntPair, divisor: int) -> IntPair:
        """Return the image of a point, multiplied by a multiple of the map's own divisor."""
        x, y = point[0], -point[1] if self.over else point[1]
        times = divisor // self.divisor
        return times * (self.ax * x - self.ay * y + self.bx), times * (self.ax * y + self.ay * x + self.by)

    def across(self, point: IntPair, direction: Direction) -> _Carry:
        """Return the map of the face beyond a crease of this one: reflect first, then carry."""
        (x, y), (dx, dy) = point, direction
        size, ux, uy = dx * dx + dy * dy, dx * dx - dy * dy, 2 * dx * dy
        # the line's own shift: p - u conj(p)
        px, py = size * x - (ux * x + uy * y), size * y - (uy * x - ux * y)
        if self.over:
            uy, py = -uy, -py
        ax, ay = self.ax * ux - self.ay * uy, self.ax * uy + self.ay * ux
        bx = self.ax * px - self.ay * py + size * self.bx
        by = self.ax * py + self.ay * px + size * self.by
        # without the common factor the numbers would grow with every crease crossed
        divisor = size * self.divisor
        shared = gcd(ax, ay, bx, by, divisor)
        ax, ay, bx, by, divisor = (number // shared for number in (ax, ay, bx, by, divisor))
        return _Carry(ax, ay, bx, by, divisor, not self.over)


@dataclass(frozen=True)
class Folded:
    """A pattern folded flat; coordinates are whole numbers, all multiplied by one common scale.

    ``points`` are the folded vertices, ``over`` says of each face whether its underside is up,
    ``sides`` are per edge the one or two faces beside it, the one at its left first.
    """

    pattern: CreasePattern
    faces: tuple[tuple[int, ...], ...]
    points: tuple[IntPair, ...]
    over: tuple[bool, ...]
    sides: tuple[tuple[int, ...], ...]


class TearingError(ValueError):
    """The sheet tears: round some point or hole the creases do not close."""


def fold(pattern: CreasePattern) -> Folded:
    """Return the folded positions; TearingError where the faces do not fit together again.

    Every crease counts as folded; the first face stays as it lies.
    """
    cycles = faces(pattern)
    sides = _sides(pattern, cycles)
    flat = pattern.on_integers.points
    carries = _carried(pattern, cycles, sides)
    divisor = lcm(*(carry.divisor for carry in carries))
    points: dict[int, IntPair] = {}
    for carry, cycle in zip(carries, cycles, strict=True):
        for vertex in cycle:
            place = carry.of(flat[vertex], divisor)
            if points.setdefault(vertex, place) != place:
                raise TearingError("the creases round a point do not close")
    places = tuple(points.get(vertex, (0, 0)) for vertex in range(len(flat)))
    return Folded(pattern, cycles, places, tuple(carry.over for carry in carries), sides)


def _sides(pattern: CreasePattern, cycles: tuple[tuple[int, ...], ...]) -> tuple[tuple[int, ...], ...]:
    """Return per edge its faces: that at the left of start to end, then that at the right."""
    beside: dict[HalfEdge, int] = {}
    for face, cycle in enumerate(cycles):
        beside.update(((a, b), face) for a, b in zip(cycle, cycle[1:] + cycle[:1], strict=True))
    return tuple(
        tuple(beside[half] for half in ((edge.start, edge.end), (edge.end, edge.start)) if half in beside)
        for edge in pattern.edges
    )


def _carried(
    pattern: CreasePattern,
    cycles: tuple[tuple[int, ...], ...],
    sides: tuple[tuple[int, ...], ...],
) -> list[_Carry]:
    """Return each face's map, found by going from face to face across creases."""
    flat = pattern.on_integers.points
    joins: list[list[tuple[int, int]]] = [[] for _ in cycles]
    for edge, beside in enumerate(sides):
        if len(beside) == 2:
            joins[beside[0]].append((beside[1], edge))
            joins[beside[1]].append((beside[0], edge))
    carries: dict[int, _Carry] = {0: _Carry(1, 0, 0, 0, 1, over=False)}
    waiting = deque([0])
    while waiting:
        face = waiting.popleft()
        for other, edge in joins[face]:
            if other not in carries:
                start = pattern.edges[edge].start
                carries[other] = carries[face].across(flat[start], pattern.direction(edge, start))
                waiting.append(other)
    if len(carries) < len(cycles):
        raise TearingError("the sheet is in pieces")
    return [carries[face] for face in range(len(cycles))]
