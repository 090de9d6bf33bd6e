"""The panel beside the board: the question and where the hand is, then the verdict."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from drills.questions import Drill, Highlights, Slip, Verdict
from progress_store import Judged
from trainer.answering import AnswerInput, ReadingInput
from trainer.screens.lines import link

SLIPS: Mapping[Slip, str] = {
    "exchanged": "Right numbers, the wrong way round",
    "not smallest": "Right line, not the smallest step",
    "more than needed": "Right, but fewer would do",
}


class Panel(VerticalScroll, can_focus=False):
    """Text beside the board; nothing in it takes the keys away from the drill."""

    def __init__(self) -> None:
        super().__init__(Static("", id="panel-text"), id="panel")

    def ask(self, drill: Drill, hand: AnswerInput[Any], tells: str, notice: str) -> None:
        """Show the question, where the hand is, and what must be said now."""
        first, *more = drill.question.says
        self._write(
            [
                *([Content.styled(notice, "bold italic"), Content("")] if notice else []),
                *([Content(tells), Content("")] if tells and not notice else []),
                Content.styled(first, "bold"),
                *map(Content, more),
                Content(""),
                *(_numbers(hand) if isinstance(hand, ReadingInput) else ()),
                *map(Content, hand.says()),
            ]
        )

    def work(self, drill: Drill, verdict: Verdict) -> None:
        """Show a drill that is worked for the person: the question, what is true and why."""
        self._write(
            [
                Content.styled("New to you: this one is worked.", "bold italic"),
                Content(""),
                *map(Content, drill.question.says),
                Content(""),
                Content.styled(verdict.truth, "bold"),
                Content(""),
                Content(verdict.why),
                Content(""),
                Content("Enter  the next is half worked"),
            ]
        )

    def work_page(self, tells: str, drill: Drill, verdict: Verdict) -> None:
        """Show a page of the lesson with a worked drill: what is told, asked, true, and why."""
        self._write(
            [
                Content(tells),
                Content(""),
                Content.styled(f"{drill.question.says[0]} Worked for you:", "bold italic"),
                Content.styled(verdict.truth, "bold"),
                Content(verdict.why),
                Content(""),
                Content("Enter  now it is yours"),
            ]
        )

    def tell(self, verdict: Verdict, judged: Judged | None, kept: str) -> None:
        """Show what was answered, what is true and why, and then whether it is kept."""
        self._write(
            [
                Content.styled(headline(verdict, judged), "bold"),
                Content(""),
                Content(verdict.answered),
                Content(verdict.truth),
                Content(""),
                Content(verdict.why),
                Content(""),
                *map(Content, filter(None, (signs(verdict.lit), spent(judged), kept))),
            ]
        )

    def _write(self, lines: Iterable[Content]) -> None:
        self.query_one("#panel-text", Static).update(Content("\n").join(lines))
        self.scroll_home(animate=False)


def headline(verdict: Verdict, judged: Judged | None) -> str:
    """Return the verdict in a few words; what makes a right answer count as slow is named."""
    if not verdict.right:
        return "Missed."
    if verdict.slip:
        return f"{SLIPS[verdict.slip]}: it counts as slow." if judged else f"{SLIPS[verdict.slip]}."
    if judged is None or judged.result == "clean":
        return "Right."
    return "Right, with help." if judged.attempt.helped else "Right, but slowly."


def spent(judged: Judged | None) -> str:
    """Return the time a drill took and the person's pace at its like, as far as there are any."""
    if judged is None:
        return ""
    if judged.net_ms is None:
        return "Not timed: you were away for a while."
    took = f"Time to read: {judged.net_ms / 1000:.1f} s"
    return f"{took}; your pace here: {judged.goal_ms / 1000:.1f} s." if judged.goal_ms else f"{took}."


def signs(lit: Highlights) -> str:
    """Return what the signs on the board mean, those that are there."""
    shown = (
        (lit.right or lit.right_points, "+ the true one" if lit.staircase else "+ right"),
        (lit.missed or lit.missed_points, "? missed"),
        (lit.extra or lit.extra_points, "× too many"),  # noqa: RUF001  (the board's sign)
        (lit.faults, "! out of balance"),
    )
    return "  ".join(words for there, words in shown if there)


def _numbers(hand: ReadingInput) -> list[Content]:
    return [_number(hand, field) for field in range(len(hand.numbers))]


def _number(hand: ReadingInput, field: int) -> Content:
    """Return one number with signs to click for more and less; the one in hand has a pointer before it."""
    number = str(hand.numbers[field]) if hand.numbers[field] else "_"
    return Content.assemble(
        "> " if field == hand.at else "  ",
        link("[-]", f"change({field}, -1)"),
        " ",
        (f"{number:>2}", "bold reverse" if field == hand.at else "bold"),
        " ",
        link("[+]", f"change({field}, 1)"),
        " ",
        hand.names[field],
    )
