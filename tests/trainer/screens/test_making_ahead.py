"""While drills are made, however slowly, the screen answers; leaving does not wait for them."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from threading import Event
from threading import enumerate as threads

import pytest

from drills.questions import Code, Drill
from tests.trainer.screens.answering import answer
from tests.trainer.screens.playing import WAITING, playing
from trainer.practice.flow import Asking
from trainer.practice.making import MakingAhead, Wanted, made
from trainer.screens.choice_screens import PickScreen
from trainer.screens.drill import DrillScreen
from trainer.screens.ending import EndScreen
from trainer.screens.opening import OpeningScreen

DEADLINE = 20.0
DRAWING = "Drawing the drill"


class Slow(MakingAhead):
    """Makes the first so many drills at once; does not come to the end of another one before it may."""

    def __init__(self, at_once: int = 0) -> None:
        self.begun, self.end = Event(), Event()
        self._at_once = at_once
        super().__init__(self.make, self.end.set)

    def make(self, wanted: Wanted) -> Drill:
        """Wait for the end."""
        self._at_once -= 1
        if self._at_once < 0:
            self.begun.set()
            assert self.end.wait(DEADLINE)
        return made(wanted)


@pytest.fixture
def slow() -> Iterator[Slow]:
    """Yield what makes drills ahead; at the end no thread of it is left."""
    making = Slow()
    yield making
    making.close()
    assert not [thread for thread in threads() if thread.name == "making drills ahead"]


@pytest.fixture
def making_one() -> Iterator[Slow]:
    """Yield what makes the first drill at once and no other."""
    making = Slow(at_once=1)
    yield making
    making.close()


async def test_keys_are_answered_while_a_drill_is_being_made(tmp_path: Path, making_one: Slow) -> None:
    """The cursor moves, the answer is judged, and the program is left."""
    async with playing(tmp_path, Code("sinks", 1, 7), settings=WAITING, making=making_one) as play:
        await play.until(lambda: play.panel != [DRAWING])
        await play.until(making_one.begun.is_set)
        before = play.at(DrillScreen).flow.look
        await play.keys("tab")
        assert play.at(DrillScreen).flow.look != before
        await play.keys("shift+tab")
        await answer(play)
        assert not making_one.end.is_set()
        await play.keys("enter")
        assert play.panel == [DRAWING]
        assert not play.drawing().strip()
        await play.keys("escape")
        play.at(EndScreen)


async def test_a_drill_by_its_code_is_waited_for_without_holding_the_screen(
    tmp_path: Path, slow: Slow
) -> None:
    """One line says so, keys of the drill do nothing yet; once it is made it is there by itself."""
    async with playing(tmp_path, Code("sinks", 1, 7), settings=WAITING, making=slow) as play:
        await play.until(slow.begun.is_set)
        assert play.panel == [DRAWING]
        await play.keys("tab", "space", "h", "w", "x", "enter", "plus", "z")
        assert play.panel == [DRAWING]
        assert "Enter answer" not in play.said
        slow.end.set()
        await play.until(lambda: play.panel != [DRAWING])
        assert play.drill.code == "sinks-1-7"
        assert play.at(DrillScreen).flow.state == Asking()
        await answer(play)


async def test_a_wait_can_be_left(tmp_path: Path, slow: Slow) -> None:
    """And the opening is as it was."""
    async with playing(tmp_path, Code("sinks", 1, 7), making=slow) as play:
        assert play.panel == [DRAWING]
        await play.keys("escape")
        play.at(OpeningScreen)


async def test_the_opening_is_there_before_its_pattern(tmp_path: Path, slow: Slow) -> None:
    """And Enter does not wait for it."""
    async with playing(tmp_path, known=True, making=slow) as play:
        await play.until(slow.begun.is_set)
        assert "First comes" in play.said
        assert not play.drawing().strip()
        await play.keys("n")
        play.at(PickScreen)
        await play.keys("escape")
        play.at(OpeningScreen)
        slow.end.set()
        await play.until(lambda: bool(play.drawing().strip()))


async def test_a_code_is_prepared_while_it_is_typed(tmp_path: Path) -> None:
    """So is what is chosen by the arrows."""
    making = MakingAhead(made)
    async with playing(tmp_path, making=making) as play:
        await play.keys("n", "right")
        await play.until(lambda: any(str(each).startswith("sinks") for each in making._drills))
        await play.keys("up", *"labels-3-41")
        await play.until(lambda: making.on_its_way(Code("labels", 3, 41)) is not None)
        await play.keys("enter")
        await play.until(lambda: play.panel != [DRAWING])
        assert play.drill.code == "labels-3-41"
    making.close()
