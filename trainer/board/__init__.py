"""The board: a pattern and a look to lines of text; pure drawing."""

from __future__ import annotations

from trainer.board.canvas import Line
from trainer.board.chart import Chart, Value, draw_chart
from trainer.board.cursor import FAR, Arrow, Cursor, Track, track_of
from trainer.board.drawing import Board, crease_in_words, draw_board
from trainer.board.folding import FRAMES, SEEN, Folding, draw_folding
from trainer.board.look import Letter, Look, Marked, points_at
from trainer.board.overview import OverviewRow, Plan, draw_overview, plan_of
from trainer.board.palette import COLOURLESS, DARK, LIGHT, Paint, Palette
from trainer.board.raster import DOTS_ACROSS, DOTS_DOWN, GLYPHS, Cell, Dot, GlyphName
from trainer.board.ruler import RULER_COLUMNS, RULER_ROWS, with_rulers
from trainer.board.scale import Scale, TooSmall, creases_near, points_near, scale_for
from trainer.board.window import (
    Room,
    Window,
    asked,
    brought_into_view,
    columns_to_look_over,
    followed,
    halfway,
    in_view,
    opened,
)

__all__ = [
    "COLOURLESS",
    "DARK",
    "DOTS_ACROSS",
    "DOTS_DOWN",
    "FAR",
    "FRAMES",
    "GLYPHS",
    "LIGHT",
    "RULER_COLUMNS",
    "RULER_ROWS",
    "SEEN",
    "Arrow",
    "Board",
    "Cell",
    "Chart",
    "Cursor",
    "Dot",
    "Folding",
    "GlyphName",
    "Letter",
    "Line",
    "Look",
    "Marked",
    "OverviewRow",
    "Paint",
    "Palette",
    "Plan",
    "Room",
    "Scale",
    "TooSmall",
    "Track",
    "Value",
    "Window",
    "asked",
    "brought_into_view",
    "columns_to_look_over",
    "crease_in_words",
    "creases_near",
    "draw_board",
    "draw_chart",
    "draw_folding",
    "draw_overview",
    "followed",
    "halfway",
    "in_view",
    "opened",
    "plan_of",
    "points_at",
    "points_near",
    "scale_for",
    "track_of",
    "with_rulers",
]
