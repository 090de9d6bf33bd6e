"""The way of a drill by the names of actions alone, without a screen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from drills.questions import Code, Drill, DrillError, Verdict, make, read_code
from progress_store import Judged, StoreError
from tests.trainer.practice.making import Hands, store
from trainer.answering import PointsInput
from trainer.practice.attempts import Measured
from trainer.practice.choosing import Stage
from trainer.practice.drill_source import DrillSource
from trainer.practice.first_minutes import FIRST_MINUTES
from trainer.practice.flow import Asking, DrillFlow, Over, Told, Worked
from trainer.practice.lesson import Lesson, LessonPlan
from trainer.practice.lesson_pages import LESSON
from trainer.practice.making import Wanted, made
from trainer.practice.panel_text import Line, NumberField, panel_text
from trainer.practice.rounds import picked

READ, MARK = make(Code("steps", 1, 3)), make(Code("sinks", 1, 7))
POINTS = make(Code("sinks", 1, 7, form="points"))
RIGHT = ("number 4", "number 3", "answer")
"""The step of READ is 4 across and 3 up or down, read off its sheet."""


class Given(DrillSource):
    """Given drills at one stage; what was kept of them is noted."""

    title, subject, progress, why = "Given drills", "Drills", "1 of 1", "It was given."

    def __init__(self, *drills: Drill, stage: Stage = "alone", tells: str = "", at_end: bool = False) -> None:
        self.drills = list(drills)
        self._stage, self._tells, self._at_end = stage, tells, at_end
        self.kept: list[tuple[bool, Measured, bool]] = []
        self.looked: list[Drill] = []
        self.refuses = False

    @property
    def stage(self) -> Stage:
        """The stage of every drill."""
        return self._stage

    @property
    def tells(self) -> str:
        """What was given to tell."""
        return self._tells

    @property
    def tells_at_end(self) -> bool:
        """Whether no verdict is told."""
        return self._at_end

    def next_drill(self, take: Callable[[Wanted], Drill] = made) -> Drill | None:
        """Return the next one."""
        return self.drills.pop(0) if self.drills else None

    def keep(self, drill: Drill, verdict: Verdict, measured: Measured, helped: bool) -> Judged | None:
        """Note the answer, or refuse."""
        if self.refuses:
            raise StoreError("The disk is full.")
        self.kept.append((verdict.right, measured, helped))
        return None

    def looked_at(self, drill: Drill) -> None:
        """Note it."""
        self.looked.append(drill)


def begun(
    source: DrillSource, hands: Hands | None = None, warn: Callable[[str], None] = lambda _: None
) -> DrillFlow:
    """Return the flow at the first drill of a source."""
    timed = hands or Hands()
    flow = DrillFlow(source, timed.clock.ticks, warn)
    flow.begin_next()
    return flow


def press(flow: DrillFlow, *actions: str) -> None:
    """Press actions, each a name and, where it takes one, a key."""
    for action in actions:
        flow.press(*action.split())


def words(flow: DrillFlow) -> list[str]:
    """Return the lines of the panel that say something."""
    return [line.words for line in panel_text(flow) if isinstance(line, Line) and line.words]


def test_a_drill_is_asked_answered_told_and_gone_on_from() -> None:
    """And when no drill is left it is over."""
    source = Given(READ, MARK)
    flow = begun(source)
    assert flow.state == Asking()
    press(flow, *RIGHT)
    assert isinstance(flow.state, Told)
    assert flow.state.verdict.right
    press(flow, "go_on")
    assert (flow.drill, flow.state) == (MARK, Asking())
    press(flow, "mark", "answer", "go_on")
    assert isinstance(flow.state, Over)
    assert len(source.kept) == 2


def test_nothing_is_judged_while_something_is_missing() -> None:
    """What is missing is said until the next input."""
    flow = begun(Given(READ))
    press(flow, "number 4", "answer")
    assert flow.state == Asking(flow.input.missing())
    assert words(flow)[0] == flow.input.missing()
    press(flow, "number 3")
    assert flow.state == Asking()


def test_a_number_that_begins_with_0_is_refused_in_words() -> None:
    """No slanted crease goes 0 across; nothing is lost, and a digit may follow."""
    flow = begun(Given(READ))
    press(flow, "number 0")
    assert words(flow)[0] == "No number here is 0: type one from 1 up."
    press(flow, *RIGHT)
    assert isinstance(flow.state, Told)
    assert flow.state.verdict.right


def test_only_where_there_may_be_none_the_key_for_it_is_named() -> None:
    """A question that says what is to be marked does not ask for 0."""
    flow = begun(Given(MARK, replace(MARK, question=replace(MARK.question, says=("Mark all.",)))))
    press(flow, "answer")
    assert "0" in words(flow)[0]
    press(flow, "nothing", "go_on", "answer")
    assert words(flow)[0] == "Nothing is marked yet."


def test_a_key_meant_for_the_verdict_does_not_answer_the_next_drill() -> None:
    """Just after going on by itself; a little later it counts."""
    hands = Hands()
    flow = begun(Given(MARK, MARK), hands)
    press(flow, "mark", "answer")
    told = flow.state
    assert isinstance(told, Told)
    flow.go_on_by_itself(told)
    press(flow, "mark", "answer")
    assert flow.state == Asking()
    hands.wait(0.4)
    press(flow, "mark", "answer")
    assert isinstance(flow.state, Told)


def test_what_was_marked_for_the_person_is_not_counted_as_theirs() -> None:
    """Nor does Enter answer with nothing else; the verdict counts the rest."""
    flow = begun(Given(POINTS, stage="half"))
    assert isinstance(flow.input, PointsInput)
    press(flow, "answer")
    assert words(flow)[0] == "2 were marked for you. Mark the rest."
    assert "Marked: 2, 2 for you" in words(flow)
    for left in POINTS.question.answer.items - set(flow.input.marks):
        while flow.input.under_cursor() != left:
            press(flow, "next_point")
        press(flow, "mark")
    press(flow, "answer")
    assert isinstance(flow.state, Told)
    assert flow.state.verdict.right
    assert flow.state.verdict.answered == "2 were marked for you. You marked 2 points: 2 right."


def test_help_is_said_counts_and_stays_counted() -> None:
    """The hint goes with the next input, that there was one does not."""
    source = Given(READ)
    flow = begun(source)
    press(flow, "hint")
    assert flow.state == Asking(READ.question.hint(READ), helped=True)
    press(flow, *RIGHT)
    assert [helped for _, _, helped in source.kept] == [True]


def test_marks_are_not_thrown_away_by_the_key_for_nothing() -> None:
    """It answers only where nothing is marked."""
    source = Given(MARK)
    flow = begun(source)
    press(flow, "mark", "nothing")
    assert isinstance(flow.state, Asking)
    assert flow.state.notice
    press(flow, "undo", "nothing")
    assert isinstance(flow.state, Told)


def test_actions_are_those_of_the_question_or_of_the_verdict() -> None:
    """Others do nothing: marks where a number is asked for, going on before the answer."""
    flow = begun(Given(READ))
    assert flow.allows("number")
    assert not flow.allows("mark")
    press(flow, "mark", "go_on", "page_on")
    assert (flow.drill, flow.state) == (READ, Asking())
    press(flow, *RIGHT)
    assert flow.allows("go_on")
    assert not flow.allows("number")
    assert flow.allows("theme"), "what belongs to no drill always works"


def test_what_is_worked_shows_its_answer_and_is_only_looked_at() -> None:
    """It is not judged as the person's, and going on says that it was seen."""
    source = Given(READ, stage="worked")
    flow = begun(source)
    assert isinstance(flow.state, Worked)
    assert flow.state.verdict.right
    assert flow.state.verdict.truth in words(flow)
    assert "New to you: this one is worked." in words(flow)
    press(flow, "go_on")
    assert (source.looked, source.kept) == ([READ], [])


def test_what_is_half_worked_is_begun_and_says_so() -> None:
    """Where a page tells that already, it is not said twice."""
    flow = begun(Given(READ, stage="half"))
    assert isinstance(flow.state, Asking)
    assert "counted for you" in flow.state.notice
    (first, _) = [line for line in panel_text(flow) if isinstance(line, NumberField)]
    assert (first.number, first.is_in_hand) == (4, False)
    told = begun(Given(READ, stage="half", tells="One is counted.")).state
    assert isinstance(told, Asking)
    assert told.notice == ""
    # what is done for the person still stands after the first input, and goes with the second
    said = flow.state.notice
    flow.press("number", "3")
    assert isinstance(flow.state, Asking)
    assert flow.state.notice == said
    flow.press("undo")
    assert flow.state.notice == ""


def test_without_a_verdict_in_between_the_next_question_follows() -> None:
    """There is no help either; an answer that is not kept is told of all the same."""
    warned: list[str] = []
    source = Given(READ, MARK, at_end=True)
    flow = begun(source, warn=warned.append)
    assert not flow.allows("hint")
    source.refuses = True
    press(flow, *RIGHT)
    assert (flow.drill, flow.state) == (MARK, Asking())
    assert warned == ["Not kept yet: The disk is full."]


def test_an_answer_that_is_not_kept_says_so() -> None:
    """With the verdict, which is told all the same."""
    source = Given(READ)
    source.refuses = True
    flow = begun(source)
    press(flow, *RIGHT)
    assert isinstance(flow.state, Told)
    assert words(flow)[-1] == "Not kept yet: The disk is full."


def test_why_is_said_before_the_answer() -> None:
    """Until the next input."""
    flow = begun(Given(READ))
    press(flow, "why")
    assert words(flow)[0] == "It was given."


@pytest.mark.parametrize("goes_on_after_right", [True, False])
def test_only_a_clean_answer_goes_on_by_itself(tmp_path: Path, goes_on_after_right: bool) -> None:
    """Where the person wants that, and as long as nothing else is pressed."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = picked(kept, hands.clock, read_code("steps-1-3"))
        flow = DrillFlow(session, hands.clock.ticks, lambda _: None, goes_on_after_right)
        flow.begin_next()
        press(flow, *RIGHT)
        assert isinstance(flow.state, Told)
        assert flow.state.goes_on is goes_on_after_right
        assert flow.state.kept == "Kept. It is in your record."
        flow.stays()
        assert not flow.state.goes_on
        press(flow, "go_on", "number 9", "number 9", "number 9", "answer")
        assert isinstance(flow.state, Told)
        assert flow.state.kept == "Kept."
        assert not flow.state.goes_on


def test_time_inputs_and_device_are_measured() -> None:
    """From the question to the answer; whoever leaves the window has no time."""
    hands = Hands()
    source = Given(READ, READ)
    flow = begun(source, hands)
    flow.touched("mouse")
    hands.wait(2)
    press(flow, *RIGHT[:2])
    hands.wait(1)
    press(flow, "answer")
    (_, measured, _) = source.kept[0]
    assert (measured.milliseconds, measured.inputs, measured.means) == (3000, 3, "mouse")
    press(flow, "go_on")
    flow.left_window()
    press(flow, *RIGHT)
    assert source.kept[1][1].milliseconds is None


def test_a_drill_that_fails_its_own_check_ends_with_its_sentence() -> None:
    """The one that the error itself carries."""

    class Failing(Given):
        def next_drill(self, take: Callable[[Wanted], Drill] = made) -> Drill | None:
            """Fail."""
            raise DrillError(Code("steps", 1, 3), ("No.",))

    warned: list[str] = []
    flow = begun(Failing(), warn=warned.append)
    assert isinstance(flow.state, Over)
    assert warned == [str(DrillError(Code("steps", 1, 3), ()))]


def test_pages_are_turned_only_where_there_are_pages_to_turn() -> None:
    """The lesson remembers each page that it reaches; the first minutes go one way."""
    reached: list[int] = []
    flow = begun(Lesson(LESSON, remember=reached.append))
    press(flow, "page_on", "page_on", "page_back")
    assert reached == [1, 2, 3, 2]
    first = begun(Lesson(FIRST_MINUTES))
    press(first, "page_on")
    assert first.source.progress.startswith("1 of")


@pytest.mark.parametrize("plan", [LESSON, FIRST_MINUTES], ids=lambda plan: plan.title)
def test_drills_that_no_code_makes_are_named_for_their_page(plan: LessonPlan) -> None:
    """A code would make another drill."""
    lesson = Lesson(plan)
    drill = lesson.next_drill()
    assert drill is not None
    assert drill.spec.code is None
    assert lesson.heading == f"{lesson.title}, page {lesson.progress}: {lesson.page.title}."


def test_a_session_names_its_drills_by_their_codes(tmp_path: Path) -> None:
    """So it has no heading of its own."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = picked(kept, hands.clock, read_code("steps-1-3"))
        assert session.next_drill() == READ
        assert session.heading == ""
