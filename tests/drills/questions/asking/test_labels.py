"""What is said to labels marked as wrong."""

from __future__ import annotations

from itertools import islice

import pytest

from drills.flatfold import completions, failing, folds, solve_layers
from drills.pattern import Label
from drills.questions import Drill
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
    verdict = judged(wrong_labels(wrong), marked)
    assert (verdict.right, verdict.misses, verdict.false_alarms) == (right, misses, false_alarms)
    assert (verdict.answered, verdict.truth, verdict.slip) == (answered, truth, "")
    assert verdict.lit.right == set(wrong) & set(marked)
    assert verdict.lit.missed == set(wrong) - set(marked)
    assert verdict.lit.extra == set(marked) - set(wrong)
    assert (verdict.why == ALL_WELL) == (not wrong and not marked)


@pytest.mark.parametrize(
    ("wrong", "instead"), [([SIDE], "1 label"), ([SIDE, PLEAT], "2 labels"), ([], "no labels")]
)
def test_the_sheet_turned_over_folds_too(wrong: list[int], instead: str) -> None:
    """Switching all labels but the wrong ones gives the true sheet seen from behind: right, but a slip."""
    marked = [crease for crease in SHEET.creases if crease not in wrong]
    verdict = judged(wrong_labels(wrong), marked)
    assert (verdict.right, verdict.slip) == (True, "more than needed")
    assert (verdict.misses, verdict.false_alarms) == (0, 0)
    assert verdict.answered == f"You marked {len(marked)} labels."
    assert verdict.truth == f"Also folds; fewer would do: {instead}."
    assert not judged(wrong_labels(wrong), marked[1:]).right


def test_another_sheet_that_folds_is_right() -> None:
    """Labels of another folding of the same creases, found with one label held the other way round."""
    free = SHEET.unlabelled().labels()
    held: tuple[Label, ...] = tuple("M" if crease == SIDE else free[crease] for crease in range(len(free)))
    other = solve_layers(SHEET.with_labels(held)).labels
    drill = wrong_labels([SIDE])
    verdict = judged(drill, differing(drill, other))
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
