"""From a judged answer to the line of the log."""

from __future__ import annotations

from datetime import datetime
from uuid import uuid4

from drills.questions.drill import Drill
from drills.questions.kinds import KINDS
from drills.questions.verdict import Verdict
from progress_store import Attempt, Floor, Purpose, stamp
from trainer.practice.watch import Measured

FLOORS = {
    "steps": Floor(3_000),
    "sinks": Floor(1_500, each=True),
    "labels": Floor(8_000),
    "find": Floor(3_000, each=True),
}
"""No pace goal falls below these times in ms (common practice, no source)."""

LEVELS = {kind: entry.levels for kind, entry in KINDS.items()}


def attempt_of(
    drill: Drill, verdict: Verdict, measured: Measured, now: datetime, purpose: Purpose, helped: bool = False
) -> Attempt:
    """Return the attempt to be kept; ``now`` is an aware local time."""
    at, offset_minutes = stamp(now)
    code = drill.spec.code
    return Attempt(
        id=uuid4().hex,
        at=at,
        offset_minutes=offset_minutes,
        code=drill.code,
        kind=code.kind,
        form=drill.spec.form,
        level=code.level,
        marks=drill.marks,
        skill=drill.spec.skill,
        right=verdict.right,
        misses=verdict.misses,
        false_alarms=verdict.false_alarms,
        slip=verdict.slip or None,
        helped=helped,
        means=measured.means,
        milliseconds=measured.milliseconds,
        inputs=measured.inputs,
        gaps=measured.gaps,
        purpose=purpose,
    )
