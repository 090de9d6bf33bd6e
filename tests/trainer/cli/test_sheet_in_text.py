"""The plain text of a drill: everything that the answer needs, and nothing that gives it away."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import combinations
from math import gcd

import pytest

from drills.geometry import Point
from drills.questions import KINDS, Code, Drill, Marks, Outlines, ReadStep, checked, make, read_code
from tests.no_row import no_row
from tests.trainer.cli.calling import FORMS, codes, larger_codes
from tests.trainer.cli.reading import Crease, Place, Sheet, places_in, read_sheet
from trainer.text.asked import tags_of
from trainer.text.drill import answer_from, sheet_in_text
from trainer.ways_of_asking import way_of


def test_the_smallest_drill_reads_as_promised() -> None:
    """One stretch on 4 x 3 squares, read from the top left corner: written out by hand."""
    assert text_of(make(read_code("steps-1-3"))).splitlines() == [
        "Across and down, steps-1-3.",
        "The sheet is 4 across and 3 down."
        " Places are squares across and down from the top left corner, as in (3; 1).",
        "Creases:",
        "aa: from (0; 0) to (3; 1), outline side",
        "ab: from (0; 0) to (1; 2), outline side",
        "ac: from (0; 0) to (4; 3), inside line",
        "ad: from (4; 0) to (3; 1), ridge",
        "ae: from (3; 1) to (4; 1), hinge",
        "af: from (3; 1) to (4; 3), outline side",
        "ag: from (0; 2) to (1; 2), hinge",
        "ah: from (1; 2) to (0; 3), ridge",
        "ai: from (1; 2) to (4; 3), outline side",
        "Question: The lit crease is ac; its arrow points to the left and up, from (4; 3) to (0; 0)."
        " Which step does the lit crease make from its start?"
        " Give the smallest: squares across, squares down or up.",
        'Type one line: answer as in "1 across 2 up" or "1 2".',
    ]


def text_of(drill: Drill) -> str:
    """Return the whole text put before an answer."""
    lines = [*sheet_in_text(drill, tags_of(drill)), f"Type one line: {drill.question.how_to_answer()}."]
    return "\n".join(lines)


def is_right(drill: Drill, line: str) -> bool:
    """Whether a line typed is judged right, and not as a slip."""
    verdict = drill.judge(answer_from(line, drill, tags_of(drill)))
    return verdict.right and not verdict.slip


def answered_by(kind: str, form: str, how_many: int = 5) -> list[tuple[Drill, Sheet]]:
    """Return drills of a form with their text as it was read back."""
    drills = [make(code) for code in codes(kind, form, how_many)]
    return [(drill, read_sheet(text_of(drill))) for drill in drills]


def test_steps_are_found_from_the_text_alone() -> None:
    """The arrow's two places are enough arithmetic for the smallest step and its repeats."""
    for drill, sheet in answered_by("steps", "read"):
        start, end = places_in(sheet.question)
        across, down = int(end[0] - start[0]), int(end[1] - start[1])
        shared = gcd(across, down)
        side, way = "right" if across > 0 else "left", "down" if down > 0 else "up"
        assert f"points to the {side} and {way}" in sheet.question
        line = f"{abs(across) // shared} {side} {abs(down) // shared} {way}"
        assert is_right(drill, f"{line} x {shared}"), drill.code


def test_the_lit_row_leads_from_its_start_to_its_end() -> None:
    """The tags named are creases in a row, from one place of the arrow to the other."""
    for drill, sheet in answered_by("steps", "read"):
        start, end = places_in(sheet.question)
        row = re.match(r"The lit crease is ((?:[a-z]{2}, )*[a-z]{2});", sheet.question)
        assert row, drill.code
        here = start
        for tag in row[1].split(", "):
            crease = sheet.creases[tag]
            here = crease.end if crease.start == here else crease.start
        assert here == end


def test_places_are_found_from_the_text_alone() -> None:
    """From the start, so many times the step."""
    for drill, sheet in answered_by("steps", "place"):
        assert not sheet.creases
        ((across, down),) = places_in(sheet.question)
        step = re.search(
            r": (\d) to the (left|right), (\d) (up|down)(?:, (twice|\d times))?\.", sheet.question
        )
        assert step, sheet.question
        times = {None: 1, "twice": 2}.get(step[5]) or int(step[5][0])
        across += times * int(step[1]) * (1 if step[2] == "right" else -1)
        down += times * int(step[3]) * (1 if step[4] == "down" else -1)
        assert is_right(drill, f"{across},{down}"), drill.code


def test_turning_points_are_found_from_the_text_alone() -> None:
    """By directions, not by names: off the edge four creases meet, one along the grid and three slanted."""
    for drill, sheet in answered_by("sinks", "points"):
        found = []
        for tag, point in sheet.points.items():
            ratios = [crease.ratio for crease in sheet.meeting(point)]
            along = sum(ratio in (0, -1) for ratio in ratios)
            if len(ratios) == 4 and along == 1 and 1 not in ratios and not sheet.is_on_edge(point):
                found.append(tag)
        assert is_right(drill, " ".join(found)), drill.code


def test_inside_lines_are_found_from_the_text_alone() -> None:
    """Their slope is twice the angle of the 1:3 side: tan 2a = 2 (1/3) / (1 - 1/9) = 3/4."""
    slopes = (Fraction(3, 4), Fraction(4, 3))
    for drill, sheet in answered_by("sinks", "mark"):
        found = [tag for tag, crease in sheet.creases.items() if crease.ratio in slopes]
        assert is_right(drill, ", ".join(found) or "none"), drill.code


def test_slanted_stretches_are_found_from_the_text_alone() -> None:
    """Each crease that runs neither along the grid nor at 45 degrees lies in one, so their tags answer it.

    Not so where a look-alike is slanted too.
    """
    for drill, sheet in answered_by("find", "mark", 16):
        if drill.skill in ("find tips", "find band"):
            continue
        found = [tag for tag, crease in sheet.creases.items() if crease.ratio not in (0, -1, 1)]
        assert is_right(drill, " ".join(found) or "none"), drill.code
        others = [tag for tag in sheet.creases if tag not in found]
        assert not is_right(drill, " ".join([*found, others[0]]))


def test_the_other_end_of_a_hidden_line_is_found_from_the_text_alone() -> None:
    """By directions: an inside line runs as the two sides' smallest steps add up."""
    for drill, sheet in answered_by("sinks", "join"):
        lit, *_ = places_in(sheet.question)
        outline = [crease for crease in sheet.creases.values() if crease.words[0] == "outline side"]
        way = inside_way(outline)
        ends = {end for crease in outline for end in (crease.start, crease.end)} - {lit}
        (far,) = (end for end in ends if way[0] * (end[1] - lit[1]) == way[1] * (end[0] - lit[0]))
        (found,) = (tag for tag, point in sheet.points.items() if point == far)
        assert is_right(drill, found), drill.code
        assert not any("inside line" in crease.words for crease in sheet.creases.values())


def inside_way(outline: list[Crease]) -> Place:
    """Return the sum of a step of 1 and 3 and one of 1 and 2 along an outline, less than 90 degrees apart."""
    thirds = (Fraction(1, 3), Fraction(3))
    one = next(smallest(crease) for crease in outline if crease.ratio in thirds)
    two = next(smallest(crease) for crease in outline if crease.ratio not in thirds)
    sign = 1 if one[0] * two[0] + one[1] * two[1] > 0 else -1
    return one[0] + sign * two[0], one[1] + sign * two[1]


def smallest(crease: Crease) -> Place:
    """Return the smallest whole step along a crease, across and down."""
    across, down = crease.end[0] - crease.start[0], crease.end[1] - crease.start[1]
    slope = down / across
    sign = 1 if across > 0 else -1
    return Fraction(sign * slope.denominator), Fraction(sign * slope.numerator)


def test_the_wrong_label_is_found_from_the_text_alone() -> None:
    """On level 1 by trying each label: mountains and valleys must differ by 2 at every inner point.

    Maekawa's theorem (K. Kasahara, T. Takahama, Origami for the Connoisseur, 1987, from memory).
    """
    for seed in range(30):
        drill = make(checked(Code("labels", 1, seed)))
        sheet = read_sheet(text_of(drill))
        tries = [*combinations(sheet.creases, 0), *combinations(sheet.creases, 1)]
        (found, *_) = [switch for switch in tries if is_balanced(sheet, switch)]
        assert is_right(drill, " ".join(found) or "0"), drill.code


def is_balanced(sheet: Sheet, switch: tuple[str, ...]) -> bool:
    """Whether mountains and valleys differ by 2 at every point off the edge, with these labels switched."""
    sums: dict[object, int] = {}
    for tag, crease in sheet.creases.items():
        sign = (1 if crease.words[-1] == "mountain" else -1) * (-1 if tag in switch else 1)
        for end in (crease.start, crease.end):
            if not sheet.is_on_edge(end):
                sums[end] = sums.get(end, 0) + sign
    return all(abs(total) == 2 for total in sums.values())


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_every_sheet_is_told_whole(kind: str, form: str) -> None:
    """Every crease that is shown has its line, the hidden ones have none, and tags are not repeated."""
    for drill, sheet in answered_by(kind, form, 50 if kind != "find" else 20):
        assert len(sheet.creases) == len(drill.pattern.creases) - len(drill.question.hidden)
        assert len(set(tags_of(drill).values())) == len(tags_of(drill))
        assert text_of(drill).isascii()


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_drills_judge_their_own_answer_right(kind: str, form: str) -> None:
    """At every level and form, the right answer typed as its tags or numbers is right."""
    for code in (*codes(kind, form, 8), *larger_codes(kind, form, 1)):
        drill = make(code)
        assert is_right(drill, own_answer(drill)), drill.code


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_larger_sheets_are_told_whole(kind: str, form: str) -> None:
    """With tags of three letters where two do not suffice, and places between the crossings as fractions."""
    for code in larger_codes(kind, form, 1):
        drill = make(code)
        tags = tags_of(drill)
        assert len(set(tags.values())) == len(tags)
        assert drill.question.marks_points or len(tags) == len(drill.pattern.creases)
        lines = list(sheet_in_text(drill, tags))
        told = [line for line in lines if re.match(r"(?:[a-z]{2,3}: )?from ", line)]
        assert len(told) == len(drill.pattern.creases) - len(drill.question.hidden)
        assert all(line.isascii() for line in lines)


def own_answer(drill: Drill) -> str:
    """Return the right answer as it is typed."""
    answer, tags = drill.question.answer, tags_of(drill)
    if isinstance(answer, Marks):
        return " ".join(tags[item] for item in answer.items) or "none"
    if isinstance(answer, Point):
        return f"{answer.x},{drill.pattern.box[3] - answer.y}"
    if isinstance(answer, Outlines):
        return " ".join(tags[min(outline)] for outline in answer.edges) or "none"
    if isinstance(answer, int):
        return str(answer)
    if isinstance(drill.question, ReadStep):
        way = "down" if answer.down > 0 else "up"
        return f"{abs(answer.across)} across {abs(answer.down)} {way} x{answer.times}"
    return no_row(type(drill.question).__name__, "own_answer", __file__)


def test_what_is_asked_is_not_said() -> None:
    """Marking inside lines, no crease has a name; only questions that speak of labels say which are which."""
    asking = {(kind, form) for kind, form in FORMS if KINDS[kind].forms[form].question.asks_for_roles}
    assert asking >= {("sinks", "mark"), ("find", "mark")}
    for kind, form in FORMS:
        for drill, sheet in answered_by(kind, form, 8):
            words = {word for crease in sheet.creases.values() for word in crease.words}
            of_labels = re.search("label|mountain|valley", " ".join(drill.question.says))
            assert bool({"mountain", "valley"} & words) == bool(of_labels)
            sides = any(edge.role == "outline" for edge in drill.pattern.edges)
            assert bool({"outline side"} & words) == (sides and (kind, form) not in asking)


def test_tags_are_in_reading_order() -> None:
    """From the top left corner, row by row."""
    for _, sheet in answered_by("labels", "mark", 8):
        order = [(crease.start[::-1], crease.end[::-1]) for crease in sheet.creases.values()]
        assert order == sorted(order)
        assert all(start < end for start, end in order)
        assert list(sheet.creases) == sorted(sheet.creases)


def test_the_outline_asked_of_is_told_by_its_corners() -> None:
    """On a whole base one of several is asked of; its four corners are named, each once."""
    drill = make(Code("sinks", 8, 1))
    question = way_of(drill).text.put(drill.question, drill, {})
    corners = {tuple(map(int, place)) for place in re.findall(r"\((\d+); (\d+)\)", question)}
    top = drill.pattern.box[3]
    points = (drill.pattern.vertices[vertex] for vertex in drill.question.lit_points)
    assert corners == {(x, top - y) for x, y in points}
    assert len(corners) == 4
