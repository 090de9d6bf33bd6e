from __future__ import annotations

import json
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.fold_file import from_fold, read_fold, to_fold
from drills.geometry import Point
from drills.pattern import CreasePattern, Edge, Label, Role
from drills.structures import Stretch, draw
from tests.drills.sheets import small_stretches


def test_a_foreign_file_is_read_exactly_and_in_its_order() -> None:
    """Decimals are what they say (0.1 is a tenth), z = 0 may be written, roles may be missing."""
    pattern = read_fold(FOREIGN)
    assert pattern.vertices == ((0, 0), (Fraction(1, 10), 0), (Fraction(5, 2), -300))
    assert pattern.edges == (Edge(0, 1, "border", "B"), Edge(1, 2, "other", "M"), Edge(0, 2, "other", "U"))


FOREIGN = """{
  "file_spec": 1.1, "file_title": "by hand", "file_frames": [], "edges_length": [0.1, null, 1e-30],
  "vertices_coords": [[0, 0.0], [0.1, 0, 0], [25e-1, -3E2, 0.000]],
  "edges_vertices": [[1, 0], [1, 2], [2, 0]],
  "edges_assignment": ["B", "M", "U"]
}"""


@pytest.mark.parametrize(
    "text",
    [FOREIGN.encode(), b"\xef\xbb\xbf" + FOREIGN.encode(), FOREIGN.replace("\n", "\r\n")],
)
def test_text_and_bytes_with_or_without_a_mark_in_front_are_the_same(text: str | bytes) -> None:
    """UTF-8 with a byte order mark, and other line ends, change nothing."""
    assert read_fold(text) == read_fold(FOREIGN)


@given(small_stretches())
def test_a_stretch_comes_back_as_it_was(stretch: Stretch) -> None:
    """Out and in, as an object and through text, leaves points, edges, labels and roles as they were."""
    pattern = draw(stretch)
    assert from_fold(to_fold(pattern)) == pattern
    assert read_fold(json.dumps(to_fold(pattern))) == pattern
    assert read_fold(json.dumps(to_fold(pattern.unlabelled()), indent=1).encode()) == pattern.unlabelled()


coordinates = st.fractions(min_value=-(10**9), max_value=10**9, max_denominator=10**12)
creases: st.SearchStrategy[tuple[Role, Label]] = st.one_of(
    st.tuples(
        st.sampled_from(("outline", "inside", "ridge", "other")), st.sampled_from(("M", "V", "F", "U"))
    ),
    st.just(("border", "B")),
)


@st.composite
def patterns(draw_from: st.DrawFn) -> CreasePattern:
    """Draw points with any exact coordinates and edges between them, not caring where they cross."""
    found = draw_from(
        st.lists(st.builds(Point, coordinates, coordinates), min_size=2, max_size=6, unique=True)
    )
    ends = st.tuples(st.integers(0, len(found) - 1), st.integers(0, len(found) - 1))
    pairs = draw_from(st.lists(ends.filter(lambda pair: pair[0] < pair[1]), min_size=1, unique=True))
    kinds = draw_from(st.lists(creases, min_size=len(pairs), max_size=len(pairs)))
    edges = (Edge(*pair, *kind) for pair, kind in zip(pairs, kinds, strict=True))
    return CreasePattern(tuple(found), tuple(edges))


@given(patterns())
def test_any_exact_points_come_back_exactly(pattern: CreasePattern) -> None:
    """Fractions that no decimal holds come back through text as they were, up to 10^9 from zero."""
    assert from_fold(to_fold(pattern)) == pattern
    assert read_fold(json.dumps(to_fold(pattern))) == pattern


def test_exact_coordinates_replace_rounded_ones() -> None:
    """Coordinates rounded to six places with their fractions beside them are read as the fractions."""
    pattern = CreasePattern((Point(0, 0), Point(Fraction(1, 3), 2)), (Edge(0, 1, "other", "M"),))
    fold = to_fold(pattern)
    fold["vertices_coords"] = [[0, 0], [0.333333, 2]]
    assert from_fold(fold) == pattern


def test_a_large_sheet_is_read() -> None:
    """A grid of 20,000 points and 39,700 creases is within bounds."""
    columns, rows = 200, 100
    upright = [[v, v + 1] for v in range(columns * rows) if (v + 1) % rows]
    across = [[v, v + rows] for v in range((columns - 1) * rows)]
    fold = {
        "vertices_coords": [[x, y + 0.5] for x in range(columns) for y in range(rows)],
        "edges_vertices": upright + across,
        "edges_assignment": ["U"] * len(upright + across),
    }
    pattern = read_fold(json.dumps(fold))
    assert (len(pattern.vertices), len(pattern.edges)) == (20_000, 39_700)
