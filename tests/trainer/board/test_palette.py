"""The contrast ratio is that of WCAG 2.2 (W3C, TR/WCAG22, "contrast ratio" and "relative luminance")."""

from __future__ import annotations

from itertools import product

import pytest

from trainer.board import COLOURLESS, DARK, LIGHT, Paint, Palette
from trainer.board.palette import Ink, Mark, Style

JUDGED = (Mark.RIGHT, Mark.MISSED, Mark.WRONG)
TEXT = {Ink.MOUNTAIN_LETTER, Ink.VALLEY_LETTER, Ink.SIGN, Ink.REASON, Ink.FAULT, Ink.CURSOR}


def luminance(colour: str) -> float:
    """Return the relative luminance of a #RRGGBB colour."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def seen(palette: Palette, style: Style) -> float:
    """Return the contrast of a style's foreground against what is behind it."""
    paint = palette.paint(style)
    assert paint.foreground
    assert palette.screen
    return contrast(paint.foreground, paint.background or palette.screen)


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [("#000000", "#FFFFFF", 21.0), ("#0000FF", "#FFFFFF", 8.59), ("#767676", "#FFFFFF", 4.54)],
)
def test_the_contrast_formula_meets_known_values(one: str, other: str, ratio: float) -> None:
    """Black on white is 21:1 by definition; blue and #767676 on white are common reference values."""
    assert contrast(one, other) == pytest.approx(ratio, abs=0.005)


@pytest.mark.parametrize("palette", [DARK, LIGHT])
def test_lines_have_three_to_one_and_letters_four_and_a_half(palette: Palette) -> None:
    """WCAG 2.2, success criteria 1.4.11 (graphics 3:1) and 1.4.3 (text 4.5:1), marked or not."""
    for ink, mark, cursor in product(Ink, Mark, (False, True)):
        if mark is Mark.NONE or ink not in (Ink.GRID, Ink.SHADE, Ink.PAPER):
            needed = 4.5 if ink in TEXT and mark is not Mark.PASSED else 3.0
            assert seen(palette, Style(ink, mark, cursor)) >= needed, (ink, mark, cursor)


def test_mountain_and_valley_are_equal_in_grey_on_dark() -> None:
    """So the line style and the letter are needed: orange and sky blue of M. Okabe and K. Ito (2002)."""
    mountain, valley = DARK.inks[Ink.MOUNTAIN].foreground, DARK.inks[Ink.VALLEY].foreground
    assert (mountain, valley) == ("#E69F00", "#56B4E9")
    assert contrast("#E69F00", "#56B4E9") < 1.1


@pytest.mark.parametrize("palette", [DARK, LIGHT, COLOURLESS])
def test_lit_marked_and_cursor_look_different_in_every_palette(palette: Palette) -> None:
    """No two of the states a person must tell apart while answering are painted alike."""
    crease = Ink.CREASE
    states = [
        Style(crease),
        Style(Ink.LIT),
        Style(crease, Mark.MARKED),
        Style(crease, cursor=True),
        Style(crease, Mark.MARKED, True),
    ]
    assert len({palette.paint(state) for state in states}) == len(states)


@pytest.mark.parametrize("palette", [DARK, LIGHT, COLOURLESS])
def test_verdicts_look_different_in_every_palette(palette: Palette) -> None:
    """Judged creases from those passed over and from plain ones; in colour from each other too."""
    judged = {palette.paint(Style(Ink.CREASE, mark)) for mark in JUDGED}
    others = {palette.paint(Style(Ink.CREASE, mark)) for mark in (Mark.NONE, Mark.PASSED)}
    assert len(others) == 2
    assert not judged & others
    assert all(paint.bold for paint in judged)
    assert len(judged) == (1 if palette is COLOURLESS else 3)


@pytest.mark.parametrize("palette", [DARK, LIGHT, COLOURLESS])
def test_a_verdict_fills_no_background(palette: Palette) -> None:
    """Whatever is judged, dimmed, shaded or told as the reason is drawn on the screen's own ground."""
    for ink, mark in product(set(Ink) - {Ink.CURSOR, Ink.LETTER}, (*JUDGED, Mark.PASSED, Mark.NONE)):
        paint = palette.paint(Style(ink, mark))
        assert (paint.background, paint.reverse) == (None, False), (ink, mark)


@pytest.mark.parametrize("palette", [DARK, LIGHT])
def test_what_is_true_stands_out_from_what_is_passed_over(palette: Palette) -> None:
    """At least by half as much contrast again."""
    dim = seen(palette, Style(Ink.CREASE, Mark.PASSED))
    assert all(seen(palette, Style(Ink.CREASE, mark)) >= 1.5 * dim for mark in JUDGED)


def test_the_colourless_palette_has_no_colour() -> None:
    """With NO_COLOR set only bold, dim, reverse and underline are left."""
    paints = [COLOURLESS.paint(Style(*state)) for state in product(Ink, Mark, (False, True))]
    assert all(paint.foreground is None and paint.background is None for paint in paints)
    assert Paint(reverse=True) in paints
