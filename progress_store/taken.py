"""What is taken for what: of each skill, how often something was missed, marked wrongly or exchanged."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from progress_store.attempt import Attempt


class Taken(NamedTuple):
    """How many drills of a skill had something missed, something marked wrongly, or a slip of a kind."""

    kind: str
    skill: str
    missed: int
    marked_wrongly: int
    slips: tuple[tuple[str, int], ...]
    drills: int
    since: date
    until: date

    @property
    def times(self) -> int:
        """How often something went wrong in all."""
        return self.missed + self.marked_wrongly + sum(times for _, times in self.slips)


def taken(attempts: Iterable[Attempt]) -> list[Taken]:
    """Return the skills with anything wrong, the most often wrong first; the walk tells nothing."""
    by_skill: dict[str, list[Attempt]] = {}
    for attempt in attempts:
        if attempt.purpose != "walk":
            by_skill.setdefault(attempt.skill, []).append(attempt)
    found = [_taken(skill, drills) for skill, drills in by_skill.items()]
    return sorted(
        (each for each in found if each.times),
        key=lambda each: (-each.times, each.skill),
    )


def _taken(skill: str, attempts: list[Attempt]) -> Taken:
    days = [attempt.practice_day for attempt in attempts]
    missed = sum(attempt.misses > 0 for attempt in attempts)
    wrongly = sum(attempt.false_alarms > 0 for attempt in attempts)
    slips = Counter(attempt.slip for attempt in attempts if attempt.slip is not None)
    kind, drills = attempts[0].kind, len(attempts)
    return Taken(kind, skill, missed, wrongly, tuple(sorted(slips.items())), drills, min(days), max(days))
