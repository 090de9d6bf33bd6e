"""The eight symmetries of the square, as whole-number maps of the plane that keep the origin."""

from __future__ import annotations

from typing import NamedTuple

from drills.exact.plane import Point


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
