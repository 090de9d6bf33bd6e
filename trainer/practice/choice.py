"""What is asked next and why, and how much of it is done for the person."""

from __future__ import annotations

from typing import Literal, NamedTuple

from drills.questions.kinds import kind_of

Reason = Literal["return", "partner", "round", "slow", "harder", "new", "known"]
Stage = Literal["worked", "half", "alone"]


class Choice(NamedTuple):
    """A skill to be met at a level, and why; ``stage`` says how much of the drill is done for the person."""

    skill: str
    level: int
    reason: Reason
    stage: Stage = "alone"

    @property
    def kind(self) -> str:
        """The kind of question."""
        return kind_of(self.skill)[0]
