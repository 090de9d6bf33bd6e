"""Whether the reason given for a verdict on labels is true when it is counted again."""

from __future__ import annotations

import json
import re
from itertools import pairwise
from math import tau

import pytest

from drills.flatfold import fault_in_words, faults
from drills.fold_file import to_fold
from drills.pattern import ROLES, CreasePattern
from drills.questions import Drill, Marks, Verdict
from drills.structures import Stretch, draw
from tests.drills.questions.codes import LEVELS, SMALL, drills, some
from tests.drills.questions.known import ALL_WELL, MIDDLE, PLEAT, SHEET, SIDE, judged, vertex, wrong_labels
from tests.drills.questions.plain_sheet import PlainSheet
from tests.drills.questions.slow_repairs import counting, switched


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
    """Counts that are shown are those of the JSON; each sentence is true of the points that it speaks of."""
    for drill in some("labels", "mark", level):
        check_the_reason(drill)


@pytest.mark.long
@pytest.mark.parametrize("level", SMALL)
def test_many_reasons_are_true_when_counted_again(level: int) -> None:
    """The same for two hundred drills of each small level."""
    for drill in drills("labels", "mark", level, range(1, 201)):
        check_the_reason(drill)


def check_the_reason(drill: Drill) -> None:
    """Count again what is said to whoever marked nothing, and what is said to one label too many."""
    verdict, sheet = judged(drill, []), PlainSheet(drill.to_line())
    assert isinstance(drill.question.answer, Marks)
    wrong = drill.question.answer.items
    off = {v for v in sheet.inner if not counting(sheet, sheet.labels, v)}
    assert {count.vertex for count in verdict.lit.counts} == off
    for at, mountains, valleys in verdict.lit.counts:
        meeting = [sheet.labels[edge] for edge in sheet.around[at]]
        assert (mountains, valleys) == (meeting.count("M"), meeting.count("V"))
    mended = switched(sheet, tuple(wrong))
    assert [each.should_be for each in verdict.lit.switches] == [mended[edge] for edge in sorted(wrong)]
    assert is_true(sheet, wrong, off, verdict)
    check_one_too_many(drill, sheet, mended)


def is_true(sheet: PlainSheet, wrong: frozenset[int], off: set[int], verdict: Verdict) -> bool:
    """Whether a reason holds of a sheet on which these labels are wrong and these points out of balance."""
    why, lit = verdict.why, verdict.lit.angles
    if not wrong:
        return why == ALL_WELL and not off and not lit
    if lit:
        return lit_angles_are_true(sheet, lit, why)
    ends = {edge: [v for v in sheet.edges[edge] if v in sheet.inner] for edge in wrong}
    if found := re.match(
        r"(?:These )?(\d)( of the wrong labels)? meet where counts are right; (.*) out of", why
    ):
        row = [edge for edge in wrong if any(set(ends[edge]) & set(ends[e]) for e in wrong - {edge})]
        counted = [v for edge in row for v in ends[edge]]
        outer = {v for v in counted if v in off}
        told = {"the outer end is": 1, "both outer ends are": 2}
        return (
            int(found[1]) == len(row)
            and len(outer) == told[found[3]]
            and all(counted.count(v) == 1 for v in outer)
            and all(counting(sheet, switched(sheet, tuple(row)), v) for v in counted)
        )
    told_of = [edge for edge in wrong if len(ends[edge]) == (1 if why.startswith("Its end") else 2)]
    assert re.fullmatch(ONE_END if why.startswith("Its end") else BOTH_ENDS, why)
    return any(
        set(ends[edge]) <= off and all(counting(sheet, switched(sheet, (edge,)), v) for v in ends[edge])
        for edge in told_of
    )


ONE_END = r"Its end inside the sheet is out of balance; switching this one mends it\."
BOTH_ENDS = (
    r"Both ends are out of balance; switching this one mends both\."
    r"|Both its ends are out of balance; switching it mends both\."
)
SMALL_ANGLE = (
    r"The lit angle is smaller than both its neighbours, so its two creases must differ; both are (.+)\."
)
EQUAL_ANGLES = (
    r"The lit angles are equal and smaller than their neighbours: of their (\d) creases "
    r"(?:half|at most (\d)) may be (.+); (?:all|(\d)) are\."
)
ANOTHER = (
    r"Counts allow another repair, but it puts two (.+) beside the lit angle, "
    r"which is smaller than both its neighbours\."
)


def lit_angles_are_true(sheet: PlainSheet, creases: tuple[int, ...], why: str) -> bool:
    """Whether the angles between these creases are smaller than their neighbours, and labelled as is said."""
    (at,) = set.intersection(*(set(sheet.edges[edge]) for edge in creases))
    ring = sheet.around[at]
    first = ring.index(creases[0])
    assert [ring[(first + place) % len(ring)] for place in range(len(creases))] == list(creases)
    angles = angles_at(sheet, at)
    own = [angles[(first + place) % len(ring)] for place in range(len(creases) - 1)]
    beside = angles[first - 1], angles[(first + len(creases) - 1) % len(ring)]
    assert max(own) - min(own) < 1e-9
    assert all(own[0] < angle - 1e-9 for angle in beside)
    labels = [sheet.labels[edge] for edge in creases]
    if found := re.fullmatch(SMALL_ANGLE, why):
        return labels == [found[1][0].upper()] * 2
    if found := re.fullmatch(EQUAL_ANGLES, why):
        number, kind = len(creases), found[3][0].upper()
        most = int(found[2]) if found[2] else number // 2
        are = int(found[4]) if found[4] else number
        return int(found[1]) == number and most == (number + 1) // 2 and labels.count(kind) == are > most
    return bool(re.fullmatch(ANOTHER, why))


def check_one_too_many(drill: Drill, sheet: PlainSheet, mended: list[str]) -> None:
    """Look for the role of a right label taken for wrong, and count its ends with the wrong ones switched."""
    assert isinstance(drill.question.answer, Marks)
    wrong = drill.question.answer.items
    for role in ("outline", "inside", "ridge", "pleat", "hinge"):
        creases = [e for e in drill.pattern.creases if drill.pattern.edges[e].role == role and e not in wrong]
        for crease in creases[:1]:
            verdict = judged(drill, [crease, *wrong])
            if verdict.right:
                continue
            ends = [v for v in sheet.edges[crease] if v in sheet.inner]
            assert verdict.why.startswith(
                f"The label of the {ROLES[drill.pattern.edges[crease].role]} you marked was correct: "
            )
            assert {0: "no point", 1: "its end inside", 2: "both its ends"}[len(ends)] in verdict.why
            assert all(counting(sheet, mended, v) for v in ends)
            assert ("once the wrong ones are switched" in verdict.why) == bool(wrong and ends)


def test_a_missed_label_and_one_too_many_are_both_told() -> None:
    """First the reason, then what the false mark is."""
    drill = wrong_labels([SIDE])
    assert judged(drill, [PLEAT]).why == (
        "Both ends are out of balance; switching this one mends both. The label of "
        "the pleat line you marked was correct: "
        "once the wrong ones are switched, both its ends balance."
    )


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
    ring, angles = sheet.around[at], angles_at(sheet, at)
    return {
        labels[ring[i]]
        for i in range(len(ring))
        if angles[i] < angles[i - 1] - 1e-9
        and angles[i] < angles[(i + 1) % len(ring)] - 1e-9
        and labels[ring[i]] == labels[ring[(i + 1) % len(ring)]]
    }


def angles_at(sheet: PlainSheet, at: int) -> list[float]:
    """Return the angles round a point, each counterclockwise from the crease of its place."""
    directions = [sheet.angle(edge, at) for edge in sheet.around[at]]
    return [(after - before) % tau for before, after in pairwise([*directions, directions[0]])]


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
