"""Draw the README's pictures anew, into .github/pictures: python -m tests.measure.pictures."""

from __future__ import annotations

import asyncio
import shutil
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from drills.questions import read_code
from progress_store import Settings
from tests.trainer.month import LAST_DAY, practise
from tests.trainer.screens.playing import playing
from trainer.screens.app import Start

FOLDER = Path(__file__).parents[2] / ".github" / "pictures"
SETTINGS = Settings(started=True, go_on_after_right=False)


class Picture(NamedTuple):
    """A screen: where the program opens, which keys lead on, how large the window is, after how many days."""

    name: str
    start: Start
    keys: tuple[str, ...] = ()
    size: tuple[int, int] = (80, 24)
    days: int = LAST_DAY + 1


PICTURES = (
    Picture("opening", "opening"),
    Picture("across-and-down", read_code("steps-3-5"), ("3", "1", "2", "enter")),
    Picture("inside-lines", read_code("sinks-3-7"), ("tab", "space", "enter")),
    Picture("mountain-or-valley", read_code("labels-2-1"), ("space", "enter")),
    Picture("find", read_code("find-7-7"), (*["tab"] * 5, "space"), (100, 30)),
    Picture("warm-up", "opening", ("w",)),
    Picture("lesson", "opening", ("c",)),
    Picture("yardstick", "opening", ("y",), days=LAST_DAY + 14),
    Picture("pick", "opening", ("n", "down", "down", "right", "right", "right", "right")),
    Picture("record", "opening", ("r",), (80, 36)),
)


async def draw(picture: Picture, log: Path) -> None:
    """Write one picture as SVG, of somebody who practised for forty days."""
    with TemporaryDirectory() as name:
        shutil.copy(log, name)
        async with playing(
            Path(name), picture.start, settings=SETTINGS, size=picture.size, days_later=picture.days
        ) as play:
            await play.keys(*picture.keys)
            drawn = play.app.export_screenshot(title="Slantwise")
            (FOLDER / f"{picture.name}.svg").write_text(drawn, encoding="utf-8")


async def main() -> None:
    """Draw all pictures."""
    FOLDER.mkdir(exist_ok=True)
    with TemporaryDirectory() as month:
        practise(Path(month))
        for picture in PICTURES:
            await draw(picture, Path(month) / "attempts.jsonl")


if __name__ == "__main__":
    asyncio.run(main())
