from __future__ import annotations

from pathlib import Path

import pytest

from drills.geometry import Step
from drills.questions import skill_names
from progress_store import Attempt, Judged, Store
from tests.trainer.screens.answering import answer, wrong_keys
from tests.trainer.screens.playing import LABELS, MARK, NOTHING_WRONG, READ, WAITING, playing
from trainer.practice.rounds import Target
from trainer.practice.session import PracticeSession
from trainer.screens.choice_screens import WarmUpScreen
from trainer.screens.drill import DrillScreen
from trainer.screens.ending import EndScreen
from trainer.screens.opening import OpeningScreen

KEPT = "Kept. It is in your record."


async def test_the_verdict_is_told_in_order(tmp_path: Path) -> None:
    """What was answered, what is true, why; then that it is kept."""
    async with playing(tmp_path, LABELS, settings=WAITING) as play:
        await play.keys(*wrong_keys(play.drill))
        verdict = play.at(DrillScreen).flow.verdict
        assert verdict is not None
        told = [play.panel.index(words) for words in (verdict.answered, verdict.truth, verdict.why, KEPT)]
        assert told == sorted(told)
        assert told[0] > 0


async def test_kept_is_said_only_when_it_is_on_the_disk(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Neither before the log is written nor while it is being written."""
    seen = []
    keep = Store.keep

    def watched(store: Store, attempt: Attempt) -> Judged:
        seen.append(KEPT in play.panel)
        judged = keep(store, attempt)
        seen.append(KEPT in play.panel)
        seen.append(play.log()[-1]["id"] == attempt.id)
        return judged

    monkeypatch.setattr(Store, "keep", watched)
    async with playing(tmp_path, READ, settings=WAITING) as play:
        await play.keys("4", "3", "enter")
        assert seen == [False, False, True]
        assert KEPT in play.panel


async def test_a_hint_is_logged_and_never_counts_as_quick(tmp_path: Path) -> None:
    """The hint stands on the panel until the next key."""
    async with playing(tmp_path, MARK) as play:
        before = play.panel
        await play.keys("h")
        assert len(play.panel) > len(before)
        await answer(play)
        assert play.log()[0]["helped"] is True
        session = play.at(DrillScreen).source
        assert isinstance(session, PracticeSession)
        assert session.history.done[0].result == "slow"


async def test_too_long_without_a_key_has_no_time(tmp_path: Path) -> None:
    """A minute and a bit before the answer: right all the same, the time means nothing."""
    async with playing(tmp_path, READ, settings=WAITING) as play:
        await play.keys("4")
        play.time.seconds += 60.5
        await play.keys("3", "enter", "enter")
        assert (play.log()[0]["right"], play.log()[0]["milliseconds"]) == (True, None)
        play.time.seconds += 50
        await answer(play)
        assert play.log()[1]["milliseconds"] >= 50_000


async def test_a_window_that_was_left_has_no_time(tmp_path: Path) -> None:
    """The terminal tells when another window takes the keys; the drill after that is timed again."""
    async with playing(tmp_path, READ, settings=WAITING) as play:
        await play.leave_window()
        await play.keys("4", "3", "enter", "enter")
        await answer(play)
        first, second = play.log()
        assert first["milliseconds"] is None
        assert second["milliseconds"] is not None


async def test_inputs_and_time_are_measured(tmp_path: Path) -> None:
    """From the drill's first sight to the key that answers, and the gaps between the keys."""
    async with playing(tmp_path, READ, settings=WAITING) as play:
        play.time.seconds += 2
        await play.keys("4", "3", "enter")
        line = play.log()[0]
        assert (line["milliseconds"], line["inputs"], line["gaps"]) == (2300, 3, [100, 100])
        assert line["means"] == "keys"


async def test_nothing_is_answered_by_one_key(tmp_path: Path) -> None:
    """Right where nothing is wrong; with a mark made it asks first and loses none."""
    async with playing(tmp_path, NOTHING_WRONG, settings=WAITING) as play:
        screen = play.at(DrillScreen)
        await play.keys("space", "0")
        assert screen.flow.verdict is None
        assert len(screen.flow.input.look().marked.edges) == 1
        await play.keys("u", "0")
        assert screen.flow.verdict
        assert screen.flow.verdict.right
        assert play.log()[0]["skill"] == "labels nothing"


async def test_an_answer_without_a_mark_is_asked_back(tmp_path: Path) -> None:
    """Enter pressed once too often must not answer the next drill; nothing to mark is answered by 0."""
    async with playing(tmp_path, LABELS, settings=WAITING) as play:
        await play.keys("enter")
        assert play.at(DrillScreen).flow.verdict is None
        assert play.log() == []


async def test_what_is_missing_is_asked_for(tmp_path: Path) -> None:
    """One sentence, and nothing is judged or kept; it goes with the next key."""
    async with playing(tmp_path, READ) as play:
        await play.keys("4", "enter")
        missing = play.at(DrillScreen).flow.input.missing()
        assert missing in play.panel
        assert play.log() == []
        await play.keys("3")
        assert missing not in play.panel


async def test_numbers_are_taken_back(tmp_path: Path) -> None:
    """By u and by Backspace."""
    async with playing(tmp_path, READ, settings=WAITING) as play:
        await play.keys("9", "9", "u", "backspace", "4", "3", "enter")
        assert play.log()[0]["right"] is True


async def test_the_drill_is_copied_as_text(tmp_path: Path) -> None:
    """Before the answer without it, afterwards with the verdict."""
    async with playing(tmp_path, LABELS, settings=WAITING) as play:
        await play.keys("x")
        before = play.app.clipboard
        assert str(LABELS) in before
        assert all(words in before for words in play.drill.question.says)
        await play.keys("0", "x")
        verdict = play.at(DrillScreen).flow.verdict
        assert verdict is not None
        for words in (verdict.answered, verdict.truth, verdict.why):
            assert words in play.app.clipboard
            assert words not in before


async def test_leaving_a_round_keeps_what_is_answered(tmp_path: Path) -> None:
    """The drill in hand is not counted; the next start knows what was answered and goes on."""
    async with playing(tmp_path, settings=WAITING, known=True) as play:
        await play.keys("enter")
        for _ in range(2):
            await answer(play)
            await play.keys("enter")
        in_hand = play.drill.code
        play.time.seconds += 30
        await play.keys("q")
        play.at(OpeningScreen)
        assert "GO ON" in play.said
        kept = play.log()
    async with playing(tmp_path, settings=None) as play:
        assert len(kept) == len(play.store.attempts) == len(skill_names()) + 2
        assert set(play.store.state.skills) == {line["skill"] for line in kept}
        assert "GO ON, 4:30 LEFT" in play.said
        await play.keys("enter")
        assert play.drill.code == in_hand
        assert "Drill 3" in play.said
        play.time.seconds += 301
        await answer(play)
        await play.keys("enter")
        play.at(EndScreen)
        assert "3 drills" in play.said
        await play.keys("enter")
        assert "GO ON" not in play.said


async def test_leaving_before_any_answer_leads_to_the_opening(tmp_path: Path) -> None:
    """There is nothing to tell, and no empty round is logged."""
    async with playing(tmp_path) as play:
        await play.keys("enter", "escape")
        play.at(OpeningScreen)
        assert play.log() == []


async def test_the_time_of_a_round_ends_it_after_the_drill_in_hand(tmp_path: Path) -> None:
    """The drill begun before that is still answered and kept."""
    async with playing(tmp_path, settings=WAITING, known=True) as play:
        await play.keys("enter")
        assert "5:00 left" in play.said
        play.time.seconds += 301
        await answer(play)
        assert len(play.log()) == len(skill_names()) + 1
        await play.keys("enter")
        play.at(EndScreen)


async def test_what_is_new_is_worked_then_half_worked(tmp_path: Path) -> None:
    """The first one shows its answer and is not logged, the second has its first part done."""
    async with playing(tmp_path, settings=WAITING) as play:
        await play.keys("enter")
        screen = play.at(DrillScreen)
        assert "this one is worked" in play.said
        assert screen.flow.verdict
        assert screen.flow.verdict.truth in play.said
        await play.keys("enter")
        assert play.log() == []
        assert "counted for you" in play.said
        assert isinstance(screen.flow.drill.question.answer, Step)
        _, down, times = screen.flow.drill.question.answer
        await play.keys(str(abs(down)), str(times), "enter")
        assert screen.flow.verdict
        assert screen.flow.verdict.right
        assert [line["purpose"] for line in play.log()] == ["walk"]
        await play.keys("enter")
        assert "for you" not in play.said


async def test_a_key_says_why_a_drill_is_met(tmp_path: Path) -> None:
    """Before the answer and after it."""
    async with playing(tmp_path, settings=WAITING, known=True, notes=True) as play:
        await play.keys("enter", "w")
        assert "you had it right the last time" in " ".join(play.panel)
        await answer(play)
        await play.keys("w")
        assert "you had it right the last time" in play.noted
        await play.keys("enter")
        assert play.noted == ""


async def test_the_warm_up_never_moves_the_schedule(tmp_path: Path) -> None:
    """Its drills are logged as such; two minutes end it."""
    async with playing(tmp_path, Target(), settings=WAITING) as play:
        await answer(play)
        await play.keys("enter")
        play.time.seconds += 120
        await answer(play)
        await play.keys("enter")
        play.at(EndScreen)
        assert {line["purpose"] for line in play.log()} == {"warm-up"}
        assert {skill.next for skill in play.store.state.skills.values()} == {None}
        assert play.store.state.level("steps") == 1


async def test_the_opening_starts_the_warm_up(tmp_path: Path) -> None:
    """By its letter, and what is answered comes back to the opening."""
    async with playing(tmp_path, settings=WAITING) as play:
        await play.keys("w", "enter")
        await answer(play)
        await play.keys("q", "enter")
        play.at(OpeningScreen)
        assert play.log()[0]["purpose"] == "warm-up"


async def test_the_warm_up_is_told_what_it_rises_to(tmp_path: Path) -> None:
    """A level, a triangle, which brings its level with it, or a file; what is no file is said."""
    async with playing(tmp_path, settings=WAITING, known=True) as play:
        await play.keys("w", "right", "right", "right", "right")
        assert "up to: wider pleats, other triangles" in play.said
        await play.keys("down", *["right"] * 5)
        assert "(20-21-29)" in play.said
        assert "(7)" in play.said
        await play.keys("down", *"none.fold", "enter")
        assert "cannot be read" in play.said
        play.at(WarmUpScreen)
        await play.keys("up", "enter")
        assert isinstance(play.at(WarmUpScreen), WarmUpScreen)
