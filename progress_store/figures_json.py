"""The figures of the record as JSON fields, each with its number of drills, its window and its interval."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date

from progress_store.bootstrap import RESAMPLES
from progress_store.figures import Errors, PaceChange, after_a_week_away, errors, pace_changes, wilson
from progress_store.pace import Form
from progress_store.state import Judged
from progress_store.taken import Taken, taken
from progress_store.weeks import Week, weekly_pace
from progress_store.yardsticks import Yardstick, time_against, yardsticks


def figures_fields(judged: Sequence[Judged], name_of: Callable[[str], str]) -> dict[str, object]:
    """Return the figures of attempts in order of time; shares have score intervals, times bootstrap ones."""
    attempts = [each.attempt for each in judged]
    return {
        "resamples": RESAMPLES,
        "yardsticks": _yardsticks(yardsticks(judged)),
        "after_a_week_away": _after_a_week_away(judged),
        "pace": [_pace(each) for each in pace_changes(judged)],
        "weeks": _weeks(judged),
        "errors": [_errors(each) for each in errors(attempts)],
        "taken": [_taken(each, name_of) for each in taken(attempts)],
    }


def _yardsticks(found: Sequence[Yardstick]) -> list[dict[str, object]]:
    first = next((each for each in found if each.is_whole), None)
    return [_yardstick(each, first) for each in found]


def _yardstick(each: Yardstick, first: Yardstick | None) -> dict[str, object]:
    """Return one yardstick; what was left before its end has its number of drills and is not compared."""
    row: dict[str, object] = {
        "number": each.number,
        **_window(each.since, each.until),
        "drills": len(each.drills),
        "whole": each.is_whole,
    }
    if not each.is_whole:
        return row
    pace = each.right_a_minute
    row |= _share("right", each.right, len(each.drills))
    row |= {"right_a_minute": round(pace[0], 2), "timed": pace[1]} if pace else {}
    against = time_against(each, first) if first and first is not each else None
    if against:
        row["time_against_first"] = {
            "ratio": round(against.ratio, 3),
            "interval": _ends(against.interval),
            "drills": against.pairs,
        }
    return row


def _after_a_week_away(judged: Iterable[Judged]) -> dict[str, object] | None:
    share = after_a_week_away(judged)
    if share.since is None or share.until is None:
        return None
    return {
        "drills": share.drills,
        **_share("right", share.right, share.drills),
        **_window(share.since, share.until),
    }


def _pace(each: PaceChange) -> dict[str, object]:
    return {
        **_form(each.form),
        "first_seconds": each.first_seconds,
        "first_drills": each.first_drills,
        "last_seconds": each.last_seconds,
        "last_drills": each.last_drills,
        "ratio_interval": _ends(each.interval),
        **_window(each.since, each.until),
    }


def _weeks(judged: Iterable[Judged]) -> dict[str, object] | None:
    found = weekly_pace(judged)
    return {**_form(found[0]), "weeks": [_week(week) for week in found[1]]} if found else None


def _week(week: Week) -> dict[str, object]:
    return {
        "monday": week.monday.isoformat(),
        **_window(week.since, week.until),
        "drills": week.drills,
        "median_ms": round(week.median_ms),
        "interval": [round(end) for end in week.interval] if week.interval else None,
    }


def _errors(each: Errors) -> dict[str, object]:
    return {
        "kind": each.kind,
        "drills": each.drills,
        "misses": each.misses,
        "false_alarms": each.false_alarms,
        **_share("with_misses", each.with_misses, each.drills),
        **_share("with_false_alarms", each.with_false_alarms, each.drills),
        **_window(each.since, each.until),
    }


def _taken(each: Taken, name_of: Callable[[str], str]) -> dict[str, object]:
    return {
        "kind": each.kind,
        "skill": each.skill,
        "name": name_of(each.skill),
        "drills": each.drills,
        **_share("missed", each.missed, each.drills),
        **_share("marked_wrongly", each.marked_wrongly, each.drills),
        "slips": [
            {"slip": slip, "times": times, "interval": _ends(wilson(times, each.drills))}
            for slip, times in each.slips
        ],
        **_window(each.since, each.until),
    }


def _form(form: Form) -> dict[str, object]:
    return form._asdict()


def _share(name: str, some: int, drills: int) -> dict[str, object]:
    ends = _ends(wilson(some, drills))
    return {name: some, "interval" if name == "right" else f"{name}_interval": ends}


def _window(since: date, until: date) -> dict[str, object]:
    return {"since": since.isoformat(), "until": until.isoformat()}


def _ends(interval: tuple[float, float] | None) -> list[float] | None:
    return [round(end, 4) for end in interval] if interval else None
