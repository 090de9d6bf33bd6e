"""Boards drawn in tests, and what stands in their cells."""

from __future__ import annotations

from drills.geometry import Point
from drills.pattern import CreasePattern
from tests.trainer.board.sheets import fitted
from trainer.board import Board, GlyphName, Look, draw_board
from trainer.board.palette import Style
from trainer.board.static_layer import layer_of


def text(board: Board) -> str:
    """Return the characters of a board, row by row."""
    return "\n".join("".join(span.text for span in line) for line in board.lines)


def style_at(board: Board, point: Point) -> Style:
    """Return the style of the cell that holds a grid point."""
    column, row = board.scale.cell(point)
    styles = [span.style for span in board.lines[row] for _ in span.text]
    return styles[column]


def sign_at(board: Board, point: Point) -> str:
    """Return the character of the cell that holds a grid point."""
    column, row = board.scale.cell(point)
    return "".join(span.text for span in board.lines[row])[column]


def edge_styles(board: Board, pattern: CreasePattern, edge: int) -> set[Style]:
    """Return the styles of the cells an edge runs through."""
    sheet = layer_of(pattern, board.scale, False, frozenset())
    flat = [span.style for line in board.lines for span in line for _ in span.text]
    return {flat[cell] for cell in sheet.edges[edge]}


def drawn(pattern: CreasePattern, look: Look, glyphs: GlyphName = "braille") -> Board:
    """Return the board in the room an 80 x 24 terminal leaves."""
    return draw_board(pattern, look, fitted(pattern, 44, 19), glyphs)
