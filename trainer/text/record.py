"""The record in words, and what came of a yardstick: the same on the command line and on the screen.

Figures are rounded as in the JSON first, so that who rounds those comes to the same figures in words.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from typing import Final

from drills.pattern import number_of
from drills.questions import KINDS, skill_names
from progress_store import (
    EXPERIMENT_DAYS,
    AfterAWeekAway,
    Confusions,
    DayRow,
    Errors,
    Experiment,
    Judged,
    PaceChange,
    Record,
    Repaired,
    Share,
    SkillRow,
    WeeklyPace,
    Window,
    Yardstick,
)
from trainer.text.glance import pace_in_words
from trainer.text.plots import minutes_plot, share_row, weeks_plot

NOTES: Final = (
    "Likely is where the true figure lies, 19 times in 20.",
    "Share right alone is no trend: the level follows you, so it stays flat.",
)
YARDSTICK_NOTE: Final = "16 drills cannot show a change under about 25 points."
SCALE: Final = "|0 %      50 %   100 %|"
UNSURE: Final = "too few to be sure"
SLIPS: Final = {
    "exchanged": "across and down exchanged",
    "not smallest": "the right line, not its smallest step",
    "more than needed": "more labels switched than needed",
}
MOST_WEEKS, MOST_CONFUSIONS, MOST_DAYS, MOST_LINES = 8, 8, 14, 20
_NOTHING = "No drills yet: your record begins with the first drill you answer."


def record_in_text(record: Record, today: date) -> Iterator[str]:
    """Yield the lines of the record as it stands on a practice day, the surest figures first."""
    days = record.days
    if not days:
        yield _NOTHING
        return
    since, until = days[0].day, days[-1].day
    counts = f"{number_of(record.attempts, 'drill')} on {number_of(len(days), 'day')}"
    yield f"{counts}, {since} to {until}{_ago(until, today)}."
    yield from NOTES
    yield from _part("Yardstick", _yardsticks(record.yardsticks))
    yield from _part(
        "First drills of a skill after 7 days or more away, the yardstick apart",
        _after_a_week_away(record.after_a_week_away),
    )
    yield from _part("Pace at the same form, first week against last week", _paces(record.pace_changes))
    yield from _part("Median seconds, week by week, at the form practised most", _weeks(record.weekly_pace))
    yield from _part("Misses against false alarms", _errors(record.errors))
    yield from _part("What is taken for what", _confusions(record.confusions))
    yield from _part("Whether a miss goes better if it came back that day", _experiment(record.experiment))
    yield from _part("Minutes a day", minutes_plot(days, today))
    yield from _part(f"Skills, {since} to {until}", _skills(record.skills))
    yield from _part(f"Days (the last {MOST_DAYS})", map(_day, days[-MOST_DAYS:]))


def yardstick_in_text(yardstick: Yardstick) -> Iterator[str]:
    """Yield what came of a yardstick, the count right first."""
    yield f"{_so_many(yardstick.right)}."
    yield YARDSTICK_NOTE
    yield ""
    for kind in dict.fromkeys((*KINDS, *(each.attempt.kind for each in yardstick.drills))):
        if found := [each for each in yardstick.drills if each.attempt.kind == kind]:
            right = sum(each.attempt.right for each in found)
            yield f"{titled(kind).rstrip('?')}: {right} of {len(found)} right"
            yield f"  {', '.join(map(_drill, found))}"
    missed = [each for each in yardstick.drills if not each.attempt.right]
    if missed:
        yield from ("", f"{number_of(len(missed), 'drill')} missed, to be looked at with m, What I missed.")


def repair_in_text(repaired: Repaired | None) -> Iterator[str]:
    """Yield what a repair of the log put aside, line by line, or that there was nothing to do."""
    if repaired is None:
        yield "Every line of the log can be read; there is nothing to repair."
        return
    lines = sorted(repaired.unreadable.items())
    yield f"Put aside: {number_of(len(lines), 'line')} of the log, in {repaired.aside}. All others stay."
    for number, why in lines[:MOST_LINES]:
        yield f"  line {number}: {why}."
    if (more := len(lines) - MOST_LINES) > 0:
        yield f"  and {number_of(more, 'more line')}, each named in that file"


def titled(kind: str) -> str:
    """Return the title of a kind; one that this version does not know keeps its name."""
    return KINDS[kind].title if kind in KINDS else kind


def name_of(skill: str) -> str:
    """Return the name of a skill on the screen; one that this version does not know keeps its own."""
    return skill_names().get(skill, skill)


def _part(title: str, lines: Iterable[str]) -> Iterator[str]:
    """Yield a title and its lines, nothing where there are none."""
    for number, line in enumerate(lines):
        if number == 0:
            yield from ("", f"{title}:")
        yield f"  {line}"


def _yardsticks(yardsticks: Sequence[Yardstick]) -> Iterator[str]:
    if any(each.is_whole for each in yardsticks):
        yield f"{'':<48}{SCALE}"
    for each in yardsticks:
        yield from _yardstick(each)
    if yardsticks:
        yield YARDSTICK_NOTE
    if any(each.against_first for each in yardsticks):
        yield "Times: the median over pairs of one skill."


def _yardstick(each: Yardstick) -> Iterator[str]:
    since, right = each.window.since, each.right
    if not each.is_whole:
        yield f"{since}  unfinished: {number_of(len(each.drills), 'drill')}, not compared"
        return
    yield f"{f'{since}  {_so_many(right)}':<48}{share_row(right)}"
    if rate := each.rate:
        yield f"  {round(rate.right_a_minute, 2):.1f} right a minute, {number_of(rate.timed, 'drill')} timed"
    if against := each.against_first:
        yield (
            f"  {round(against.ratio, 3):.2f} times as long as at first, {_likely_ratio(against.interval)}, "
            f"{number_of(against.pairs, 'drill')} right in both"
        )


def _after_a_week_away(found: AfterAWeekAway | None) -> Iterator[str]:
    if found:
        yield f"{_so_many(found.right)}, {_window(found.window)}"


def _paces(changes: Sequence[PaceChange]) -> Iterator[str]:
    sure = [change for change in changes if change.interval]
    for change in sure:
        yield f"{pace_in_words(change.key)}:"
        then = f"{change.first_seconds} s ({number_of(change.first_drills, 'drill')})"
        now = f"{change.last_seconds} s ({number_of(change.last_drills, 'drill')})"
        yield f"  {then}, then {now}: {_likely_ratio(change.interval)} times"
        yield f"  {_window(change.window)}"
    if unsure := len(changes) - len(sure):
        yield f"{number_of(unsure, 'form')} with too few drills in one of the weeks to be sure"


def _weeks(found: WeeklyPace | None) -> Iterator[str]:
    if found:
        shown = found.weeks[-MOST_WEEKS:]
        yield f"{pace_in_words(found.key)}, {shown[0].window.since} on:"
        yield from weeks_plot(shown)


def _errors(kinds: Iterable[Errors]) -> Iterator[str]:
    for each in kinds:
        drills = number_of(each.with_misses.drills, "drill")
        yield f"{titled(each.kind)}: {drills}, {_window(each.window)}"
        yield f"  {number_of(each.misses, 'miss', 'misses')}{_in(each.with_misses)}"
        yield f"  {number_of(each.false_alarms, 'false alarm')}{_in(each.with_false_alarms)}"


def _in(share: Share) -> str:
    where = f", in {number_of(share.count, 'drill')}" if share.count else ""
    return f"{where}, {_likely(share)}"


def _confusions(skills: Sequence[Confusions]) -> Iterator[str]:
    for each in skills[:MOST_CONFUSIONS]:
        yield f"{name_of(each.skill)}:"
        yield f"  {number_of(each.missed.drills, 'drill')}, {_window(each.window)}"
        row = KINDS.get(each.kind)
        said_of = [
            ((row and row.missed_words) or "missed", each.missed),
            ((row and row.taken_words) or "marked wrongly", each.marked_wrongly),
            *((f"taken for {name_of(other.skill)}", other.share) for other in each.taken),
            *((SLIPS.get(slip.slip, slip.slip), slip.share) for slip in each.slips),
        ]
        for said, share in said_of:
            if share.count:
                yield f"  {said} in {share.count}, {_likely(share)}"
    if (more := len(skills) - MOST_CONFUSIONS) > 0:
        yield f"and, less often, {number_of(more, 'more skill')}"


def _experiment(found: Experiment | None) -> Iterator[str]:
    if found is None:
        return
    if not found.is_over or not found.back or not found.not_back:
        sides = found.back, found.not_back
        drills = number_of(sum(side.drills for side in sides if side), "miss", "misses")
        yield f"{drills} met on another day since {found.since}; told after {EXPERIMENT_DAYS} days"
        return
    yield "first drill on another day:"
    yield f"  of what came back: {_so_many(found.back)}"
    yield f"  of what did not: {_so_many(found.not_back)}"
    low, high = (round(100 * round(end, 4)) for end in found.interval)
    points = round(100 * round(found.difference, 4))
    yield f"  the difference: {points} points, likely {low} to {high}"
    yield f"  so many drills see a difference from about {round(100 * round(found.sees, 4))} points on"


def _skills(skills: Iterable[SkillRow]) -> Iterator[str]:
    for row in skills:
        yield f"{name_of(row.skill)} - {row.word}"
        time, goal = _seconds(row.median_ms), _seconds(row.goal_ms)
        yield f"  {_so_many(row.right)}; time {time}, pace goal {goal}"


def _day(row: DayRow) -> str:
    drills = number_of(row.right.drills, "drill")
    return f"{row.day}  {drills}, {row.right.count} right, {row.minutes} minutes"


def _drill(each: Judged) -> str:
    time = "not timed" if each.net_ms is None else _seconds(each.net_ms)
    return f"{'right' if each.attempt.right else 'missed'} {time}"


def _so_many(right: Share) -> str:
    return f"{right.count} of {right.drills} right, {_likely(right)}"


def _likely(share: Share) -> str:
    """Return where a share likely lies, as in "likely 57 to 93 %"."""
    low, high = (round(100 * round(end, 4)) for end in share.interval)
    return f"likely {low} to {high} %"


def _likely_ratio(interval: tuple[float, float] | None) -> str:
    """Return where a ratio of times likely lies, or that there are too few drills to say."""
    return f"likely {round(interval[0], 4):.2f} to {round(interval[1], 4):.2f}" if interval else UNSURE


def _window(window: Window) -> str:
    return f"{window.since} to {window.until}"


def _seconds(milliseconds: float | None) -> str:
    return "not yet" if milliseconds is None else f"{milliseconds / 1000:.1f} s"


def _ago(day: date, today: date) -> str:
    since = (today - day).days
    return {0: " (today)", 1: " (yesterday)"}.get(since, f" ({since} days ago)" if since > 0 else "")
