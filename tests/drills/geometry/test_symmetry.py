from __future__ import annotations

from itertools import product

from drills.geometry import AS_IT_IS, FACINGS, HALF_TURN, MIRROR, QUARTER_TURN, SYMMETRIES, Point


def test_the_square_has_eight_symmetries_and_they_form_a_group() -> None:
    """All eight differ, and one after the other is again one of them."""
    assert len(set(SYMMETRIES)) == 8
    assert {one.then(two) for one, two in product(SYMMETRIES, repeat=2)} == set(SYMMETRIES)


def test_the_images_of_the_corner_three_one() -> None:
    """A quarter turn takes (3, 1) to (-1, 3), a half turn to (-3, -1), the mirror to (-3, 1)."""
    corner = Point(3, 1)
    assert [turn.of(corner) for turn in (AS_IT_IS, QUARTER_TURN, HALF_TURN, MIRROR)] == [
        (3, 1),
        (-1, 3),
        (-3, -1),
        (-3, 1),
    ]


def test_then_does_the_first_map_first() -> None:
    """The map put together agrees with the two maps done one after the other."""
    corner = Point(3, 1)
    for one, two in product(SYMMETRIES, repeat=2):
        assert one.then(two).of(corner) == two.of(one.of(corner))


def test_the_facings_and_their_half_turns_are_all_eight() -> None:
    """Each symmetry is one of the four facings, or that facing after a half turn."""
    assert {first.then(facing) for facing in FACINGS for first in (AS_IT_IS, HALF_TURN)} == set(SYMMETRIES)
