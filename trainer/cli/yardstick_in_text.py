"""How a yardstick went, told at its end: each of its drills, right or missed and the time, by kind."""

from __future__ import annotations

from collections.abc import Iterator

from drills.questions.kinds import KINDS
from progress_store.figures import wilson
from progress_store.state import Judged
from progress_store.yardsticks import Yardstick
from trainer.cli.record_figures import YARDSTICK_NOTE
from trainer.cli.record_words import likely, seconds, titled


def yardstick_in_text(yardstick: Yardstick) -> Iterator[str]:
    """Yield what came of a yardstick, the count right first."""
    drills, right = len(yardstick.drills), yardstick.right
    yield f"{right} of {drills} right, {likely([round(end, 4) for end in wilson(right, drills)])}."
    yield YARDSTICK_NOTE
    yield ""
    for kind in dict.fromkeys((*KINDS, *(each.attempt.kind for each in yardstick.drills))):
        if found := [each for each in yardstick.drills if each.attempt.kind == kind]:
            yield from _kind(titled(kind).rstrip("?"), found)
    missed = [each.attempt.code for each in yardstick.drills if not each.attempt.right]
    if missed:
        yield from ("", "Missed, to be looked at with n, Pick a drill:", f"  {', '.join(missed)}")


def _kind(title: str, drills: list[Judged]) -> Iterator[str]:
    yield f"{title}: {sum(each.attempt.right for each in drills)} of {len(drills)} right"
    yield f"  {', '.join(map(_drill, drills))}"


def _drill(each: Judged) -> str:
    time = "not timed" if each.net_ms is None else seconds(each.net_ms)
    return f"{'right' if each.attempt.right else 'missed'} {time}"
