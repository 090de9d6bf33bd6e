"""Drills on sheets too large to be shown whole, and what a mouse does on them."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from dataclasses import replace
from pathlib import Path

from textual.events import MouseDown, MouseEvent, MouseMove, MouseUp

from drills.geometry import Point
from drills.questions import Code, Drill, MarkInsideLines, Marks, ReadStep, Segment, Verdict, make
from drills.structures import Stretch, draw
from tests.trainer.screens.playing import WAITING, Play, playing, words_of
from trainer.board import Window
from trainer.practice.attempts import Measured
from trainer.practice.drill_source import DrillSource
from trainer.practice.making import Wanted, made
from trainer.screens.drill import DrillScreen
from trainer.screens.side import Overview

LARGE = Stretch((2, 2), pleats=12)
SHEET = draw(LARGE)
INSIDE = frozenset(index for index, edge in enumerate(SHEET.edges) if edge.role == "inside")
SMALL = make(Code("sinks", 1, 7))
MARK = replace(
    SMALL,
    design=LARGE,
    pattern=SHEET.unlabelled(),
    truth=SHEET,
    question=MarkInsideLines(("Mark every inside line.", "They sink."), Marks(INSIDE)),
)
SIDE = next(index for index, edge in enumerate(SHEET.edges) if edge.role == "outline")
READ_BEFORE = make(Code("steps", 1, 3))
READ = replace(
    READ_BEFORE,
    design=LARGE,
    pattern=SHEET.unlabelled(),
    truth=SHEET,
    question=ReadStep(
        ("Which step?",), READ_BEFORE.question.answer, Segment(*SHEET.edges[SIDE][:2], (SIDE,)), False
    ),
)
ROOMS = [(72, 20), (80, 24), (120, 40)]


class GivenDrills(DrillSource):
    """Given drills, once each; nothing is kept of them but what was measured."""

    title = subject = "Large sheets"
    progress = why = ""

    def __init__(self, drills: list[Drill]) -> None:
        self.drills = drills
        self.measured: Measured | None = None

    def next_drill(self, take: Callable[[Wanted], Drill] = made) -> Drill | None:
        """Return the next one."""
        return self.drills.pop(0) if self.drills else None

    def keep(self, drill: Drill, verdict: Verdict, measured: Measured, helped: bool) -> None:
        """Keep what was measured."""
        self.measured = measured


@asynccontextmanager
async def large(folder: Path, *drills: Drill, size: tuple[int, int] = (80, 24)) -> AsyncIterator[Play]:
    """Run the program at the first of some drills, an empty list of them being one to mark."""
    async with playing(folder, settings=WAITING, size=size) as play:
        play.app.push_screen(DrillScreen(GivenDrills([*(drills or (MARK,))])))
        await play.settle()
        yield play


def window(play: Play) -> Window:
    """Return the window of the board on top."""
    found = play.board.window
    assert found is not None
    return found


def overview(play: Play) -> list[str]:
    """Return the lines of the overview, none where it is not shown."""
    shown = play.screen.query_one(Overview)
    return words_of(shown).splitlines() if shown.display else []


def cursor(play: Play) -> Point:
    """Return where the cursor is."""
    at = play.at(DrillScreen).flow.input.look().cursor_at
    assert at is not None
    return at


def marks(play: Play) -> frozenset[int]:
    """Return the marked creases."""
    return play.at(DrillScreen).flow.input.look().marked.edges


async def mouse(
    play: Play, kind: type[MouseEvent], x: int, y: int, shift: bool = False, ctrl: bool = False
) -> None:
    """Let the mouse do something at a cell of the board's widget."""
    left, top = play.board.region.translate((x, y)).offset
    play.app.post_message(kind(None, left, top, 0, 0, 1, shift, False, ctrl, left, top))
    await play.settle()


async def drag(play: Play, start: tuple[int, int], end: tuple[int, int]) -> None:
    """Press, move and let go."""
    await mouse(play, MouseDown, *start)
    await mouse(play, MouseMove, *end)
    await mouse(play, MouseUp, *end)
