"""A board: a pattern, a look and a scale made into lines of styled text; and a crease in words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, tau
from typing import NamedTuple

from drills.geometry import Direction, Move, Point, move_between
from drills.pattern import CreasePattern, Edge, Label, Role, mixed, place_of
from trainer.board.canvas import Canvas, Line, shade_of
from trainer.board.palette import SIGNS, Ink, Mark
from trainer.board.raster import GLYPHS, GlyphName, dotted, line_dots, masks_of
from trainer.board.scale import Scale
from trainer.board.static_layer import ink_of, layer_of, middle_first

NO_EDGES: frozenset[int] = frozenset()
NO_POINTS: frozenset[Point] = frozenset()
ROLES: dict[Role, str] = {
    "outline": "outline side",
    "inside": "inside line",
    "ridge": "ridge",
    "pleat": "pleat line",
    "hinge": "hinge",
    "border": "paper's edge",
    "other": "crease",
}
LABELS: dict[Label, str] = {"M": "mountain", "V": "valley", "F": "flat", "U": "no label"}
WAYS_ON = "←↑→↓"
RIMS = 3
"""How many lines from the rim inwards an arrow may stand on: creases can fill the first of them."""


class Marked(NamedTuple):
    """Edges, by index, and points, by place, that wear one mark."""

    edges: frozenset[int] = NO_EDGES
    points: frozenset[Point] = NO_POINTS


NOTHING = Marked()


@dataclass(frozen=True)
class Look:
    """One look of a board; with nothing said, every crease solid and without its letter.

    ``labels`` tells mountains from valleys, with letters where it is plain whose they are;
    ``bare`` leaves only grid and paper; ``ruled`` counts the squares along the board; ``scanned`` says
    that it is looked over as a whole and need not be legible in detail; ``arrow`` is the vertex a lit
    crease starts from and the one it leads to; ``points`` are pencil dots; ``shaded`` are faces as
    vertex cycles; ``staircase`` are the corners of the way across and down; ``cursor_at`` is the point
    under the cursor, on the pattern or on the bare grid.
    """

    labels: bool = False
    bare: bool = False
    ruled: bool = False
    scanned: bool = False
    hidden: frozenset[int] = NO_EDGES
    lit: frozenset[int] = NO_EDGES
    arrow: tuple[int, int] | None = None
    cursor_edge: int | None = None
    cursor_at: Point | None = None
    marked: Marked = NOTHING
    right: Marked = NOTHING
    missed: Marked = NOTHING
    wrong: Marked = NOTHING
    points: frozenset[Point] = NO_POINTS
    fault_points: frozenset[Point] = NO_POINTS
    shaded: tuple[tuple[int, ...], ...] = ()
    staircase: tuple[Point, ...] = ()


def points_at(pattern: CreasePattern, vertices: Iterable[int]) -> frozenset[Point]:
    """Return the places of the vertices."""
    return frozenset(pattern.vertices[vertex] for vertex in vertices)


def way_in_words(move: Move) -> str:
    """Return a move as so many across (to either side) and so many up or down."""
    parts = [f"{mixed(max(move.dx, -move.dx))} across"] if move.dx else []
    if move.dy:
        parts.append(f"{mixed(max(move.dy, -move.dy))} {'up' if move.dy > 0 else 'down'}")
    return " ".join(parts)


def crease_in_words(
    pattern: CreasePattern, edge: int, vertex: int, *, role: bool = True, label: bool = True, way: bool = True
) -> str:
    """Return an edge as seen from one of its ends: "outline side, mountain, 3 across 1 down, to (6; 4)".

    What a question asks for is left out by ``role``, ``label`` and ``way``.
    """
    far = pattern.other_end(edge, vertex)
    crease = pattern.edges[edge]
    parts = [_role_in_words(crease, pattern.direction(edge, vertex)) if role else "crease"]
    if label and crease.label in LABELS:
        parts.append(LABELS[crease.label])
    if way:
        parts.append(way_in_words(move_between(pattern.vertices[vertex], pattern.vertices[far])))
    return ", ".join([*parts, f"to {place_of(pattern, far)}"])


def _role_in_words(edge: Edge, direction: Direction) -> str:
    """Return the role's name; a ridge on the diagonal says so."""
    is_diagonal = abs(direction.dx) == abs(direction.dy)
    return "45-degree ridge" if edge.role == "ridge" and is_diagonal else ROLES[edge.role]


@dataclass(frozen=True)
class Board:
    """A drawn board: ``lines`` are its rows from the top, each a run of spans that fills every column."""

    lines: tuple[Line, ...]
    scale: Scale


def draw_board(pattern: CreasePattern, look: Look, scale: Scale, glyphs: GlyphName = "braille") -> Board:
    """Return the board of a pattern in this look, as large as the scale's window."""
    hidden = look.hidden | frozenset(pattern.creases) if look.bare else look.hidden
    signs = GLYPHS[glyphs]
    layer = layer_of(pattern, scale, look.labels, hidden, signs.doubles)
    canvas = Canvas(layer, signs)
    for face in look.shaded:
        canvas.shade(shade_of(layer, [pattern.vertices[vertex] for vertex in face]))
    for edge in look.lit:
        canvas.ink(layer.edges[edge], Ink.LIT)
    # what is drawn later covers what was drawn before: the cursor and the ways on come last
    _draw_staircase(canvas, look.staircase)
    _draw_points(canvas, look)
    _draw_arrow(canvas, pattern, look.arrow)
    _draw_cursor(canvas, pattern, look)
    for mark, marked in _marks(look):
        _draw_marks(canvas, mark, marked)
    _draw_faults(canvas, look.fault_points)
    _draw_cursor_point(canvas, look.cursor_at)
    _draw_ways_on(canvas)
    return Board(canvas.lines(), scale)


def _marks(look: Look) -> tuple[tuple[Mark, Marked], ...]:
    return (
        (Mark.MARKED, look.marked),
        (Mark.RIGHT, look.right),
        (Mark.MISSED, look.missed),
        (Mark.WRONG, look.wrong),
    )


def _draw_staircase(canvas: Canvas, corners: tuple[Point, ...]) -> None:
    """Draw the way across and down, and the lengths of its first two runs beside them."""
    scale = canvas.layer.scale
    for place, (start, end) in enumerate(pairwise(corners)):
        masks = masks_of(dotted(line_dots(scale.dot(start), scale.dot(end))), scale.columns, scale.rows)
        canvas.draw(masks, Ink.STEPS)
        if place < 2:
            run = end.x - start.x or end.y - start.y
            for cell in [cell for cell in middle_first(masks) if cell not in canvas.layer.keep][:1]:
                canvas.write(cell, str(max(run, -run)), Ink.STEPS)


def _draw_points(canvas: Canvas, look: Look) -> None:
    for point in look.points | look.marked.points:
        if (cell := canvas.cell(point)) is not None:
            canvas.put(cell, canvas.glyphs.point, Ink.POINT)


def _draw_arrow(canvas: Canvas, pattern: CreasePattern, arrow: tuple[int, int] | None) -> None:
    if arrow is None:
        return
    start, end = (canvas.layer.scale.dot(pattern.vertices[vertex]) for vertex in arrow)
    heads = canvas.glyphs.arrows
    turn = atan2(start.y - end.y, end.x - start.x) / tau * len(heads)
    if (cell := canvas.cell(pattern.vertices[arrow[1]])) is not None:
        canvas.put(cell, heads[round(turn) % len(heads)], Ink.LIT)


def _draw_cursor(canvas: Canvas, pattern: CreasePattern, look: Look) -> None:
    edge = look.cursor_edge
    if edge is None:
        return
    cells = canvas.layer.edges[edge]
    canvas.ink(cells, Ink.LIT if edge in look.lit else ink_of(pattern.edges[edge], look.labels))
    canvas.point_out(cells)


def _draw_marks(canvas: Canvas, mark: Mark, marked: Marked) -> None:
    """Mark edges and points, each with the mark's sign; marked points wear the pencil dot already."""
    for edge in sorted(marked.edges):
        cells = canvas.layer.edges[edge]
        canvas.mark(cells, mark)
        _put_sign(canvas, middle_first(cells), mark)
    for point in marked.points:
        if (cell := canvas.cell(point)) is not None:
            canvas.mark([cell], mark)
            if mark is not Mark.MARKED:
                canvas.put(cell, SIGNS[mark], Ink.SIGN)


def _put_sign(canvas: Canvas, cells: list[int], mark: Mark) -> None:
    """Put the sign where nothing else is said; only a verdict may cover a letter or a point."""
    inner = [cell for cell in cells if cell not in canvas.layer.keep]
    places = [cell for cell in inner if cell not in canvas.signs]
    if mark is not Mark.MARKED:
        places = places or inner or cells
    for cell in places[:1]:
        canvas.put(cell, SIGNS[mark], Ink.SIGN)


def _draw_faults(canvas: Canvas, points: frozenset[Point]) -> None:
    """Set an exclamation mark beside each point, on it where nothing beside it is free."""
    for point in sorted(points):
        if (cell := canvas.cell(point)) is not None:
            canvas.ink([cell], Ink.FAULT)
            free = [side for side in canvas.beside(cell) if canvas.is_free(side)]
            canvas.put(free[0] if free else cell, "!", Ink.FAULT)


def _draw_cursor_point(canvas: Canvas, point: Point | None) -> None:
    if point is not None and (cell := canvas.cell(point)) is not None:
        canvas.put(cell, canvas.glyphs.cursor, Ink.CURSOR)


def _draw_ways_on(canvas: Canvas) -> None:
    """Set an arrow near the middle of each side of the window where the sheet goes on, on no crease."""
    scale = canvas.layer.scale
    for side, sign in enumerate(WAYS_ON):
        insets = range(min(RIMS, scale.columns, scale.rows) if scale.goes_on[side] else 0)
        rims = [_rims(scale, inset)[side] for inset in insets]
        cells = [cell for rim in rims for cell in middle_first(dict.fromkeys(rim, 0)) if canvas.is_free(cell)]
        for cell in cells[:1]:
            canvas.put(cell, sign, Ink.GRID)


def _rims(scale: Scale, inset: int) -> tuple[range, range, range, range]:
    """Return the cells of the left, top, right and bottom rim, or of the lines so far inside them."""
    columns, size = scale.columns, scale.columns * scale.rows
    top, bottom = inset * columns, size - (inset + 1) * columns
    return (
        range(inset, size, columns),
        range(top, top + columns),
        range(columns - 1 - inset, size, columns),
        range(bottom, bottom + columns),
    )
