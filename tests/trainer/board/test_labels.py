"""Mountains and valleys told apart on a board: by letters, and by lines without them."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.geometry import Point
from drills.pattern import CreasePattern
from drills.questions import KINDS, Code, make
from tests.trainer.board.drawn_boards import drawn, text
from tests.trainer.board.sheets import of_role, patterns, stretch
from trainer.board import Look, Marked, Room, opened
from trainer.board.palette import Ink
from trainer.board.raster import Dot, cell_of, doubled
from trainer.board.scale import scale_around
from trainer.board.static_layer import StaticLayer, layer_of
from trainer.board.window import CLOSE_DOTS
from trainer.ways_of_asking import way_of

ENOUGH_DOTS = 3
"""A second row of so many dots fills most of a cell: our own measure, from pictures looked at."""


def test_letters_stand_only_where_labels_are_shown() -> None:
    """Without labels there is no M or V, and no crease in their inks."""
    pattern = stretch()
    shown, unshown = drawn(pattern, Look(labels=True)), drawn(pattern, Look())
    assert {"M", "V"} <= set(text(shown))
    assert not {"M", "V"} & set(text(unshown))
    inks = {span.style.ink for line in unshown.lines for span in line}
    assert inks == {Ink.GRID, Ink.PAPER, Ink.CREASE}


@settings(max_examples=30, deadline=None)
@given(patterns, st.sampled_from((6, 8, 12)))
def test_a_letter_stands_only_where_it_is_plain_whose_it_is(pattern: CreasePattern, dots: int) -> None:
    """On one crease alone, no crease beside it, no other letter near; the crease is seen around it.

    Only on a crease along the grid it may fill all there is between two points.
    """
    sheet = layer_of(pattern, scale_around(pattern, 999, 999, Point(0, 0), dots), True, frozenset())
    for cell, letter in sheet.letters.items():
        (owner,) = [edge for edge, cells in enumerate(sheet.edges) if cell in cells]
        assert pattern.edges[owner].label == letter
        cells = list(sheet.edges[owner])
        start, end = pattern.ends(owner)
        for own in cells[cells.index(cell) - 1 :][:3]:
            alone = [own in other for other in sheet.edges].count(True) == 1
            assert alone or (own in sheet.keep and (start.x == end.x or start.y == end.y))
        for side in (cell - 1, cell + 1):
            assert all(side not in cells for edge, cells in enumerate(sheet.edges) if edge != owner)
        assert not {cell - 2, cell - 1, cell + 1, cell + 2} & set(sheet.letters)


SEEDS = [range(1, 4), pytest.param(range(4, 16), marks=pytest.mark.long)]


@pytest.mark.parametrize("seeds", SEEDS, ids=len)
@pytest.mark.parametrize("level", KINDS["labels"].levels)
@pytest.mark.parametrize("room", [Room(43, 19), Room(83, 35)], ids=["80x24", "120x40"])
def test_every_label_can_be_read_without_colour(room: Room, level: int, seeds: range) -> None:
    """As a question opens: by its letter, or by its line, away from points, where that shows enough of it."""
    for seed in seeds:
        drill = make(Code("labels", level, seed))
        look = way_of(drill).input(drill, drill.question).look()
        scale = opened(drill.pattern, room, look).scale
        sheet = layer_of(drill.pattern, scale, True, frozenset())
        for edge in drill.pattern.creases:
            in_view = all(map(scale.shows, drill.pattern.ends(edge)))
            if in_view and not sheet.letters.keys() & sheet.edges[edge].keys():
                other = layer_of(drill.pattern.switched([edge]), scale, True, frozenset())
                assert _dots_apart(sheet, other) >= ENOUGH_DOTS, (drill.code, drill.pattern.ends(edge))


def _dots_apart(one: StaticLayer, other: StaticLayer) -> int:
    """Return how many dots differ in cells that no sign can cover."""
    covered = one.keep | one.letters.keys() | other.letters.keys()
    pairs = enumerate(zip(one.drawn, other.drawn, strict=True))
    return sum((a ^ b).bit_count() for cell, (a, b) in pairs if cell not in covered)


@settings(max_examples=30, deadline=None)
@given(patterns)
def test_at_ten_dots_no_crease_lies_all_under_others(pattern: CreasePattern) -> None:
    """Each has a cell of its own; that is how near a board with labels opens where it must."""
    sheet = layer_of(pattern, scale_around(pattern, 999, 999, Point(0, 0), CLOSE_DOTS), True, frozenset())
    crowd = Counter(cell for cells in sheet.edges for cell in cells)
    assert all(any(crowd[cell] == 1 for cell in sheet.edges[edge]) for edge in pattern.creases)


@settings(max_examples=30, deadline=None)
@given(patterns, st.sampled_from((5, 8, 12)), st.booleans(), st.data())
def test_mountain_and_valley_differ_by_their_dots(
    pattern: CreasePattern, dots: int, doubles: bool, data: st.DataObject
) -> None:
    """Without letter and colour: a second row of dots, or gaps; at five dots only long creases have gaps."""
    edge = data.draw(st.sampled_from(pattern.creases))
    scale = scale_around(pattern, 999, 999, Point(0, 0), dots)
    one, other = (
        layer_of(sheet, scale, True, frozenset(), doubles).edges[edge]
        for sheet in (pattern, pattern.switched([edge]))
    )
    if doubles or len(one) > 4:
        assert one != other


def test_a_doubled_line_along_the_grid_stays_in_its_cells() -> None:
    """The second row of dots lies towards the middle of the cell, whichever row the first is in."""
    for at in range(4):
        line = [Dot(x, at) for x in range(7)]
        assert {cell_of(dot) for dot in doubled(line)} == {cell_of(dot) for dot in line}
        upright = [Dot(at, y) for y in range(9)]
        assert {cell_of(dot) for dot in doubled(upright)} == {cell_of(dot) for dot in upright}


def test_hidden_creases_leave_no_trace() -> None:
    """A sheet with its inside lines hidden is the same whatever their labels are."""
    pattern = stretch(2)
    inside = of_role(pattern, "inside")
    look = Look(labels=True, hidden=frozenset(inside))
    assert drawn(pattern, look).lines == drawn(pattern.switched(inside), look).lines
    assert drawn(pattern, look).lines != drawn(pattern, Look(labels=True)).lines


def test_a_mark_never_covers_a_letter() -> None:
    """While answering, the label of a marked crease stays readable."""
    pattern = stretch(2)
    plain = text(drawn(pattern, Look(labels=True)))
    marked = text(drawn(pattern, Look(labels=True, marked=Marked(frozenset(pattern.creases)))))
    assert [i for i, sign in enumerate(plain) if sign in "MV"] == [
        i for i, sign in enumerate(marked) if sign in "MV"
    ]
