"""The record as plain text, made of the fields of its JSON alone: the two say the same."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date
from typing import Any

from drills.questions.words import number_of
from progress_store import Attempt, Rules
from progress_store.summaries import record
from trainer.cli.record_figures import figures_in_text
from trainer.cli.record_plots import minutes_plot
from trainer.cli.record_words import likely, part, seconds

MOST_DAYS = 14
NOTES = (
    "Likely is where the true figure lies, 19 times in 20.",
    "Share right alone is no trend: the level follows you, so it stays flat.",
)
_NOTHING = "No drills yet: your record begins with the first drill you answer."


def record_in_text(
    attempts: Sequence[Attempt], rules: Rules, today: date, name_of: Callable[[str], str]
) -> Iterator[str]:
    """Yield the lines of the record as it stands on a practice day."""
    if not attempts:
        yield _NOTHING
        return
    fields: Any = record(attempts, rules, name_of)
    days = fields["days"]
    since, until = days[0]["day"], days[-1]["day"]
    counts = f"{number_of(fields['attempts'], 'drill')} on {number_of(len(days), 'day')}"
    yield f"{counts}, {since} to {until}{_ago(until, today)}."
    yield from NOTES
    yield from figures_in_text(fields["figures"])
    yield from part("Minutes a day", minutes_plot(days, today))
    skills = (line for row in fields["skills"] for line in _skill(row))
    yield from part(f"Skills, {since} to {until}", skills)
    yield from part(f"Days (the last {MOST_DAYS})", map(_day, days[-MOST_DAYS:]))


def _ago(day: str, today: date) -> str:
    since = (today - date.fromisoformat(day)).days
    return {0: " (today)", 1: " (yesterday)"}.get(since, f" ({since} days ago)" if since > 0 else "")


def _skill(row: Any) -> tuple[str, str]:
    time, goal = seconds(row["median_ms"]), seconds(row["goal_ms"])
    share = f"{row['right']} of {row['tries']} right, {likely(row['interval'])}"
    return f"{row['name']} - {row['state']}", f"  {share}; time {time}, pace goal {goal}"


def _day(row: Any) -> str:
    return f"{row['day']}  {number_of(row['tries'], 'drill')}, {row['right']} right, {row['minutes']} minutes"
