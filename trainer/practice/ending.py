"""What came of a round, told at its end: the same on the command line and on the screen."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from datetime import timedelta
from typing import NamedTuple

from drills.questions import KINDS
from progress_store import Attempt, Judged, Pace, PaceKey, State, middle
from trainer.practice.choosing import History
from trainer.practice.session import PracticeSession
from trainer.practice.words import MEANING, ORDER, RECENT, drills_in, level_stands, named, promise

LEAST_TIMES = 3
"""Under so many right answers a median is one drill's chance."""
QUICKER = 0.95
MOST_GAINS = 5


class Ending(NamedTuple):
    """How many were right, what got safer or quicker, what level went down, the misses, what comes."""

    counted: str
    gained: tuple[str, ...]
    lowered: tuple[str, ...]
    missed: tuple[Attempt, ...]
    tomorrow: str

    @property
    def lines(self) -> list[str]:
        """What is said, but for the misses."""
        said = [self.counted, *self.gained, *self.lowered]
        return [*said, self.tomorrow] if self.tomorrow else said


def ending(session: PracticeSession, form_in_words: Callable[[PaceKey], str]) -> Ending:
    """Return what came of a session that is over; only after a round of the day is tomorrow told.

    `form_in_words` names the drills whose times are compared.
    """
    before, after = session.before, session.store.state
    moved = [(kind, after.level(kind) - before.level(kind)) for kind in KINDS]
    safer = (*_levels_risen(before, after), *_words_risen(before, after))
    return Ending(
        counted_in_words(session.history),
        (*safer, *quicker(before, session.judged, form_in_words))[:MOST_GAINS],
        tuple(f"{_title(kind)}: {level_stands(after, kind)}" for kind, step in moved if step < 0),
        missed_in(session),
        _tomorrow(session) if session.purpose == "today" else "",
    )


def counted_in_words(history: History) -> str:
    """Return how many were right, as in "17 of 19 right, 2 of them slowly or with help."."""
    results = [done.result for done in history.counted]
    if not results:
        return "Nothing that counts was answered, so nothing has changed."
    right, slow = len(results) - results.count("miss"), results.count("slow")
    rest = f", {slow} of them slowly or with help" if slow else ""
    return f"{right} of {len(results)} right{rest}."


def missed_in(session: PracticeSession) -> tuple[Attempt, ...]:
    """Return the misses of a session, also from before it was left and gone on with, in order of time."""
    latest = session.store.latest(len(session.history.done))
    own = (each for each in latest if each.sitting == session.sitting and each.purpose != "walk")
    return tuple(each for each in own if not each.right)


def quicker(
    before: State, judged: Sequence[Judged], form_in_words: Callable[[PaceKey], str]
) -> Iterator[str]:
    """Yield each form whose right answers took less than the last ones before, the median in seconds."""
    times = defaultdict[PaceKey, list[int]](list)
    for each in judged:
        if each.net_ms is not None and each.attempt.right and not each.attempt.helped:
            times[each.pace_key].append(each.net_ms)
    for key, now in times.items():
        then = before.paces.get(key, Pace()).recent
        if min(len(then), len(now)) >= LEAST_TIMES and middle(now) < QUICKER * middle(then):
            yield f"{form_in_words(key)}: {_seconds(now)} today, {_seconds(then)} before."


def _seconds(times: Sequence[int]) -> str:
    return f"{middle(times) / 1000:.1f} s"


def _levels_risen(before: State, after: State) -> Iterator[str]:
    for kind in KINDS:
        old, new = before.level(kind), after.level(kind)
        if new > old:
            yield f"{_title(kind)} goes up from level {old} to level {new}."


def _words_risen(before: State, after: State) -> Iterator[str]:
    """Yield each skill whose word has risen, the highest first."""
    risen = [
        (ORDER.index(known.word), skill)
        for skill, known in after.skills.items()
        if ORDER.index(known.word) > (ORDER.index(before.skills[skill].word) if skill in before.skills else 0)
    ]
    for rank, skill in sorted(risen, reverse=True):
        words = named(skill)
        yield f"{words[0].upper()}{words[1:]} {MEANING[ORDER[rank]]}."


def _tomorrow(session: PracticeSession) -> str:
    store = session.store
    number = drills_in(store.settings.minutes_a_day, store.latest(RECENT))
    return f"Tomorrow: {', '.join(promise(store.state, store.today + timedelta(days=1), number).lines)}."


def _title(kind: str) -> str:
    return KINDS[kind].title.rstrip("?")
