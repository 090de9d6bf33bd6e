"""A window that is drawn larger and smaller while keys are pressed."""

from __future__ import annotations

from itertools import cycle
from pathlib import Path

import pytest
from textual.events import Resize
from textual.geometry import Size

from drills.questions import Code
from tests.trainer.screens.playing import PLACE, READ, WAITING, playing
from trainer.screens.drill import DrillScreen

STORM = [
    (32, 1),
    (1, 1),
    (80, 24),
    (33, 2),
    (34, 24),
    (120, 3),
    (72, 20),
    (2, 40),
    (40, 10),
    (200, 60),
    (73, 5),
]
KEYS = [
    "right",
    "plus",
    "space",
    "l",
    "down",
    "v",
    "minus",
    "less_than_sign",
    "h",
    "tab",
    "1",
    "b",
    "k",
    "t",
    "u",
]
CODES = [READ, PLACE, *(Code(kind, 7, 11) for kind in ("steps", "sinks", "labels", "find"))]


@pytest.mark.parametrize("code", CODES, ids=str)
async def test_resizing_with_keys_pressed_ends_nothing(tmp_path: Path, code: Code) -> None:
    """At each size a key comes before the screen is laid out; then the answer, and back to a usual window."""
    async with playing(tmp_path, code, settings=WAITING) as play:
        keys = cycle(KEYS)
        for columns, rows in STORM:
            play.app.post_message(Resize(Size(columns, rows), Size(columns, rows)))
            await play.burst(next(keys), next(keys))
        await play.keys("enter", "v", "plus")
        await play.pilot.resize_terminal(80, 24)
        await play.settle()
        assert play.at(DrillScreen)
        assert not play.too_small
        assert play.drawing().strip()
