"""Frames from sheet to folded shape: their ends, their sides, and what is shaded."""

from __future__ import annotations

from itertools import pairwise

import pytest

from drills.structures import Stretch, draw
from trainer.board import FRAMES, SEEN, Folding, Line, draw_folding
from trainer.board.palette import Ink

FOLDING = Folding.of(draw(Stretch((2, 2))))
LARGEST = 72, 22


def text(lines: tuple[Line, ...]) -> list[str]:
    """Return the rows without their styles."""
    return ["".join(span.text for span in line) for line in lines]


def inks(step: int) -> set[Ink]:
    """Return what is drawn in a step."""
    return {span.style.ink for line in draw_folding(FOLDING, step, "above", *LARGEST) for span in line}


def test_the_frames_lead_from_the_sheet_to_the_shape() -> None:
    """Exactly, at both ends; the points go the same way in each frame."""
    frames = [FOLDING.points_at(frame) for frame in range(FRAMES + 1)]
    assert frames[0] == FOLDING.shape.pattern.vertices
    assert frames[-1] == FOLDING.shape.points == FOLDING.points_at(SEEN)
    for vertex in range(len(frames[0])):
        ways = {(b[vertex].x - a[vertex].x, b[vertex].y - a[vertex].y) for a, b in pairwise(frames)}
        assert len(ways) == 1


def test_two_parts_go_in_one_on_either_side_of_the_middle_line() -> None:
    """Three inside lines cut the outline into four faces, two at each side of the middle one, by hand."""
    assert [len(part) for part in FOLDING.parts] == [2, 2]
    assert not set(FOLDING.parts[0]) & set(FOLDING.parts[1])


def test_on_the_way_the_two_parts_are_shaded_apart() -> None:
    """Hatched and dotted, not by colour alone, and still in the middle of the way."""
    for step in (0, FRAMES // 2):
        assert {Ink.HATCH, Ink.SHADE} <= inks(step)


@pytest.mark.parametrize("step", [0, 5, FRAMES, SEEN])
def test_every_step_fits_the_room(step: int) -> None:
    """At sizes small and large, in both sets of signs; all frames are of one size."""
    for columns, rows in ((30, 12), LARGEST, (120, 36)):
        for glyphs in ("braille", "blocks"):
            lines = text(draw_folding(FOLDING, step, "above", columns, rows, glyphs))
            if step < SEEN:
                assert len(lines) == len(draw_folding(FOLDING, 0, "above", columns, rows))
            assert len(lines) <= rows
            assert {len(line) for line in lines} == {len(lines[0])}
            assert len(lines[0]) <= columns


def test_from_below_it_is_turned_over_from_left_to_right() -> None:
    """The tip at the lower left of the shape is then at the lower right."""
    above, below = (text(draw_folding(FOLDING, SEEN, side, *LARGEST)) for side in ("above", "below"))
    lowest = max(row for row, line in enumerate(above) if line.strip("⠀ "))
    assert len(above[lowest].rstrip("⠀ ")) < len(above[lowest]) / 2
    assert len(below[lowest]) - len(below[lowest].lstrip("⠀ ")) > len(below[lowest]) / 2
