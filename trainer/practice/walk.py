"""The first three minutes: three small tasks on one smallest sheet, each shown how, none of them counted."""

from __future__ import annotations

from typing import NamedTuple

from drills.exact.chance import Chance
from drills.questions import labels, sinks, steps
from drills.questions.code import Code
from drills.questions.drill import Drill
from drills.questions.spec import Spec
from drills.questions.verdict import Verdict
from drills.structures.stretch import Stretch
from trainer.practice.watch import Measured

SHEET = Stretch((1, 1), hinges=("steep", "shallow"), pleats=1)


class Page(NamedTuple):
    """What is told, and the drill that follows from it."""

    tells: str
    drill: Drill


def pages() -> tuple[Page, ...]:
    """Return the three pages: read a side, mark the inside line, find the wrong label."""
    return (
        Page(
            "Most creases here run along the grid or at 45 degrees. Four do not: they are the outline of a "
            "slanted stretch (in full: Pythagorean stretch). Such a crease goes from dot to dot in whole "
            "squares. Read the lit one: count across, then down or up.",
            steps.make(_spec("steps", "read", "1:3"), Chance("walk")),
        ),
        Page(
            "One crease runs inside the outline, from far corner to far corner. When the sheet folds, the "
            "two triangles beside it go in: it is an interior sink line. Mark it: go to one of its ends "
            "with the arrows, turn to it with < or >, press Space. Or click it.",
            sinks.make(_spec("sinks", "mark", "equal few"), Chance("walk")),
        ),
        Page(
            "M is a mountain, V a valley. At every point inside the sheet their numbers must differ by 2. "
            "Here one label is wrong, so the count is off at the ends of one crease. Find it and mark it.",
            labels.make(_spec("labels", "mark", "one"), Chance("walk 3")),
        ),
    )


def _spec(kind: str, form: str, detail: str) -> Spec:
    return Spec(Code(kind, 1, 0), form, f"{kind} {detail}", SHEET, detail)


class Walk:
    """A sitting of the three pages; answers are judged and told, but not kept."""

    title = "The first three minutes"
    minutes = None
    seconds_left = None

    def __init__(self) -> None:
        self._pages = pages()
        self._turned = 0

    @property
    def progress(self) -> str:
        """Which page it is."""
        return f"{self._turned} of {len(self._pages)}"

    @property
    def tells(self) -> str:
        """What the page in hand tells."""
        return self._pages[self._turned - 1].tells if self._turned else ""

    def next_drill(self) -> Drill | None:
        """Return the next page's drill, None after the last."""
        if self._turned == len(self._pages):
            return None
        self._turned += 1
        return self._pages[self._turned - 1].drill

    def keep(self, drill: Drill, verdict: Verdict, measured: Measured, helped: bool) -> None:
        """Keep nothing: this is for looking round."""
