from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from itertools import pairwise, product
from typing import Any

import pytest

from drills.geometry import Chance
from drills.questions import KINDS, kind_of, skill_names, skills_at
from progress_store import Result, State
from tests.trainer.practice.making import RULES, TODAY, attempt, first_skills, four_kinds, state_of
from trainer.practice.choosing import Done, History, Selection, level_of, next_selection

pytestmark = pytest.mark.usefixtures(four_kinds.__name__)

Played = list[tuple[Selection, Result]]
YESTERDAY = TODAY - timedelta(days=1)


def known_state(*skills: str, misses: Iterable[str] = (), day: date = YESTERDAY) -> State:
    """Return the state in which skills were met in this order, some of them missed when picked."""
    wrong = set(misses)
    return state_of(
        attempt(skill, day, place, right=skill not in wrong, purpose="picked" if skill in wrong else "today")
        for place, skill in enumerate(skills)
    )


def chosen(state: State, *done: Done, today: date = TODAY) -> tuple[str, str]:
    """Return the skill chosen after these drills of a sitting, and why."""
    choice = next_selection(state, today, History(done))
    return choice.skill, choice.reason


STEPS, SINKS, LABELS, FIND = "steps read 1:2", "sinks mark equal few", "labels one", "find roof"
FOUR = (STEPS, SINKS, LABELS, FIND)


def test_a_sitting_begins_with_one_that_was_right_the_last_time() -> None:
    """Of those that were the one that has come round, or was met longest ago; never a new one."""
    state = known_state(*FOUR, misses=[STEPS, SINKS])
    assert chosen(state) == (LABELS, "begin")
    slow = state.after(attempt(LABELS, YESTERDAY, 10, slip="more than needed"))
    assert chosen(slow) == (FIND, "begin")
    round_again = slow.after(attempt(FIND, TODAY - timedelta(days=1), 11))
    assert chosen(round_again) == (LABELS, "begin")


@pytest.mark.parametrize("others", range(10))
def test_a_miss_comes_back_after_eight_others(others: int) -> None:
    """Once, as the first that may come then."""
    state = known_state(*FOUR).after(attempt(STEPS, TODAY, right=False))
    turns = [(SINKS, "sinks"), (LABELS, "labels"), (FIND, "find")]
    between = [Done(*turns[place % 3], "clean") for place in range(others)]
    comes = chosen(state, Done(STEPS, "steps", "miss"), *between) == (STEPS, "return")
    assert comes == (others >= 8)
    assert chosen(state.after(attempt(STEPS, TODAY, 9, right=False)), *between) != (STEPS, "return")


def test_a_miss_that_has_not_come_back_is_the_first_of_the_next_sitting() -> None:
    """The same day or another, before what was right and what has come round; several in their order."""
    missed = [attempt(skill, YESTERDAY, 50 + n, right=False) for n, skill in enumerate((LABELS, FIND))]
    state = state_of([*(attempt(skill, YESTERDAY, n) for n, skill in enumerate(FOUR)), *missed])
    for day in (YESTERDAY, TODAY, TODAY + timedelta(days=30)):
        assert chosen(state, today=day) == (LABELS, "return")
    once = state.after(attempt(LABELS, TODAY, right=False))
    assert chosen(once, Done(LABELS, "labels", "miss")) == (FIND, "return")
    back = once.after(attempt(FIND, TODAY, 1))
    assert chosen(back, Done(LABELS, "labels", "miss"), Done(FIND, "find", "clean"))[1] != "return"


def test_after_a_confusion_the_look_alike_is_next() -> None:
    """Before what is owed and what is new, if the person knows it; not after any other miss."""
    state = known_state(STEPS, "steps read 1:3", SINKS, LABELS, FIND)
    taken = Done(STEPS, "steps", "miss", "steps read 1:3")
    assert chosen(state, taken) == ("steps read 1:3", "look-alike")
    assert chosen(known_state(*FOUR), taken)[1] != "look-alike"
    assert chosen(state, Done(STEPS, "steps", "miss"))[1] != "look-alike"
    two = Done("steps place 1:2", "steps", "clean"), taken
    other = next_selection(state, TODAY, History(two))
    assert other.kind != "steps", "never a third of a kind"
    after = Done(other.skill, other.kind, "clean")
    assert chosen(state, *two, after) == ("steps read 1:3", "look-alike")


def test_what_has_come_round_comes_by_lowest_recall_then_what_was_met_longest_ago() -> None:
    """Days counted by the scheduler, drills by the log, across days; what was met in the sitting is last."""
    days = {STEPS: 9, SINKS: 4, LABELS: 1, FIND: 1}
    met = [attempt(skill, TODAY - timedelta(days=ago), n) for n, (skill, ago) in enumerate(days.items())]
    # with these nothing more is new today
    new = [attempt(skill, TODAY, n) for n, skill in enumerate(("labels nothing", "steps place 1:2"))]
    state, begun = state_of([*met, *new]), Done(FIND, "find", "clean")
    assert chosen(state, begun) == (STEPS, "round")
    assert chosen(state, begun, Done(STEPS, "steps", "clean")) == (SINKS, "round")
    assert state.skills[LABELS].next == TODAY + timedelta(days=1)
    done = begun, Done(STEPS, "steps", "clean"), Done(SINKS, "sinks", "clean")
    assert chosen(state, *done) == (LABELS, "known")
    assert chosen(state, *done, Done(LABELS, "labels", "clean")) == ("labels nothing", "known")


def test_longest_ago_is_counted_in_drills_not_in_days() -> None:
    """Of skills of one day the one met first."""
    state = known_state(*(order := [LABELS, "sinks join equal many", FIND, STEPS]), day=TODAY)
    session, found = [Done("steps place 1:2", "steps", "clean")], []
    for _ in order:
        skill, reason = chosen(state, *session)
        assert reason == "known"
        session.append(Done(skill, kind_of(skill)[0], "clean"))
        found.append(skill)
    assert found == order


def test_a_strong_find_does_not_wait_for_weak_labels() -> None:
    """Kinds keep apart: levels by kind, and something new however the rest goes."""
    day = [attempt(FIND, YESTERDAY, n, level=2 + n // 4) for n in range(16)]
    day += [attempt(LABELS, YESTERDAY, 100 + n, right=False) for n in range(40)]
    state = state_of(day)
    assert (state.level("find"), state.level("labels")) == (6, 1)
    played = sat(state, TODAY, 12, lambda choice: choice.kind != "labels")[1]
    assert len({choice.skill for choice, _ in played if choice.stage == "worked"}) == 2


def sat(
    state: State, today: date, number: int, is_right: Callable[[Selection], bool] = lambda _: True
) -> tuple[State, Played]:
    """Return the state after so many drills of a day, and what was chosen and came of it."""
    session, played = History(), Played()
    for place in range(number):
        choice = next_selection(state, today, session)
        result: Result = "clean"
        if choice.stage != "worked":
            half: dict[str, Any] = {"purpose": "walk", "helped": True} if choice.stage == "half" else {}
            right = is_right(choice)
            state, judged = state.step(attempt(choice.skill, today, place, choice.level, right=right, **half))
            result = judged.result
        session = session.with_drill(Done(choice.skill, choice.kind, result, stage=choice.stage))
        played.append((choice, result))
    return state, played


@cache
def days(number: int, share_right: int, seed: str, a_day: int = 16) -> tuple[tuple[State, date, Played], ...]:
    """Return days of practice, each with the state before it, after the placing drills."""
    chance = Chance(seed)
    placed = [
        attempt(skill, TODAY, place, level, purpose="placing", right=level < 3)
        for place, (level, skill) in enumerate(product((2, 3), first_skills("steps", "sinks", "labels")))
    ]
    state, found = state_of(placed), list[tuple[State, date, Played]]()
    for day in (TODAY + timedelta(days=number) for number in range(1, number + 1)):
        before = state
        state, played = sat(state, day, a_day, lambda _: chance.below(100) < share_right)
        found.append((before, day, played))
    return tuple(found)


@pytest.mark.parametrize("share_right", [100, 90, 70, 40, 0])
def test_forty_days_are_always_full(share_right: int) -> None:
    """However it goes, there is a drill for every place of every day, of a skill and level that there is."""
    for _, _, played in days(40, share_right, f"forty {share_right}"):
        assert len(played) == 16
        for choice, _ in played:
            assert choice.skill in skill_names()
            assert choice.level in KINDS[choice.kind].levels


@pytest.mark.parametrize("share_right", [100, 90, 70, 40, 0])
def test_never_the_same_twice_and_never_three_of_a_kind_running(share_right: int) -> None:
    """On forty days, but for the half worked drill after the worked one."""
    for _, _, played in days(40, share_right, f"forty {share_right}"):
        order = [choice for choice, _ in played]
        assert all(one.skill != two.skill or two.stage == "half" for one, two in pairwise(order))
        for one, two, three in zip(order, order[1:], order[2:], strict=False):
            assert not one.kind == two.kind == three.kind


@pytest.mark.parametrize("share_right", [100, 70, 40, 0])
def test_two_skills_a_day_are_new_as_long_as_there_are_any(share_right: int) -> None:
    """However it goes: what is open to the person's levels comes, two a day and never more."""
    for before, _, played in days(40, share_right, f"forty {share_right}"):
        new = {choice.skill for choice, _ in played} - before.skills.keys()
        assert len(new) <= 2
        unmet = [s for s in skill_names() if s not in before.skills]
        always_open = [s for s in unmet if s in skills_at(*kind_of(s), KINDS[kind_of(s)[0]].lowest)]
        assert len(new) >= min(2, len(always_open))


def test_all_skills_are_met_in_forty_days() -> None:
    """By a person who is nearly always right."""
    found = days(40, 97, "all")
    assert {choice.skill for _, _, played in found for choice, _ in played} == set(skill_names())


def test_a_sitting_begins_with_what_is_owed_or_was_right() -> None:
    """On twenty days of four right in five."""
    begun = set()
    for before, _, played in days(20, 80, "easy"):
        first = played[0][0]
        begun.add(first.reason)
        owed = {skill for skill, known in before.skills.items() if known.owed}
        right = {skill for skill, known in before.skills.items() if known.results[-1:] != ("miss",)}
        if owed or right:
            assert first.skill in (owed or right)
            assert first.reason == ("return" if owed else "begin")
    assert {"return", "begin"} <= begun


@pytest.mark.parametrize("share_right", [90, 70, 40])
def test_every_miss_comes_back_once(share_right: int) -> None:
    """Within nine to eleven drills, as a return or by a look-alike, or at the next sitting's beginning."""
    for before, _, played in days(40, share_right, f"forty {share_right}"):
        owed = {skill for skill, known in before.skills.items() if known.owed}
        met = [choice.skill for choice, _ in played]
        assert owed <= set(met[: len(owed) + 4])
        for place, (choice, result) in enumerate(played[:-12]):
            if result == "miss" and choice.stage == "alone" and choice.reason != "return":
                assert choice.skill in met[place + 1 : place + 13]


def test_the_first_day_after_placing_meets_the_kind_that_is_not_placed() -> None:
    """At its lowest level."""
    ((_, _, played),) = days(1, 100, "first")
    first = next(choice for choice, _ in played if choice.kind == "find")
    assert (first.level, first.reason, first.stage) == (KINDS["find"].lowest, "new", "worked")


def test_nobody_starts_with_nothing_to_do() -> None:
    """Without a single attempt two kinds are introduced at their lowest level, then mixed."""
    played = sat(State(RULES), TODAY, 20)[1]
    assert all(choice.level == KINDS[choice.kind].lowest for choice, _ in played[:6])
    assert [choice.stage for choice, _ in played[:6]] == ["worked", "half"] * 2 + ["alone", "alone"]
    assert len({choice.kind for choice, _ in played}) == 2


def test_a_skill_is_met_at_the_level_of_its_kind() -> None:
    """All forms of a kind go by its one level."""
    state = state_of([attempt("steps read 1:2", YESTERDAY, level=3, purpose="placing")])
    assert level_of(state, "steps place 3:4") == 3
    assert level_of(state, "labels one") == 1
    for before, _, played in days(10, 90, "levels"):
        first = played[0][0]
        assert first.level == level_of(before, first.skill)


@pytest.mark.parametrize("skill", ["find among roofs", "steps read 5:12"])
def test_a_skill_that_this_version_does_not_know_stops_nobody(skill: str) -> None:
    """The log of a later version, merged in, holds skills that cannot be asked here; the others go on."""
    kind, form, *_ = skill.split()
    stranger = replace(attempt("labels one", YESTERDAY), id="later", kind=kind, form=form, skill=skill)
    state = state_of([stranger, attempt("labels nothing", YESTERDAY, 1)])
    assert all(choice.skill in skill_names() for choice, _ in sat(state, TODAY, 12)[1])
