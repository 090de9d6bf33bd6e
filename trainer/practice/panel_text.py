"""What is said beside the board: the question and where the cursor is, then the verdict and the time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal, NamedTuple, TypeAlias

from drills.questions import Highlights, Slip, Verdict
from progress_store import Judged
from trainer.answering import NumbersInput
from trainer.practice.flow import Asking, Drawing, DrillFlow, Over, Told, Worked

SLIPS: Mapping[Slip, str] = {
    "exchanged": "Right numbers, the wrong way round",
    "not smallest": "Right line, not the smallest step",
    "more than needed": "Right, but fewer would do",
}


class Line(NamedTuple):
    """A line of words; a notice is said for the moment."""

    words: str = ""
    weight: Literal["plain", "bold", "notice"] = "plain"


class NumberField(NamedTuple):
    """A number of the answer that can be changed; 0 stands for none yet, ``waits``: for a second digit."""

    field: int
    name: str
    number: int
    is_in_hand: bool
    waits: bool


PanelText: TypeAlias = tuple[Line | NumberField, ...]


def panel_text(flow: DrillFlow) -> PanelText:
    """Return what is said of a drill now, from top to bottom."""
    match flow.state:
        case Over():
            return ()
        case Drawing():
            return (Line("Drawing the drill"),)
        case Asking(notice):
            return tuple(_asking(flow, notice))
        case Worked(_, verdict):
            return tuple(_worked_page(flow, verdict) if flow.source.tells else _worked(flow, verdict))
        case Told() as told:
            return tuple(_told(told))


def _asking(flow: DrillFlow, notice: str) -> Iterator[Line | NumberField]:
    question, answer_input = flow.drill.question, flow.input
    if notice:
        yield from (Line(notice, "notice"), Line())
    if flow.source.tells:
        yield from (Line(flow.source.tells), Line())
    yield Line(question.says[0], "bold")
    yield from map(Line, question.says[1:])
    yield Line()
    if isinstance(answer_input, NumbersInput):
        for field, number in enumerate(answer_input.numbers):
            is_in_hand = field == answer_input.at
            waits = is_in_hand and answer_input.waits
            yield NumberField(field, answer_input.names[field], number, is_in_hand, waits)
    yield from map(Line, answer_input.says())


def _worked(flow: DrillFlow, verdict: Verdict) -> Iterator[Line]:
    yield from (Line("New to you: this one is worked.", "notice"), Line())
    yield from map(Line, flow.drill.question.says)
    yield from (Line(), Line(verdict.truth, "bold"), Line(), Line(verdict.why), Line())
    yield Line("Enter  the next is half worked")


def _worked_page(flow: DrillFlow, verdict: Verdict) -> Iterator[Line]:
    yield from (Line(flow.source.tells), Line())
    yield Line(f"{flow.drill.question.says[0]} Worked for you:", "notice")
    yield from (Line(verdict.truth, "bold"), Line(verdict.why), Line())
    yield Line("Enter  now it is yours")


def _told(told: Told) -> Iterator[Line]:
    """Yield what was answered, what is true and why, and then whether it is kept."""
    verdict = told.verdict
    yield from (Line(headline(verdict, told.judged), "bold"), Line())
    yield from (Line(verdict.answered), Line(verdict.truth), Line(), Line(verdict.why), Line())
    yield from map(Line, filter(None, (*signs(verdict.lit), time_spent(told.judged), told.kept)))


def headline(verdict: Verdict, judged: Judged | None) -> str:
    """Return the verdict in a few words; what makes a right answer count as slow is named."""
    if not verdict.right:
        return "Missed."
    if verdict.slip:
        return f"{SLIPS[verdict.slip]}: it counts as slow." if judged else f"{SLIPS[verdict.slip]}."
    if judged is None or judged.result == "clean":
        return "Right."
    return "Right, with help." if judged.attempt.helped else "Right, but slowly."


def time_spent(judged: Judged | None) -> str:
    """Return the time a drill took and the person's pace at its like, as far as there are any."""
    if judged is None:
        return ""
    if judged.net_ms is None:
        return "Not timed: you were away for a while."
    took = f"Time to read: {judged.net_ms / 1000:.1f} s"
    return f"{took}; your pace here: {judged.goal_ms / 1000:.1f} s." if judged.goal_ms else f"{took}."


def signs(lit: Highlights) -> tuple[str, ...]:
    """Return what the signs on the board mean, those that are there, a line for each sort."""
    judged = (
        (lit.right or lit.right_points, "+ the true one" if lit.staircase else "+ right"),
        (lit.missed or lit.missed_points, "! missed"),
        (lit.extra or lit.extra_points, "× too many"),  # noqa: RUF001  (the board's sign)
    )
    lines = ["  ".join(words for there, words in judged if there)]
    lines += [
        f"{was}>{should_be}  was {was}, should be {should_be}" for _, was, should_be in lit.switches[:1]
    ]
    lines += [f"{mountains}M {valleys}V  out of balance" for _, mountains, valleys in lit.counts[:1]]
    lines += ["hatched, dotted: they go in"] * any(lit.going_in)
    return tuple(filter(None, lines))
