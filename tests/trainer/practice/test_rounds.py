from __future__ import annotations

from datetime import timedelta
from errno import ENOSPC
from pathlib import Path

import pytest

from drills.questions import KINDS, Drill, read_code, skill_of, skills_at
from progress_store import Settings, StoreError
from tests.drills.questions.codes import levels_of, right_answer
from tests.trainer.practice.making import Hands, answer, go_through, measured, played, store
from trainer.practice.drill_source import SEEDS
from trainer.practice.placing import placing
from trainer.practice.rounds import five_bases, picked, today, warm_up

PICKED = ("labels-3-41", "steps-2-7-place", "sinks-4-9-join", "find-3-7", "sinks-6-2")


def test_the_drill_in_hand_is_finished_when_the_time_is_over(tmp_path: Path) -> None:
    """At 4:59 there is another drill; answered at 5:40 it is kept, and only then the round is over."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = today(kept, hands.clock)
        hands.wait(299)
        assert session.seconds_left == 1
        drill = session.next_drill()
        assert drill is not None
        answer(session, hands, drill, seconds=41)
        assert session.seconds_left == 0
        assert session.next_drill() is None
        assert [attempt.code for attempt in kept.attempts] == [drill.code]


@pytest.mark.parametrize(
    ("minutes", "seconds", "number"), [(5, 20, 15), (5, 7, 43), (1, 30, 2), (10, 60, 10)]
)
def test_a_round_lasts_as_long_as_the_person_set(
    tmp_path: Path, minutes: int, seconds: int, number: int
) -> None:
    """Drills of equal length fill the minutes by the clock, the last one begun before they are over."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        kept.save_settings(Settings(minutes_a_day=minutes))
        session = today(kept, hands.clock)
        assert session.seconds_left == 60 * minutes
        assert len(played(session, hands, seconds)) == number


def test_the_clock_of_the_wall_does_not_end_a_round(tmp_path: Path) -> None:
    """Set back an hour or on by two in between, the wall clock leaves the minutes alone."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = today(kept, hands.clock)
        for change in (-1, 2):
            hands.now += timedelta(hours=change)
            assert session.seconds_left == 300
            assert session.next_drill() is not None


def test_a_round_of_today_asks_what_was_chosen(tmp_path: Path) -> None:
    """The drill trains the chosen skill, its seed is one for practice, and no code comes twice."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = today(kept, hands.clock)
        codes = []
        while (drill := session.next_drill()) is not None:
            assert session.selection is not None
            assert drill.skill == session.selection.skill
            assert read_code(drill.code).seed < SEEDS + 1000
            codes.append(drill.code)
            assert len(codes) < 200
            go_through(session, hands, drill, seconds=10)
        assert len(set(codes)) == len(codes) == 30
        assert {attempt.purpose for attempt in kept.attempts} == {"today", "walk"}


def test_an_answer_is_on_the_disk_when_it_is_kept(tmp_path: Path) -> None:
    """Another reader sees it at once."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = today(kept, hands.clock)
        drill = session.next_drill()
        assert drill is not None
        judged = answer(session, hands, drill)
        assert judged.attempt.code in next(tmp_path.glob("*.jsonl")).read_text(encoding="utf-8")
        assert session.history.done[-1].result == judged.result


def test_an_answer_that_could_not_be_written_is_written_with_the_next(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """While the disk is full nothing that was answered is lost."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = picked(kept, hands.clock, read_code("steps-1-1"))
        first = session.next_drill()
        assert first is not None
        with monkeypatch.context() as full:
            full.setattr("progress_store.log.sync", refuse)
            with pytest.raises(StoreError, match="make room"):
                answer(session, hands, first)
        assert [attempt.code for attempt in kept.attempts] == []
        second = session.next_drill()
        assert second is not None
        answer(session, hands, second)
        assert [attempt.code for attempt in kept.attempts] == [first.code, second.code]


def refuse(*_: object) -> None:
    """Fail as a full disk does."""
    raise OSError(ENOSPC, "No space left on device")


def test_a_warm_up_never_moves_the_schedule(tmp_path: Path) -> None:
    """It is logged; what comes round, the levels and the words stay as they were."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        played(placing(kept, hands.clock), hands)
        before, placed = kept.state, len(kept.attempts)
        hands.wait(24 * 3600)
        asked = played(warm_up(kept, hands.clock), hands, 10, lambda number, _: number % 2 == 0)
        after = kept.state
        assert len(asked) == 12
        assert len(kept.attempts) == placed + 12
        assert {each.purpose for each in kept.attempts[placed:]} == {"warm-up"}
        assert after.levels == before.levels
        assert {s: (k.memory, k.mastery) for s, k in after.skills.items()} == {
            s: (k.memory, k.mastery) for s, k in before.skills.items()
        }


def test_a_warm_up_is_of_what_is_known_and_rises(tmp_path: Path) -> None:
    """Two minutes of skills met before, from level 1 up to the person's, never three of a kind running.

    The level is 1 and two levels times the part of 120 s gone, rounded, where the skill is trained there.
    """
    hands = Hands()
    with store(tmp_path, hands) as kept:
        played(placing(kept, hands.clock), hands, is_right=lambda _, drill: drill.level <= 3)
        known = set(kept.state.skills)
        session = warm_up(kept, hands.clock)
        assert session.seconds_left == 120
        asked = played(session, hands, 8)
        order = [drill.kind for drill in asked]
        assert {drill.skill for drill in asked} <= known
        ramp = [1] * 4 + [2] * 8 + [3] * 3
        for drill, level in zip(asked, ramp, strict=True):
            kind, form = drill.kind, drill.form
            trained = [other for other in levels_of(kind) if drill.skill in skills_at(kind, form, other)]
            assert drill.level == min(trained, key=[abs(other - level) for other in range(9)].__getitem__)
        assert not any(
            one == two == three for one, two, three in zip(order, order[1:], order[2:], strict=False)
        )


def test_a_warm_up_for_somebody_new_reads_steps(tmp_path: Path) -> None:
    """With nothing known it begins with the easiest there is."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        drill = warm_up(kept, hands.clock).next_drill()
        assert drill is not None
        assert drill.skill == next(iter(KINDS["steps"].skills))
        assert drill.level == 1


@pytest.mark.parametrize("code", PICKED)
def test_a_picked_round_begins_with_the_code_and_goes_on(tmp_path: Path, code: str) -> None:
    """Then fresh drills of its kind, form and level, for as long as the person likes."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = picked(kept, hands.clock, read_code(code))
        asked: list[Drill] = []
        for _ in range(12):
            drill = session.next_drill()
            assert drill is not None
            answer(session, hands, drill, seconds=70)
            asked.append(drill)
        assert asked[0].code == code
        first = asked[0].spec
        assert {(d.kind, d.spec.form, d.level) for d in asked} == {(first.kind, first.form, first.level)}
        assert len({drill.code for drill in asked}) == 12
        assert len({drill.design for drill in asked}) == 12, "a sheet came twice"
        assert session.seconds_left is None
        assert {attempt.purpose for attempt in kept.attempts} == {"picked"}


def test_rounds_of_two_days_ask_different_codes(tmp_path: Path) -> None:
    """A drill is fresh each time, and nobody learns one by heart."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        seen = [drill.code for drill in played(today(kept, hands.clock), hands)]
        hands.wait(24 * 3600)
        seen += [drill.code for drill in played(today(kept, hands.clock), hands)]
        assert len(set(seen)) == len(seen)
        assert all(skill_of(read_code(code)) for code in seen)


def test_helped_answers_are_kept_as_such(tmp_path: Path) -> None:
    """Help makes a right answer slow."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = today(kept, hands.clock)
        drill = session.next_drill()
        assert drill is not None
        judged = session.keep(drill, drill.judge(right_answer(drill)), measured(), helped=True)
        assert (judged.result, kept.attempts[0].helped, session.history.done[-1].result) == (
            "slow",
            True,
            "slow",
        )


@pytest.mark.parametrize(("by_the_clock", "seconds"), [(False, None), (True, 300)])
def test_five_bases_are_looked_through(tmp_path: Path, by_the_clock: bool, seconds: int | None) -> None:
    """Five drills of finding at the level of whole bases, in any time or begun within five minutes."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = five_bases(kept, hands.clock, by_the_clock)
        assert (session.title, session.seconds_left) == ("Five bases", seconds)
        drills = [drill.code for drill in played(session, hands, 20)]
        assert len(drills) == len(set(drills)) == 5
        assert {(read_code(code).kind, read_code(code).level) for code in drills} == {("find", 8)}
        assert session.next_drill() is None
        slow = five_bases(kept, hands.clock, by_the_clock)
        assert len(played(slow, hands, 200)) == (2 if by_the_clock else 5)
