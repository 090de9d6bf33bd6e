"""Exact points, moves and angles of the grid plane: x to the right, y up, one grid square = 1.

Angles are without floats: a turn is a Gaussian integer of that argument, sums are products.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction
from functools import cmp_to_key
from math import gcd
from typing import NamedTuple, TypeAlias, TypeVar

Exact: TypeAlias = int | Fraction
Item = TypeVar("Item")


class Point(NamedTuple):
    """A place on the sheet, x to the right and y up, in grid squares."""

    x: Exact
    y: Exact


class Move(NamedTuple):
    """A difference of two points, dx to the right and dy up, in grid squares."""

    dx: Exact
    dy: Exact


class Direction(NamedTuple):
    """The shortest whole-number move along a line, dx to the right and dy up."""

    dx: int
    dy: int


AnyMove: TypeAlias = Move | Direction


def as_int(value: Exact) -> Exact:
    """Return the same number, as an int where it is whole."""
    return int(value) if value.denominator == 1 else value


def divided(top: Exact, bottom: Exact) -> Exact:
    """Return the exact quotient, as an int where it is whole."""
    whole, rest = divmod(top, bottom)
    return Fraction(top, bottom) if rest else whole


def is_whole(point: Point) -> bool:
    """Whether the point lies on a crossing of the grid."""
    return point.x.denominator == 1 and point.y.denominator == 1


def move_between(start: Point, end: Point) -> Move:
    """Return the move that leads from start to end."""
    return Move(as_int(end.x - start.x), as_int(end.y - start.y))


def moved(point: Point, move: AnyMove, times: Exact = 1) -> Point:
    """Return the point reached by making the move so many times."""
    return Point(as_int(point.x + move.dx * times), as_int(point.y + move.dy * times))


def cross(u: AnyMove, v: AnyMove) -> Exact:
    """Return the signed area between two moves: positive where v is counterclockwise of u."""
    return u.dx * v.dy - u.dy * v.dx


def dot(u: AnyMove, v: AnyMove) -> Exact:
    """Return the scalar product of two moves."""
    return u.dx * v.dx + u.dy * v.dy


def direction_of(move: AnyMove) -> Direction:
    """Return the shortest whole-number move that points the same way; the move must not be zero."""
    scale = move.dx.denominator * move.dy.denominator
    dx, dy = int(move.dx * scale), int(move.dy * scale)
    shared = gcd(dx, dy)
    return Direction(dx // shared, dy // shared)


def opposite(direction: Direction) -> Direction:
    """Return the direction turned half round."""
    return Direction(-direction.dx, -direction.dy)


def on_segment(point: Point, start: Point, end: Point) -> bool:
    """Whether the point lies on the closed segment."""
    whole, part = move_between(start, end), move_between(start, point)
    return cross(whole, part) == 0 and 0 <= dot(whole, part) <= dot(whole, whole)


class Step(NamedTuple):
    """So many squares across (right is positive) and down (down is positive), so many times."""

    across: int
    down: int
    times: int = 1

    @property
    def direction(self) -> Direction:
        """The move of one step, y up."""
        return Direction(self.across, -self.down)

    def end_from(self, start: Point) -> Point:
        """Return the point that the step, repeated, leads to."""
        return moved(start, self.direction, self.times)

    def smallest(self) -> Step:
        """Return the same way in the smallest step; the step must not stand still."""
        shared = gcd(self.across, self.down)
        return Step(self.across // shared, self.down // shared, self.times * shared)


def step_between(start: Point, end: Point) -> Step:
    """Return the smallest step from one grid crossing to another; ValueError off the grid."""
    if not (is_whole(start) and is_whole(end)):
        raise ValueError("a step leads from one crossing of the grid to another")
    move = move_between(start, end)
    return Step(int(move.dx), -int(move.dy)).smallest()


def ratio_of(direction: Direction) -> tuple[int, int]:
    """Return the two numbers of a step, the smaller first, whatever way it faces."""
    low, high = sorted((abs(direction.dx), abs(direction.dy)))
    return low, high


class Symmetry(NamedTuple):
    """The map (x, y) -> (a x + b y, c x + d y) with a, b, c, d from -1, 0, 1."""

    a: int
    b: int
    c: int
    d: int

    def of(self, point: Point) -> Point:
        """Return the image of a point."""
        return Point(self.a * point.x + self.b * point.y, self.c * point.x + self.d * point.y)

    def then(self, later: Symmetry) -> Symmetry:
        """Return the map that does this one first and the later one second."""
        return Symmetry(
            later.a * self.a + later.b * self.c,
            later.a * self.b + later.b * self.d,
            later.c * self.a + later.d * self.c,
            later.c * self.b + later.d * self.d,
        )


AS_IT_IS = Symmetry(1, 0, 0, 1)
QUARTER_TURN = Symmetry(0, -1, 1, 0)
HALF_TURN = QUARTER_TURN.then(QUARTER_TURN)
MIRROR = Symmetry(-1, 0, 0, 1)

SYMMETRIES = tuple(
    flip.then(turn)
    for flip in (AS_IT_IS, MIRROR)
    for turn in (AS_IT_IS, QUARTER_TURN, HALF_TURN, HALF_TURN.then(QUARTER_TURN))
)

FACINGS = (AS_IT_IS, QUARTER_TURN, MIRROR, MIRROR.then(QUARTER_TURN))
"""One of each pair that differs by a half turn, which maps a slanted stretch onto itself."""


class Turn(NamedTuple):
    """An angle above 0 and up to 180 degrees, as the direction x + iy that it turns (1, 0) to."""

    x: int
    y: int

    def plus_minus(self, more: Turn, less: Turn) -> Turn:
        """Return self + more - less; it must again be above 0 and up to 180 degrees."""
        x, y = self.x * more.x - self.y * more.y, self.x * more.y + self.y * more.x
        return _reduced(x * less.x + y * less.y, y * less.x - x * less.y)

    def is_below(self, other: Turn) -> bool:
        """Whether this angle is the smaller one."""
        return self.x * other.y - self.y * other.x > 0


def turn_between(first: Direction, second: Direction) -> Turn:
    """Return the counterclockwise turn from one direction to another, at most 180 degrees."""
    return _reduced(
        first.dx * second.dx + first.dy * second.dy,
        first.dx * second.dy - first.dy * second.dx,
    )


def is_half_turn(turns: list[Turn]) -> bool:
    """Whether the turns' product is real and negative: they add up to an odd number of half turns."""
    x, y = 1, 0
    for turn in turns:
        x, y = _reduced(x * turn.x - y * turn.y, x * turn.y + y * turn.x)
    return y == 0 and x < 0


def _reduced(x: int, y: int) -> Turn:
    shared = gcd(x, y)
    return Turn(x // shared, y // shared)


def counterclockwise(items: Iterable[Item], direction_of: Callable[[Item], Direction]) -> list[Item]:
    """Return the items sorted by their direction from 0 up to 360 degrees."""
    return sorted(items, key=lambda item: _by_direction(direction_of(item)))


def _compare(u: Direction, v: Direction) -> int:
    half = _is_lower(u) - _is_lower(v)
    return half or (-1 if (turn := cross(u, v)) > 0 else int(turn < 0))


def _is_lower(direction: Direction) -> bool:
    return direction.dy < 0 or (direction.dy == 0 and direction.dx < 0)


_by_direction = cmp_to_key(_compare)
