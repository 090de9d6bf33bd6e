"""What is said to labels marked as wrong."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, islice

import pytest

from drills.flatfold import completions, failing, folds, solve_layers
from drills.pattern import Label, number_of
from drills.questions import Drill, make, read_code
from drills.questions.asking.repairs import repairs_up_to
from tests.drills.questions.known import ALL_WELL, PLEAT, SHEET, SIDE, judged, wrong_labels


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
            "You marked 1 label: 0 right, 1 too many. You missed 1.",
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
            "You marked 1 label: 1 right. You missed 1.",
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
    verdict = judged(wrong_labels(wrong), marked)
    assert (verdict.right, verdict.misses, verdict.false_alarms) == (right, misses, false_alarms)
    assert (verdict.answered, verdict.truth, verdict.slip) == (answered, truth, "")
    assert verdict.lit.right == set(wrong) & set(marked)
    assert verdict.lit.missed == set(wrong) - set(marked)
    assert verdict.lit.extra == set(marked) - set(wrong)
    assert (verdict.why == ALL_WELL) == (not wrong and not marked)


def faulty() -> Iterator[Drill]:
    """Yield drills of labels with a fault on small sheets."""
    codes = (read_code(f"labels-{level}-{seed}") for level in (1, 3, 4) for seed in range(1, 12))
    yield from (drill for drill in map(make, codes) if drill.question.answer.items)


def others_that_fold(drill: Drill, more: int) -> Iterator[list[int]]:
    """Yield the sets of so many labels more than needed that make the sheet fold, layers and all."""
    most = len(drill.question.answer.items) + more
    for other in repairs_up_to(drill.pattern, most, folds):
        if len(other) == most and solve_layers(drill.pattern.switched(other)).folds:
            yield sorted(other)


def test_one_label_more_than_needed_is_right_but_a_slip() -> None:
    """Where it makes the sheet fold: "also folds; fewer would do"."""
    found = 0
    for drill in faulty():
        needed = len(drill.question.answer.items)
        for marked in islice(others_that_fold(drill, 1), 1):
            verdict = judged(drill, marked)
            assert (verdict.right, verdict.slip) == (True, "more than needed")
            assert (verdict.misses, verdict.false_alarms) == (0, 0)
            assert verdict.answered == f"You marked {needed + 1} labels."
            assert verdict.truth == f"Also folds; fewer would do: {number_of(needed, 'label')}."
            found += 1
    assert found > 5


def test_two_labels_more_than_needed_are_wrong_though_the_sheet_folds() -> None:
    """What was marked too many are false alarms, and what was not marked is missed."""
    found = 0
    for drill in faulty():
        for marked in islice(others_that_fold(drill, 2), 1):
            verdict, true = judged(drill, marked), drill.question.answer.items
            assert (verdict.right, verdict.slip) == (False, "")
            assert (verdict.misses, verdict.false_alarms) == (len(true - {*marked}), len({*marked} - true))
            found += 1
    assert found > 5


def test_on_a_faultless_sheet_any_mark_is_a_false_alarm() -> None:
    """Two or three labels that leave it folding, or all of them: the sheet seen from behind."""
    drill = make(read_code(next(code for code in FAULTLESS if any_that_folds(code))))
    for marked in (*any_that_folds(drill.code), list(drill.pattern.creases)):
        assert solve_layers(drill.pattern.switched(marked)).folds
        verdict = judged(drill, marked)
        assert (verdict.right, verdict.slip, verdict.false_alarms) == (False, "", len(marked))


FAULTLESS = [f"labels-{level}-{seed}" for level in (1, 2, 3) for seed in range(1, 20)]


def any_that_folds(code: str) -> list[list[int]]:
    """Return sets of two or three labels that leave a faultless sheet folding; none where it has a fault."""
    pattern = make(read_code(code)).pattern
    if failing(pattern, pattern.labels(), folds):
        return []
    pairs = (list(pair) for number in (2, 3) for pair in combinations(pattern.creases, number))
    sets = (pair for pair in pairs if not failing(pattern, pattern.switched(pair).labels(), folds))
    return [pair for pair in islice(sets, 3) if solve_layers(pattern.switched(pair)).folds]


def test_a_sheet_whose_layers_cross_is_not() -> None:
    """Of the labellings that fold at each point those without a layer order are no repair."""
    drill = wrong_labels([SIDE])
    crossing = [
        labelling
        for labelling in islice(completions(SHEET, SHEET.unlabelled().labels()), 20)
        if solve_layers(SHEET.with_labels(labelling)).folds is False
    ]
    assert len(crossing) > 10
    assert not any(judged(drill, differing(drill, labelling)).right for labelling in crossing)


def differing(drill: Drill, labelling: tuple[Label, ...]) -> list[int]:
    """Return the creases to mark so that the sheet shown becomes one labelled so."""
    return [crease for crease in SHEET.creases if labelling[crease] != drill.pattern.edges[crease].label]


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
        assert not judged(drill, marked).right
