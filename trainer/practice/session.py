"""What has happened in one sitting so far, and which skills are to return in it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from progress_store import Result
from trainer.practice.choice import Stage
from trainer.practice.confusable import partners_of

RETURNS_AFTER = {"miss": 3, "slow": 6, "clean": 6}
"""So many other drills before a skill that was missed, or not yet clean twice, is met again."""
MOST_EXTRA = 4
CLEAN_IN_A_ROW = 2
IN_A_ROW_WHEN_NEW = 3
"""A new skill is shown worked, then half worked, then met so often before others come between."""
PARTNER_WITHIN = 2


class Done(NamedTuple):
    """One drill of this sitting; one that was worked or half worked says nothing of the person."""

    skill: str
    kind: str
    result: Result
    above: bool = False
    stage: Stage = "alone"


class Session(NamedTuple):
    """The drills of this sitting in order."""

    done: tuple[Done, ...] = ()

    def with_drill(self, done: Done) -> Session:
        """Return the sitting after one more drill."""
        return Session((*self.done, done))

    @property
    def counted(self) -> tuple[Done, ...]:
        """The drills that were left to the person."""
        return tuple(done for done in self.done if done.stage == "alone")

    def introducing(self) -> tuple[str, Stage] | None:
        """Return the skill that is being introduced and how it is met next, None where none is."""
        if not self.done:
            return None
        skill, stages = self.done[-1].skill, [done.stage for done in self._running()]
        if stages[-1] == "worked":
            return skill, "half"
        if "half" in stages and stages[::-1].index("half") < IN_A_ROW_WHEN_NEW:
            return skill, "alone"
        return None

    def partners(self) -> Iterator[str]:
        """Yield what the last two drills are easily taken for and this sitting has not met."""
        for done in self.done[: -PARTNER_WITHIN - 1 : -1]:
            yield from (partner for partner in partners_of(done.skill) if not self.times(partner))

    def _running(self) -> tuple[Done, ...]:
        """Return the last drills that were all of one skill."""
        others = [place for place, done in enumerate(self.done) if done.skill != self.done[-1].skill]
        return self.done[others[-1] + 1 :] if others else self.done

    def kinds_running(self) -> str | None:
        """Return the kind of the last two drills where they were of one kind."""
        last = {done.kind for done in self.done[-2:]}
        return last.pop() if len(self.done) > 1 and len(last) == 1 else None

    def times(self, skill: str) -> int:
        """Return how often a skill was met in this sitting."""
        return sum(done.skill == skill for done in self.done)

    def last_met(self, skill: str) -> int:
        """Return the place of a skill's last drill, -1 where it was not met."""
        return max((place for place, done in enumerate(self.done) if done.skill == skill), default=-1)

    def returns(self) -> Iterator[str]:
        """Yield the skills that are to be met again now, the longest waiting first.

        Missed: after 3 others; slow, or clean once after that: after 6; done at two clean in a row
        or after 4 extra drills. A miss on a drill above the level is not sent on.
        """
        waiting = []
        for skill in dict.fromkeys(done.skill for done in self.done):
            results = [done.result for done in self.counted if done.skill == skill and not done.above]
            if _is_settled(results):
                continue
            others = len(self.done) - 1 - self.last_met(skill)
            if others >= RETURNS_AFTER[results[-1]]:
                waiting.append((self.last_met(skill), skill))
        yield from (skill for _, skill in sorted(waiting))


def _is_settled(results: list[Result]) -> bool:
    """Whether nothing is open: two clean in a row settle what was before, four extra drills are the most."""
    since = list[Result]()
    for result in results:
        since.append(result)
        if since[0] == "clean" or since[-CLEAN_IN_A_ROW:] == ["clean"] * CLEAN_IN_A_ROW:
            since.clear()
    return not since or len(since) > MOST_EXTRA
