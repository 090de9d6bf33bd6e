"""Start the installed program without a terminal and look at its first screen, its style file included."""

from __future__ import annotations

import asyncio
from pathlib import Path
from tempfile import TemporaryDirectory

import trainer
from progress_store import open_store
from trainer.given import system_clock
from trainer.practice.attempts import floors, levels
from trainer.screens.app import Slantwise

HERE = Path(__file__).parents[1]


async def look() -> str:
    """Return the first screen as a picture; an error where the style file is missing."""
    clock = system_clock()
    with TemporaryDirectory() as folder, open_store(Path(folder), clock.now, floors(), levels()) as store:
        app = Slantwise(store, clock)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            return app.export_screenshot()


if HERE in Path(str(trainer.__file__)).parents:
    raise SystemExit("this is the source folder, not the installed program")
if "find&#160;my&#160;level" not in asyncio.run(look()):
    raise SystemExit("the first screen does not offer to find a person's level")
print("the first screen is there")
