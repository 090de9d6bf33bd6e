"""A sheet on its way to its folded shape, and the shape as it is seen, drawn in lines of text.

The way is a schematic: each point goes straight from where it lies on the sheet to where it comes to
lie, so that the faces stay joined. Paper does not move so.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import cycle

from drills.flatfold import UNLIMITED, FoldedShape, Limit, Side, Stack, folded_shape
from drills.geometry import Exact, Point, move_between, moved
from drills.pattern import CreasePattern, Edge
from drills.structures import faces_inside, find_stretches
from trainer.board.canvas import Canvas, Line
from trainer.board.palette import PLAIN_STYLES, Ink
from trainer.board.raster import GLYPHS, GlyphName, line_dots, masks_of
from trainer.board.scale import Box, Scale, scale_within
from trainer.board.shading import TEXTURES, shade_of
from trainer.board.static_layer import StaticLayer

FRAMES = 12
"""The frames after the sheet, the last of them the folded shape with all its creases."""
SEEN = FRAMES + 1
"""The step after the frames: the shape as it is seen from one side, its layers told by shading."""


@dataclass(frozen=True)
class Folding:
    """A shape and the parts of its sheet that go in, each of faces as vertex cycles."""

    shape: FoldedShape
    parts: tuple[tuple[tuple[int, ...], ...], ...]

    @classmethod
    def of(cls, pattern: CreasePattern, limit: Limit = UNLIMITED) -> Folding:
        """Return the folding of a pattern; TearingError where its faces do not fit together again."""
        triangles = [each for found in find_stretches(pattern) for each in found.parts_that_go_in()]
        parts = tuple(faces_inside(pattern, triangle) for triangle in triangles)
        # a part that goes in stays turned as it is, so that a middle line runs as it does on the sheet
        return cls(folded_shape(pattern, parts[0] if parts else (), limit), parts)

    def box_of(self, step: int) -> Box:
        """Return left, bottom, right and top in squares: of all frames together, or of the shape."""
        points = self.shape.points if step >= SEEN else (*self.shape.pattern.vertices, *self.shape.points)
        xs, ys = [point.x for point in points], [point.y for point in points]
        return min(xs), min(ys), max(xs), max(ys)

    def points_at(self, frame: int) -> tuple[Point, ...]:
        """Return where the vertices are in a frame."""
        part = Fraction(min(frame, FRAMES), FRAMES)
        return tuple(
            moved(start, move_between(start, end), part)
            for start, end in zip(self.shape.pattern.vertices, self.shape.points, strict=True)
        )

    def is_thick(self, stack: Stack) -> bool:
        """Whether a stack has more than half as many layers as there are where the shape is thickest."""
        return 2 * len(stack.faces) > self.shape.most_layers


def draw_folding(
    folding: Folding, step: int, side: Side, columns: int, rows: int, glyphs: GlyphName = "braille"
) -> tuple[Line, ...]:
    """Return a frame, or as step ``SEEN`` the shape as it is seen, as large as so much room lets it be.

    From below it is turned over from left to right.
    """
    scale = scale_within(folding.box_of(step), columns, rows)
    canvas = _empty(scale, glyphs)
    view = _View(scale, side == "below")
    if step >= SEEN:
        _draw_seen(canvas, folding, view, side)
    else:
        _draw_frame(canvas, folding, view, step)
    return canvas.lines()


@dataclass(frozen=True)
class _View:
    """A scale, and whether what it shows is turned over from left to right."""

    scale: Scale
    is_turned: bool

    def of(self, points: Sequence[Point]) -> list[Point]:
        left, _, right, _ = self.scale.box
        across: Exact = left + right
        return [Point(across - point.x, point.y) if self.is_turned else point for point in points]


def _empty(scale: Scale, glyphs: GlyphName) -> Canvas:
    blank = (0,) * (scale.columns * scale.rows)
    styles = (PLAIN_STYLES[Ink.GRID],) * len(blank)
    return Canvas(StaticLayer(scale, (), blank, blank, styles, {}, frozenset()), GLYPHS[glyphs])


def _draw_line(canvas: Canvas, ends: Sequence[Point], ink: Ink) -> None:
    scale = canvas.layer.scale
    start, end = map(scale.dot, ends)
    canvas.draw(masks_of(line_dots(start, end), scale.columns, scale.rows), ink)


def _draw_frame(canvas: Canvas, folding: Folding, view: _View, frame: int) -> None:
    """Draw all edges where they are on their way, the parts that go in shaded apart."""
    points = view.of(folding.points_at(frame))
    # what is to be followed is drawn last: the parts, and the paper's edge that draws together
    for ink, edges in _by_ink(folding).items():
        for edge in edges:
            _draw_line(canvas, (points[edge.start], points[edge.end]), ink)
    for part, texture in zip(folding.parts, cycle(TEXTURES)):
        for face in part:
            _shade(canvas, [points[vertex] for vertex in face], texture)


def _by_ink(folding: Folding) -> Mapping[Ink, list[Edge]]:
    """Return the edges by what they are to be told apart by, those of the parts after those around them."""
    faces = [face for part in folding.parts for face in part]
    of_parts = {frozenset(ends) for face in faces for ends in zip(face, face[1:] + face[:1], strict=True)}
    inks: dict[Ink, list[Edge]] = {Ink.GRID: [], Ink.CREASE: [], Ink.POINT: []}
    for edge in folding.shape.pattern.edges:
        is_of_part = frozenset((edge.start, edge.end)) in of_parts
        inks[Ink.POINT if edge.label == "B" else Ink.CREASE if is_of_part else Ink.GRID].append(edge)
    return inks


def _draw_seen(canvas: Canvas, folding: Folding, view: _View, side: Side) -> None:
    """Draw the edges that are seen from a side, thick stacks hatched and thin ones dotted."""
    shape = folding.shape
    for ends in shape.edges_seen(side):
        _draw_line(canvas, view.of(ends), Ink.CREASE)
    for ends in shape.outline():
        _draw_line(canvas, view.of(ends), Ink.POINT)
    hatch, dots = TEXTURES
    for stack in shape.stacks:
        _shade(canvas, view.of(stack.corners), hatch if folding.is_thick(stack) else dots)


def _shade(canvas: Canvas, outline: list[Point], texture: Ink) -> None:
    canvas.shade(shade_of(canvas.layer.scale, outline, texture), texture)
