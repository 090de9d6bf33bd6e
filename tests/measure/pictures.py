"""Draw the README's pictures anew, into .github/pictures: python -m tests.measure.pictures."""

from __future__ import annotations

import asyncio
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from drills.questions.kinds import read_code
from progress_store import Settings
from tests.trainer.screens.playing import Play, playing
from trainer.start import Start

FOLDER = Path(__file__).parents[2] / ".github" / "pictures"


class Picture(NamedTuple):
    """A screen: where the program opens, which keys lead on, how large the window is."""

    name: str
    start: Start
    keys: tuple[str, ...] = ()
    size: tuple[int, int] = (80, 24)


PICTURES = (
    Picture("opening", "opening"),
    Picture("across-and-down", read_code("steps-3-5"), ("3", "1", "2", "enter")),
    Picture("inside-lines", read_code("sinks-3-7"), ("tab", "space", "enter")),
    Picture("mountain-or-valley", read_code("labels-2-1"), ("space", "enter")),
    Picture("find", read_code("find-7-7"), ("up", "left", "left", "space"), (100, 30)),
    Picture("warm-up", "opening", ("w",)),
    Picture("lesson", "opening", ("c",)),
    Picture("yardstick", "opening", ("y",)),
    Picture("record", "opening", ("r",)),
)


async def draw(picture: Picture) -> None:
    """Write one picture as SVG."""
    with TemporaryDirectory() as folder:
        settings, size = Settings(started=True), picture.size
        async with playing(Path(folder), picture.start, settings=settings, size=size) as play:
            await play.keys(*picture.keys)
            (FOLDER / f"{picture.name}.svg").write_text(_svg(play), encoding="utf-8")


def _svg(play: Play) -> str:
    return play.app.export_screenshot(title="Slantwise")


async def main() -> None:
    """Draw all pictures."""
    FOLDER.mkdir(exist_ok=True)
    for picture in PICTURES:
        await draw(picture)


if __name__ == "__main__":
    asyncio.run(main())
