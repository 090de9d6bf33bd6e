"""Words for the figures of the record: shares, times, windows, forms."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date
from typing import Any

from drills.pattern import number_of
from drills.questions import KINDS, skill_names
from progress_store import Attempt, Judged, PaceKey, Rules, Yardstick, record, wilson
from trainer.text.plots import minutes_plot, share_row, weeks_plot

UNSURE = "too few to be sure"


def part(title: str, lines: Iterator[str]) -> Iterator[str]:
    """Yield a title and its lines, nothing where there are none."""
    for number, line in enumerate(lines):
        if number == 0:
            yield from ("", f"{title}:")
        yield f"  {line}"


def likely(interval: Sequence[float]) -> str:
    """Return where a share likely lies, as in "likely 57 to 93 %"."""
    low, high = (round(100 * end) for end in interval)
    return f"likely {low} to {high} %"


def likely_ratio(interval: Sequence[float] | None) -> str:
    """Return where a ratio of times likely lies, or that there are too few drills to say."""
    return f"likely {interval[0]:.2f} to {interval[1]:.2f}" if interval else UNSURE


def seconds(milliseconds: float | None) -> str:
    """Return a time in seconds, as in "4.0 s"."""
    return "not yet" if milliseconds is None else f"{milliseconds / 1000:.1f} s"


def window(row: Any) -> str:
    """Return the first and the last practice day of a figure."""
    return f"{row['since']} to {row['until']}"


def form_in_words(row: Any) -> str:
    """Return a form whose times can be compared, as in "Find, mark, level 3, marks 1, by keys"."""
    kind, form, level, marks, means = (row[name] for name in PaceKey._fields)
    return f"{titled(kind)}, {form}, level {level}, marks {marks}, by {means}"


def titled(kind: str) -> str:
    """Return the title of a kind; one that this version does not know keeps its name."""
    return KINDS[kind].title if kind in KINDS else kind


def name_of(skill: str) -> str:
    """Return the name of a skill on the screen; one that this version does not know keeps its own."""
    return skill_names().get(skill, skill)


MOST_WEEKS = 8
MOST_TAKEN = 8
YARDSTICK_NOTE = "16 drills cannot show a change under about 25 points."
SCALE = "|0 %      50 %   100 %|"
MISSED = {
    "steps": "the step missed",
    "sinks": "a line or point not marked",
    "labels": "a wrong label not seen",
    "find": "a stretch not seen",
}
TAKEN = {
    "sinks": "something else taken for one",
    "labels": "a right label taken for wrong",
    "find": "something else taken for one",
}
SLIPS = {
    "exchanged": "across and down exchanged",
    "not smallest": "the right line, not its smallest step",
    "more than needed": "more labels switched than needed",
}


def figures_in_text(figures: Any) -> Iterator[str]:
    """Yield the figures of the record, the surest first."""
    yield from part("Yardstick", _yardsticks(figures["yardsticks"], figures["resamples"]))
    yield from part(
        "First drills of a skill after 7 days or more away, the yardstick apart", _after_a_week(figures)
    )
    yield from part("Pace at the same form, first week against last week", _paces(figures))
    yield from part("Median seconds, week by week, at the form practised most", _weeks(figures["weeks"]))
    yield from part("Misses against false alarms", _errors(figures["errors"]))
    yield from part("What is taken for what", _taken(figures["taken"]))


def _yardsticks(rows: Sequence[Any], resamples: int) -> Iterator[str]:
    if any(row["whole"] for row in rows):
        yield f"{'':<48}{SCALE}"
    for row in rows:
        yield from _yardstick(row)
    if rows:
        yield YARDSTICK_NOTE
    if any("time_against_first" in row for row in rows):
        yield f"Times: the median over pairs of one skill, {resamples} resamples of the pairs."


def _yardstick(row: Any) -> Iterator[str]:
    if not row["whole"]:
        yield f"{row['since']}  unfinished: {number_of(row['drills'], 'drill')}, not compared"
        return
    numbers = f"{row['since']}  {row['right']} of {row['drills']} right, {likely(row['interval'])}"
    yield f"{numbers:<48}{share_row(row['right'] / row['drills'], row['interval'])}"
    if "right_a_minute" in row:
        yield f"  {row['right_a_minute']:.1f} right a minute, {number_of(row['timed'], 'drill')} timed"
    if against := row.get("time_against_first"):
        yield (
            f"  {against['ratio']:.2f} times as long as at first, {likely_ratio(against['interval'])}, "
            f"{number_of(against['drills'], 'drill')} right in both"
        )


def _after_a_week(figures: Any) -> Iterator[str]:
    if row := figures["after_a_week_away"]:
        yield f"{row['right']} of {row['drills']} right, {likely(row['interval'])}, {window(row)}"


def _paces(figures: Any) -> Iterator[str]:
    sure = [row for row in figures["pace"] if row["ratio_interval"]]
    for row in sure:
        yield f"{form_in_words(row)}:"
        then = f"{row['first_seconds']} s ({number_of(row['first_drills'], 'drill')})"
        now = f"{row['last_seconds']} s ({number_of(row['last_drills'], 'drill')})"
        yield f"  {then}, then {now}: {likely_ratio(row['ratio_interval'])} times"
        yield f"  {window(row)}"
    if unsure := len(figures["pace"]) - len(sure):
        yield f"{number_of(unsure, 'form')} with too few drills in one of the weeks to be sure"


def _weeks(row: Any) -> Iterator[str]:
    if row:
        shown = row["weeks"][-MOST_WEEKS:]
        yield f"{form_in_words(row)}, {shown[0]['since']} on:"
        yield from weeks_plot(shown)


def _errors(rows: Sequence[Any]) -> Iterator[str]:
    for row in rows:
        yield f"{titled(row['kind'])}: {number_of(row['drills'], 'drill')}, {window(row)}"
        yield f"  {number_of(row['misses'], 'miss', 'misses')}{_in(row, 'with_misses')}"
        yield f"  {number_of(row['false_alarms'], 'false alarm')}{_in(row, 'with_false_alarms')}"


def _in(row: Any, name: str) -> str:
    where = f", in {number_of(row[name], 'drill')}" if row[name] else ""
    return f"{where}, {likely(row[f'{name}_interval'])}"


def _taken(rows: Sequence[Any]) -> Iterator[str]:
    for row in rows[:MOST_TAKEN]:
        yield f"{row['name']}:"
        yield f"  {number_of(row['drills'], 'drill')}, {window(row)}"
        for name, words in (("missed", MISSED), ("marked_wrongly", TAKEN)):
            if row[name]:
                said = words.get(row["kind"], name.replace("_", " "))
                yield f"  {said} in {row[name]}, {likely(row[f'{name}_interval'])}"
        for slip in row["slips"]:
            said = SLIPS.get(slip["slip"], slip["slip"])
            yield f"  {said} in {slip['times']}, {likely(slip['interval'])}"
    if (more := len(rows) - MOST_TAKEN) > 0:
        yield f"and, less often, {number_of(more, 'more skill')}"


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
