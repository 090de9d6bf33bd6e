from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import timedelta
from itertools import pairwise
from pathlib import Path

import pytest

from drills.questions import KINDS, NO_FEATURES, Drill, make, newest
from progress_store import Attempt, Store
from tests.trainer.practice.making import (
    TODAY,
    Hands,
    answer,
    attempt,
    first_skills,
    played,
    skills_of_every_form,
    store,
)
from trainer.practice.drill_source import SEEDS
from trainer.practice.yardstick import DRILLS_BEFORE, EVERY_DAYS, LEVEL, RECIPE, codes_of, offer, yardstick

NUMBERS = range(1, 40)


@pytest.mark.parametrize("numbers", [NUMBERS[:4], pytest.param(NUMBERS[4:], marks=pytest.mark.long)])
def test_every_yardstick_is_of_the_one_recipe(numbers: range) -> None:
    """16 drills at level 3: 4 steps, 4 sinks, 5 labels of which 2 faultless, 3 find of which 1 is empty."""
    for number in numbers:
        made = [make(code) for code in codes_of(number)]
        assert Counter(drill.kind for drill in made) == {
            "steps": 4,
            "sinks": 4,
            "labels": 5,
            "find": 3,
        }
        assert Counter(drill.skill for drill in made) == Counter(RECIPE)
        assert {drill.level for drill in made} == {LEVEL} == {3}
        assert [empty(drill) for drill in made].count(True) == 3
        assert [empty(drill) for drill in made if drill.kind == "labels"].count(True) == 2


def empty(drill: Drill) -> bool:
    """Whether there is nothing to mark."""
    return drill.kind in ("labels", "find") and not drill.question.answer[0]


def test_the_forms_are_fixed() -> None:
    """Steps read and placed twice; inside lines marked twice, their points once, joined once."""
    forms = Counter((code.kind, code.form) for code in codes_of(1))
    assert forms == {
        ("steps", ""): 2,
        ("steps", "place"): 2,
        ("sinks", ""): 2,
        ("sinks", "points"): 1,
        ("sinks", "join"): 1,
        ("labels", ""): 5,
        ("find", ""): 3,
    }


def test_no_kind_follows_itself() -> None:
    """Question after question is of another kind."""
    for number in NUMBERS:
        kinds = [code.kind for code in codes_of(number)]
        assert all(one != other for one, other in pairwise(kinds))


def test_seeds_are_reserved_and_never_used_twice() -> None:
    """Fresh drills draw below SEEDS; each yardstick has ten thousand seeds of its own above."""
    for number in NUMBERS:
        codes = codes_of(number)
        assert len(set(codes)) == 16
        assert {(code.seed - SEEDS) // 10_000 for code in codes} == {number}


def test_the_first_yardstick_is_the_same_for_everybody() -> None:
    """Frozen: these codes must never change, or yardsticks could not be compared."""
    assert [str(code) for code in codes_of(1)] == [
        "steps-3-1010006",
        "sinks-3-1010000",
        "labels-3-1010001",
        "find-3-1010010",
        "steps-3-1010003-place",
        "labels-3-1010004",
        "sinks-3-1010000-points",
        "find-3-1010002",
        "steps-3-1010000",
        "labels-3-1010000",
        "sinks-3-1010002",
        "labels-3-1010003",
        "find-3-1010001",
        "steps-3-1010000-place",
        "sinks-3-1010003-join",
        "labels-3-1010002",
    ]


def test_a_later_generator_does_not_change_the_yardstick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every kind is given one more version at its level; the codes stay those of the pinned one."""
    before = codes_of(1)
    for kind, row in KINDS.items():
        later = {(form, LEVEL): (*row.features(form, LEVEL), NO_FEATURES) for form in row.forms}
        monkeypatch.setitem(KINDS, kind, replace(row, versions={**row.versions, **later}))
    assert newest(before[0]).version == 2
    codes_of.cache_clear()
    assert codes_of(1) == before


@pytest.mark.long
def test_no_place_tells_what_it_holds() -> None:
    """A faultless set of labels, and a sheet without a stretch, come at every place of their kind."""
    places = {kind: [at for at, code in enumerate(codes_of(1)) if code.kind == kind] for kind in KINDS}
    seen = {
        (place, empty(make(codes_of(number)[place])))
        for number in NUMBERS
        for place in places["labels"] + places["find"]
    }
    assert len(seen) == 2 * (5 + 3)


def log(drills: int, forms: int = 7, days_ago: int = 20) -> list[Attempt]:
    """Return so many drills of the first forms, some days ago."""
    skills = skills_of_every_form()[:forms]
    return [
        attempt(skills[number % forms], TODAY - timedelta(days=days_ago), number) for number in range(drills)
    ]


def kept(folder: Path, hands: Hands, attempts: list[Attempt]) -> Store:
    """Return a store that holds attempts."""
    opened = store(folder, hands)
    for each in attempts:
        opened.keep(each)
    return opened


@pytest.mark.parametrize(
    ("drills", "days_ago", "is_open"),
    [(0, 0, False), (DRILLS_BEFORE - 1, 0, False), (DRILLS_BEFORE, 0, True), (1, 1, True)],
)
def test_the_first_comes_on_the_second_day_or_after_twenty_drills(
    tmp_path: Path, drills: int, days_ago: int, is_open: bool
) -> None:
    """So what is learnt is measured from near its beginning; before that it is said when it comes."""
    says = "The first yardstick comes the day after your first drills, or once you have done 20."
    with kept(tmp_path, Hands(), log(drills, days_ago=days_ago)) as opened:
        assert offer(opened) == ((True, "today", "") if is_open else (False, "later", says))


@pytest.mark.parametrize("forms", [7, 6, 1])
def test_what_was_not_met_is_asked_all_the_same_and_said(tmp_path: Path, forms: int) -> None:
    """All 16 drills, whatever was met; the first names the forms that were not."""
    hands = Hands()
    unmet = [KINDS["find"].title, f"{KINDS['sinks'].title}: {KINDS['sinks'].forms['join'].words}"]
    with kept(tmp_path, hands, log(DRILLS_BEFORE, forms)) as opened:
        session = yardstick(opened, hands.clock)
        assert session.next_drill() is not None
        assert ("all the same" in session.tells) is (forms < 7)
        assert [words in session.tells for words in unmet] == [forms < 7, forms < 2]
        assert session.progress == "1 of 16"


def test_it_comes_every_fourteen_days(tmp_path: Path) -> None:
    """From 14 days after the last on; before that it is said when."""
    hands = Hands()
    with kept(tmp_path, hands, log(DRILLS_BEFORE)) as opened:
        assert offer(opened).is_open
        played(yardstick(opened, hands.clock), hands)
        assert offer(opened) == (
            False,
            "in 14 days",
            "The next yardstick comes in 14 days, 14 days after the last.",
        )
        hands.wait(86400 * (EVERY_DAYS - 1))
        assert offer(opened).word == "tomorrow"
        hands.wait(86400)
        assert offer(opened)[:2] == (True, "today")
        assert yardstick(opened, hands.clock).progress == "0 of 16"


def test_a_whole_yardstick_moves_nothing(tmp_path: Path) -> None:
    """Neither skills nor levels, though it is logged with its purpose and no answer was helped."""
    hands = Hands()
    with kept(tmp_path, hands, log(DRILLS_BEFORE)) as opened:
        before = opened.state
        drills = played(yardstick(opened, hands.clock), hands, is_right=lambda place, _: place % 2 == 0)
        assert [drill.spec.code for drill in drills] == list(codes_of(1))
        mine = opened.attempts[-16:]
        assert {(each.purpose, each.helped) for each in mine} == {("yardstick", False)}
        assert opened.state.skills == before.skills
        assert opened.state.levels == before.levels


def test_one_that_is_left_is_gone_on_with_the_same_day(tmp_path: Path) -> None:
    """With the drills that are still open; the next day it is past, and the next one has fresh seeds."""
    hands = Hands()
    with kept(tmp_path, hands, log(DRILLS_BEFORE)) as opened:
        left = yardstick(opened, hands.clock)
        for _ in range(5):
            drill = left.next_drill()
            assert drill is not None
            answer(left, hands, drill)
        assert not left.is_over
        assert offer(opened)[:2] == (True, "go on, 11 drills left")
        rest = yardstick(opened, hands.clock)
        drill = rest.next_drill()
        assert drill is not None
        assert (drill.spec.code, rest.progress) == (codes_of(1)[5], "6 of 16")
        hands.wait(86400)
        assert offer(opened).word == "in 13 days"
        hands.wait(13 * 86400)
        fresh = played(yardstick(opened, hands.clock), hands)
        assert [drill.spec.code for drill in fresh] == list(codes_of(2))
        assert not offer(opened).is_open


def test_codes_that_are_none_are_passed_over(tmp_path: Path) -> None:
    """A yardstick of another version in a merged log does not stop the next one."""
    hands = Hands()
    other = attempt(first_skills()[0], TODAY - timedelta(days=20), 99, purpose="yardstick", code="of later")
    with kept(tmp_path, hands, [*log(DRILLS_BEFORE), other]) as opened:
        drill = yardstick(opened, hands.clock).next_drill()
        assert drill is not None
        assert drill.spec.code == codes_of(1)[0]


def test_nothing_is_told_or_helped_before_the_end(tmp_path: Path) -> None:
    """The round says so to the screen, what it is only with the first drill."""
    hands = Hands()
    with kept(tmp_path, hands, log(DRILLS_BEFORE)) as opened:
        session = yardstick(opened, hands.clock)
        assert session.tells_at_end
        drill = session.next_drill()
        assert drill is not None
        assert "16 drills" in session.tells
        answer(session, hands, drill)
        session.next_drill()
        assert session.tells == ""
