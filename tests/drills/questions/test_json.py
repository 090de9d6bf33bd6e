"""A drill as one line of JSON."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from drills.questions import Drill, FindStretches, make, read_code
from tests.drills.questions.codes import LEVELS, SMALL, drills, every_code, made_once
from tests.drills.questions.known import (
    SHEET,
    edge,
    find_stretch,
    join_points,
    mark_inside,
    mark_points,
    of_role,
    place_side,
    read_side,
    vertex,
    wrong_labels,
)


def test_the_smallest_drill_to_the_character() -> None:
    """A step on a bare grid of 4 x 3 squares: nothing but the paper's edge, and where it ends."""
    line = make(read_code("steps-1-1-place")).to_line()
    fields = json.loads(line)
    step, (x, y) = fields["question"]["step"], fields["question"]["from"]
    assert line == (
        '{"code": "steps-1-1-place", "kind": "steps", "form": "place", "level": 1, "seed": 1, '
        f'"skill": "{fields["skill"]}", "pattern": {{"file_spec": 1.2, "file_creator": "Slantwise", '
        '"file_classes": ["singleModel"], "frame_classes": ["creasePattern"], "frame_attributes": ["2D"], '
        '"vertices_coords": [[0, 0], [0, 3], [4, 0], [4, 3]], '
        '"edges_vertices": [[0, 1], [0, 2], [1, 3], [2, 3]], '
        '"edges_assignment": ["B", "B", "B", "B"], '
        '"slantwise:edges_role": ["border", "border", "border", "border"]}, '
        f'"question": {{"ask": "place", "from": [{x}, {y}], "step": {json.dumps(step)}}}, '
        f'"answer": {{"point": [{x + step["across"] * step["times"]}, {y - step["down"] * step["times"]}]}}}}'
    )


def test_question_and_answer_of_every_form() -> None:
    """Vertices and edges are indices into the pattern; down is positive although y is up."""
    places = [vertex(1, 1), vertex(7, 3)]
    lit = {"from": places[0], "to": places[1], "edges": [edge((1, 1), (4, 2)), edge((4, 2), (7, 3))]}
    step = {"across": 3, "down": -1, "times": 2}
    inside = sorted(of_role("inside"))
    wrong = edge((1, 1), (4, 2))
    assert parts(read_side()) == ({"ask": "step", "segments": [lit], "repeats": True}, {"steps": [step]})
    assert parts(place_side()) == ({"ask": "place", "from": [1, 1], "step": step}, {"point": [7, 3]})
    assert parts(mark_inside()) == ({"ask": "edges"}, {"edges": inside})
    turning = sorted(vertex(*place) for place in ((4, 2), (8, 5), (6, 6), (2, 3)))
    assert parts(mark_points()) == ({"ask": "vertices"}, {"vertices": turning})
    asked = {"ask": "join", "from": vertex(4, 2), "hidden": inside}
    assert parts(join_points()) == (asked, {"vertex": vertex(8, 5)})
    assert parts(wrong_labels([wrong])) == ({"ask": "edges"}, {"edges": [wrong]})
    assert parts(wrong_labels([])) == ({"ask": "edges"}, {"edges": []})
    outline = sorted(of_role("outline"))
    assert parts(find_stretch()) == ({"ask": "structures"}, {"structures": [outline]})
    assert parts(replace(find_stretch(), question=FindStretches.of(()))) == (
        {"ask": "structures"},
        {"structures": []},
    )


def parts(drill: Drill) -> tuple[object, object]:
    """Return question and answer of a drill as JSON values."""
    fields = drill.to_json()
    return fields["question"], fields["answer"]


def test_labels_are_shown_only_where_they_are_asked_for() -> None:
    """Mountains and valleys in labels drills, as they are shown; U in every other kind."""
    wrong = edge((1, 1), (4, 2))
    shown = pattern_of(wrong_labels([wrong]))["edges_assignment"]
    assert isinstance(shown, list)
    assert [each for each, _ in enumerate(shown) if shown[each] != SHEET.edges[each].label] == [wrong]
    assert (SHEET.edges[wrong].label, shown[wrong]) == ("V", "M")
    assert pattern_of(mark_inside())["edges_assignment"] == [
        "B" if each.role == "border" else "U" for each in SHEET.edges
    ]


def pattern_of(drill: Drill) -> dict[str, object]:
    """Return the pattern of a drill as JSON values."""
    pattern = drill.to_json()["pattern"]
    assert isinstance(pattern, dict)
    return pattern


@pytest.mark.parametrize("level", LEVELS)
def test_a_line_is_one_line_of_plain_ascii_with_its_code(level: int) -> None:
    """It reads back as what was written, and its code gives the same line."""
    for code in every_code(range(1, 3) if level in SMALL else range(1, 2), [level]):
        line = made_once(code).to_line()
        assert line.isascii()
        assert line.isprintable()
        fields = json.loads(line)
        assert fields == make(read_code(fields["code"])).to_json()
        assert (fields["kind"], fields["level"], fields["seed"]) == code[:3]
        assert len(fields["pattern"]["slantwise:edges_role"]) == len(fields["pattern"]["edges_vertices"])


def test_exact_coordinates_are_added_where_decimals_cannot_hold_them() -> None:
    """A crop cuts slanted creases at thirds of a square; without one all is whole."""
    cut = next(made for made in drills("sinks", "mark", 4, range(40)) if thirds(made))
    exact = pattern_of(cut)["slantwise:vertices_exact"]
    assert exact == [[str(value) for value in point] for point in cut.pattern.vertices]
    assert "slantwise:vertices_exact" not in pattern_of(mark_inside())


def thirds(drill: Drill) -> bool:
    """Whether some coordinate is in thirds."""
    vertices = drill.pattern.vertices
    return any(value.denominator % 3 == 0 for point in vertices for value in point)
