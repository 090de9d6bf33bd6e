"""What a drill screen goes through: a round of practice, or the first three minutes."""

from __future__ import annotations

from typing import Protocol

from drills.questions import Drill, Verdict
from progress_store import Judged
from trainer.practice.attempts import Measured
from trainer.practice.choosing import Stage


class DrillSource(Protocol):
    """Drills one after the other, and what becomes of the answers."""

    @property
    def title(self) -> str:
        """What it is called."""

    @property
    def tells(self) -> str:
        """What is told before the drill in hand."""

    @property
    def progress(self) -> str:
        """How far it has come."""

    @property
    def seconds_left(self) -> int | None:
        """The time left, None where it does not go by time."""

    @property
    def tells_at_end(self) -> bool:
        """Whether no verdict is told, and no help given, before the end."""

    @property
    def stage(self) -> Stage:
        """How much of the drill in hand is done for the person."""

    @property
    def why(self) -> str:
        """Why the drill in hand is met, in one sentence."""

    def looked_at(self, drill: Drill) -> None:
        """Go on from a drill that was worked for the person."""

    def prepare(self) -> None:
        """Make the next drill, on any thread."""

    def next_drill(self) -> Drill | None:
        """Return the next drill, None at the end."""

    def keep(self, drill: Drill, verdict: Verdict, measured: Measured, helped: bool) -> Judged | None:
        """Keep an answer; StoreError where it cannot be written."""

    def keep_rest(self) -> None:
        """Keep what could not be written before; StoreError where it still cannot."""
