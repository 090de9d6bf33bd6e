"""A new skill: one worked, one half worked, then mixed at once; and skills that are easily confused."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from drills.questions import KINDS, kind_of, partners_of, skill_names
from tests.trainer.practice.making import TODAY, Hands, answer, attempt, first_skills, state_of, store
from trainer.practice.choosing import Done, History, Stage, next_selection
from trainer.practice.rounds import today

STAGES: list[Stage] = ["worked", "half", "worked", "half", "alone"]
KNOWN = [
    attempt(skill, TODAY - timedelta(days=day), number)
    for day in (9, 6, 3)
    for number, skill in enumerate(first_skills())
]


def test_a_new_skill_is_worked_then_half_worked_then_mixed() -> None:
    """Somebody who begins meets the second one before the first is asked alone, and then that one."""
    state, session = state_of([]), History()
    for number, stage in enumerate(STAGES):
        choice = next_selection(state, TODAY, session)
        assert (choice.reason, choice.stage) == ("new", stage)
        if stage == "half":
            state = state.after(attempt(choice.skill, TODAY, number, purpose="walk", helped=True))
        session = session.with_drill(Done(choice.skill, choice.kind, "clean", stage=choice.stage))
    first, second = (session.done[place].skill for place in (0, 2))
    assert first != second
    assert [done.skill for done in session.done] == [first, first, second, second, first]


def test_what_was_shown_yesterday_is_tried_today() -> None:
    """A round that was left after the half worked drill owes the first one alone."""
    shown = attempt("find roof", TODAY - timedelta(days=1), 5, purpose="walk", helped=True)
    state = state_of([*KNOWN, shown])
    choice = next_selection(state, TODAY, History((Done("labels one", "labels", "clean"),)))
    assert (choice.skill, choice.reason, choice.stage) == ("find roof", "new", "alone")


def test_a_worked_drill_is_not_logged_and_a_half_worked_one_moves_nothing(tmp_path: Path) -> None:
    """Half worked ones are in the log as part of no round; schedule and level begin with the one alone."""
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
            *[("walk", True)] * 2,
            ("today", False),
        ]
        assert [line.why for line in kept.attempts] == ["new"] * 3
        assert [line.place for line in kept.attempts] == [2, 4, 5]
        assert sum(known.memory is not None for known in kept.state.skills.values()) == 1


@pytest.mark.parametrize(("skill", "partner"), [pair for row in KINDS.values() for pair in row.partners])
def test_pairs_are_skills_of_one_manner(skill: str, partner: str) -> None:
    """Both exist, are of one kind and form, and each is the other's partner."""
    assert {skill, partner} <= skill_names().keys()
    assert kind_of(skill) == kind_of(partner)
    assert partner in partners_of(skill)
    assert skill in partners_of(partner)
