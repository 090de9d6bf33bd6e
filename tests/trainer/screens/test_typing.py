from __future__ import annotations

from pathlib import Path

from drills.questions import Code
from tests.trainer.screens.playing import WAITING, playing

WIDE = Code("steps", 7, 11)


async def test_twelve_is_typed_with_two_keys(tmp_path: Path) -> None:
    """The step goes 12 across and 5 down, once: every key is one that a keyboard has."""
    async with playing(tmp_path, WIDE, settings=WAITING) as play:
        await play.keys("1")
        assert "1_ [+] across" in play.said
        await play.keys("2", "comma", "5", "comma", "1", "enter")
        assert "You read 12 across 5 down, once." in play.said
        assert "Right" in play.said


async def test_a_letter_and_the_right_arrow_go_on_as_well(tmp_path: Path) -> None:
    """As one writes it: 12a 5d 1; or with the arrow."""
    for keys in (("1", "2", "a", "5", "d", "1"), ("1", "2", "5", "right", "left", "1")):
        async with playing(tmp_path, WIDE, settings=WAITING) as play:
            await play.keys(*keys, "enter")
            assert "You read 12 across 5 down, once." in play.said
