"""Exact points and moves of the grid plane: x to the right, y up, one grid square = 1."""

from __future__ import annotations

from fractions import Fraction
from math import gcd
from typing import NamedTuple, TypeAlias

Exact: TypeAlias = int | Fraction


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


def plain(value: Exact) -> Exact:
    """Return the same number, as an int where it is whole."""
    return int(value) if value.denominator == 1 else value


def is_whole(point: Point) -> bool:
    """Whether the point lies on a crossing of the grid."""
    return point.x.denominator == 1 and point.y.denominator == 1


def move_between(start: Point, end: Point) -> Move:
    """Return the move that leads from start to end."""
    return Move(plain(end.x - start.x), plain(end.y - start.y))


def moved(point: Point, move: AnyMove, times: Exact = 1) -> Point:
    """Return the point reached by making the move so many times."""
    return Point(plain(point.x + move.dx * times), plain(point.y + move.dy * times))


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


def on_segment(point: Point, start: Point, end: Point) -> bool:
    """Whether the point lies on the closed segment."""
    whole, part = move_between(start, end), move_between(start, point)
    return cross(whole, part) == 0 and 0 <= dot(whole, part) <= dot(whole, whole)
