"""The first three minutes: three small tasks on one smallest sheet, each shown how, none of them counted."""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

from drills.geometry import Chance
from drills.questions import Drill, Spec, Verdict, labels, sinks, steps
from drills.structures import Stretch
from trainer.practice.attempts import Measured
from trainer.practice.choosing import Stage

SHEET = Stretch((1, 1), hinges=("steep", "shallow"), pleats=1)


class Page(NamedTuple):
    """What is told, and the drill that follows from it."""

    tells: str
    drill: Drill


def pages() -> tuple[Page, ...]:
    """Return the three pages: read a side, mark the inside line, find the wrong label."""
    return (
        Page(
            "Most creases run along the grid or at 45 degrees. The four slanted ones are the outline of a "
            "slanted stretch (Pythagorean stretch). Each goes from dot to dot in whole squares.",
            _asking(steps.make(_spec("steps", "read", "1:3"), Chance("walk")), "Read the lit side."),
        ),
        Page(
            "When the sheet folds, the two triangles inside the outline go in. The line between them sinks. "
            "Arrows go from point to point, < and > turn to a crease, Space marks it; or click it.",
            _asking(sinks.make(_spec("sinks", "mark", "equal few"), Chance("walk")), "Mark the inside line."),
        ),
        Page(
            "M is a mountain, V a valley. At every point inside the sheet their numbers differ by 2. One "
            "label is wrong, so the count is off at the ends of its crease.",
            _asking(labels.make(_spec("labels", "mark", "one"), Chance("walk 3")), "Mark the wrong label."),
        ),
    )


def _asking(drill: Drill, *says: str) -> Drill:
    """Return the drill with its question put in these words."""
    return replace(drill, question=replace(drill.question, says=says))


def _spec(kind: str, form: str, detail: str) -> Spec:
    return Spec(kind, 1, form, f"{kind} {detail}", SHEET, detail)


class Walk:
    """A sitting of the three pages; answers are judged and told, but not kept."""

    title = "The first three minutes"
    minutes = None
    seconds_left = None
    tells_at_end = False
    stage: Stage = "alone"
    why = "You met this because it is shown once to everybody who begins."

    def __init__(self) -> None:
        self._pages = pages()
        self._turned = 0

    @property
    def is_over(self) -> bool:
        """Whether the last page was gone on from."""
        return self._turned > len(self._pages)

    @property
    def progress(self) -> str:
        """Which page it is."""
        return f"{self._turned} of {len(self._pages)}"

    @property
    def tells(self) -> str:
        """What the page in hand tells."""
        return self._pages[self._turned - 1].tells

    def looked_at(self, drill: Drill) -> None:
        """Keep nothing."""

    def prepare(self) -> None:
        """Make nothing: the pages are there."""

    def next_drill(self) -> Drill | None:
        """Return the next page's drill, None after the last."""
        self._turned += 1
        return None if self.is_over else self._pages[self._turned - 1].drill

    def keep(self, drill: Drill, verdict: Verdict, measured: Measured, helped: bool) -> None:
        """Keep nothing: this is for looking round."""

    def keep_rest(self) -> None:
        """Keep nothing."""
