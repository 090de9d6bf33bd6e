from __future__ import annotations

import pytest

from drills.geometry import Move, Point
from drills.pattern import Line, Paper, build
from tests.trainer.board.sheets import edge_between, stretch, vertex_at
from trainer.board import crease_in_words
from trainer.board.drawing import way_in_words


def test_a_crease_is_said_from_the_cursors_end() -> None:
    """The sheet is 6 x 5; S is at 1,1 from the lower left, so 1 across and 4 down from the top left."""
    pattern = stretch()
    side, far = edge_between(pattern, (1, 1), (4, 2)), vertex_at(pattern, 4, 2)
    near = vertex_at(pattern, 1, 1)
    assert crease_in_words(pattern, side, near) == "outline side, valley, 3 across 1 up, to (4; 3)"
    assert crease_in_words(pattern, side, far) == "outline side, valley, 3 across 1 down, to (1; 4)"


def test_what_is_asked_is_not_said() -> None:
    """Role, label and way can each be left out."""
    pattern = stretch()
    edge, vertex = edge_between(pattern, (1, 1), (5, 4)), vertex_at(pattern, 1, 1)
    assert crease_in_words(pattern, edge, vertex, label=False) == "inside line, 4 across 3 up, to (5; 1)"
    assert crease_in_words(pattern, edge, vertex, role=False, way=False) == "crease, mountain, to (5; 1)"


def test_a_diagonal_ridge_is_called_so_and_the_papers_edge_has_no_label() -> None:
    """Ridges along the grid are ridges only."""
    pattern = stretch()
    corner = vertex_at(pattern, 0, 0)
    ridge = edge_between(pattern, (0, 0), (1, 1))
    assert crease_in_words(pattern, ridge, corner) == "45-degree ridge, mountain, 1 across 1 up, to (1; 4)"
    border = next(e for e in pattern.around[corner] if pattern.edges[e].label == "B")
    assert crease_in_words(pattern, border, corner).startswith("paper's edge, ")
    roof = build([Line(Point(1, 1), Point(3, 1), "ridge", "M")], Paper(0, 0, 4, 2))
    assert crease_in_words(roof, roof.creases[0], vertex_at(roof, 1, 1)).startswith("ridge, mountain")


@pytest.mark.parametrize(
    ("move", "words"), [(Move(-2, 0), "2 across"), (Move(0, -1), "1 down"), (Move(-3, 1), "3 across 1 up")]
)
def test_a_way_along_the_grid_has_one_number(move: Move, words: str) -> None:
    """What does not change is not said."""
    assert way_in_words(move) == words
