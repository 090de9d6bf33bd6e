from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from trainer.board import Dot
from trainer.board.raster import BLOCKS, BRAILLE, dashed, dots_in, line_dots, masks_of, thickened

dots = st.builds(Dot, st.integers(0, 60), st.integers(0, 60))


def drawn(line: list[Dot], on: list[Dot]) -> str:
    """Return a line as # where it is on and . where it is off."""
    return "".join("#" if dot in on else "." for dot in line)


def test_dashes_are_three_on_two_off_with_both_ends_on() -> None:
    """A line of 13 dots holds three dashes exactly."""
    line = line_dots(Dot(0, 0), Dot(12, 0))
    assert drawn(line, dashed(line)) == "###..###..###"


@given(dots, dots)
def test_a_line_has_both_ends_and_no_gap(start: Dot, end: Dot) -> None:
    """Each dot touches the last one, and there is one a step of the longer axis."""
    line = line_dots(start, end)
    assert (line[0], line[-1]) == (start, end)
    assert len(line) == max(abs(end.x - start.x), abs(end.y - start.y)) + 1
    assert all(max(abs(a.x - b.x), abs(a.y - b.y)) == 1 for a, b in pairwise(line))


@given(st.integers(5, 120))
def test_a_dashed_line_of_any_length_has_its_ends_on_and_gaps(length: int) -> None:
    """From one square at 5 dots on, a dashed line differs from a solid one."""
    line = line_dots(Dot(0, 0), Dot(length, 0))
    on = dashed(line)
    assert (on[0], on[-1]) == (line[0], line[-1])
    assert 0.4 <= len(on) / len(line) <= 0.85
    assert "....." not in drawn(line, on)


def test_crossing_lines_keep_the_dots_of_both() -> None:
    """Dots are added, never erased."""
    down, up = line_dots(Dot(0, 0), Dot(7, 7)), line_dots(Dot(0, 7), Dot(7, 0))
    masks = masks_of([*down, *up], 4, 2)
    found = [dot for cell, mask in masks.items() for dot in dots_in(cell, mask, 4)]
    assert len(found) == len(set(found))
    assert set(found) == {*down, *up}


def test_a_thick_line_is_two_dots_wide_across_its_way() -> None:
    """A level line doubles downwards, an upright one to the right; the board's rim cuts."""
    level, upright = ([Dot(x, 2) for x in range(8)], [Dot(7, y) for y in range(8)])
    below = thickened(masks_of(level, 4, 2), False, 4, 2)
    beside = thickened(masks_of(upright, 4, 2), True, 4, 2)
    assert below == masks_of([*level, *(Dot(x, 3) for x in range(8))], 4, 2)
    assert beside == masks_of(upright, 4, 2)


def test_dots_off_the_board_are_left_out() -> None:
    """A window cuts what runs out of it."""
    assert masks_of([Dot(-1, 0), Dot(8, 0), Dot(0, 8), Dot(0, -1)], 4, 2) == {}


def test_the_bits_are_those_of_unicode_braille() -> None:
    """Dots 1 to 8 are the bits 1 to 128: left column, right column, then the bottom row (Unicode, U+2800)."""
    order = [Dot(0, 0), Dot(0, 1), Dot(0, 2), Dot(1, 0), Dot(1, 1), Dot(1, 2), Dot(0, 3), Dot(1, 3)]
    assert [masks_of([dot], 1, 1)[0] for dot in order] == [1 << bit for bit in range(8)]
    assert BRAILLE.dots[0xFF] == "⣿"


def test_blocks_fold_two_dots_into_each_quadrant() -> None:
    """A quadrant is set where either of its two dots is."""
    assert BLOCKS.dots[0] == " "
    assert BLOCKS.dots[0xFF] == "█"
    assert BLOCKS.dots[masks_of([Dot(0, 1)], 1, 1)[0]] == "▘"
    assert BLOCKS.dots[masks_of([Dot(0, 3), Dot(1, 2)], 1, 1)[0]] == "▄"
