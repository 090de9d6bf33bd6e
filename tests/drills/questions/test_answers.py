"""Every answer found again by another route, from the line of JSON alone."""

from __future__ import annotations

from math import gcd

import pytest

from drills.questions.drill_json import drill_line
from tests.drills.questions.codes import FORMS, LEVELS, drills
from tests.drills.questions.plain_sheet import PlainSheet
from tests.drills.questions.slow_repairs import (
    all_repairs,
    angles_fold,
    counting,
    difference,
    layering,
    passes,
    switched,
)

COUNTED_UP_TO = 3
REPEATS_FROM = 3
AT_MOST = {1: 1, 2: 1, 3: 2, 4: 3}


@pytest.mark.parametrize(("kind", "form"), FORMS)
@pytest.mark.parametrize("level", LEVELS)
def test_the_answer_is_found_again(kind: str, form: str, level: int) -> None:
    """Steps are walked, inside lines and turning points found from the faces, wrong labels by trying all."""
    for sheet in sheets(kind, form, level, range(2000, 2060)):
        CHECKS[kind, form](sheet, level)


@pytest.mark.long
@pytest.mark.parametrize(("kind", "form"), FORMS)
@pytest.mark.parametrize("level", LEVELS)
def test_many_answers_are_found_again(kind: str, form: str, level: int) -> None:
    """The same for a thousand further drills of every form and level."""
    for sheet in sheets(kind, form, level, range(10_000, 11_000)):
        CHECKS[kind, form](sheet, level)


def sheets(kind: str, form: str, level: int, seeds: range) -> list[PlainSheet]:
    """Return the drills of a form as their lines of JSON tell them."""
    return [PlainSheet(drill_line(drill)) for drill in drills(kind, form, level, seeds)]


def check_read(sheet: PlainSheet, level: int) -> None:
    """Walk the lit edges: they go one way, and cross the grid as often as the step is repeated."""
    (segment,), (step,) = sheet.question["segments"], sheet.answer["steps"]
    assert sheet.question["repeats"] == (level >= REPEATS_FROM)
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
    assert set(sheet.answer["edges"]) == sheet.inside_lines
    ways = {sheet.way(edge, min(sheet.edges[edge])) for edge in sheet.inside_lines}
    assert len({abs(dy / dx) for dx, dy in ways}) <= 1


def check_turning_points(sheet: PlainSheet, level: int) -> None:
    """Look where an inside line ends on a side, not at a corner, and a crease along the grid goes on."""
    found = {v for v in sheet.inner if is_turning_point(sheet, v)}
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
    ways = {sheet.way(edge, sheet.edges[edge][0]) for edge in sheet.inside_lines}
    across, up = sheet.way(line, start)
    assert ways <= {(across, up), (-across, -up)}
    x, y = sheet.points[start]
    on_outline = {v for edge in sheet.outline for v in sheet.edges[edge]} - {start}
    aimed = {v for v in on_outline if (sheet.points[v][0] - x) * up == (sheet.points[v][1] - y) * across}
    assert aimed == {end}
    assert sheet.beyond(line, start) == end


def check_labels(sheet: PlainSheet, level: int) -> None:
    """Try every set of labels of up to the answer's size: the answer alone makes every point fold."""
    answer = frozenset(sheet.answer["edges"])
    assert len(answer) <= AT_MOST[level]
    assert all(angles_fold(sheet, vertex) for vertex in sheet.inner)
    assert all(set(sheet.edges[edge]) & set(sheet.inner) for edge in sheet.creases)
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


CHECKS = {
    ("steps", "read"): check_read,
    ("steps", "place"): check_place,
    ("sinks", "mark"): check_inside_lines,
    ("sinks", "points"): check_turning_points,
    ("sinks", "join"): check_join,
    ("labels", "mark"): check_labels,
}


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_a_sheet_whose_answer_is_tampered_with_is_noticed(kind: str, form: str) -> None:
    """The checks above are not idle: each fails on a drill with one thing changed."""
    sheet = sheets(kind, form, 3, range(2, 3))[0]
    CHECKS[kind, form](sheet, 3)
    TAMPERING[kind, form](sheet)
    with pytest.raises(AssertionError):
        CHECKS[kind, form](sheet, 3)


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


TAMPERING = {
    ("steps", "read"): add_one_repeat,
    ("steps", "place"): move_the_point,
    ("sinks", "mark"): add_a_side,
    ("sinks", "points"): drop_a_point,
    ("sinks", "join"): aim_elsewhere,
    ("labels", "mark"): switch_another_label,
}
