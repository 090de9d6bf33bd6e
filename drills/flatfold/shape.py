"""What a sheet becomes: its folded shape laid on the sheet, the layers over each part of it, what is seen.

One face stays turned as it is on the sheet, and the middle of the shape is the middle of the sheet,
so that a shape can be drawn where its sheet was.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, NamedTuple, TypeAlias

from drills.flatfold.conditions import bits
from drills.flatfold.folded import Drawing, Folded, Segment, fold
from drills.flatfold.limit import UNLIMITED, Limit, OutOfTimeError
from drills.flatfold.solve import solve_layers
from drills.geometry import Exact, Move, Pair, Point, as_int, cross, dot, double_area, move_between
from drills.pattern import CreasePattern

Side: TypeAlias = Literal["above", "below"]


class Stack(NamedTuple):
    """A part of the shape where the same faces lie on each other: its corners, counterclockwise.

    ``faces`` go from the lowest to the uppermost, or by number where no order of the layers is known.
    """

    corners: tuple[Point, ...]
    faces: tuple[int, ...]


class Rim(NamedTuple):
    """A line of the shape from point to point, and the stacks at its left and right, None outside."""

    start: Point
    end: Point
    left: Stack | None
    right: Stack | None


@dataclass(frozen=True)
class FoldedShape:
    """A sheet folded flat, exactly, in squares of its grid.

    ``points`` are the places of the pattern's vertices, ``faces`` its faces by vertex, ``over`` says of
    each face whether its underside is up; ``is_ordered`` whether the layers have an order that is known.
    """

    pattern: CreasePattern
    points: tuple[Point, ...]
    faces: tuple[tuple[int, ...], ...]
    over: tuple[bool, ...]
    stacks: tuple[Stack, ...]
    rims: tuple[Rim, ...]
    is_ordered: bool

    @property
    def most_layers(self) -> int:
        """The number of layers where the shape is thickest."""
        return max(len(stack.faces) for stack in self.stacks)

    def outline(self) -> Iterator[Segment]:
        """Yield the lines round the shape, those round a hole in it included."""
        return ((rim.start, rim.end) for rim in self.rims if rim.left is None or rim.right is None)

    def seen_face(self, stack: Stack, side: Side) -> int:
        """Return the face that is seen of a stack; it means something only where the layers are ordered."""
        return stack.faces[-1 if side == "above" else 0]

    def edges_seen(self, side: Side) -> Iterator[Segment]:
        """Yield the outline and, where the layers are ordered, the edges that no layer hides."""
        return ((rim.start, rim.end) for rim in self.rims if self._is_seen(rim, side))

    def _is_seen(self, rim: Rim, side: Side) -> bool:
        if rim.left is None or rim.right is None:
            return True
        return self.is_ordered and self.seen_face(rim.left, side) != self.seen_face(rim.right, side)


def folded_shape(
    pattern: CreasePattern, staying: Sequence[tuple[int, ...]] = (), limit: Limit = UNLIMITED
) -> FoldedShape:
    """Return what the pattern becomes; TearingError where its faces do not fit together again.

    The largest of the faces named as ``staying``, or else of all, stays turned as it is. Where the
    labels have no layer order, or none is found within the limit, the shape is not ordered.
    """
    folded = fold(pattern)
    drawing, laying = Drawing.of(folded), _Laying.of(folded, staying or folded.faces)
    order = _order(pattern, limit)
    corners = laying.on_sheet(drawing.drawn.vertices)
    stacks = {
        cell: Stack(
            tuple(corners[vertex] for vertex in (rim[::-1] if laying.turns else rim)),
            _stacked(faces, order, laying.turns),
        )
        for cell, (rim, faces) in enumerate(zip(drawing.rims, drawing.sets, strict=True))
        if faces
    }
    rims = []
    for edge in drawing.drawn.edges:
        ways = (edge.start, edge.end), (edge.end, edge.start)
        left, right = (stacks.get(drawing.beside[way]) for way in (ways[::-1] if laying.turns else ways))
        rims.append(Rim(corners[edge.start], corners[edge.end], left, right))
    return FoldedShape(
        pattern,
        laying.on_sheet(folded.points),
        folded.faces,
        tuple(over != laying.turns for over in folded.over),
        tuple(stacks.values()),
        tuple(rims),
        order is not None,
    )


def _order(pattern: CreasePattern, limit: Limit) -> tuple[int, ...] | None:
    """Return per face the faces under it as bits, None where no order is known."""
    try:
        found = solve_layers(pattern, limit=limit)
    except OutOfTimeError:
        return None
    return found.below if found.folds else None


def _stacked(faces: int, below: tuple[int, ...] | None, turns: bool) -> tuple[int, ...]:
    """Return the faces of a stack from the lowest up: each lies on all those of the stack below it."""
    if below is None:
        return tuple(bits(faces))
    upwards = sorted(bits(faces), key=lambda face: (below[face] & faces).bit_count())
    return tuple(upwards[::-1] if turns else upwards)


class _Laying(NamedTuple):
    """How the folded sheet is laid beside the pattern: z -> end + factor * (z - start), or its mirror image.

    Complex numbers as pairs; ``turns`` says that all is turned over, so that the staying face is not.
    """

    start: Pair
    end: Pair
    factor: Pair
    middle: Point
    turns: bool

    @classmethod
    def of(cls, folded: Folded, among: Sequence[tuple[int, ...]]) -> _Laying:
        """Return the laying that leaves the largest of these faces turned as it is on the sheet."""
        flat = folded.pattern.vertices
        staying = max(among, key=lambda cycle: double_area([flat[vertex] for vertex in cycle]))
        one, two, *_ = staying
        turns = folded.over[folded.faces.index(staying)]
        wanted = move_between(flat[one], flat[two])
        given = move_between(Point(*folded.points[one]), Point(*folded.points[two]))
        if turns:
            given = Move(given.dx, -given.dy)
        # the quotient of two complex numbers: the one times the other's conjugate, by its square
        size = dot(given, given)
        factor = Fraction(dot(given, wanted), size), Fraction(cross(given, wanted), size)
        left, bottom, right, top = folded.pattern.box
        middle = Point(Fraction(left + right, 2), Fraction(bottom + top, 2))
        return cls(folded.points[one], flat[one], factor, middle, turns)

    def on_sheet(self, points: Sequence[Pair]) -> tuple[Point, ...]:
        """Return the points of the whole folded sheet in squares, their middle that of the sheet."""
        placed = [self._placed(x - self.start[0], y - self.start[1]) for x, y in points]
        xs, ys = [x for x, _ in placed], [y for _, y in placed]
        right = self.middle.x - Fraction(min(xs) + max(xs), 2)
        up = self.middle.y - Fraction(min(ys) + max(ys), 2)
        return tuple(Point(as_int(x + right), as_int(y + up)) for x, y in placed)

    def _placed(self, x: Exact, y: Exact) -> Pair:
        a, b = self.factor
        y = -y if self.turns else y
        return self.end[0] + a * x - b * y, self.end[1] + a * y + b * x
