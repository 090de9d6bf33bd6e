"""No two descriptions of a stretch are the same figure, and turning one over gives another of them."""

from __future__ import annotations

from itertools import product

from drills.geometry import SYMMETRIES
from drills.pattern import turned
from drills.structures import Stretch, draw
from tests.drills.sheets import HINGES, figure

FAMILY = [
    Stretch(units, hinges, pleats, facing, exchanged)
    for units in ((1, 1), (2, 1), (1, 2))
    for hinges in HINGES
    for pleats, facing, exchanged in product(range(3), range(4), (False, True))
]


def test_two_different_descriptions_are_never_the_same_figure() -> None:
    """288 stretches of up to three pleats a side, all hinges, facings and labels, are 288 figures."""
    figures = {figure(draw(stretch)) for stretch in FAMILY}
    assert len(figures) == len(FAMILY) == 288


def test_every_image_of_a_stretch_is_a_stretch() -> None:
    """Under each of the eight symmetries the image of each is again in the family."""
    figures = {figure(draw(stretch)) for stretch in FAMILY}
    for stretch, symmetry in product(FAMILY[::7], SYMMETRIES):
        assert figure(turned(draw(stretch), symmetry)) in figures


def test_a_figure_with_its_labels_exchanged_is_in_the_family_too() -> None:
    """Exchanging all mountains and valleys is what ``exchanged`` does."""
    for stretch in FAMILY[::5]:
        pattern = draw(stretch)
        other = Stretch(stretch.units, stretch.hinges, stretch.pleats, stretch.facing, not stretch.exchanged)
        assert pattern.switched(range(len(pattern.edges))) == draw(other)
