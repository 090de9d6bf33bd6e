"""Wherever the paper's edge may cut into an outline, enough is left to ask."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import pytest

from drills.geometry import Chance
from drills.questions import Code, Spec, labels, steps
from drills.questions.levels import EQUAL, FAIR_CUTS, UNEQUAL, Units, cropped, fits
from drills.questions.sinks import tip
from drills.structures import Stretch, draw
from tests.drills.sheets import HINGES

PLEATS = (1, 2, 3)


@pytest.mark.parametrize("units", FAIR_CUTS)
def test_every_cut_leaves_steps_lines_and_labels_to_ask(units: Units) -> None:
    """Each ratio has a crease, two inside lines are left, one label and an exchanged pair can be wrong."""
    for stretch in cut_stretches(units):
        pattern = draw(stretch)
        assert all(steps.segments(pattern, ratio) for ratio in steps.RATIOS), stretch
        assert sum(edge.role == "inside" for edge in pattern.edges) >= 2, stretch
        assert all(pattern.interior_ends[edge] for edge in pattern.creases), stretch
        assert all(has_fair_set(stretch, wrong, 4) for wrong in ("one", "pair")), stretch


def cut_stretches(units: Units) -> Iterator[Stretch]:
    """Yield every stretch of these units that the paper's edge may cut, facing one way."""
    left, bottom, corner = FAIR_CUTS[units]
    depths = [(depth, 0) for depth in range(1, left + 1)]
    depths += [(0, depth) for depth in range(1, bottom + 1)]
    depths += [(depth, depth) for depth in range(1, corner + 1)]
    for (x, y), hinges, pleats in product(depths, HINGES, PLEATS):
        cuts = x and x + pleats, y and y + pleats
        for crop in ((*cuts, 0, 0), (0, 0, *cuts)):
            stretch = Stretch(units, hinges, pleats, crop=crop)
            if fits(stretch):
                yield stretch


def has_fair_set(stretch: Stretch, wrong: str, level: int) -> bool:
    """Whether the mistake can be made on the stretch so that it is the one smallest repair."""
    spec = Spec.of(Code("labels", level, 0), "mark", f"labels {wrong}", stretch, wrong)
    truth = draw(stretch)
    return any(labels.is_fair(truth, chosen, level) for chosen in labels.candidates(truth, spec))


def test_every_pair_of_units_of_level_4_has_its_cuts() -> None:
    """The table knows the units that the levels draw on, and no others."""
    assert FAIR_CUTS.keys() == {*EQUAL, *UNEQUAL}


@pytest.mark.parametrize("units", FAIR_CUTS)
def test_what_is_drawn_is_in_the_table(units: Units) -> None:
    """Three hundred crops are all among those checked above, and leave the rest of the stretch as it was."""
    whole = [Stretch(units, hinges, pleats) for hinges in HINGES for pleats in PLEATS]
    allowed = set(cut_stretches(units))
    chance = Chance("cuts")
    for _ in range(300):
        stretch = cropped(chance.pick(whole), chance)
        assert stretch in allowed or not fits(stretch)


@pytest.mark.parametrize(("units", "pleats"), [*product(EQUAL, PLEATS)])
def test_a_tip_shows_a_piece_of_the_outline_and_no_inside_line(units: Units, pleats: int) -> None:
    """Cut down to its side corner, a stretch still shows a slanted crease, and nothing runs inside."""
    for hinges in HINGES:
        pattern = draw(tip(Stretch(units, hinges, pleats)))
        roles = [edge.role for edge in pattern.edges]
        assert "outline" in roles
        assert "inside" not in roles
        assert "pleat" in roles
