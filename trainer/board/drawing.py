"""A board: a pattern, a look and a scale made into lines of styled text; and a crease in words."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import cycle, pairwise
from math import atan2, tau

from drills.geometry import Direction, Move, Point, move_between
from drills.pattern import LABELS, ROLES, CreasePattern, Edge, mixed, place_of
from trainer.board.canvas import Canvas, Line
from trainer.board.look import Letter, Look, Marked
from trainer.board.palette import SIGNS, Ink, Mark
from trainer.board.raster import GLYPHS, GlyphName, dotted, line_dots, masks_of
from trainer.board.scale import Scale
from trainer.board.shading import TEXTURES, shade_of
from trainer.board.static_layer import ink_of, layer_of, middle_first
from trainer.board.telling import dim_the_rest, tell

WAYS_ON = "←↑→↓"
RIMS = 3
"""How many lines from the rim inwards an arrow may stand on: creases can fill the first of them."""


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
    layer = layer_of(pattern, scale, look.labels, hidden, signs.is_fine)
    canvas = Canvas(layer, signs)
    dim_the_rest(canvas, look)
    for edge in look.lit:
        canvas.ink(layer.edges[edge], Ink.LIT)
    # what is drawn later covers what was drawn before: the cursor and the ways on come last
    _draw_staircase(canvas, look.staircase)
    _draw_points(canvas, look)
    _draw_arrow(canvas, pattern, look.arrow)
    _draw_cursor(canvas, pattern, look)
    _draw_marked(canvas, look.marked)
    tell(canvas, pattern, look)
    _shade_parts(canvas, pattern, look)
    _draw_faults(canvas, look.fault_points)
    _draw_cursor_point(canvas, look.cursor_at)
    _draw_ways_on(canvas)
    _draw_letters(canvas, look.letters)
    return Board(canvas.lines(), scale)


def _shade_parts(canvas: Canvas, pattern: CreasePattern, look: Look) -> None:
    """Shade the parts in turn by one texture and the other."""
    for part, texture in zip(look.shaded, cycle(TEXTURES)):
        for face in part:
            outline = [pattern.vertices[vertex] for vertex in face]
            canvas.shade(shade_of(canvas.layer.scale, outline, texture), texture)


def _draw_staircase(canvas: Canvas, corners: tuple[Point, ...]) -> None:
    """Draw the way across and down, and the lengths of its first two runs beside them."""
    scale = canvas.layer.scale
    for place, (start, end) in enumerate(pairwise(corners)):
        masks = masks_of(dotted(line_dots(scale.dot(start), scale.dot(end))), scale.columns, scale.rows)
        canvas.draw(masks, Ink.REASON)
        if place < 2:
            run = end.x - start.x or end.y - start.y
            for cell in [cell for cell in middle_first(masks) if cell not in canvas.layer.keep][:1]:
                canvas.write(cell, str(max(run, -run)), Ink.REASON)


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


def _draw_marked(canvas: Canvas, marked: Marked) -> None:
    """Mark edges, each with a sign where nothing else is said, and points, which wear the pencil dot."""
    for edge in sorted(marked.edges):
        cells = canvas.layer.edges[edge]
        canvas.mark(cells, Mark.MARKED)
        free = [cell for cell in middle_first(cells) if cell not in canvas.layer.keep | canvas.signs.keys()]
        for cell in free[:1]:
            canvas.put(cell, SIGNS[Mark.MARKED], Ink.SIGN)
    canvas.mark([at for point in marked.points if (at := canvas.cell(point)) is not None], Mark.MARKED)


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


def _draw_letters(canvas: Canvas, letters: tuple[Letter[int] | Letter[Point], ...]) -> None:
    """Put each letter where it cannot be taken for another's; those with least room choose first."""
    rooms = {letter: _cells_for(canvas, letter.of) for letter in letters}
    taken: set[int] = set()
    for letter in sorted(letters, key=lambda letter: len(rooms[letter][0])):
        free = [cell for cells in rooms[letter] for cell in cells if cell not in taken]
        for cell in free[:1]:
            taken.add(cell)
            canvas.put(cell, letter.sign, Ink.LETTER)


def _cells_for(canvas: Canvas, of: int | Point) -> tuple[list[int], ...]:
    """Return the cells for a letter, the best first: alone on it, on it, beside it."""
    if isinstance(of, Point):
        cell = canvas.cell(of)
        cells = [] if cell is None else [cell]
        return cells, [side for cell in cells for side in canvas.beside(cell) if canvas.is_free(side)]
    cells = middle_first(canvas.layer.edges[of])
    masks, layer = canvas.layer.edges[of], canvas.layer
    own = [cell for cell in cells if cell not in layer.keep and layer.drawn[cell] == masks[cell]]
    plain = [cell for cell in own if cell not in canvas.signs]
    beside = [side for cell in cells[:2] for side in canvas.beside(cell) if canvas.is_free(side)]
    return plain, own, [cell for cell in cells if cell not in layer.keep], beside, cells


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
