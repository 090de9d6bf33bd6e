"""A drill as plain text: shown, answered by one line, judged, kept."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from drills.questions import Drill, Verdict
from progress_store import StoreError, open_store
from trainer.cli.parser import Console
from trainer.practice.attempts import Measured, Watch, attempt_of, floors, levels
from trainer.text.asked import tags_of
from trainer.text.drill import answer_from, sheet_in_text, verdict_in_text

RIGHT, WRONG = 0, 1


def ask_in_text(drill: Drill, folder: Path, console: Console) -> int:
    """Put the drill, judge the line typed and keep the attempt; return 0 where it was right, else 1."""
    tags = tags_of(drill)
    for line in sheet_in_text(drill, tags):
        console.say(line)
    console.say(f"Type one line: {drill.question.how_to_answer()}.")
    text, measured, now = _answered(console)
    given = answer_from(text, drill, tags)
    verdict = drill.judge(given)
    # kept before it is told: a reader that has gone away must not cost the person an answer
    outcome = _kept(drill, verdict, measured, now, folder, console)
    for line in verdict_in_text(drill, given, verdict, tags):
        console.say(line)
    if isinstance(outcome, StoreError):
        console.stdout.flush()
        console.complain(f"This answer was not kept: {outcome}")
    else:
        console.say("Kept.")
        console.stdout.flush()
        for notice in outcome:
            console.complain(notice)
    return RIGHT if verdict.right else WRONG


def _answered(console: Console) -> tuple[str, Measured, datetime]:
    """Return the line typed, how long it took and when; the time of a line that nobody typed is none."""
    console.stdout.flush()
    watch = Watch(console.clock.ticks)
    text = console.line()
    watch.saw("text")
    if not console.is_typed:
        watch.left()
    return text, watch.read(), console.clock.now()


def _kept(
    drill: Drill, verdict: Verdict, measured: Measured, now: datetime, folder: Path, console: Console
) -> tuple[str, ...] | StoreError:
    """Keep the attempt and return what is to be told of the files, or why it could not be kept."""
    try:
        with open_store(folder, console.clock.now, floors(), levels()) as store:
            store.keep(attempt_of(drill, verdict, measured, now, "picked"))
            return store.notices
    except StoreError as error:
        return error
