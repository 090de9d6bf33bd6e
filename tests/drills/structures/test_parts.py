"""The parts that go in, found on a pattern, against those of the design that drew it."""

from __future__ import annotations

import pytest

from drills.structures import TRIANGLES, Stretch, draw, find_stretches, parts_that_go_in

DESIGNS = [Stretch((2, 2), facing=facing) for facing in range(4)]
DESIGNS += [
    Stretch((3, 1)),
    Stretch((1, 2), facing=2),
    Stretch((1, 1), triangle=TRIANGLES[1], widths=(1, 1, 1)),
]


@pytest.mark.parametrize("design", DESIGNS)
def test_they_are_the_triangles_of_the_design(design: Stretch) -> None:
    """Corner by corner, whichever of the two comes first."""
    (found,) = find_stretches(draw(design))
    assert {frozenset(part) for part in found.parts_that_go_in()} == set(
        map(frozenset, parts_that_go_in(design))
    )


def test_a_cut_stretch_tells_none() -> None:
    """Two of its corners lie beyond the paper's edge."""
    (found,) = find_stretches(draw(Stretch((2, 2), crop=(3, 0, 0, 0))))
    assert found.parts_that_go_in() == ()
