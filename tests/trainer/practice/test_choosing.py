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
from progress_store import Attempt, Result, State
from tests.trainer.practice.making import RULES, TODAY, attempt, first_skills, four_kinds, state_of
from trainer.practice.choosing import Done, History, Selection, level_of, next_selection

pytestmark = pytest.mark.usefixtures(four_kinds.__name__)

Played = list[tuple[Selection, Result]]
YESTERDAY = TODAY - timedelta(days=1)


def test_a_sitting_begins_with_what_goes_best() -> None:
    """Of three skills the one without a miss, though it has not come round, and the others have."""
    good, bad, slow = first_skills("steps", "sinks", "labels")
    attempts = [attempt(good, YESTERDAY - timedelta(days=day)) for day in (9, 6, 3, 0)]
    attempts += [attempt(bad, YESTERDAY, 10, right=False), attempt(slow, YESTERDAY, 20, slip="exchanged")]
    state = state_of(attempts)
    choice = next_selection(state, TODAY, History())
    assert (choice.skill, choice.reason) == (good, "known")
    comes = state.skills[good].next
    assert comes is not None
    assert next_selection(state, comes, History()).reason == "round"


def sat(
    state: State, today: date, number: int, is_right: Callable[[Selection], bool] = lambda _: True
) -> tuple[State, Played]:
    """Return the state after so many drills of a day, and what was chosen and came of it."""
    session, played = History(), Played()
    for place in range(number):
        choice = next_selection(state, today, session)
        above = choice.level > state.level(choice.kind)
        result: Result = "clean"
        if choice.stage != "worked":
            half: dict[str, Any] = {"purpose": "walk", "helped": True} if choice.stage == "half" else {}
            right = is_right(choice)
            state, judged = state.step(attempt(choice.skill, today, place, choice.level, right=right, **half))
            result = judged.result
        session = session.with_drill(Done(choice.skill, choice.kind, result, above, choice.stage))
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


@pytest.mark.parametrize("share_right", [100, 90, 70, 40])
def test_never_three_of_a_kind_running(share_right: int) -> None:
    """On forty days no kind comes three times in a row, but where a new skill is introduced."""
    for _, _, played in days(40, share_right, f"forty {share_right}"):
        order = [choice for choice, _ in played]
        for one, two, three in zip(order, order[1:], order[2:], strict=False):
            assert three.reason == "new" or not one.kind == two.kind == three.kind


@pytest.mark.parametrize("share_right", [100, 90, 70])
def test_one_in_eight_at_most_is_harder(share_right: int) -> None:
    """The harder ones are one level up, never two within eight, and they do come."""
    seen = 0
    for before, _, played in days(40, share_right, f"forty {share_right}"):
        places = [place for place, (choice, _) in enumerate(played) if choice.reason == "harder"]
        assert all(later - earlier >= 8 for earlier, later in pairwise(places))
        for choice, _ in (played[place] for place in places):
            assert choice.level >= before.level(choice.kind)
            assert choice.skill in skills_at(*kind_of(choice.skill), choice.level)
        seen += len(places)
    assert seen > 10


@pytest.mark.parametrize("share_right", [100, 90, 70])
def test_at_most_two_skills_a_day_are_new(share_right: int) -> None:
    """Counted by what the state did not know before the day."""
    for before, _, played in days(40, share_right, f"forty {share_right}"):
        assert len({choice.skill for choice, _ in played} - set(before.skills)) <= 2


def test_all_skills_are_met_in_forty_days() -> None:
    """A person who is nearly always right has met every skill."""
    found = days(40, 97, "all")
    assert {choice.skill for _, _, played in found for choice, _ in played} == set(skill_names())


def test_every_first_drill_of_a_day_is_an_easy_one() -> None:
    """Its last result was clean, and no other such skill has fewer misses."""
    for before, _, played in days(20, 80, "easy"):
        clean = {s: known for s, known in before.skills.items() if known.results[-1:] == ("clean",)}
        if clean:
            first = played[0][0].skill
            fewest = min(known.results.count("miss") for known in clean.values())
            assert clean[first].results.count("miss") == fewest


@pytest.mark.parametrize(("rights", "opens"), [(20, True), (16, True), (15, False), (0, False)])
def test_new_skills_come_while_16_of_the_last_20_first_drills_were_right(rights: int, opens: bool) -> None:
    """Twenty first drills of known skills, the last ones wrong: with 15 right nothing new is opened."""
    skills = first_skills()
    assert len(skills) == 4
    firsts = [
        attempt(skill, TODAY - timedelta(days=10 - 2 * day), place, right=4 * day + place < rights)
        for day in range(5)
        for place, skill in enumerate(skills)
    ]
    state = state_of([*firsts, *settled(skills)])
    assert sum(state.firsts) == rights
    assert ("new" in reasons(state, 8)) == opens


@pytest.mark.parametrize("right", [True, False])
def test_a_kind_never_met_comes_at_once(right: bool) -> None:
    """However it went, and though two skills are new today: who knows three kinds meets the fourth."""
    known = ["steps read 1:2", "sinks mark equal few", "labels one"]
    attempts = [
        attempt(skill, YESTERDAY - timedelta(days=day), place, right=right)
        for day in range(7)
        for place, skill in enumerate(known)
    ]
    attempts += [attempt("steps place 1:2", TODAY, -2), attempt("labels nothing", TODAY, -1)]
    played = sat(state_of(attempts), TODAY, 12)[1]
    new = {choice.skill for choice, _ in played if choice.reason == "new"}
    assert len(new) == 1
    assert kind_of(new.pop())[0] == "find"


def test_the_first_day_after_placing_meets_the_kind_that_is_not_placed() -> None:
    """At its lowest level."""
    ((_, _, played),) = days(1, 100, "first")
    first = next(choice for choice, _ in played if choice.kind == "find")
    assert (first.level, first.reason) == (KINDS["find"].lowest, "new")


def settled(skills: Iterable[str]) -> list[Attempt]:
    """Return attempts of long ago that leave none of the skills without a right answer."""
    long_ago = TODAY - timedelta(days=90)
    return [attempt(skill, long_ago, place) for place, skill in enumerate(skills)]


def reasons(state: State, number: int) -> list[str]:
    """Return why the next drills are asked, all being right."""
    return [choice.reason for choice, _ in sat(state, TODAY, number)[1]]


@pytest.mark.parametrize(("unsettled", "opens"), [(4, True), (5, False)])
def test_new_skills_wait_while_more_than_four_are_unsettled(unsettled: int, opens: bool) -> None:
    """Skills that were never right, among enough that are; the day's drills are not on the unsettled ones."""
    never_right = ["steps read 1:2", "steps read 1:3", "sinks mark equal few", "labels one", "labels nothing"]
    fine = ["steps place 1:2", "sinks join equal few", "find pleats"]
    attempts = [
        attempt(skill, YESTERDAY - timedelta(days=day), place)
        for day in range(1, 12)
        for place, skill in enumerate(fine)
    ]
    long_ago = TODAY - timedelta(days=30)
    missed = enumerate(never_right[:unsettled])
    attempts += [attempt(skill, long_ago, place, right=False) for place, skill in missed]
    state = state_of(attempts)
    assert [known.word for known in state.skills.values()].count("new") == unsettled
    session = History()
    for _ in range(10):
        choice = next_selection(state, TODAY, session)
        session = session.with_drill(Done(choice.skill, choice.kind, "clean"))
    assert any(done.skill not in state.skills for done in session.done) == opens


def test_a_missed_skill_returns_in_the_sitting() -> None:
    """Known skills of three kinds: the one missed comes again as the fourth drill after, as a return."""
    state = known_state(*first_skills(), "steps read 3:4", "labels nothing", "sinks join equal few")
    missed = next_selection(state, TODAY, History())
    session = History((Done(missed.skill, missed.kind, "miss"),))
    for _ in range(3):
        choice = next_selection(state, TODAY, session)
        assert choice.skill != missed.skill
        session = session.with_drill(Done(choice.skill, choice.kind, "clean"))
    again = next_selection(state, TODAY, session)
    assert (again.skill, again.reason) == (missed.skill, "return")


def known_state(*skills: str, misses: Iterable[str] = ()) -> State:
    """Return the state in which skills were met yesterday, some of them missed, the others clean."""
    wrong = set(misses)
    return state_of(
        attempt(skill, YESTERDAY, place, right=skill not in wrong) for place, skill in enumerate(skills)
    )


def test_what_has_come_round_comes_least_sure_first() -> None:
    """Of skills whose day has come the one missed yesterday is before one that was right."""
    known = known_state(
        "steps read 1:2", "sinks mark equal few", "labels one", misses=["sinks mark equal few"]
    )
    session = History((Done("steps read 1:2", "steps", "clean"),))
    choice = next_selection(known, TODAY, session)
    assert (choice.skill, choice.reason) == ("sinks mark equal few", "round")


def test_nobody_starts_with_nothing_to_do() -> None:
    """Without a single attempt each kind in turn is introduced at its lowest level, five drills each."""
    played = sat(State(RULES), TODAY, 20)[1]
    assert all(choice.level == KINDS[choice.kind].lowest for choice, _ in played if choice.reason != "harder")
    assert list(dict.fromkeys(choice.kind for choice, _ in played)) == list(KINDS)
    assert played[0][0].reason == "new"
    assert {choice.stage for choice, _ in played[:2]} == {"worked", "half"}


def test_no_skill_follows_itself_while_there_is_another() -> None:
    """On twenty days no two drills in a row are of one skill, but for returns and what is introduced."""
    for _, _, played in days(20, 85, "itself"):
        for (one, _), (two, _) in pairwise(played):
            assert one.skill != two.skill or two.reason in ("return", "new")


def test_a_skill_is_met_at_the_level_of_its_kind() -> None:
    """But for harder ones; all forms of a kind go by its one level."""
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
