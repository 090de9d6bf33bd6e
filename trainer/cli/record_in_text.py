"""The record as plain text, each figure with its number of drills and its window."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date
from typing import Any

from drills.questions.kinds import KINDS
from drills.questions.words import number_of, times
from progress_store import Attempt, Rules
from progress_store.figures import after_a_week_away, errors, pace_changes
from progress_store.state import Judged, replay
from progress_store.summaries import record

MOST_DAYS = 14
_NOTES = (
    "Likely is where the share right lies, 19 times in 20. It is no trend: the level follows you.",
    "Seconds are the median of the last 12 right answers at the same form.",
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
    judged = replay(attempts, rules)[1]
    days = fields["days"]
    counts = f"{number_of(len(attempts), 'drill')} on {number_of(len(days), 'day')}"
    yield f"{counts}, from {days[0]['day']} to {days[-1]['day']}{_ago(days, today)}."
    yield from _part("Skills", (line for row in fields["skills"] for line in _skill(row)))
    yield from _NOTES
    yield from _part(f"Days (the last {MOST_DAYS})", map(_day, days[-MOST_DAYS:]))
    yield from _part("Misses and false alarms", _errors(attempts))
    yield from _part("Slips", (_slip(row, name_of) for row in fields["confusions"]))
    yield from _part("First drills of a skill after 7 days or more away", _after_a_week(judged))
    yield from _part("Pace at the same form, first week against last week", _paces(judged))
    yield from _part("Yardstick", _yardsticks(fields["yardsticks"]))


def _ago(days: Sequence[Any], today: date) -> str:
    since = (today - date.fromisoformat(days[-1]["day"])).days
    return {0: " (today)", 1: " (yesterday)"}.get(since, f" ({since} days ago)" if since > 0 else "")


def _part(title: str, lines: Iterator[str]) -> Iterator[str]:
    """Yield a title and its lines, nothing where there are none."""
    for number, line in enumerate(lines):
        if number == 0:
            yield from ("", f"{title}:")
        yield f"  {line}"


def _skill(row: Any) -> tuple[str, str]:
    time, goal = _seconds(row["median_ms"]), _seconds(row["goal_ms"])
    share = f"{row['right']} of {row['tries']} right, likely {_percent(row['interval'])}"
    return f"{row['name']} - {row['state']}", f"  {share}; time {time}, pace goal {goal}"


def _percent(interval: Sequence[float]) -> str:
    low, high = (round(100 * end) for end in interval)
    return f"{low} to {high} %"


def _seconds(milliseconds: int | None) -> str:
    return "not yet" if milliseconds is None else f"{milliseconds / 1000:.1f} s"


def _day(row: Any) -> str:
    return f"{row['day']}  {number_of(row['tries'], 'drill')}, {row['right']} right, {row['minutes']} minutes"


def _errors(attempts: Sequence[Attempt]) -> Iterator[str]:
    for each in errors(attempts):
        title = KINDS[each.kind].title if each.kind in KINDS else each.kind
        wrong = f"{number_of(each.misses, 'miss', 'misses')}, {number_of(each.false_alarms, 'false alarm')}"
        yield f"{title}: {wrong} in {number_of(each.drills, 'drill')}, {each.since} to {each.until}"


def _slip(row: Any, name_of: Callable[[str], str]) -> str:
    return f"{name_of(row['skill'])}: {row['slip']}, {times(row['times'])}"


def _after_a_week(judged: Sequence[Judged]) -> Iterator[str]:
    share = after_a_week_away(judged)
    if share.drills:
        yield f"{share.right} of {share.drills} right, {share.since} to {share.until}"


def _paces(judged: Sequence[Judged]) -> Iterator[str]:
    for each in pace_changes(judged):
        form = f"{each.form.kind} {each.form.form}, level {each.form.level}, marks {each.form.marks}"
        then = f"{each.first_seconds} s ({each.first_drills})"
        now = f"{each.last_seconds} s ({each.last_drills})"
        yield f"{form}, by {each.form.means}: {then}, then {now}, {each.since} to {each.until}"


def _yardsticks(rows: Sequence[Any]) -> Iterator[str]:
    for row in rows:
        yield f"{row['day']}  {row['right']} of {row['tries']} right, likely {_percent(row['interval'])}"
    if rows:
        yield "16 drills cannot show a change under about 25 points."
