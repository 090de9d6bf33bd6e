"""The certificate finds a fault in every drill that was tampered with, and in every broken generator."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction

import pytest

from drills.flatfold import completions, failing, folds, solve_layers
from drills.geometry import Point, Step
from drills.pattern import CreasePattern, Label
from drills.questions import Code, Drill, DrillError, Marks, Outlines, certify, make, read_code
from drills.structures import draw
from tests.drills.questions.codes import FORMS, drills, levels_of
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


def faults_of(drill: Drill) -> tuple[str, ...]:
    """Return what the certificate finds in a drill."""
    return certify(drill.truth, drill.pattern, drill.question)


@pytest.fixture(autouse=True)
def made_anew() -> Iterator[None]:
    """Drills that a broken generator made are not remembered."""
    yield
    make.cache_clear()


@pytest.mark.parametrize(
    ("drill", "answers"),
    [
        (read_side(), [Step(3, -1, 1), Step(6, -2, 1), Step(3, 1, 2), Step(1, -3, 2)]),
        (place_side(), [Point(7, 4), Point(4, 2)]),
        (
            mark_inside(),
            [of_role("outline"), of_role("inside") | {0}, frozenset({edge((1, 1), (9, 7))}), frozenset()],
        ),
        (mark_points(), [frozenset({vertex(4, 2)}), frozenset({vertex(1, 1)}), frozenset()]),
        (join_points(), [frozenset({vertex(6, 6)}), frozenset({vertex(8, 5), vertex(6, 6)}), frozenset()]),
        (wrong_labels([edge((1, 1), (4, 2))]), [frozenset({edge((4, 2), (7, 2))}), frozenset()]),
        (wrong_labels([]), [frozenset({edge((1, 1), (4, 2))})]),
        (
            find_stretch(),
            [
                Outlines(()),
                Outlines((of_role("inside"),)),
                Outlines((of_role("outline") - {edge((1, 1), (4, 2))},)),
                Outlines((of_role("outline"),) * 2),
            ],
        ),
    ],
)
def test_a_wrong_answer_is_not_certain(drill: Drill, answers: list[object]) -> None:
    """Of each form: a step not reduced or turned, too few and too many marks, another point or outline."""
    assert faults_of(drill) == ()
    for answer in answers:
        given = Marks(answer) if isinstance(answer, frozenset) else answer
        assert faults_of(replace(drill, question=replace(drill.question, answer=given))) != ()


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_a_switched_label_of_the_true_sheet_is_found(kind: str, form: str) -> None:
    """Whichever crease of the true sheet is switched, its inner ends are named."""
    for level in levels_of(kind)[::2]:
        (drill,) = drills(kind, form, level, range(7, 8))
        for crease in drill.truth.creases[:: 5 + len(drill.truth.creases) // 20]:
            found = faults_of(replace(drill, truth=drill.truth.switched([crease])))
            ends = drill.truth.interior_ends[crease]
            assert found[: len(ends)] == tuple(
                f"The labels at vertex {end} cannot fold." for end in sorted(ends)
            )


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_a_moved_vertex_is_found(kind: str, form: str) -> None:
    """A point a third of a square to the right and a fifth up spoils the angles at itself or beside it."""
    for level in levels_of(kind)[::2]:
        (drill,) = drills(kind, form, level, range(7, 8))
        for at in drill.truth.interior[:: 1 + len(drill.truth.interior) // 15]:
            x, y = drill.truth.vertices[at]
            aside = Point(x + Fraction(1, 3), y + Fraction(1, 5))
            points = tuple(aside if v == at else p for v, p in enumerate(drill.truth.vertices))
            found = faults_of(replace(drill, truth=replace(drill.truth, vertices=points)))
            assert any(sentence.startswith("The angles at vertex") for sentence in found)


def test_labels_that_fold_at_every_point_but_have_no_layers_are_found() -> None:
    """Many labellings that pass at every point cross themselves; the layers alone refuse such a sheet."""
    drill = make(read_code("sinks-2-1"))
    assert faults_of(drill) == ()
    refused = 0
    for labels in some_labellings(drill.truth):
        crossing = drill.truth.with_labels(labels)
        found = faults_of(replace(drill, truth=crossing))
        assert found in ((), ("No order of the layers was found for the sheet.",))
        refused += bool(found)
    assert refused > 10


def some_labellings(pattern: CreasePattern) -> Iterator[tuple[Label, ...]]:
    """Yield forty labellings of a pattern that fold at every point, far apart in their order."""
    found = completions(pattern.unlabelled(), pattern.unlabelled().labels())
    for number, labels in enumerate(found):
        if number >= 40:
            return
        assert not failing(pattern, labels, folds)
        yield labels


def test_labels_shown_that_are_not_the_true_ones_with_the_wrong_switched_are_found() -> None:
    """One more label switched on the sheet shown, or one less, and the repaired sheet is not the true one."""
    drill = wrong_labels([edge((1, 1), (4, 2))])
    for shown in (SHEET, drill.pattern.switched([edge((4, 2), (7, 3))])):
        assert any("is not repaired" in fault for fault in faults_of(replace(drill, pattern=shown)))


def test_other_paper_or_other_creases_than_those_of_the_sheet_are_found() -> None:
    """A sheet shown that is larger, and one with a crease left out."""
    drill = mark_inside()
    moved = replace(drill.pattern, vertices=tuple(Point(2 * x, 2 * y) for x, y in drill.pattern.vertices))
    assert "The paper shown is not the paper of the sheet." in faults_of(replace(drill, pattern=moved))
    fewer = replace(drill.pattern, edges=drill.pattern.edges[1:])
    assert "The creases shown are not those of the sheet." in faults_of(replace(drill, pattern=fewer))


@pytest.mark.parametrize(
    ("broken", "code"),
    [
        # the search that says that the labels chosen are the one smallest repair
        ("drills.questions.labels.is_settled_in_full", "labels-4"),
        # and that counting settles it on the lower levels
        ("drills.questions.labels.is_settled_by_counting", "labels-3"),
    ],
)
def test_a_generator_that_does_not_check_its_repairs_is_refused(
    monkeypatch: pytest.MonkeyPatch, broken: str, code: str
) -> None:
    """With the generator's own check always saying yes some drills are wrong, and the certificate sees it."""
    monkeypatch.setattr(broken, lambda *_: True)
    make.cache_clear()
    refused = [seed for seed in range(60) if is_refused(f"{code}-{seed}", "mends it as well")]
    assert len(refused) >= 3


def without_inside_lines(pattern: CreasePattern) -> CreasePattern:
    """Return the pattern as a generator would draw it that forgets the inside lines."""
    return replace(pattern, edges=tuple(each for each in pattern.edges if each.role != "inside"))


def all_mountains(pattern: CreasePattern) -> CreasePattern:
    """Return the pattern as a generator would label it that does not let ranks take turns."""
    return pattern.with_labels("B" if label == "B" else "M" for label in pattern.labels())


def crossing(pattern: CreasePattern) -> CreasePattern:
    """Return the pattern as a generator would label it that looks at each point but at no layers."""
    labelled = (pattern.with_labels(labels) for labels in some_labellings(pattern))
    return next(each for each in labelled if solve_layers(each).folds is False)


@pytest.mark.parametrize(
    ("place", "spoil", "code", "fault"),
    [
        ("sinks.draw", without_inside_lines, "sinks-2-3", "The angles at vertex"),
        ("steps.draw", all_mountains, "steps-2-3", "The labels at vertex"),
        ("sinks.draw", crossing, "sinks-2-1", "No order of the layers"),
        ("find.draw", all_mountains, "find-6-1", "The labels at vertex"),
    ],
)
def test_a_generator_that_draws_a_wrong_sheet_is_refused(
    monkeypatch: pytest.MonkeyPatch,
    place: str,
    spoil: Callable[[CreasePattern], CreasePattern],
    code: str,
    fault: str,
) -> None:
    """Angles, labels and layers, each broken where the sheet is drawn, are named by the certificate."""
    monkeypatch.setattr(f"drills.questions.{place}", lambda design: spoil(draw(design)))
    make.cache_clear()
    assert is_refused(code, fault)


@pytest.mark.parametrize(
    ("place", "broken", "code", "fault"),
    [
        (
            "sinks.turning_points",
            lambda pattern: list(pattern.interior),
            "sinks-2-3-points",
            "is not a turning point",
        ),
        (
            "sinks.turning_points",
            lambda pattern: list(pattern.interior),
            "sinks-2-3-join",
            "turning point of",
        ),
        ("find.drawn_outlines", lambda design: (frozenset({0}),), "find-2-1", "No stretch has edges"),
        ("steps.step_between", lambda start, end: Step(1, 1, 1), "steps-1-3", "no straight line"),
        ("steps.step_between", lambda start, end: Step(99, 1, 1), "steps-1-3-place", "off the sheet"),
    ],
)
def test_a_generator_that_gives_a_wrong_answer_is_refused(
    monkeypatch: pytest.MonkeyPatch, place: str, broken: Callable[..., object], code: str, fault: str
) -> None:
    """Whatever the generator takes for the answer, the certificate finds another one."""
    monkeypatch.setattr(f"drills.questions.{place}", broken)
    make.cache_clear()
    assert is_refused(code, fault)


def is_refused(code: str, fault: str) -> bool:
    """Whether the drill of a code is refused, with such a fault among those named."""
    try:
        make(read_code(code))
    except DrillError as error:
        return any(re.search(fault, each) for each in error.faults)
    return False


def test_a_drill_with_a_fault_is_never_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    """The maker raises rather than give out a drill whose certificate fails, and says for which code."""
    monkeypatch.setattr("drills.questions.registry.certify", lambda *_: ("The answer is not certain.",))
    with pytest.raises(DrillError, match=r"The drill steps-1-987654 failed its own check") as refusal:
        make(Code("steps", 1, 987654))
    assert refusal.value.faults == ("The answer is not certain.",)


def test_the_same_code_gives_the_same_drill() -> None:
    """Made a second time from nothing, a drill is equal in every part."""
    for text in ("steps-4-5", "sinks-4-5-join", "labels-4-5", "find-4-5", "sinks-6-5", "labels-7-5"):
        first = make(read_code(text))
        make.cache_clear()
        second = make(read_code(text))
        assert first is not second
        assert first == second
