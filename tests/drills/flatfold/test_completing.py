"""All ways to label a sheet so that each point folds, against published numbers and brute force."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.flatfold import check_angles, completions, failing, folds, valid_at
from drills.geometry import Direction, Point
from drills.pattern import CreasePattern, Label
from drills.structures import Stretch, draw
from tests.drills.sheets import map_sheet, miura, square_twist, star, triangle_twist


@pytest.mark.parametrize(
    ("rows", "columns", "count"),
    [(2, 2, 6), (2, 3, 18), (2, 4, 54), (2, 5, 162), (3, 3, 82), (3, 4, 374)],
)
def test_the_miura_pattern_has_its_published_number_of_labellings(
    rows: int, columns: int, count: int
) -> None:
    """J. Ginepro, T. C. Hull, "Counting Miura-ori Foldings", J. Integer Sequences 17 (2014) 14.10.8.

    The published number counts labellings with which each point folds, rows and columns being faces.
    """
    pattern = miura(rows, columns)
    assert len(pattern.interior) == (rows - 1) * (columns - 1)
    assert check_angles(pattern) == ()
    assert how_many(pattern) == count


def how_many(pattern: CreasePattern) -> int:
    """Return the number of labellings with which each point folds."""
    return sum(1 for _ in completions(pattern, pattern.labels()))


@pytest.mark.parametrize(("rows", "columns"), [(2, 2), (2, 3), (2, 4), (2, 5), (3, 3)])
def test_a_map_has_a_power_of_two_of_labellings(rows: int, columns: int) -> None:
    """8, 32, 128, 512 and 256: each point of a map needs an odd number of mountains, no more (own count)."""
    pattern = map_sheet(rows, columns)
    assert how_many(pattern) == 2 ** (len(pattern.creases) - len(pattern.interior))


def test_the_square_twist_has_sixteen_labellings() -> None:
    """16 in its grid form: two choices at each of its four corners (common practice, no source)."""
    pattern = square_twist()
    assert check_angles(pattern) == ()
    assert len(pattern.creases) == 12
    assert how_many(pattern) == 16


@pytest.mark.parametrize(
    "corners", [[Point(0, 0), Point(4, 0), Point(2, 3)], [Point(0, 0), Point(6, 0), Point(2, 4)]]
)
def test_each_point_of_a_triangle_twist_folds_yet_no_labels_suit_all_three(corners: list[Point]) -> None:
    """Every point alone has 4 labellings; the three sides would be pairwise different (own value)."""
    pattern = triangle_twist(corners)
    assert check_angles(pattern) == ()
    assert [len(valid_at(pattern.directions[vertex])) for vertex in pattern.interior] == [4, 4, 4]
    assert how_many(pattern) == 0


@pytest.mark.parametrize(
    ("directions", "count"),
    [
        ([(1, 0), (1, 1), (0, 1), (-1, 0), (-1, -1), (0, -1)], 18),  # preliminary base
        ([(1, 0), (1, 1), (-1, 1), (-1, 0), (-1, -1), (1, -1)], 18),  # waterbomb base
        ([(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)], 112),
    ],
)
def test_the_bases_have_as_many_labellings_as_their_one_point(
    directions: list[tuple[int, int]], count: int
) -> None:
    """18 is in OEIS A156209's values at degree 6, 112 in Hull's survey (arXiv:1307.1065)."""
    assert how_many(star([Direction(*way) for way in directions])) == count


def test_the_smallest_stretch_with_one_pleat_around_has_396_labellings() -> None:
    """396 labellings fold at every point (own value, by two programs); most of them have no layers."""
    assert how_many(draw(Stretch((1, 1))).unlabelled()) == 396


def by_trying_all(pattern: CreasePattern, labels: tuple[Label, ...]) -> set[tuple[Label, ...]]:
    """Return the completions found by trying every mountain and valley."""
    choices: list[tuple[Label, ...]] = [("M", "V") if label == "U" else (label,) for label in labels]
    return {tried for tried in product(*choices) if not failing(pattern, tried, folds)}


@pytest.mark.parametrize("pattern", [map_sheet(2, 3), map_sheet(3, 3), miura(3, 3), square_twist()])
def test_completing_finds_what_trying_all_labels_finds_and_each_once(pattern: CreasePattern) -> None:
    """With no label given, and with every third one given."""
    some: tuple[Label, ...] = tuple(
        "M" if label == "U" and index % 3 == 0 else label for index, label in enumerate(pattern.labels())
    )
    for asked in (pattern.labels(), some):
        found = list(completions(pattern, asked))
        assert set(found) == by_trying_all(pattern, asked)
        assert len(set(found)) == len(found)


@pytest.mark.long
@given(st.sampled_from([map_sheet(3, 3), miura(3, 3), square_twist()]), st.data())
def test_labels_given_at_random_are_completed_or_refused_as_trying_all_does(
    pattern: CreasePattern, data: st.DataObject
) -> None:
    """With up to six labels left open and the others at random, right or wrong."""
    left_open = data.draw(st.sets(st.sampled_from(pattern.creases), max_size=6))
    folding = data.draw(st.sampled_from(list(completions(pattern, pattern.labels()))))
    wrong = data.draw(st.sets(st.sampled_from(pattern.creases), max_size=1))
    shown = pattern.with_labels(folding).switched(wrong).labels()
    asked: tuple[Label, ...] = tuple("U" if edge in left_open else it for edge, it in enumerate(shown))
    assert set(completions(pattern, asked)) == by_trying_all(pattern, asked)


@pytest.mark.parametrize(
    ("pattern", "shown"),
    [(map_sheet(3, 3), "BBBVBMBVBVMVUBMBUVMVBBBB"), (miura(3, 3), "BBUBVBBBVVUUMBBVVUMVBBBB")],
)
def test_a_point_is_tried_again_after_its_last_label_is_forced_from_its_neighbour(
    pattern: CreasePattern, shown: str
) -> None:
    """Here the forced labels fill a point that was looked at before, and it cannot fold: nothing remains."""
    forms: dict[str, Label] = {"B": "B", "M": "M", "V": "V", "U": "U"}
    asked = tuple(forms[letter] for letter in shown)
    assert by_trying_all(pattern, asked) == set()
    assert list(completions(pattern, asked)) == []


def test_complete_labels_are_their_own_completion_or_have_none() -> None:
    """A sheet that folds yields itself; with a wrong label it yields nothing."""
    pattern = draw(Stretch((1, 1)))
    assert list(completions(pattern, pattern.labels())) == [pattern.labels()]
    assert how_many(pattern.switched([pattern.around[pattern.interior[0]][0]])) == 0
