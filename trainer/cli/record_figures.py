"""The figures that say whether practice helps, in words, each with its drills, window and interval."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from drills.questions.words import number_of
from trainer.cli.record_plots import share_row, weeks_plot
from trainer.cli.record_words import form_in_words, likely, likely_ratio, part, titled, window

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
