"""What a verdict adds to a board: what is true thick and bright, each judgement by its sign, the rest dim."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise
from math import hypot

from drills.geometry import move_between, moved
from drills.pattern import CreasePattern, straight_runs_among
from trainer.board.canvas import Canvas
from trainer.board.look import Look, Marked
from trainer.board.notes import write_at_crease, write_at_point
from trainer.board.palette import SIGNS, Ink, Mark
from trainer.board.raster import Dot, Masks, line_dots, masks_of, thickened
from trainer.board.scale import Scale

THICK_FROM = 7
"""With fewer dots a square two dots would fill what is to be shaded between parallel lines."""
CHORD = 1.0
"""How many squares from a point the chords of its small angles are drawn."""


def dim_the_rest(canvas: Canvas, look: Look) -> None:
    """Dim all of a verdict's board but dots, and creases lit or kept, which are alone in their cells."""
    if not look.is_told:
        return
    edges = canvas.layer.edges
    canvas.mark(range(len(canvas.styles)), Mark.PASSED)
    kept = _together([edges[edge] for edge in look.kept | look.lit])
    canvas.redraw(kept)
    canvas.mark(kept, Mark.NONE)
    canvas.mark([at for point in look.points if (at := canvas.cell(point)) is not None], Mark.NONE)


def tell(canvas: Canvas, pattern: CreasePattern, look: Look) -> None:
    """Draw what is judged and the reason, dimmed creases out of their cells, then signs and words."""
    judged = [(mark, edge) for mark, marked in judgements(look) for edge in sorted(marked.edges)]
    edges = canvas.layer.edges
    drawn = [(Mark.NONE, edges[edge]) for edge in look.angles]
    drawn += [(mark, _told(canvas, pattern, look, mark, edge)) for mark, edge in judged]
    cells = _together([masks for _, masks in drawn])
    canvas.redraw(_together([edges[edge] for edge in look.kept], cells))
    canvas.take_away({cell for edge, _ in look.notes for cell in edges[edge]})
    for mark, masks in drawn:
        canvas.draw(masks, Ink.REASON)
        canvas.mark(masks, mark)
    _draw_chords(canvas, pattern, look.angles)
    _put_signs(canvas, pattern, look, judged)
    for mark, marked in judgements(look):
        for cell in (canvas.cell(point) for point in marked.points):
            if cell is not None:
                _sign(canvas, cell, mark)
    for point, words in look.counts:
        write_at_point(canvas, point, words)


def _together(many: Iterable[Masks], only: Iterable[int] | None = None) -> Masks:
    """Return the dots of several lines together, in all their cells or in some cells only."""
    found: Masks = dict.fromkeys(only, 0) if only is not None else {}
    for masks in many:
        for cell, mask in masks.items():
            if only is None or cell in found:
                found[cell] = found.get(cell, 0) | mask
    return found


def _draw_chords(canvas: Canvas, pattern: CreasePattern, creases: tuple[int, ...]) -> None:
    """Draw a line from each crease beside small angles to the next one, near the point they meet at."""
    scale = canvas.layer.scale
    for one, other in pairwise(creases):
        (vertex,) = set(pattern.edges[one][:2]) & set(pattern.edges[other][:2])
        ends = [_on_the_way(scale, pattern, edge, vertex) for edge in (one, other)]
        canvas.draw(masks_of(line_dots(ends[0], ends[1]), scale.columns, scale.rows), Ink.REASON)


def _on_the_way(scale: Scale, pattern: CreasePattern, edge: int, vertex: int) -> Dot:
    """Return the dot so far along a crease from a point as a chord begins, at its end if it is shorter."""
    start, end = pattern.vertices[vertex], pattern.vertices[pattern.other_end(edge, vertex)]
    move = move_between(start, end)
    part = min(Fraction(1), Fraction(CHORD / hypot(move.dx, move.dy)).limit_denominator(100))
    return scale.dot(moved(start, move, part))


def judgements(look: Look) -> tuple[tuple[Mark, Marked], ...]:
    """Return what is judged; what comes later covers what comes before."""
    return (Mark.WRONG, look.wrong), (Mark.RIGHT, look.right), (Mark.MISSED, look.missed)


def _told(canvas: Canvas, pattern: CreasePattern, look: Look, mark: Mark, edge: int) -> Masks:
    """Return the dots of a judged crease, two wide where it is true."""
    masks, scale = canvas.layer.edges[edge], canvas.layer.scale
    if mark is Mark.WRONG or (look.shaded and scale.dots < THICK_FROM):
        return masks
    start, end = map(scale.dot, pattern.ends(edge))
    is_steep = abs(end.y - start.y) > abs(end.x - start.x)
    return thickened(masks, is_steep, scale.columns, scale.rows)


def _put_signs(canvas: Canvas, pattern: CreasePattern, look: Look, judged: list[tuple[Mark, int]]) -> None:
    """Put a sign in the middle of each line, with its note if it has one, and of each outline."""
    notes, marks = dict(look.notes), {edge: mark for mark, edge in judged}
    together = frozenset[int]().union(*look.outlines)
    for edge in marks.keys() & notes.keys():
        write_at_crease(canvas, edge, SIGNS[marks[edge]] + notes[edge], marks[edge])
    for mark in dict.fromkeys(marks.values()):
        creases = {edge for edge in marks.keys() - notes.keys() - together if marks[edge] is mark}
        for line in _lines(pattern, creases, look.labels):
            for cell in _middle_of_line(canvas, line):
                _sign(canvas, cell, mark)
    for outline in look.outlines:
        middle, of_outline = _middle(canvas, outline), marks.get(min(outline))
        if of_outline and middle is not None:
            _sign(canvas, middle, of_outline)


def _lines(pattern: CreasePattern, creases: Iterable[int], one_by_one: bool) -> list[tuple[int, ...]]:
    """Return creases that run straight on as one line, or one by one where each has a label of its own."""
    if one_by_one:
        return [(crease,) for crease in creases]
    return [run.edges for run in straight_runs_among(pattern, creases)]


def _middle_of_line(canvas: Canvas, line: tuple[int, ...]) -> list[int]:
    """Return the cell in the middle of what is in view of a line, on no point if that can be; or none."""
    columns = canvas.layer.scale.columns
    cells = [cell for edge in line for cell in canvas.layer.edges[edge]]
    cells = [cell for cell in cells if cell not in canvas.layer.keep] or cells
    rows, places = [cell // columns for cell in cells], [cell % columns for cell in cells]
    # twice as far, so that whole numbers will do
    away = {
        cell: abs(2 * row - min(rows) - max(rows)) + abs(2 * place - min(places) - max(places))
        for cell, row, place in zip(cells, rows, places, strict=True)
    }
    return sorted(away, key=lambda cell: away[cell])[:1]


def _middle(canvas: Canvas, outline: frozenset[int]) -> int | None:
    """Return the cell in the middle of what is in view of an outline."""
    columns = canvas.layer.scale.columns
    cells = [divmod(cell, columns) for edge in outline for cell in canvas.layer.edges[edge]]
    if not cells:
        return None
    rows, places = [row for row, _ in cells], [place for _, place in cells]
    return (min(rows) + max(rows)) // 2 * columns + (min(places) + max(places)) // 2


def _sign(canvas: Canvas, cell: int, mark: Mark) -> None:
    canvas.put(cell, SIGNS[mark], Ink.SIGN)
    canvas.mark([cell], mark)
