"""The line typed as an answer: every spelling, and what cannot be read."""

from __future__ import annotations

from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.geometry import Point, Step
from drills.questions import Drill, MarkedPlaces, Marks, make, read_code
from tests.trainer.cli.calling import FORMS, codes, is_one_sentence
from trainer.given import InputError
from trainer.text.asked import tags_of
from trainer.text.drill import answer_from


def test_numbers_alone_go_the_way_of_the_arrow() -> None:
    """The crease of steps-1-3 runs 4 to the left and 3 up."""
    assert typed("steps-1-3", "4 3") == Step(-4, -3)


def typed(code: str, line: str) -> object:
    """Return what a line typed at a drill is read as."""
    drill = make(read_code(code))
    return answer_from(line, drill, tags_of(drill))


UP_LEFT = {
    "1 across 2 up": Step(-1, -2),
    "1a 2u": Step(-1, -2),
    "1a2u": Step(-1, -2),
    "1 2": Step(-1, -2),
    "1,2": Step(-1, -2),
    "1, 2.": Step(-1, -2),
    "  1   2  ": Step(-1, -2),
    "1 ACROSS 2 Up": Step(-1, -2),
    "1 across, 2 up": Step(-1, -2),
    "1 across and 2 up": Step(-1, -2),
    "1 to the left, 2 up": Step(-1, -2),
    "1 left 2 up": Step(-1, -2),
    "1l 2u": Step(-1, -2),
    "1 left 2": Step(-1, -2),
    "1 2 up": Step(-1, -2),
    "2 up 1 across": Step(-1, -2),
    "2u 1l": Step(-1, -2),
    "2 up 1": Step(-1, -2),
    "2 1 across": Step(-1, -2),
    "1 right 2 up": Step(1, -2),
    "1r 2d": Step(1, 2),
    "1 across 2 down": Step(-1, 2),
    "2 down 1 right": Step(1, 2),
    "1 2 x 2": Step(-1, -2, 2),
    "1 2 x2": Step(-1, -2, 2),
    "1 2 \u00d7 2": Step(-1, -2, 2),
    "1a2u x2": Step(-1, -2, 2),
    "1 across 2 up, twice": Step(-1, -2, 2),
    "1 across 2 up twice": Step(-1, -2, 2),
    "1 across 2 up once": Step(-1, -2, 1),
    "1 across 2 up, 3 times": Step(-1, -2, 3),
    "1 2 3 times": Step(-1, -2, 3),
    "0 2": Step(0, -2),
    "12 999": Step(-12, -999),
}


@pytest.mark.parametrize("line", UP_LEFT)
def test_steps_are_read_in_every_spelling(line: str) -> None:
    """A way that is typed counts, any other is the arrow's: left and up here."""
    assert typed("steps-1-3", line) == UP_LEFT[line]


@pytest.mark.parametrize("code", list(codes("steps", "read", 12)), ids=str)
def test_bare_numbers_are_right_whatever_way_the_arrow_points(code: object) -> None:
    """The right numbers without a way are the right step."""
    drill = make(read_code(str(code)))
    assert isinstance(drill.question.answer, Step)
    across, down, times = drill.question.answer
    assert answer_from(f"{abs(across)} {abs(down)} x {times}", drill, {}) == drill.question.answer


def test_a_wrong_way_is_not_right() -> None:
    """A way that is typed is judged."""
    drill = make(read_code("steps-1-3"))
    assert drill.judge(typed("steps-1-3", "4 left 3 up")).right
    assert not drill.judge(typed("steps-1-3", "4 right 3 up")).right


@pytest.mark.parametrize(
    "line", ["4,2", "4 2", "4, 2", "(4; 2)", "4 across 2 down", "4a 2d", "4r 2d", "2d 4a"]
)
def test_places_are_read_from_the_top_left_corner(line: str) -> None:
    """The sheet of steps-3-4-place is 8 x 6, so that 2 down is 4 up."""
    assert typed("steps-3-4-place", line) == Point(4, 4)


TAGS = {
    "aa": {"aa"},
    "aa ac": {"aa", "ac"},
    "aa,ac": {"aa", "ac"},
    " AC ;  aa, ": {"aa", "ac"},
    "ac aa ac.": {"aa", "ac"},
    "none": set[str](),
    "None.": set[str](),
    "0": set[str](),
}


@pytest.mark.parametrize("line", TAGS)
@pytest.mark.parametrize("code", ["labels-1-5", "sinks-2-5", "sinks-2-5-points"])
def test_marks_are_read_as_tags(code: str, line: str) -> None:
    """Spaces, commas and capitals do not matter, and nothing to mark has two spellings."""
    drill = make(read_code(code))
    tags = tags_of(drill)
    assert typed(code, line) == Marks(frozenset(item for item, tag in tags.items() if tag in TAGS[line]))


@pytest.mark.parametrize("line", TAGS)
def test_tags_of_creases_stand_for_their_middles_where_stretches_are_asked_for(line: str) -> None:
    """A crease named of each stretch is a mark put halfway along it."""
    drill = make(read_code("find-2-3"))
    tags = tags_of(drill)
    ends = [drill.pattern.ends(edge) for edge, tag in tags.items() if tag in TAGS[line]]
    middles = {Point(Fraction(start.x + end.x) / 2, Fraction(start.y + end.y) / 2) for start, end in ends}
    assert typed("find-2-3", line) == MarkedPlaces(frozenset(middles))


NOT_READ = {
    "steps-1-3": """x|1|0|none|12|1 2 3|1 2 x|1 2 x 0|-1 2|1.5 2|1/2 2|1000 2|1 across 2 across|1 up 2 down
        |up 1 across 2|\u0661 \u0662|\x1b[A 1 2|1 2 x 2 x 2""",
    "steps-3-4-place": "x|4|none|4,2,1|4 left 2 down|4 across 2 up|4,2 x 2|4,-2",
    "labels-1-5": "x|zz|aa zz|aaab|aa none|0 0|\x1b|,|1 2",
    "sinks-2-5": "inside|aa-ab|zz",
    "sinks-2-5-points": "3,1|zz",
    "sinks-2-5-join": "aa ab|zz|3,1",
    "find-2-3": "x|zz|aa zz|aaab|aa none|0 0|3,1|,",
}


@pytest.mark.parametrize("code", NOT_READ)
def test_what_cannot_be_read_is_told_in_one_sentence(code: str) -> None:
    """It says what an answer looks like and repeats nothing that was typed."""
    for line in NOT_READ[code].split("|"):
        assert is_one_sentence(refusal(code, line.strip()) + "\n"), line


def refusal(code: str, line: str) -> str:
    """Return what is said of a line that cannot be read."""
    with pytest.raises(InputError, match=r'^That cannot be read; answer .*as in "') as refused:
        typed(code, line)
    return str(refused.value)


@pytest.mark.parametrize("line", ["9,2", "4,7", "99 99"])
def test_a_place_off_the_sheet_is_told(line: str) -> None:
    """A slip of the hand is no wrong answer."""
    with pytest.raises(InputError, match="not on the sheet, which is 8 across and 6 down"):
        typed("steps-3-4-place", line)


def test_the_corners_of_the_sheet_are_places() -> None:
    """The edge belongs to it."""
    assert typed("steps-3-4-place", "8,6") == Point(8, 0)


@pytest.mark.parametrize(("kind", "form"), FORMS)
@given(st.text(alphabet="0123456789 acdlrux,.-\x1b\u00e9\u0661", max_size=14))
@settings(deadline=None, derandomize=True, max_examples=60)
def test_any_line_is_judged_or_refused(kind: str, form: str, line: str) -> None:
    """No line ends in another error."""
    drill: Drill = make(next(iter(codes(kind, form, 1))))
    with suppress(InputError):
        assert drill.judge(answer_from(line.strip(), drill, tags_of(drill))).answered
