"""SVG drawings of one sheet, written in every way, are that sheet."""

from __future__ import annotations

import pytest

from drills.flatfold import check_pattern
from drills.fold_file import ImportedPattern, sheet_drawn
from drills.structures import Stretch, draw
from drills.svg_file import drawing_of, likely_labels, read_svg
from tests.drills.fold_file.foreign import model
from tests.drills.fold_file.writing import figure
from tests.drills.svg_file.writing import WRITERS, lines, stretch, svg


def sheet_in(text: bytes) -> ImportedPattern:
    """Return the sheet that an SVG draws, its strokes taken for what they are likely to be."""
    drawing = read_svg(text)
    return sheet_drawn(drawing_of(drawing, likely_labels(drawing.strokes)))


@pytest.mark.parametrize("name", WRITERS)
def test_every_way_to_write_it_is_the_same_sheet(name: str) -> None:
    """Points, creases and labels are those that were drawn; it folds by construction."""
    sheet = sheet_in(WRITERS[name](stretch()))
    assert sheet.exact
    assert figure(sheet.pattern) == figure(stretch())
    assert check_pattern(sheet.pattern, off=sheet.off).ok


def test_a_model_of_32_squares_in_an_svg_folds() -> None:
    """Two stretches with a roof between them, in classes and style rules."""
    assert check_pattern(sheet_in(WRITERS["classes"](model())).pattern).ok


def test_strokes_without_a_known_colour_are_open() -> None:
    """A green line is a mountain or a valley; which one is found."""
    pattern = draw(Stretch((1, 1)))
    text = svg(
        lines(pattern, "B", 'stroke="black"')
        + lines(pattern, "M", 'stroke="red"')
        + lines(pattern, "V", 'stroke="green"')
    )
    sheet = sheet_in(text)
    assert sheet.pattern.labels().count("U") == pattern.labels().count("V")
    assert check_pattern(sheet.pattern).ok


def test_what_is_left_out_is_said() -> None:
    """A text and a circle in a drawing of polylines."""
    notices = read_svg(WRITERS["polylines"](stretch())).notices
    assert notices == ("Left out: 1 curved line.", "Left out: 1 text or picture.")
