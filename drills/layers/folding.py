"""Folded positions: where every point lies when all creases are folded, exactly.

A face is carried by z -> a z + b, or a conj(z) + b where it is turned over, with Gaussian
rationals a and b, |a| = 1. Reflecting in a line through p along d is z -> u conj(z) + p - u conj(p)
with u = d*d / |d|^2, so folded coordinates stay rational.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from typing import NamedTuple

from drills.exact.plane import Direction, Point
from drills.pattern.crease_pattern import CreasePattern
from drills.pattern.faces import faces


class _Carry(NamedTuple):
    """The map of one face: a = (ax, ay), b = (bx, by), and whether the face is turned over."""

    ax: Fraction
    ay: Fraction
    bx: Fraction
    by: Fraction
    over: bool

    def of(self, point: Point) -> tuple[Fraction, Fraction]:
        x, y = point.x, -point.y if self.over else point.y
        return self.ax * x - self.ay * y + self.bx, self.ax * y + self.ay * x + self.by

    def across(self, point: Point, direction: Direction) -> _Carry:
        """Return the map of the face beyond a crease of this one: reflect first, then carry."""
        dx, dy = direction
        size = dx * dx + dy * dy
        ux, uy = Fraction(dx * dx - dy * dy, size), Fraction(2 * dx * dy, size)
        # the line's own shift: p - u conj(p)
        px = point.x - (ux * point.x + uy * point.y)
        py = point.y - (uy * point.x - ux * point.y)
        if self.over:
            uy, py = -uy, -py
        ax, ay = self.ax * ux - self.ay * uy, self.ax * uy + self.ay * ux
        bx, by = self.ax * px - self.ay * py + self.bx, self.ax * py + self.ay * px + self.by
        return _Carry(ax, ay, bx, by, not self.over)


@dataclass(frozen=True)
class Folded:
    """A pattern folded flat; coordinates are whole numbers, all multiplied by one common scale.

    ``points`` are the folded vertices, ``over`` says of each face whether its underside is up,
    ``sides`` are per edge the one or two faces beside it, the one at its left first.
    """

    pattern: CreasePattern
    faces: tuple[tuple[int, ...], ...]
    points: tuple[tuple[int, int], ...]
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
    carries = _carried(pattern, cycles, sides)
    places: list[tuple[Fraction, Fraction] | None] = [None] * len(pattern.vertices)
    for carry, cycle in zip(carries, cycles, strict=True):
        for vertex in cycle:
            place = carry.of(pattern.vertices[vertex])
            if places[vertex] not in (None, place):
                raise TearingError("the creases round a point do not close")
            places[vertex] = place
    known = [place or (Fraction(0), Fraction(0)) for place in places]
    scale = lcm(*(value.denominator for place in known for value in place))
    points = tuple((int(x * scale), int(y * scale)) for x, y in known)
    return Folded(pattern, cycles, points, tuple(carry.over for carry in carries), sides)


def _sides(pattern: CreasePattern, cycles: tuple[tuple[int, ...], ...]) -> tuple[tuple[int, ...], ...]:
    """Return per edge its faces: that at the left of start to end, then that at the right."""
    beside: dict[tuple[int, int], int] = {}
    for face, cycle in enumerate(cycles):
        beside.update(((a, b), face) for a, b in zip(cycle, cycle[1:] + cycle[:1], strict=True))
    return tuple(
        tuple(beside[way] for way in ((edge.start, edge.end), (edge.end, edge.start)) if way in beside)
        for edge in pattern.edges
    )


def _carried(
    pattern: CreasePattern, cycles: tuple[tuple[int, ...], ...], sides: tuple[tuple[int, ...], ...]
) -> list[_Carry]:
    """Return each face's map, found by going from face to face across creases."""
    joins: list[list[tuple[int, int]]] = [[] for _ in cycles]
    for edge, beside in enumerate(sides):
        if len(beside) == 2:
            joins[beside[0]].append((beside[1], edge))
            joins[beside[1]].append((beside[0], edge))
    carries: dict[int, _Carry] = {0: _Carry(Fraction(1), Fraction(0), Fraction(0), Fraction(0), over=False)}
    waiting = deque([0])
    while waiting:
        face = waiting.popleft()
        for other, edge in joins[face]:
            if other not in carries:
                start = pattern.edges[edge].start
                carries[other] = carries[face].across(pattern.vertices[start], pattern.direction(edge, start))
                waiting.append(other)
    if len(carries) < len(cycles):
        raise TearingError("the sheet is in pieces")
    return [carries[face] for face in range(len(cycles))]
