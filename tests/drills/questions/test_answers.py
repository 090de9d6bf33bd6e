"""Every answer found again by another route, from the line of JSON alone."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from itertools import combinations
from math import gcd

import pytest

from drills.questions import KINDS
from tests.drills.questions.codes import FORMS, PLACES, drills, fewer_when_larger, levels_of, some
from tests.drills.questions.plain_sheet import PlainSheet, PlainStretch
from tests.drills.questions.slow_repairs import (
    all_repairs,
    angles_fold,
    counting,
    difference,
    layering,
    passes,
    switched,
)
from tests.no_row import no_row

COUNTED_UP_TO = 3
ALONE = 5
NOTHING_ELSE_UP_TO = 2
AT_MOST = {1: 1, 2: 1, 3: 2, 4: 3, 5: 3, 6: 3, 7: 3, 8: 3}


@pytest.mark.parametrize(("kind", "form", "level"), PLACES)
def test_the_answer_is_found_again(kind: str, form: str, level: int) -> None:
    """Steps are walked, inside lines and turning points found from the faces, wrong labels by trying all.

    So are slanted stretches, by the faces within each outline.
    """
    for drill in some(kind, form, level):
        check_for(kind, form)(PlainSheet(drill.to_line()), level)


@pytest.mark.long
@pytest.mark.parametrize(("kind", "form", "level"), PLACES)
def test_many_answers_are_found_again(kind: str, form: str, level: int) -> None:
    """The same for two hundred further drills of every form up to level 5, and twenty of larger ones.

    Of sheets on which stretches are to be found sixty, as each is put together anew.
    """
    seeds = range(10_000, 10_060 if kind == "find" else 10_200)
    for sheet in sheets(kind, form, level, fewer_when_larger(level, seeds, 20)):
        check_for(kind, form)(sheet, level)


def sheets(kind: str, form: str, level: int, seeds: range) -> Iterator[PlainSheet]:
    """Yield the drills of a form as their lines of JSON tell them."""
    yield from (PlainSheet(drill.to_line()) for drill in drills(kind, form, level, seeds))


def check_read(sheet: PlainSheet, level: int) -> None:
    """Walk the lit edges: they go one way, and cross the grid as often as the step is repeated."""
    (segment,), (step,) = sheet.question["segments"], sheet.answer["steps"]
    assert sheet.question["repeats"]
    end, ways = sheet.walked(segment["from"], segment["edges"])
    assert end == segment["to"]
    assert ways == {(step["across"], -step["down"])}
    (x, y), (u, v) = sheet.points[segment["from"]], sheet.points[end]
    assert x.denominator == y.denominator == u.denominator == v.denominator == 1
    assert gcd(int(u - x), int(v - y)) == step["times"]
    assert all(sheet.is_slanted(edge) for edge in segment["edges"])


def check_place(sheet: PlainSheet, level: int) -> None:
    """Count the squares: the step cannot be reduced, and leads to the point, on a sheet without creases."""
    step, (x, y), (u, v) = sheet.question["step"], sheet.question["from"], sheet.answer["point"]
    assert gcd(step["across"], step["down"]) == 1
    assert (u - x, v - y) == (step["times"] * step["across"], -step["times"] * step["down"])
    assert not sheet.creases
    width, height = max(sheet.points)
    assert all(0 <= across <= width and 0 <= up <= height for across, up in ((x, y), (u, v)))


def check_inside_lines(sheet: PlainSheet, level: int) -> None:
    """Look on both sides: an inside line has a face within the outline left and right."""
    asked = [stretch.inside for stretch in asked_of(sheet)]
    assert set(sheet.answer["edges"]) == set[int]().union(*asked)
    for stretch in sheet.stretches:
        assert len(slopes(sheet, stretch.inside)) <= 1


def asked_of(sheet: PlainSheet) -> list[PlainStretch]:
    """Return the stretches that are asked about: all, or the one whose corners are given."""
    corners = set(sheet.question.get("corners", ()))
    return [stretch for stretch in sheet.stretches if corners <= stretch.points]


def slopes(sheet: PlainSheet, edges: Iterable[int]) -> set[Fraction]:
    """Return the slopes of slanted edges."""
    return {sheet.slope(edge) for edge in edges}


def check_turning_points(sheet: PlainSheet, level: int) -> None:
    """Look where an inside line ends on a side, not at a corner, and a crease along the grid goes on."""
    points = set[int]().union(*(stretch.points for stretch in asked_of(sheet)))
    found = {v for v in sheet.inner if v in points and is_turning_point(sheet, v)}
    assert set(sheet.answer["vertices"]) == found
    assert found


def is_turning_point(sheet: PlainSheet, vertex: int) -> bool:
    """Whether inside line, straight side and pleat line meet here."""
    edges = sheet.around[vertex]
    sides = [sheet.way(edge, vertex) for edge in edges if edge in sheet.outline]
    along_grid = [edge for edge in edges if 0 in sheet.move(edge, vertex)]
    straight = len(sides) == 2 and (sides[0][0], sides[0][1]) == (-sides[1][0], -sides[1][1])
    return straight and bool(along_grid) and any(edge in sheet.inside_lines for edge in edges)


def check_join(sheet: PlainSheet, level: int) -> None:
    """Aim along the inside lines: one point of the outline alone lies that way, across the paper inside."""
    start, end = sheet.question["from"], sheet.answer["vertex"]
    assert set(sheet.question["hidden"]) == sheet.inside_lines
    assert is_turning_point(sheet, start)
    (line,) = (edge for edge in sheet.around[start] if edge in sheet.inside_lines)
    (stretch,) = (stretch for stretch in sheet.stretches if line in stretch.inside)
    assert len(slopes(sheet, stretch.inside)) == 1
    across, up = sheet.way(line, start)
    x, y = sheet.points[start]
    others = stretch.points - {start}
    aimed = {v for v in others if (sheet.points[v][0] - x) * up == (sheet.points[v][1] - y) * across}
    assert aimed == {end}
    assert any(edge not in sheet.question["hidden"] for edge in sheet.around[end]), "nothing shows the point"
    assert sheet.beyond(line, start) == end


def check_labels(sheet: PlainSheet, level: int) -> None:
    """Try every set of labels of up to the answer's size: the answer alone makes every point fold.

    Up to level 5 each label shown has a point that decides it; above, pleats may run from edge to edge.
    """
    answer = frozenset(sheet.answer["edges"])
    assert len(answer) <= AT_MOST[level]
    assert all(angles_fold(sheet, vertex) for vertex in sheet.inner)
    decided = answer if level > ALONE else sheet.creases
    assert all(set(sheet.edges[edge]) & set(sheet.inner) for edge in decided)
    assert passes(sheet, switched(sheet, answer), layering)
    assert not any(all_repairs(sheet, size, layering) for size in range(len(answer)))
    assert all_repairs(sheet, len(answer), layering) == [answer]
    if level <= COUNTED_UP_TO:
        assert not any(all_repairs(sheet, size, counting) for size in range(len(answer)))
        assert all_repairs(sheet, len(answer), counting) == [answer]
    if len(answer) == 1:
        (wrong,) = answer
        off = {vertex for vertex in sheet.inner if abs(difference(sheet, sheet.labels, vertex)) != 2}
        assert off == set(sheet.edges[wrong]) & set(sheet.inner)


def check_stretches(sheet: PlainSheet, level: int) -> None:
    """Look where faces within an outline hang together: each has sides of two slopes, lines of one.

    Up to level 2 every slanted crease of the sheet is then accounted for; above, others may be slanted
    too, but make no parallelogram with lines inside.
    """
    found = sheet.stretches
    assert sorted(map(sorted, sheet.answer["structures"])) == sorted(sorted(each.outline) for each in found)
    for stretch in found:
        assert len(slopes(sheet, stretch.outline)) == 2
        assert len(slopes(sheet, stretch.inside)) == 1
    slanted = {edge for edge in sheet.creases if sheet.is_slanted(edge)}
    ours = {edge for stretch in found for edge in stretch.outline | stretch.inside}
    assert ours == slanted if level <= NOTHING_ELSE_UP_TO else ours <= slanted
    assert all(not one.inside & other.inside for one, other in combinations(found, 2))


CHECKS = {
    ("steps", "read"): check_read,
    ("steps", "place"): check_place,
    ("sinks", "mark"): check_inside_lines,
    ("sinks", "points"): check_turning_points,
    ("sinks", "join"): check_join,
    ("labels", "mark"): check_labels,
    ("find", "mark"): check_stretches,
}


def check_for(kind: str, form: str) -> Callable[[PlainSheet, int], None]:
    """Return the check of a form."""
    return CHECKS[kind, form] if (kind, form) in CHECKS else no_row((kind, form), "CHECKS", __file__)


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_a_sheet_whose_answer_is_tampered_with_is_noticed(kind: str, form: str) -> None:
    """The checks above are not idle: each fails on a drill with one thing changed, small or large."""
    for level in dict.fromkeys((KINDS[kind].nearest_level(3), *levels_of(kind)[-2:])):
        sheet = first_with_an_answer(kind, form, level)
        check_for(kind, form)(sheet, level)
        if (kind, form) not in TAMPERING:
            no_row((kind, form), "TAMPERING", __file__)
        TAMPERING[kind, form](sheet)
        with pytest.raises(AssertionError):
            check_for(kind, form)(sheet, level)


def first_with_an_answer(kind: str, form: str, level: int) -> PlainSheet:
    """Return the first sheet that has something to mark."""
    return next(sheet for sheet in sheets(kind, form, level, range(1, 40)) if all(sheet.answer.values()))


@pytest.mark.parametrize("level", levels_of("find"))
def test_an_outline_too_few_or_in_part_is_noticed(level: int) -> None:
    """Left out, one piece short, or two taken for one, the stretches are not those that are found."""
    sheet = first_with_an_answer("find", "mark", level)
    told: list[list[int]] = sheet.answer["structures"]
    joined = [[edge for outline in told for edge in outline]] if len(told) > 1 else []
    for structures in (told[1:], [told[0][1:], *told[1:]], joined):
        sheet.answer["structures"] = structures
        with pytest.raises(AssertionError):
            check_stretches(sheet, level)


def add_one_repeat(sheet: PlainSheet) -> None:
    """Say that the step repeats once more."""
    sheet.answer["steps"][0]["times"] += 1


def move_the_point(sheet: PlainSheet) -> None:
    """Say that the step ends one square further."""
    sheet.answer["point"][0] += 1


def add_a_side(sheet: PlainSheet) -> None:
    """Take a side of the outline for an inside line."""
    sheet.answer["edges"].append(min(sheet.outline))


def drop_a_point(sheet: PlainSheet) -> None:
    """Leave out a turning point."""
    sheet.answer["vertices"].pop()


def aim_elsewhere(sheet: PlainSheet) -> None:
    """Say that the line leads back to where it starts."""
    sheet.answer["vertex"] = sheet.question["from"]


def switch_another_label(sheet: PlainSheet) -> None:
    """Exchange mountain and valley of a crease that was right."""
    other = next(edge for edge in sheet.creases if edge not in sheet.answer["edges"])
    sheet.labels = switched(sheet, (other,))


def add_a_line(sheet: PlainSheet) -> None:
    """Take an inside line for a piece of the outline."""
    sheet.answer["structures"][0].append(min(sheet.inside_lines))


TAMPERING = {
    ("steps", "read"): add_one_repeat,
    ("steps", "place"): move_the_point,
    ("sinks", "mark"): add_a_side,
    ("sinks", "points"): drop_a_point,
    ("sinks", "join"): aim_elsewhere,
    ("labels", "mark"): switch_another_label,
    ("find", "mark"): add_a_line,
}
