"""Forty days by script, and every figure of the record worked out anew from the lines of the log."""

from __future__ import annotations

import csv
import json
from datetime import date, timedelta
from itertools import pairwise
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from tests.trainer.cli.calling import call, log_of
from tests.trainer.month import LAST_DAY, practise
from tests.trainer.practice.making import Hands, played, store
from tests.trainer.recounting import (
    Line,
    assert_brackets,
    chances,
    day_of,
    draw,
    form_of,
    goal,
    interval,
    local_time,
    middle,
    own,
    timed,
)
from trainer.practice import rounds

pytestmark = pytest.mark.long  # four hundred drills are made and answered; every figure is tested by hand too


def test_the_script_holds_what_it_promises(month: Month) -> None:
    """Two time zones, nights that end after 04:00, 25 days away, sixteen drills of each yardstick."""
    assert {line["offset_minutes"] for line in month.log} == {60, -300}
    days = sorted({date.fromisoformat(day_of(line)) for line in month.log})
    assert max((later - day).days for day, later in pairwise(days)) == 25
    local = [local_time(line) for line in month.log]
    late = [at for at, line in zip(local, month.log, strict=True) if at.date().isoformat() != day_of(line)]
    assert late
    assert all(at.hour < 4 for at in late)
    crossing = [at for at in local if at.hour == 4]
    assert crossing
    assert sum(line["purpose"] == "yardstick" for line in month.log) == 32


class Month(NamedTuple):
    """What was practised: the folder, the clock at its end, the log and the record of it."""

    folder: Path
    hands: Hands
    log: list[Line]
    record: Any


@pytest.fixture(scope="module")
def month(tmp_path_factory: pytest.TempPathFactory) -> Month:
    """Return the month, practised once; no test writes into it."""
    folder = tmp_path_factory.mktemp("month")
    hands = practise(folder)
    log = sorted(log_of(folder), key=lambda line: (line["at"], line["id"]))
    return Month(folder, hands, log, json.loads(call(folder, "record", "--json").out))


def test_days_and_attempts(month: Month) -> None:
    """Tries, right and minutes of each practice day."""
    days: dict[str, list[float]] = {}
    for line in month.log:
        day = days.setdefault(day_of(line), [0, 0, 0])
        day[0] += 1
        day[1] += line["right"]
        day[2] += line["milliseconds"] or 0
    assert month.record["attempts"] == len(month.log)
    assert month.record["days"] == [
        {"day": day, "tries": tries, "right": right, "minutes": round(spent / 60_000, 1)}
        for day, (tries, right, spent) in sorted(days.items())
    ]


def test_skills(month: Month) -> None:
    """Tries, right, interval, and median and goal at the form that was last met in practice."""
    rows = {row["skill"]: row for row in month.record["skills"]}
    assert list(rows) == sorted({line["skill"] for line in own(month.log)})
    for skill, row in rows.items():
        mine = [line for line in own(month.log) if line["skill"] == skill]
        right = sum(line["right"] for line in mine)
        assert (row["tries"], row["right"]) == (len(mine), right)
        assert row["interval"] == pytest.approx(interval(right, len(mine)), abs=1e-4)
        met = [line for line in month.log if line["skill"] == skill and line["purpose"] != "yardstick"]
        last = (met or mine)[-1]
        times = [line["milliseconds"] for line in timed(mine) if form_of(line) == form_of(last)]
        assert row["median_ms"] == (int(middle(times[-12:])) if times else None)
        assert row["goal_ms"] == goal(month.log, last)


def test_confusions(month: Month) -> None:
    """What was answered at each skill in its place, or else each slip, the most frequent first."""
    found: dict[tuple[str, str, str], int] = {}
    for line in month.log:
        other = line.get("taken_for") or ""
        told = line["skill"], other, "" if other else line["slip"] or ""
        if told[1] or told[2]:
            found[told] = found.get(told, 0) + 1
    rows = [
        {"skill": skill, "taken_for": other or None, "slip": slip or None, "times": times}
        for (skill, other, slip), times in sorted(found.items(), key=lambda pair: (-pair[1], pair[0]))
    ]
    assert any(row["taken_for"] for row in rows)
    assert any(row["slip"] for row in rows)
    assert month.record["confusions"] == rows


def test_yardsticks(month: Month) -> None:
    """Right of 16, right a minute, and the time in the later one over the first, pair by pair."""
    measured = [line for line in month.log if line["purpose"] == "yardstick"]
    first, later = measured[:16], measured[16:]
    for number, (row, mine) in enumerate(
        zip(month.record["figures"]["yardsticks"], (first, later), strict=True), 1
    ):
        right = sum(line["right"] for line in mine)
        clocked = [line for line in mine if line["milliseconds"] is not None]
        spent = sum(line["milliseconds"] for line in clocked) / 60_000
        assert (row["number"], row["drills"], row["whole"], row["right"]) == (number, 16, True, right)
        assert (row["since"], row["until"]) == (day_of(mine[0]), day_of(mine[-1]))
        assert row["interval"] == pytest.approx(interval(right, 16), abs=1e-4)
        assert row["timed"] == len(clocked)
        pace = sum(line["right"] for line in clocked) / spent
        assert row["right_a_minute"] == pytest.approx(pace, abs=0.01)
    assert [row["day"] for row in month.record["yardsticks"]] == [day_of(first[0]), day_of(later[0])]
    ratios = []
    for line in later:
        other = next(each for each in first if each["skill"] == line["skill"])
        first = [each for each in first if each is not other]
        if all(each["right"] and each["milliseconds"] is not None for each in (line, other)):
            ratios.append(line["milliseconds"] / other["milliseconds"])
    against = month.record["figures"]["yardsticks"][1]["time_against_first"]
    assert against["drills"] == len(ratios) > 6
    assert against["ratio"] == pytest.approx(middle(ratios), abs=1e-3)
    assert_brackets(against["interval"], [middle(draw(ratios, chance)) for chance in chances()])


def test_first_drills_after_a_week_away(month: Month) -> None:
    """The first unhelped drill of a day of a skill not met for 7 days, of all that move the schedule."""
    met: dict[str, date] = {}
    counted: dict[str, date] = {}
    found = []
    for line in month.log:
        if line["purpose"] == "yardstick":
            continue
        today, skill = date.fromisoformat(day_of(line)), line["skill"]
        moves = line["purpose"] in ("today", "placing", "picked") and not line["helped"]
        if moves and counted.get(skill, date.min) < today:
            if skill in met and (today - met[skill]).days >= 7:
                found.append(line)
            counted[skill] = today
        met[skill] = max(today, met.get(skill, today))
    row = month.record["figures"]["after_a_week_away"]
    right = sum(line["right"] for line in found)
    assert (row["drills"], row["right"]) == (len(found), right)
    assert row["drills"] > 4
    assert row["interval"] == pytest.approx(interval(right, len(found)), abs=1e-4)
    assert (row["since"], row["until"]) == (min(map(day_of, found)), max(map(day_of, found)))


def test_pace_at_the_same_form(month: Month) -> None:
    """The median of the first week and of the last, at every form met over two weeks or more."""
    rows = {
        (row["kind"], row["form"], row["level"], row["marks"], row["means"]): row
        for row in month.record["figures"]["pace"]
    }
    expected = set()
    for form in {form_of(line) for line in timed(month.log)}:
        mine = [line for line in timed(month.log) if form_of(line) == form]
        days = [date.fromisoformat(day_of(line)) for line in mine]
        if (max(days) - min(days)).days < 13:
            continue
        expected.add(form)
        times = [(line["milliseconds"], day) for line, day in zip(mine, days, strict=True)]
        early = [ms for ms, day in times if (day - min(days)).days < 7]
        late = [ms for ms, day in times if (max(days) - day).days < 7]
        row = rows[form]
        assert (row["first_drills"], row["last_drills"]) == (len(early), len(late))
        assert row["first_seconds"] == pytest.approx(middle(early) / 1000, abs=0.051)
        assert row["last_seconds"] == pytest.approx(middle(late) / 1000, abs=0.051)
        assert (row["since"], row["until"]) == (min(days).isoformat(), max(days).isoformat())
        if min(len(early), len(late)) < 6:
            assert row["ratio_interval"] is None
        else:
            drawn = [middle(draw(late, chance)) / middle(draw(early, chance)) for chance in chances()]
            assert_brackets(row["ratio_interval"], drawn)
    assert set(rows) == expected
    assert any(row["ratio_interval"] for row in rows.values())


def test_the_weeks_of_the_form_practised_most(month: Month) -> None:
    """Their medians and drills, by calendar weeks of practice days."""
    by_form: dict[tuple[Any, ...], list[Line]] = {}
    for line in timed(month.log):
        by_form.setdefault(form_of(line), []).append(line)
    most = max(len(lines) for lines in by_form.values())
    form = min(form for form, lines in by_form.items() if len(lines) == most)
    found = month.record["figures"]["weeks"]
    assert (found["kind"], found["form"], found["level"], found["marks"], found["means"]) == form
    weeks: dict[tuple[int, int], list[Line]] = {}
    for line in by_form[form]:
        weeks.setdefault(date.fromisoformat(day_of(line)).isocalendar()[:2], []).append(line)
    assert len(found["weeks"]) == len(weeks) > 1
    for row, (week, lines) in zip(found["weeks"], sorted(weeks.items()), strict=True):
        assert date.fromisoformat(row["monday"]).isocalendar() == (*week, 1)
        assert row["drills"] == len(lines)
        assert row["median_ms"] == pytest.approx(middle(line["milliseconds"] for line in lines), abs=1)
        if row["interval"]:
            drawn = [middle(draw([line["milliseconds"] for line in lines], chance)) for chance in chances()]
            assert_brackets(row["interval"], drawn)


@pytest.mark.parametrize(("by", "rows"), [("kind", "errors"), ("skill", "taken")])
def test_misses_against_false_alarms(month: Month, by: str, rows: str) -> None:
    """By kind, and by skill where anything went wrong; drills with any, with interval and window."""
    names = {"errors": ("with_misses", "with_false_alarms"), "taken": ("missed", "marked_wrongly")}[rows]
    found = {row[by]: row for row in month.record["figures"][rows]}
    wrong = [line for line in own(month.log) if line["misses"] or line["false_alarms"] or line["slip"]]
    assert set(found) == {line[by] for line in (own(month.log) if rows == "errors" else wrong)}
    for name, row in found.items():
        mine = [line for line in own(month.log) if line[by] == name]
        assert row["drills"] == len(mine)
        assert (row["since"], row["until"]) == (min(map(day_of, mine)), max(map(day_of, mine)))
        for key, field in zip(names, ("misses", "false_alarms"), strict=True):
            with_any = sum(line[field] > 0 for line in mine)
            assert row[key] == with_any
            assert row[f"{key}_interval"] == pytest.approx(interval(with_any, len(mine)), abs=1e-4)


def test_the_table_holds_what_the_figures_are_made_of(month: Month) -> None:
    """Each line of the log with its practice day, and both yardsticks by number."""
    rows = list(csv.DictReader(call(month.folder, "record", "--csv").out.splitlines()))
    assert [row["practice_day"] for row in rows] == [day_of(line) for line in month.log]
    assert [row["yardstick"] for row in rows if row["yardstick"]] == ["1"] * 16 + ["2"] * 16
    away = [row for row in rows if row["first"] == "yes" and int(row["days_away"] or 0) >= 7]
    assert len(away) == month.record["figures"]["after_a_week_away"]["drills"]


def test_the_same_log_gives_the_same_record(month: Month) -> None:
    """Whatever the clock says, to the letter."""
    later = call(month.folder, "record", "--json", "--now", "2030-01-01T00:00:00Z").out
    assert json.loads(later) == month.record
    assert later == call(month.folder, "record", "--json").out


def test_on_day_forty_today_is_full(month: Month, tmp_path: Path) -> None:
    """Five minutes of drills, one after the other until the time is over."""
    (tmp_path / "attempts.jsonl").write_bytes((month.folder / "attempts.jsonl").read_bytes())
    hands = Hands(month.hands.now + timedelta(days=40 - LAST_DAY))
    with store(tmp_path, hands) as kept:
        begun = hands.ticks
        session = rounds.today(kept, hands.clock)
        assert session.seconds_left == 300
        drills = played(session, hands, seconds=12)
        assert hands.ticks - begun >= 300
        assert len(drills) >= 25
        assert len({drill.kind for drill in drills}) == 4
