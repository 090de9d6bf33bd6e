"""A new skill: one worked, one half worked, three in a row, then mixed; and partners within two."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from drills.questions import KINDS, kind_of, partners_of, skill_names
from tests.trainer.practice.making import TODAY, Hands, answer, attempt, first_skills, state_of, store
from trainer.practice.choosing import Done, History, Stage, next_selection
from trainer.practice.rounds import today

STAGES: list[Stage] = ["worked", "half", "alone", "alone", "alone"]
KNOWN = [
    attempt(skill, TODAY - timedelta(days=day), number)
    for day in (9, 6, 3)
    for number, skill in enumerate(first_skills())
]


def test_a_new_skill_is_worked_half_worked_and_met_three_times_in_a_row() -> None:
    """Somebody who begins meets the first skill five times, then another one."""
    session = History()
    for stage in STAGES:
        choice = next_selection(state_of([]), TODAY, session)
        assert (choice.reason, choice.stage) == ("new", stage)
        session = session.with_drill(Done(choice.skill, choice.kind, "clean", stage=stage))
    assert len({done.skill for done in session.done}) == 1
    assert next_selection(state_of([]), TODAY, session).skill != session.done[0].skill


def test_a_miss_in_between_does_not_break_the_row() -> None:
    """Whatever comes of them, three are met in a row."""
    session = History(tuple(Done("find roof", "find", "clean", stage=stage) for stage in STAGES[:3]))
    missed = session.with_drill(Done("find roof", "find", "miss"))
    assert missed.introducing() == ("find roof", "alone")
    assert missed.with_drill(Done("find roof", "find", "miss")).introducing() is None


def test_what_is_worked_says_nothing_of_the_person() -> None:
    """Neither worked nor half worked drills come back, and the end of a round does not count them."""
    session = History(tuple(Done("find roof", "find", "miss", stage=stage) for stage in ("worked", "half")))
    others = session.with_drill(Done("labels one", "labels", "clean"))
    for skill in ("steps read 1:2", "sinks mark unequal", "steps read 1:3"):
        others = others.with_drill(Done(skill, kind_of(skill)[0], "clean"))
    assert list(others.returns()) == []
    assert len(others.counted) == 4


def test_a_worked_drill_is_not_logged_and_a_half_worked_one_moves_nothing(tmp_path: Path) -> None:
    """In the log stands the half worked one as part of no round; schedule and level begin with the third."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = today(kept, hands.clock)
        for stage in STAGES:
            drill = session.next_drill()
            assert drill is not None
            assert session.stage == stage
            if stage == "worked":
                session.looked_at(drill)
            else:
                answer(session, hands, drill)
        assert [(each.purpose, each.helped) for each in kept.attempts] == [
            ("walk", True),
            *[("today", False)] * 3,
        ]
        assert len(kept.state.firsts) == 1


@pytest.mark.parametrize(("skill", "partner"), [pair for row in KINDS.values() for pair in row.partners])
def test_pairs_are_skills_of_one_manner(skill: str, partner: str) -> None:
    """Both exist, are of one kind and form, and each is the other's partner."""
    assert {skill, partner} <= skill_names().keys()
    assert kind_of(skill) == kind_of(partner)
    assert partner in partners_of(skill)
    assert skill in partners_of(partner)


def test_what_a_skill_is_taken_for_comes_within_the_next_two() -> None:
    """After 1 and 2 comes 1 and 3, at once or after one other, and each pair once in a round."""
    known = [*KNOWN, *(attempt("steps read 1:3", TODAY - timedelta(days=day), 9) for day in (9, 6, 3))]
    state = state_of(known)
    session = History((Done("steps read 1:2", "steps", "clean"),))
    chosen = []
    for _ in range(2):
        choice = next_selection(state, TODAY, session)
        chosen.append((choice.skill, choice.reason))
        session = session.with_drill(Done(choice.skill, choice.kind, "clean"))
    assert ("steps read 1:3", "partner") in chosen
    assert "steps read 1:3" not in list(session.partners())


def test_a_partner_that_was_never_met_is_not_forced_on_anybody() -> None:
    """It comes when it is its turn as something new."""
    session = History((Done("steps read 1:2", "steps", "clean"),))
    assert next_selection(state_of(KNOWN), TODAY, session).reason != "partner"
