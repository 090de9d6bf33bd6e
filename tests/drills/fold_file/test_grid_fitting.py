from __future__ import annotations

from fractions import Fraction
from math import cos, radians, sin, sqrt
from random import Random
from typing import Any

import pytest

from drills.fold_file import LARGEST_DENOMINATOR, TOLERANCE, Grid
from drills.geometry import Direction
from drills.pattern import CreasePattern
from drills.structures import Stretch, Triangle, draw
from tests.drills.fold_file.writing import (
    Drawn,
    border,
    figure,
    lines_fold,
    plain_fold,
    read,
    rescaled,
    shuffled,
    square,
    turned,
)
from tests.drills.sheets import HINGES


def test_a_rounded_third_becomes_a_third() -> None:
    """Decimals that only come near a fraction are read as the fraction, and it is said how near."""
    sheet = read(lines_fold([*square(3), *uprights(1, 2, 3), ((0, 1.33334), (3, 1.33334), "M")]))
    assert sheet.exact
    assert Fraction(4, 3) in {point.y for point in sheet.pattern.vertices}
    moved = "Moved onto a grid of 3 squares across: 2 of 14 points, by at most 0.000007 of a square."
    assert sheet.notices[0] == moved


def uprights(*places: int) -> list[Drawn]:
    """Return valleys straight up at these places, the last one being the paper's height and not drawn."""
    return [((place, 0), (place, places[-1]), "V") for place in places[:-1]]


def test_the_tolerance_leaves_no_choice_between_two_fractions() -> None:
    """Two fractions with denominators up to 60 are at least 1/(60*59) apart, by Farey's mediant rule."""
    assert Fraction(1, LARGEST_DENOMINATOR * (LARGEST_DENOMINATOR - 1)) > 2 * TOLERANCE


def some_stretch(random: Random) -> CreasePattern:
    """Return a stretch with any sides, hinges, pleats and facing."""
    return draw(
        Stretch(
            (random.randint(1, 3), random.randint(1, 3)),
            random.choice(HINGES),
            pleats=random.randint(0, 3),
            facing=random.randint(0, 3),
            exchanged=random.random() < 0.5,
        )
    )


@pytest.mark.parametrize("seed", range(50))
def test_a_stretch_is_recovered_whatever_was_done_to_it(seed: int) -> None:
    """Any scale, shift and order, rounded to 4 to 8 decimals, y up or down: exactly the same figure."""
    random = Random(seed)
    pattern = some_stretch(random)
    places, down, wide = random.randint(4, 8), random.random() < 0.5, pattern.box[2]
    scale = random.choice([1 / wide, 2 / wide, 400 / wide, 1, random.uniform(0.05, 60)])
    shift = random.choice([(0, 0), (-1, -1), (200, 400), (random.uniform(-99, 99), random.uniform(-99, 99))])
    fold = shuffled(rescaled(plain_fold(pattern), float(scale), shift, places, down), random)
    sheet = read(fold)
    assert sheet.exact
    assert figure(sheet.pattern, down) == figure(pattern)
    assert abs(float(sheet.grid.scale) / float(scale) - 1) < 2 * 10**-places / scale


@pytest.mark.parametrize("denominator", [2, 3, 5, 7, 12, 59, 60])
def test_places_between_the_grid_lines_are_found(denominator: int) -> None:
    """A crease at so many parts of a square beyond a grid line, on a grid that the others show."""
    at = 2 + 1 / denominator
    fold = rescaled(
        lines_fold([*square(7), *uprights(1, 3, 4, 6, 7), ((0, at), (7, at), "M")]), 1 / 7, (0.3, -0.2), 9
    )
    sheet = read(fold)
    assert sheet.exact
    assert Fraction(2 * denominator + 1, denominator) in {point.y for point in sheet.pattern.vertices}
    assert sheet.pattern.box[2] == 7
    assert abs(sheet.grid.scale * 7 - 1) < 1e-8


@pytest.mark.parametrize(
    ("triangle", "units"),
    [
        (Triangle("5-12-13", Direction(5, 1), Direction(2, 3), 2), (1, 1)),
        (Triangle("5-12-13", Direction(5, 1), Direction(2, 3), 1), (2, 2)),
        (Triangle("7-24-25", Direction(7, 1), Direction(3, 4), 1), (3, 3)),
    ],
)
@pytest.mark.parametrize("facing", range(4))
def test_turning_points_off_the_grid_are_found(
    triangle: Triangle, units: tuple[int, int], facing: int
) -> None:
    """Pleats narrower than a triangle needs have turning points at halves and thirds of a square."""
    pattern = draw(Stretch(units, triangle=triangle, pleats=2, facing=facing))
    sheet = read(rescaled(plain_fold(pattern), 0.01, (0.5, 0.5), 8))
    assert sheet.exact
    assert figure(sheet.pattern) == figure(pattern)


def test_decimals_that_are_exact_stay_as_they_are() -> None:
    """Eighths and tenths written out in full are not moved, and nothing is said."""
    odd: list[Drawn] = [((0, 0.125), (4, 0.125), "M"), ((0, 3.3), (4, 3.3), "M")]
    sheet = read(lines_fold([*square(4), *uprights(1, 2, 3, 4), *odd]))
    heights = {point.y for point in sheet.pattern.vertices}
    assert heights == {0, Fraction(1, 8), Fraction(33, 10), 4}
    assert not any("Moved" in words for words in sheet.notices)


@pytest.mark.parametrize("size", [1, 7, 25, 100])
def test_whole_numbers_are_on_the_widest_grid_that_holds_them_all(size: int) -> None:
    """Pixels or squares: a file of whole numbers loses nothing, however few lines there are."""
    sheet = read(rescaled(lines_fold([*square(4), ((0, 0), (4, 3), "M"), ((0, 2), (4, 0), "V")]), size))
    assert sheet.exact
    assert sheet.grid.scale == size
    assert sheet.pattern.box == (0, 0, 4, 4)


@pytest.mark.parametrize("noise", [1e-9, 1e-6, 2e-5])
def test_points_set_by_hand_move_onto_the_grid(noise: float) -> None:
    """Points that miss the grid by a little, each by something else, are moved; creases stay straight."""
    random, pattern = Random(7), draw(Stretch((2, 3), pleats=2))
    fold = plain_fold(pattern)
    fold["vertices_coords"] = [
        [value + random.uniform(-noise, noise) for value in point] for point in fold["vertices_coords"]
    ]
    sheet = read(fold)
    assert sheet.exact
    assert figure(sheet.pattern) == figure(pattern)
    assert any("Moved" in words for words in sheet.notices) == (noise > 1e-6 / 2)


def bird_base() -> dict[str, Any]:
    """Return the bird base on a sheet of side 2: corners of its petals at 2 - sqrt 2 from the middle."""
    h = 2 - sqrt(2)
    inner = [(h, 0), (0, h), (-h, 0), (0, -h)]
    corners = [(1, -1), (1, 1), (-1, 1), (-1, -1)]
    lines = border(corners)
    for place, point in enumerate(inner):
        lines += [(point, corners[place], "V"), (point, corners[(place + 1) % 4], "V"), ((0, 0), point, "M")]
        lines.append((point, (round(point[0] / h), round(point[1] / h)), "M"))
    return lines_fold([*lines, ((-1, -1), (0, 0), "V"), ((0, 0), (1, 1), "V")])


def square_twist_60() -> dict[str, Any]:
    """Return a square twist with pleats at 60 degrees to its sides, on a sheet of side 8."""
    corners = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)]
    lines = border([(-4, -4), (4, -4), (4, 4), (-4, 4)])
    for place, one in enumerate(corners):
        two = corners[(place + 1) % 4]
        lines.append((one, two, "M"))
        way = radians(135 + 90 * place - 60)
        lines += [(start, to_edge(start, cos(way), sin(way)), "V") for start in (one, two)]
    return lines_fold(lines)


def to_edge(start: tuple[float, float], dx: float, dy: float) -> tuple[float, float]:
    """Return where a ray leaves the square of half side 4 round (0, 0)."""
    reach = min(((4 if way > 0 else -4) - at) / way for at, way in zip(start, (dx, dy), strict=True))
    return start[0] + reach * dx, start[1] + reach * dy


@pytest.mark.parametrize("places", [4, 6, 8, 12, 15])
@pytest.mark.parametrize("scale", [0.25, 1, 50, 61.7])
def test_irrational_sheets_are_not_forced_onto_a_grid(places: int, scale: float) -> None:
    """Bird base (sqrt 2) and a twist at 60 degrees (sqrt 3): as written, split and joined by nearness."""
    for fold, vertices, edges in ((bird_base(), 13, 26), (square_twist_60(), 16, 24)):
        sheet = read(rescaled(fold, scale, (1, 2), places))
        assert not sheet.exact
        assert (len(sheet.pattern.vertices), len(sheet.pattern.edges)) == (vertices, edges)
        assert sheet.grid == Grid(Fraction(1), Fraction(0), Fraction(0))
        assert sheet.notices[0].startswith("No grid of up to 256 squares across fits")


@pytest.mark.parametrize("seed", range(8))
def test_a_turned_sheet_is_turned_back(seed: int) -> None:
    """Turned by any angle within an eighth of a turn, a stretch is recovered exactly as it was."""
    random = Random(seed)
    pattern = some_stretch(random)
    angle, places = random.choice([-1, 1]) * random.uniform(0.001, 0.78), random.randint(5, 14)
    sheet = read(turned(plain_fold(pattern), angle, places))
    assert sheet.exact
    assert figure(sheet.pattern) == figure(pattern)
    assert sheet.notices[0].startswith("Turned back by ")


def test_a_grid_that_stands_straight_on_a_turned_sheet_stays() -> None:
    """A diamond of paper whose creases run along the axes keeps them there."""
    lines = [*border([(4, 0), (8, 4), (4, 8), (0, 4)]), ((2, 2), (2, 6), "M"), ((6, 2), (6, 6), "V")]
    sheet = read(rescaled(lines_fold(lines), 0.1))
    assert sheet.exact
    assert {point.x for point in sheet.pattern.vertices} == {0, 1, 2, 3, 4}


@pytest.mark.parametrize(("places", "noise"), [(3, 0.0), (4, 0.0), (12, 1e-4)])
def test_a_large_sheet_coarsely_rounded_finds_its_grid(places: int, noise: float) -> None:
    """A stretch among 32 squares on a sheet of side 1, by its decimals or 1e-4 of the sheet off."""
    random, pattern = Random(3), draw(Stretch((2, 2), pleats=12))
    fold = rescaled(plain_fold(pattern), 1 / float(pattern.box[2]), places=15)
    fold["vertices_coords"] = [
        [round(value + random.uniform(-noise, noise), places) for value in point]
        for point in fold["vertices_coords"]
    ]
    sheet = read(fold)
    assert pattern.box[2] == 32
    assert sheet.exact
    assert figure(sheet.pattern) == figure(pattern)
