"""Drills on a sheet of a person's own, one seed after the other; nothing of them goes into the record.

One sheet met over and over is learnt by heart, and says nothing of reading fresh ones.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from drills.questions import KINDS, Drill, OwnCode, Verdict, make_own
from drills.structures import OwnSheet
from trainer.practice.attempts import Measured
from trainer.practice.drill_source import DrillSource
from trainer.practice.making import Wanted, made


class OwnTask(NamedTuple):
    """A sheet, the code of the first drill on it, and the name of its file."""

    sheet: OwnSheet
    code: OwnCode
    name: str


@dataclass(frozen=True)
class OwnMaker:
    """Makes one drill of a sheet; another process may be given it."""

    sheet: OwnSheet
    code: OwnCode

    def __call__(self) -> Drill:
        """Return the drill."""
        return make_own(self.sheet, self.code)


class OwnRound(DrillSource):
    """Fresh drills of one kind on one sheet, until it is left."""

    def __init__(self, task: OwnTask) -> None:
        self._task, self._begun = task, 0

    @property
    def title(self) -> str:
        """The name of the file."""
        return self._task.name

    @property
    def subject(self) -> str:
        """The kind of question."""
        return KINDS[self._task.code.kind].title

    @property
    def progress(self) -> str:
        """The number of the drill in hand."""
        return f"Drill {self._begun}"

    @property
    def why(self) -> str:
        """Why the drill in hand is met."""
        return "You chose to practise on your own sheet. It is not kept in the record."

    def next_drill(self, take: Callable[[Wanted], Drill] = made) -> Drill:
        """Return the drill of the next seed."""
        drill = take(self._maker())
        self._begun += 1
        return drill

    def coming(self) -> Iterator[Wanted]:
        """Yield how to make the next one."""
        yield self._maker()

    def keep(self, drill: Drill, verdict: Verdict, measured: Measured, helped: bool) -> None:
        """Keep nothing."""

    def _maker(self) -> OwnMaker:
        code = self._task.code
        return OwnMaker(self._task.sheet, code._replace(seed=code.seed + self._begun))
