"""Whatever the plan of a drill can draw, the drill can be made; wherever the paper cuts, enough is left."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from dataclasses import replace
from functools import partial
from itertools import product
from typing import TypeVar

import pytest

from drills.geometry import Chance
from drills.questions import ALONE, FAIR_CUTS, KINDS, Code, Spec, make, spec
from drills.structures import Stretch, draw
from tests.drills.questions.codes import FORMS, LARGER, PLACES, codes
from tests.drills.sheets import HINGES

MOST_DRAWS = 11
"""Whether and what went wrong, six draws for a stretch, whether it is cut, and two for the cut."""

PLEATS = (1, 2, 3)

Outcome = TypeVar("Outcome")


class TooManyDrawsError(Exception):
    """The plan threw away what it had drawn and began anew."""


class ToldChance(Chance):
    """Chance whose first draws are told; further ones are 0, and all are written down with their bounds."""

    def __init__(self, told: tuple[int, ...], most: int) -> None:
        super().__init__("")
        self.told, self.most = told, most
        self.bounds: list[int] = []

    def below(self, bound: int) -> int:
        """Return the next draw."""
        place = len(self.bounds)
        if place == self.most:
            raise TooManyDrawsError
        self.bounds.append(bound)
        return self.told[place] if place < len(self.told) else 0


def outcomes(drawn: Callable[[Chance], Outcome], most: int) -> Iterator[Outcome]:
    """Yield what comes of every row of draws, leaving out rows of more than so many."""
    waiting: list[tuple[int, ...]] = [()]
    while waiting:
        told = waiting.pop()
        chance = ToldChance(told, most)
        with suppress(TooManyDrawsError):
            yield drawn(chance)
        for place in range(len(told), len(chance.bounds)):
            start = told + (0,) * (place - len(told))
            waiting.extend((*start, other) for other in range(1, chance.bounds[place]))


def test_every_draw_is_tried() -> None:
    """Two draws below 2 and 3 have six outcomes, and a third one would be too many."""

    def two(chance: Chance) -> tuple[int, int]:
        return chance.below(2), chance.below(3)

    def endless(chance: Chance) -> int:
        while not (drawn := chance.below(3)):
            pass
        return drawn

    assert sorted(outcomes(two, 2)) == [(0, 0), (0, 1), (0, 2), (1, 0), (1, 1), (1, 2)]
    assert sorted(outcomes(endless, 2)) == [1, 1, 2, 2]


def planned(kind: str, form: str, level: int) -> list[Spec]:
    """Return all that the plan of a form can draw at a level, of lone stretches alike but for the facing one.

    What is asked does not hang on the facing, nor on which label is called mountain.
    """
    code = Code(kind, level, 0, form=form)
    (*_, features) = KINDS[kind].features(form, level)
    seen: dict[object, Spec] = {}
    for plan in outcomes(partial(KINDS[kind].plan, code, form, features), MOST_DRAWS):
        if isinstance(plan.sheet, Stretch):
            seen[replace(plan.sheet, facing=0, exchanged=False), plan.detail] = plan
    return list(seen.values())


def can_be_made(plan: Spec) -> bool:
    """Whether the maker of the kind finds something to ask on the sheet of the plan."""
    try:
        KINDS[plan.kind].make(plan, Chance("any"))
    except RuntimeError:
        return False
    return True


def stands_alone(kind: str, form: str, level: int) -> bool:
    """Whether the sheets of a form at a level are lone stretches, as far as its first codes show."""
    return all(isinstance(spec(code).sheet, Stretch) for code in codes(kind, form, level, range(20)))


LOW = [place for place in PLACES if place[2] <= 3 and stands_alone(*place)]


@pytest.mark.parametrize(("kind", "form", "level"), LOW)
def test_whatever_can_be_planned_on_the_low_levels_is_made(kind: str, form: str, level: int) -> None:
    """Of every outcome of the draws of a plan; where there are many, of twenty of them."""
    plans = planned(kind, form, level)
    for plan in plans[:: 1 + len(plans) // 20]:
        assert can_be_made(plan), plan


@pytest.mark.long
@pytest.mark.parametrize(("kind", "form", "level"), [place for place in PLACES if place[2] <= ALONE])
def test_whatever_can_be_planned_is_made(kind: str, form: str, level: int) -> None:
    """Each outcome of the draws of a plan, on every level on which a stretch stands alone."""
    assert [plan for plan in planned(kind, form, level) if not can_be_made(plan)] == []


@pytest.mark.long
@pytest.mark.parametrize("level", LARGER)
@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_many_drills_of_larger_sheets_are_made(kind: str, form: str, level: int) -> None:
    """A hundred codes in a row: each has a sheet that can be asked about, and passes its certificate."""
    failed = []
    for code in codes(kind, form, level, range(4000, 4100)):
        try:
            make(code)
        except RuntimeError as error:
            failed.append(str(error))
    assert failed == []


def cut_stretches(units: tuple[int, int]) -> Iterator[Stretch]:
    """Yield every stretch of these units that the paper's edge may cut, facing one way."""
    left, bottom, corner = FAIR_CUTS[units]
    depths = [(depth, 0) for depth in range(1, left + 1)]
    depths += [(0, depth) for depth in range(1, bottom + 1)]
    depths += [(depth, depth) for depth in range(1, corner + 1)]
    for (x, y), hinges, pleats in product(depths, HINGES, PLEATS):
        cuts = x and x + pleats, y and y + pleats
        for crop in ((*cuts, 0, 0), (0, 0, *cuts)):
            stretch = Stretch(units, hinges, pleats, crop=crop)
            if stretch.size[0] <= 14 and stretch.size[1] <= 12:
                yield stretch


DETAILS: Mapping[tuple[str, str], tuple[str, ...]] = {
    ("steps", "read"): ("1:2", "1:3", "3:4"),
    ("labels", "mark"): ("one", "pair"),
}
"""What is asked on a stretch that the paper's edge cuts."""


@pytest.mark.parametrize("units", FAIR_CUTS)
def test_a_cut_leaves_enough_to_ask(units: tuple[int, int]) -> None:
    """Of a dozen of the cuts that are allowed."""
    stretches = list(cut_stretches(units))
    for stretch in stretches[:: 1 + len(stretches) // 12]:
        check_what_is_left(stretch)


@pytest.mark.long
@pytest.mark.parametrize("units", FAIR_CUTS)
def test_every_cut_leaves_enough_to_ask(units: tuple[int, int]) -> None:
    """Of every one of them."""
    for stretch in cut_stretches(units):
        check_what_is_left(stretch)


def check_what_is_left(stretch: Stretch) -> None:
    """Find two inside lines, an end of each crease that decides its label, each ratio, each small mistake."""
    pattern = draw(stretch)
    assert sum(edge.role == "inside" for edge in pattern.edges) >= 2, stretch
    assert all(pattern.interior_ends[edge] for edge in pattern.creases), stretch
    assert all(can_be_made(plan) for plan in asked_of(stretch)), stretch


def asked_of(stretch: Stretch) -> Iterator[Spec]:
    """Yield a plan for everything that is asked on a cut stretch at level 4."""
    for (kind, form), details in DETAILS.items():
        yield from (Spec.of(Code(kind, 4, 0), form, "", stretch, detail) for detail in details)


def test_what_is_drawn_is_among_the_cuts_allowed() -> None:
    """The cuts of three hundred codes are all among those that are checked above, of every pair of units."""
    drawn = (spec(code).sheet for code in codes("labels", "mark", 4, range(300)))
    cut = [sheet for sheet in drawn if isinstance(sheet, Stretch) and any(sheet.crop)]
    upright = [replace(sheet, facing=0, exchanged=False) for sheet in cut if sheet.facing in (0, 2)]
    assert set(upright) <= {stretch for units in FAIR_CUTS for stretch in cut_stretches(units)}
    assert {sheet.units for sheet in cut} == set(FAIR_CUTS)


def test_a_tip_shows_a_piece_of_the_outline_and_no_inside_line() -> None:
    """A stretch planned without an inside line, as once was done, still shows slanted creases and pleats."""
    sheets = {spec(Code("sinks", 4, seed)).sheet for seed in range(300)}
    roles = [
        {edge.role for edge in draw(sheet).edges}
        for sheet in sheets
        if isinstance(sheet, Stretch) and any(sheet.crop)
    ]
    tips = [seen for seen in roles if "inside" not in seen]
    assert tips
    assert all({"outline", "pleat"} <= seen for seen in tips)
