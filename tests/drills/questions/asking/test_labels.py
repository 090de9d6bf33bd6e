"""What is said to labels marked as wrong, and whether the reason given is true."""

from __future__ import annotations

import json
import re
from fractions import Fraction
from itertools import islice, pairwise
from math import tau

import pytest

from drills.flatfold import completions, failing, fault_in_words, faults, folds, solve_layers
from drills.fold_file import to_fold
from drills.pattern import CreasePattern, Label
from drills.questions import Drill, Marks, Verdict
from drills.structures import Stretch, draw
from tests.drills.questions.codes import LEVELS, SMALL, crease_not_asked_for, drills, right_answer, some
from tests.drills.questions.known import SHEET, edge, vertex, wrong_labels
from tests.drills.questions.plain_sheet import PlainSheet
from tests.drills.questions.slow_repairs import counting, layering, switched

SIDE, MIDDLE, PLEAT = edge((1, 1), (4, 2)), edge((1, 1), (9, 7)), edge((4, 2), (7, 2))
ALL_WELL = "At every point mountains and valleys differ by 2, and small angles lie between one of each."


@pytest.mark.parametrize(
    ("wrong", "marked", "right", "misses", "false_alarms", "answered", "truth"),
    [
        (
            [SIDE],
            [SIDE],
            True,
            0,
            0,
            "You marked 1 label: 1 right.",
            "1 label is wrong; it should be a valley.",
        ),
        ([SIDE], [], False, 1, 0, "You marked no label.", "1 label is wrong; it should be a valley."),
        (
            [SIDE],
            [PLEAT],
            False,
            1,
            1,
            "You marked 1 label: 0 right, 1 missed, 1 too many.",
            "1 label is wrong; it should be a valley.",
        ),
        (
            [SIDE],
            [SIDE, PLEAT],
            False,
            0,
            1,
            "You marked 2 labels: 1 right, 1 too many.",
            "1 label is wrong; it should be a valley.",
        ),
        (
            [SIDE, PLEAT],
            [PLEAT],
            False,
            1,
            0,
            "You marked 1 label: 1 right, 1 missed.",
            "2 labels are wrong; both should be valleys.",
        ),
        ([], [], True, 0, 0, "You marked no label.", "Nothing is wrong on this sheet."),
        (
            [],
            [SIDE],
            False,
            0,
            1,
            "You marked 1 label: 0 right, 1 too many.",
            "Nothing is wrong on this sheet.",
        ),
    ],
)
def test_labels_exactly_missed_and_extra(
    wrong: list[int],
    marked: list[int],
    right: bool,
    misses: int,
    false_alarms: int,
    answered: str,
    truth: str,
) -> None:
    """Misses and false alarms are counted, said and lit apart."""
    verdict = labels(wrong_labels(wrong), marked)
    assert (verdict.right, verdict.misses, verdict.false_alarms) == (right, misses, false_alarms)
    assert (verdict.answered, verdict.truth, verdict.slip) == (answered, truth, "")
    assert verdict.lit.right == set(wrong) & set(marked)
    assert verdict.lit.missed == set(wrong) - set(marked)
    assert verdict.lit.extra == set(marked) - set(wrong)
    assert (verdict.why == ALL_WELL) == (not wrong and not marked)


def labels(drill: Drill, marked: list[int]) -> Verdict:
    """Return the verdict on labels marked as wrong."""
    return drill.judge(Marks(frozenset(marked)))


@pytest.mark.parametrize(
    ("wrong", "instead"), [([SIDE], "1 label"), ([SIDE, PLEAT], "2 labels"), ([], "no labels")]
)
def test_the_sheet_turned_over_folds_too(wrong: list[int], instead: str) -> None:
    """Switching all labels but the wrong ones gives the true sheet seen from behind: right, but a slip."""
    marked = [crease for crease in SHEET.creases if crease not in wrong]
    verdict = labels(wrong_labels(wrong), marked)
    assert (verdict.right, verdict.slip) == (True, "more than needed")
    assert (verdict.misses, verdict.false_alarms) == (0, 0)
    assert verdict.answered == f"You marked {len(marked)} labels."
    assert verdict.truth == f"Also folds; fewer would do: {instead}."
    assert not labels(wrong_labels(wrong), marked[1:]).right


def test_another_sheet_that_folds_is_right() -> None:
    """Labels of another folding of the same creases, found with one label held the other way round."""
    free = SHEET.unlabelled().labels()
    held: tuple[Label, ...] = tuple("M" if crease == SIDE else free[crease] for crease in range(len(free)))
    other = solve_layers(SHEET.with_labels(held)).labels
    drill = wrong_labels([SIDE])
    verdict = labels(drill, differing(drill, other))
    assert (verdict.right, verdict.slip) == (True, "more than needed")


def test_a_sheet_whose_layers_cross_is_not() -> None:
    """Of the labellings that fold at each point those without a layer order are no repair."""
    drill = wrong_labels([SIDE])
    crossing = [
        labelling
        for labelling in islice(completions(SHEET, SHEET.unlabelled().labels()), 20)
        if solve_layers(SHEET.with_labels(labelling)).folds is False
    ]
    assert len(crossing) > 10
    assert not any(labels(drill, differing(drill, labelling)).right for labelling in crossing)


def differing(drill: Drill, labelling: tuple[Label, ...]) -> list[int]:
    """Return the creases to mark so that the sheet shown becomes one labelled so."""
    return [crease for crease in SHEET.creases if labelling[crease] != drill.pattern.edges[crease].label]


def test_the_counts_of_a_wrong_label_by_hand() -> None:
    """The line through S is mountain, as are its two pleat lines and the ridge; the sides from S are valleys.

    At (4, 2) pleat line, inside line and first piece of the side are valleys, the second piece is mountain.
    """
    assert [SHEET.edges[crease].label for crease in (MIDDLE, SIDE, PLEAT)] == ["M", "V", "V"]
    shown = wrong_labels([SIDE]).pattern
    assert faults(shown) == (vertex(1, 1), vertex(4, 2))
    assert [fault_in_words(shown, at) for at in faults(shown)] == [
        "At 1 across, 7 down there are 5 mountains and 1 valley; they must differ by 2.",
        "At 4 across, 6 down there are 2 mountains and 2 valleys; they must differ by 2.",
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
    start, why = "With yours switched, at ", labels(drill, marked).why
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
    told = re.fullmatch(r"At ([0-9 /]+) across, ([0-9 /]+) down (.+)", sentence)
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
                rest = sentence.split(" down ")[1]
                assert rest_is_true(plain(shown), list(shown.labels()), at, rest), sentence
                told += 1
    assert told > 10


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


def test_points_that_do_not_balance_come_first() -> None:
    """Where some counts are off, the reason counts; the points with right counts come after them."""
    for drill in some("labels", "mark", 4):
        sheet = PlainSheet(drill.to_line())
        balanced = [counting(sheet, sheet.labels, at) for at in faults(drill.pattern)]
        assert balanced == sorted(balanced)


def test_another_set_that_passes_at_every_point_is_not_called_right() -> None:
    """Of other labels than the true ones and those of its back it is not known that the whole sheet folds."""
    drill, truth = wrong_labels([SIDE]), SHEET.labels()
    over = SHEET.switched(SHEET.creases).labels()
    others = (
        found for found in completions(SHEET, SHEET.unlabelled().labels()) if found not in (truth, over)
    )
    for found in islice(others, 50):
        assert failing(SHEET, found, folds) == ()
        marked = [edge for edge in SHEET.creases if found[edge] != drill.pattern.edges[edge].label]
        assert not labels(drill, marked).right
