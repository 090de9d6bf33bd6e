from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given

from drills.fold_file import FoldFileError, read_sheet, to_fold
from drills.geometry import Exact, Point
from drills.pattern import CreasePattern, Edge
from drills.structures import Stretch, draw
from tests.drills.fold_file.writing import lines_fold, plain_fold, read, square, text_of
from tests.drills.sheets import small_stretches

STANDARD = Path(__file__).parent / "standard"


def test_the_standards_own_crease_pattern_is_read_as_it_is() -> None:
    """diagonal-cp.fold of github.com/edemaine/fold: a unit square and its valley diagonal."""
    sheet = read_sheet((STANDARD / "diagonal-cp.fold").read_bytes())
    assert sheet.exact
    assert sheet.pattern.vertices == ((0, 0), (1, 0), (1, 1), (0, 1))
    assert sheet.pattern.labels() == ("B", "B", "B", "B", "V")
    assert sheet.pattern.edges[4] == Edge(1, 3, "other", "V")
    assert (sheet.vertices, sheet.edges, sheet.notices) == ((0, 1, 2, 3), (0, 1, 2, 3, 4), ())


@pytest.mark.parametrize("name", ["box", "diagonal-folded", "simple", "squaretwist"])
def test_the_standards_folded_forms_are_refused(name: str) -> None:
    """The other examples of github.com/edemaine/fold are folded forms."""
    with pytest.raises(
        FoldFileError, match=r"^This is a folded form, not a crease pattern; save the crease pattern"
    ):
        read_sheet((STANDARD / f"{name}.fold").read_bytes())


@given(small_stretches())
def test_our_own_file_comes_back_as_it_was(stretch: Stretch) -> None:
    """Points, their order, and edges, with or without the exact points beside the decimals."""
    pattern = draw(stretch)
    for fold in (to_fold(pattern), plain_fold(pattern)):
        sheet = read(fold)
        assert sheet.exact
        assert sheet.pattern.vertices == pattern.vertices
        assert [edge[:2] for edge in sheet.pattern.edges] == [edge[:2] for edge in pattern.edges]
        assert sheet.pattern.labels() == pattern.labels()
        assert sheet.vertices == tuple(range(len(pattern.vertices)))
        assert sheet.edges == tuple(range(len(pattern.edges)))
        assert (sheet.notices, sheet.pieces) == ((), {})


@pytest.mark.parametrize(
    "rewrite",
    [
        lambda text: b"\xef\xbb\xbf" + text,
        lambda text: text.replace(b", ", b",\r\n"),
        lambda text: text.replace(b"4.0", b"40e-1").replace(b"2.0", b"2E0"),
        lambda text: text.replace(b"4.0", b"4").replace(b"0.0", b"0"),
    ],
    ids=["byte order mark", "other line ends", "exponents", "whole numbers"],
)
def test_the_same_values_written_otherwise_are_the_same_sheet(rewrite: Callable[[bytes], bytes]) -> None:
    """JSON (RFC 8259) leaves spaces and the spelling of a number open, and many programs add a mark."""
    text = text_of(lines_fold([*square(4.0), ((0.0, 2.0), (4.0, 2.0), "M")]))
    assert rewrite(text) != text
    assert read_sheet(rewrite(text)) == read_sheet(text)


CROSS = lines_fold([*square(4), ((0, 2), (4, 2), "M"), ((1, 0), (1, 4), "V"), ((3, 0), (3, 2), "M")])


def test_points_and_pieces_are_numbered_on_after_the_files_own() -> None:
    """A first piece keeps its edge's number, a point its first number; the rest is numbered on and told."""
    sheet = read(CROSS)
    assert sheet.vertices == (0, 1, 3, 5, 8, 9, 10, 11, 12, 13, 14)
    assert sheet.pattern.vertices[-1] == (1, 2)
    assert sheet.edges == tuple(range(15))
    assert sheet.pieces == {7: 0, 8: 0, 9: 1, 10: 2, 11: 3, 12: 4, 13: 4, 14: 5}
    assert [ends(sheet.pattern, edge) for edge in (4, 12, 13)] == [
        {(0, 2), (1, 2)},
        {(1, 2), (3, 2)},
        {(3, 2), (4, 2)},
    ]
    assert sheet.notices == (
        "Joined: 4 points in the place of another.",
        "Split where creases meet: 1 new point and 8 new pieces.",
    )


def ends(pattern: CreasePattern, edge: int) -> set[tuple[Exact, ...]]:
    """Return an edge's ends as plain pairs."""
    return {tuple(point) for point in pattern.ends(edge)}


def test_flat_lines_and_joins_are_not_folded_and_all_other_numbers_stay() -> None:
    """F and J leave no crease and no point, whatever they cross; U stays U."""
    fold = lines_fold([*square(2), ((0, 1), (2, 1), "F"), ((0, 0), (2, 2), "U"), ((0, 2), (2, 0), "J")])
    sheet = read(fold)
    assert sheet.edges == (0, 1, 2, 3, 5)
    assert sheet.pattern.labels() == ("B", "B", "B", "B", "U")
    assert sheet.vertices == (0, 1, 3, 5)
    assert "Left out: 2 flat lines (F or J)." in sheet.notices


def test_creases_twice_the_same_count_once() -> None:
    """Equal labels, a label over none, and the paper's edge over a crease along it."""
    lines = [((0, 1), (4, 1), "M"), ((1, 1), (3, 1), "M"), ((0, 2), (4, 2), "U"), ((4, 2), (0, 2), "V")]
    sheet = read(lines_fold([*square(4), *lines, ((4, 0), (4, 4), "M")]))
    found = [label for label in sheet.pattern.labels() if label != "B"]
    assert (found.count("M"), found.count("V"), found.count("U")) == (3, 1, 0)
    assert any(
        words.startswith("Left out: ") and words.endswith("on top of another.") for words in sheet.notices
    )


def test_two_labels_on_top_of_each_other_are_refused() -> None:
    """A mountain that overlaps a valley cannot be both; the sentence gives both numbers."""
    lines = lines_fold([*square(4), ((0, 1), (4, 1), "M"), ((3, 1), (1, 1), "V")])
    with pytest.raises(
        FoldFileError, match=r"^Edges 4 and 5 lie on top of each other with different labels; take"
    ):
        read(lines)


def test_without_labels_all_is_open_and_the_outline_is_the_edge() -> None:
    """No edges_assignment: creases U, the outline B, and both are said."""
    fold = {**CROSS}
    del fold["edges_assignment"]
    sheet = read(fold)
    assert set(sheet.pattern.labels()) == {"B", "U"}
    assert sheet.pattern.labels().count("B") == read(CROSS).pattern.labels().count("B")
    assert "No labels are given, so every crease may fold either way." in sheet.notices
    assert "The paper's edge is not labelled, so the outline was taken." in sheet.notices


def test_fold_angles_stand_in_for_labels() -> None:
    """Degrees above zero are valleys, below zero mountains, zero flat; a flat outline is the edge."""
    fold = lines_fold([*square(2), ((0, 0), (2, 2), ""), ((0, 1), (2, 1), ""), ((1, 0), (1, 2), "")])
    del fold["edges_assignment"]
    sheet = read({**fold, "edges_foldAngle": [0, 0.0, -0.0, 0, 180, -90.5, 0]})
    assert [label for label in sheet.pattern.labels() if label != "B"] == ["V", "M", "V", "M"]
    assert 6 not in sheet.edges


def test_labels_count_more_than_angles_that_contradict_them() -> None:
    """The person is told that they do."""
    fold = lines_fold([*square(2), ((0, 0), (2, 2), "M")])
    sheet = read({**fold, "edges_foldAngle": [0, 0, 0, 0, 180]})
    assert sheet.pattern.labels()[4] == "M"
    assert sheet.notices[0] == "The fold angles contradict 1 label, and the labels were taken."


def test_faces_stand_in_for_edges() -> None:
    """Each side of a face is an edge, once, in the order in which faces name them."""
    fold = {"vertices_coords": [[0, 0], [1, 0], [1, 1], [0, 1]], "faces_vertices": [[0, 1, 2], [0, 2, 3]]}
    sheet = read(fold)
    assert [edge[:2] for edge in sheet.pattern.edges] == [(0, 1), (1, 2), (0, 2), (2, 3), (0, 3)]
    assert sheet.pattern.labels() == ("B", "B", "U", "B", "B")


def test_an_edge_labelled_as_a_crease_is_still_the_papers() -> None:
    """One side of the sheet labelled M: outside it there is no paper, so it is the edge, and this is said."""
    fold = lines_fold([((0, 0), (2, 0), "M"), *square(2)[1:], ((0, 0), (2, 2), "V")])
    sheet = read(fold)
    assert sheet.pattern.labels() == ("B", "B", "B", "B", "V")
    assert "Taken as the paper's edge: 1 line of the outline without the label B." in sheet.notices


@pytest.mark.parametrize("height", [0, 3.5, 1e-17])
def test_a_flat_sheet_may_lie_anywhere(height: float) -> None:
    """The same third coordinate everywhere, up to rounding, changes nothing."""
    fold = lines_fold([*square(2), ((0, 0), (2, 2), "V")])
    raised: list[list[float]] = [[*point, height] for point in fold["vertices_coords"]]
    raised[0][2] = 0 if height < 1 else height
    assert read({**fold, "vertices_coords": raised}).pattern == read(fold).pattern


def test_other_frames_are_passed_over_and_this_is_said() -> None:
    """The key frame is the pattern; what stands behind it is not read."""
    fold: dict[str, Any] = plain_fold(draw(Stretch((1, 1))))
    frames: list[object] = [{"frame_classes": ["foldedForm"], "vertices_coords": "nonsense"}]
    sheet = read({**fold, "file_frames": frames})
    assert sheet.pattern == read(fold).pattern
    assert sheet.notices == ("The file holds 1 more frame, and only the first one was read.",)


def test_a_pattern_behind_an_empty_key_frame_is_found() -> None:
    """The first whole crease pattern among the frames is read, and its number is said."""
    fold = plain_fold(draw(Stretch((1, 1))))
    frames = [{"frame_classes": ["foldedForm"], "vertices_coords": [[0, 0]]}, fold]
    sheet = read({"file_spec": 1.1, "file_frames": frames})
    assert sheet.pattern == read(fold).pattern
    assert sheet.notices == ("The file's first frame is empty, and frame 2 was read.",)


def test_unused_points_are_left_out_and_keep_their_numbers() -> None:
    """A point without a crease is no vertex of the pattern, wherever it lies."""
    fold = plain_fold(draw(Stretch((1, 1))))
    fold["vertices_coords"].insert(0, [-70, 3.21])
    fold["edges_vertices"] = [[one + 1, two + 1] for one, two in fold["edges_vertices"]]
    sheet = read(fold)
    assert sheet.pattern.vertices == draw(Stretch((1, 1))).vertices
    assert sheet.vertices == tuple(range(1, len(sheet.vertices) + 1))
    assert sheet.notices == ("Left out: 1 point without a crease.",)


def test_exact_points_are_taken_as_they_are() -> None:
    """Fractions beside the decimals need no grid, whatever their denominators."""
    fold = lines_fold([*square(2), ((0, 0), (2, 0.0098), "M")])
    exact = [[str(x), str(y)] for x, y in fold["vertices_coords"]]
    exact[-1] = ["2", "1/102"]
    fold["vertices_coords"][-1] = [2, 0.009803921]
    sheet = read_sheet(text_of({**fold, "slantwise:vertices_exact": exact}))
    assert sheet.exact
    assert Point(2, Fraction(1, 102)) in sheet.pattern.vertices
