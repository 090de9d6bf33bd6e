"""What a drill screen goes through: a session of practice, the lesson, or the first three minutes."""

from __future__ import annotations

from abc import ABC, abstractmethod

from drills.questions import Drill, Verdict
from progress_store import Judged
from trainer.practice.attempts import Measured
from trainer.practice.choosing import Stage


class DrillSource(ABC):
    """Drills one after the other, what is told of them, and what becomes of the answers."""

    @property
    @abstractmethod
    def title(self) -> str:
        """What it is called."""

    @property
    @abstractmethod
    def subject(self) -> str:
        """What the drill in hand is about."""

    @property
    @abstractmethod
    def progress(self) -> str:
        """How far it has come."""

    @property
    @abstractmethod
    def why(self) -> str:
        """Why the drill in hand is met, in one sentence."""

    @property
    def heading(self) -> str:
        """What names the drill in hand where no code makes it; empty where one does."""
        return ""

    @property
    def tells(self) -> str:
        """What is told before the drill in hand, and above its answer where that is worked."""
        return ""

    @property
    def stage(self) -> Stage:
        """How much of the drill in hand is done for the person."""
        return "alone"

    @property
    def seconds_left(self) -> int | None:
        """The time left, None where it does not go by time."""
        return None

    @property
    def tells_at_end(self) -> bool:
        """Whether no verdict is told, and no help given, before the end."""
        return False

    @property
    def turns_pages(self) -> bool:
        """Whether it has pages that can be turned on and back."""
        return False

    @abstractmethod
    def next_drill(self) -> Drill | None:
        """Return the next drill, None at the end; DrillError where it cannot be shown."""

    @abstractmethod
    def keep(self, drill: Drill, verdict: Verdict, measured: Measured, helped: bool) -> Judged | None:
        """Keep an answer; StoreError where it cannot be written."""

    def keep_rest(self) -> None:
        """Keep what could not be written before; StoreError where it still cannot."""
        return

    def looked_at(self, drill: Drill) -> None:
        """Go on from a drill that was worked for the person."""
        return

    def prepare(self) -> None:
        """Make the next drill, on any thread."""
        return

    def turn_on(self) -> bool:
        """Turn to the next page; whether there is one."""
        return False

    def turn_back(self) -> bool:
        """Turn to the beginning of the page, or to the page before; whether there is one."""
        return False
