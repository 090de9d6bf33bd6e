"""Whether the reason given for a verdict on labels is true when it is counted again."""

from __future__ import annotations

import json
import re
from fractions import Fraction
from itertools import pairwise
from math import tau

import pytest

from drills.flatfold import fault_in_words, faults
from drills.fold_file import to_fold
from drills.pattern import CreasePattern
from drills.questions import Drill, Marks
from drills.structures import Stretch, draw
from tests.drills.questions.codes import LEVELS, SMALL, crease_not_asked_for, drills, right_answer, some
from tests.drills.questions.known import ALL_WELL, MIDDLE, PLEAT, SHEET, SIDE, judged, vertex, wrong_labels
from tests.drills.questions.plain_sheet import PlainSheet
from tests.drills.questions.slow_repairs import counting, layering, switched


def plain(pattern: CreasePattern) -> PlainSheet:
    """Return a pattern as its JSON tells it."""
    return PlainSheet(json.dumps({"question": {}, "answer": {}, "pattern": to_fold(pattern)}))


def exchanged(truth: CreasePattern) -> list[list[int]]:
    """Return each mountain and valley that meet at a point inside the sheet."""
    return [
        [one, two]
        for at in truth.interior
        for one in truth.around[at]
        for two in truth.around[at]
        if (truth.edges[one].label, truth.edges[two].label) == ("M", "V")
    ]


def test_the_counts_of_a_wrong_label_by_hand() -> None:
    """The line through S is mountain, as are its two pleat lines and the ridge; the sides from S are valleys.

    At (4, 2) pleat line, inside line and first piece of the side are valleys, the second piece is mountain.
    """
    assert [SHEET.edges[crease].label for crease in (MIDDLE, SIDE, PLEAT)] == ["M", "V", "V"]
    shown = wrong_labels([SIDE]).pattern
    assert faults(shown) == (vertex(1, 1), vertex(4, 2))
    assert [fault_in_words(shown, at) for at in faults(shown)] == [
        "At (1; 7) there are 5 mountains and 1 valley; they must differ by 2.",
        "At (4; 6) there are 2 mountains and 2 valleys; they must differ by 2.",
    ]


@pytest.mark.parametrize("level", LEVELS)
def test_the_reason_is_true_when_counted_again(level: int) -> None:
    """A point at fault is named; its counts, taken from the JSON, are those told and do not balance."""
    for drill in some("labels", "mark", level):
        check_the_reason(drill)
        check_the_reason_for_one_too_many(drill)


@pytest.mark.long
@pytest.mark.parametrize("level", SMALL)
def test_many_reasons_are_true_when_counted_again(level: int) -> None:
    """The same for two hundred drills of each small level."""
    for drill in drills("labels", "mark", level, range(1, 201)):
        check_the_reason(drill)
        check_the_reason_for_one_too_many(drill)


def check_the_reason(drill: Drill) -> None:
    """Count again what is said to the right answer, and find again the points at fault that are lit."""
    verdict, sheet = drill.judge(right_answer(drill)), PlainSheet(drill.to_line())
    failing = {v for v in sheet.inner if not layering(sheet, sheet.labels, v)}
    assert verdict.lit.faults == failing
    if not failing:
        assert verdict.why == ALL_WELL
        return
    at, rest = place_told(sheet, verdict.why)
    assert at in failing
    assert rest_is_true(sheet, sheet.labels, at, rest)
    if "counts are right" in rest:
        assert all(counting(sheet, sheet.labels, v) for v in failing)


def check_the_reason_for_one_too_many(drill: Drill) -> None:
    """Count again what is said to one crease too many, on the sheet with all marked labels switched."""
    assert isinstance(drill.question.answer, Marks)
    marked = [crease_not_asked_for(drill), *drill.question.answer.items]
    sheet = PlainSheet(drill.to_line())
    mended = switched(sheet, tuple(marked))
    start, why = "With yours switched, at ", judged(drill, marked).why
    assert why.startswith(start)
    at, rest = place_told(sheet, f"At {why.removeprefix(start)}")
    assert not layering(sheet, mended, at)
    assert rest_is_true(sheet, mended, at, rest)


def rest_is_true(sheet: PlainSheet, labels: list[str], at: int, rest: str) -> bool:
    """Whether the end of a sentence is true of a point of a sheet with these labels, as counted again."""
    beside = re.fullmatch(BESIDE, rest)
    if beside:
        return counting(sheet, labels, at) and beside[1][0].upper() in alike_beside(sheet, labels, at)
    if rest == FOLD_OVER:
        return counting(sheet, labels, at) and not alike_beside(sheet, labels, at)
    meeting = [labels[edge] for edge in sheet.around[at]]
    mountains, valleys = meeting.count("M"), meeting.count("V")
    told = f"{noun(mountains, 'mountain')} and {noun(valleys, 'valley')}"
    return rest == f"there are {told}; they must differ by 2." and abs(mountains - valleys) != 2


BESIDE = (
    "the counts are right, but two (mountains|valleys) stand beside the smallest angle; "
    "they must be one of each."
)


FOLD_OVER = (
    "the counts are right, but neighbouring small angles cannot fold over each other with these labels."
)


def alike_beside(sheet: PlainSheet, labels: list[str], at: int) -> set[str]:
    """Return the labels that stand on both sides of an angle smaller than both its neighbours."""
    ring = sheet.around[at]
    directions = [sheet.angle(edge, at) for edge in ring]
    angles = [(after - before) % tau for before, after in pairwise([*directions, directions[0]])]
    return {
        labels[ring[i]]
        for i in range(len(ring))
        if angles[i] < angles[i - 1] - 1e-9
        and angles[i] < angles[(i + 1) % len(ring)] - 1e-9
        and labels[ring[i]] == labels[ring[(i + 1) % len(ring)]]
    }


def place_told(sheet: PlainSheet, sentence: str) -> tuple[int, str]:
    """Return the vertex that a sentence names, counted from the top left corner, and the rest of it."""
    told = re.fullmatch(r"At \(([0-9 /]+); ([0-9 /]+)\) (.+)", sentence)
    assert told
    height = max(y for _, y in sheet.points)
    across, down = (sum(map(Fraction, number.split(" "))) for number in told.groups()[:2])
    named = [v for v, (x, y) in enumerate(sheet.points) if (x, height - y) == (across, down)]
    assert len(named) == 1
    return named[0], told[3]


def noun(count: int, one: str) -> str:
    """Return a count with its noun."""
    return f"{count or 'no'} {one}{'' if count == 1 else 's'}"


@pytest.mark.parametrize("units", [(2, 2), (2, 1), (1, 3)])
def test_where_only_the_small_angle_is_wrong_it_is_told(units: tuple[int, int]) -> None:
    """Two labels exchanged at a point keep its counts; what is said of its smallest angle is true."""
    truth, told = draw(Stretch(units)), 0
    for pair in exchanged(truth):
        shown = truth.switched(pair)
        for at in faults(shown):
            sentence = fault_in_words(shown, at)
            if "counts are right" in sentence:
                rest = sentence.split(") ", 1)[1]
                assert rest_is_true(plain(shown), list(shown.labels()), at, rest), sentence
                told += 1
    assert told > 10


def test_points_that_do_not_balance_come_first() -> None:
    """Where some counts are off, the reason counts; the points with right counts come after them."""
    for drill in some("labels", "mark", 4):
        sheet = PlainSheet(drill.to_line())
        balanced = [counting(sheet, sheet.labels, at) for at in faults(drill.pattern)]
        assert balanced == sorted(balanced)
