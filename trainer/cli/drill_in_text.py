"""A drill as plain text: shown, answered by one line, judged, kept."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime
from pathlib import Path

from drills.questions.drill import Answer, Drill, Marks, Outlines
from drills.questions.judging import judge
from drills.questions.verdict import Verdict
from progress_store import StoreError, open_store
from trainer.cli.parser import Console
from trainer.practice.attempts import FLOORS, LEVELS, Measured, Watch, attempt_of
from trainer.text.answer_line import answer_from, how_to_answer
from trainer.text.sheet import sheet_in_text, tags_of

RIGHT, WRONG = 0, 1


def ask_in_text(drill: Drill, folder: Path, console: Console) -> int:
    """Put the drill, judge the line typed and keep the attempt; return 0 where it was right, else 1."""
    tags = tags_of(drill)
    for line in sheet_in_text(drill, tags):
        console.say(line)
    console.say(f"Type one line: {how_to_answer(drill.question)}.")
    text, measured, now = _answered(console)
    given = answer_from(text, drill, tags)
    verdict = judge(drill, given)
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
        with open_store(folder, console.clock.now, FLOORS, LEVELS) as store:
            store.keep(attempt_of(drill, verdict, measured, now, "picked"))
            return store.notices
    except StoreError as error:
        return error


def verdict_in_text(drill: Drill, given: Answer, verdict: Verdict, tags: Mapping[int, str]) -> Iterator[str]:
    """Yield what was answered, what is true and why, with the tags that the board would light."""
    yield f"{verdict.answered} {'Right.' if verdict.right else 'Not right.'}"
    if isinstance(drill.answer, Marks) and isinstance(given, Marks):
        truth = drill.answer.items
        if not verdict.right and drill.question.ask != "join":
            yield from _listed("Missed", truth - given.items, tags)
            yield from _listed("Too many", given.items - truth, tags)
        yield verdict.truth
        yield from _listed("The right answer", truth, tags)
    else:
        yield verdict.truth
    if isinstance(drill.answer, Outlines):
        for outline in drill.answer.edges:
            yield from _listed("An outline", outline, tags)
    yield verdict.why


def _listed(words: str, items: Iterable[int], tags: Mapping[int, str]) -> Iterator[str]:
    """Yield one line that names the tags of the items, none where there are no items."""
    if named := sorted(tags[item] for item in items):
        yield f"{words}: {', '.join(named)}."
