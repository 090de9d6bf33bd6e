"""A drill and its answer as text, to be pasted elsewhere."""

from __future__ import annotations

from drills.questions.drill import Answer, Drill
from drills.questions.verdict import Verdict
from trainer.cli.drill_in_text import verdict_in_text
from trainer.text.sheet import sheet_in_text, tags_of


def drill_as_text(drill: Drill, given: Answer | None, verdict: Verdict | None) -> str:
    """Return the drill in words, and once it is answered the verdict."""
    tags = tags_of(drill)
    lines = list(sheet_in_text(drill, tags))
    if given is not None and verdict is not None:
        lines += verdict_in_text(drill, given, verdict, tags)
    return "\n".join(lines)
