"""Golden boards: the characters, the style of each cell, and what each palette makes of the styles.

After a wanted change run ``SLANTWISE_REWRITE_GOLDENS=1 pytest tests/trainer/board/test_golden.py``
and read the difference before keeping it.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path
from string import ascii_letters

import pytest

from drills.geometry import Point
from drills.pattern import CreasePattern
from tests.trainer.board.sheets import edge_between, fitted, of_role, stretch, vertex_at
from trainer.board import (
    COLOURLESS,
    DARK,
    LIGHT,
    Board,
    GlyphName,
    Look,
    Marked,
    Paint,
    draw_board,
)
from trainer.board.palette import Ink, Style

GOLDEN = Path(__file__).parent / "golden"
ROOMS = {"80x24": (44, 19), "120x40": (80, 35)}
PALETTES = {"dark": DARK, "light": LIGHT, "no colour": COLOURLESS}


def labels(pattern: CreasePattern) -> Look:
    """Show labels, one crease marked, the cursor on another one."""
    marked = edge_between(pattern, (1, 1), (4, 2))
    cursor = edge_between(pattern, (4, 2), (5, 4))
    return Look(labels=True, marked=Marked(frozenset([marked])), cursor_edge=cursor, cursor_at=Point(4, 2))


def steps(pattern: CreasePattern) -> Look:
    """Light a crease, with its arrow."""
    arrow = vertex_at(pattern, 1, 1), vertex_at(pattern, 4, 2)
    return Look(lit=frozenset([edge_between(pattern, (1, 1), (4, 2))]), arrow=arrow)


def staircase(pattern: CreasePattern) -> Look:
    """Show the verdict of steps."""
    lit = frozenset([edge_between(pattern, (1, 1), (4, 2))])
    return Look(lit=lit, staircase=(Point(1, 1), Point(4, 1), Point(4, 2)))


def sinks(pattern: CreasePattern) -> Look:
    """Show the verdict of sinks: the two parts that go in, the corners, a right and a wrong crease."""
    corners = [vertex_at(pattern, x, y) for x, y in ((1, 1), (4, 2), (5, 4), (2, 3))]
    return Look(
        is_told=True,
        kept=frozenset(of_role(pattern, "outline")),
        shaded=(((corners[0], corners[1], corners[2]),), ((corners[0], corners[2], corners[3]),)),
        right=Marked(frozenset(of_role(pattern, "inside"))),
        wrong=Marked(frozenset([edge_between(pattern, (1, 1), (4, 2))])),
    )


def faults(pattern: CreasePattern) -> Look:
    """Show the verdict of labels: a missed label and the points that do not balance."""
    missed = edge_between(pattern, (1, 1), (5, 4))
    return Look(
        labels=True,
        is_told=True,
        missed=Marked(frozenset([missed])),
        notes=((missed, "M>V"),),
        counts=tuple((end, "2M 2V") for end in pattern.ends(missed)),
        kept=frozenset(edge for end in pattern.edges[missed][:2] for edge in pattern.around[end]),
    )


def place(pattern: CreasePattern) -> Look:
    """Show the bare grid with a start and a cursor."""
    return Look(bare=True, points=frozenset([Point(1, 1)]), cursor_at=Point(4, 2))


LOOKS: tuple[Callable[[CreasePattern], Look], ...] = (labels, steps, staircase, sinks, faults, place)


@pytest.mark.parametrize("glyphs", ["braille", "blocks"])
@pytest.mark.parametrize("room", ROOMS)
@pytest.mark.parametrize("look", LOOKS, ids=lambda look: str(look.__name__))
def test_boards_are_drawn_as_before(
    look: Callable[[CreasePattern], Look], room: str, glyphs: GlyphName
) -> None:
    """A smallest stretch with one pleat around, in the room two common terminals leave for it."""
    pattern = stretch()
    board = draw_board(pattern, look(pattern), fitted(pattern, *ROOMS[room]), glyphs)
    path = GOLDEN / f"{look.__name__}-{room}-{glyphs}.txt"
    if os.environ.get("SLANTWISE_REWRITE_GOLDENS"):
        path.write_text(written(board), encoding="utf-8")
    assert written(board) == path.read_text(encoding="utf-8")


@pytest.mark.parametrize("room", ROOMS)
def test_a_denser_sheet_is_drawn_as_before(room: str) -> None:
    """Two units and two pleats around, labels shown."""
    pattern = stretch(2, 2)
    board = draw_board(pattern, Look(labels=True), fitted(pattern, *ROOMS[room]))
    path = GOLDEN / f"dense-{room}-braille.txt"
    if os.environ.get("SLANTWISE_REWRITE_GOLDENS"):
        path.write_text(written(board), encoding="utf-8")
    assert written(board) == path.read_text(encoding="utf-8")


def written(board: Board) -> str:
    """Return a board as text: its characters, a letter a style (a dot for the grid), the letters' paints."""
    names = {Style(Ink.GRID): "."}
    for line in board.lines:
        for span in line:
            names.setdefault(span.style, ascii_letters[len(names) - 1])
    rows = ["".join(span.text for span in line) for line in board.lines]
    styles = ["".join(names[span.style] * len(span.text) for span in line) for line in board.lines]
    parts = [*(f"|{row}|" for row in rows), "", *(f"|{row}|" for row in styles), "", *_legend(names)]
    return "\n".join(parts) + "\n"


def _legend(names: dict[Style, str]) -> Iterator[str]:
    for style, name in names.items():
        state = " ".join(filter(None, (style.ink, style.mark, "cursor" if style.cursor else "")))
        yield f"{name} {state}"
        yield from (
            f"    {screen}: {_paint_in_words(palette.paint(style))}" for screen, palette in PALETTES.items()
        )


def _paint_in_words(paint: Paint) -> str:
    ground = f"{paint.foreground or 'own'} on {paint.background or 'own'}"
    return " ".join(
        [ground, *(name for name in ("bold", "dim", "reverse", "underline") if getattr(paint, name))]
    )
