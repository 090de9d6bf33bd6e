"""A kind that is added goes through everything: codes, certificate, app, text, JSON, practice, record.

This is the checklist of "How to add a kind of question" in the contributors' guide.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from itertools import islice
from pathlib import Path

import pytest

from drills.questions import (
    KINDS,
    CodeError,
    certify,
    codes_for,
    kind_of,
    make,
    newest,
    question_from_json,
    read_code,
    skill_names,
    skill_of,
)
from progress_store import open_store
from tests.toy_kind import CountLines, toy_kind
from tests.trainer.cli.calling import NOW, call, log_of
from tests.trainer.practice.making import Hands, attempt, go_through, played, store
from tests.trainer.screens.answering import answer, click_answer
from tests.trainer.screens.playing import WAITING, playing
from trainer.practice.attempts import floors, levels
from trainer.practice.placing import placing
from trainer.practice.rounds import Target, today, warm_up
from trainer.practice.yardstick import codes_of
from trainer.screens.choice_screens import PickScreen
from trainer.screens.drill import DrillScreen


@pytest.fixture(autouse=True)
def added() -> Iterator[None]:
    """Have the kind for one test."""
    with toy_kind():
        yield


def test_its_codes_are_read_and_lead_back_to_its_skills() -> None:
    """Levels 2 to 4, the second version where there is one, and no other."""
    assert str(read_code("toy-2-7-number")) == "toy-2-7"
    assert str(newest(read_code("toy-3-7"))) == "toy-3-7.2"
    for wrong in ("toy-1-7", "toy-5-7", "toy-2-7.2", "toy-2-7-mark"):
        with pytest.raises(CodeError):
            read_code(wrong)
    for skill in KINDS["toy"].skills:
        assert kind_of(skill) == ("toy", "number")
        for level in (1, 3, 7):
            assert {skill_of(code) for code in islice(codes_for(skill, level, 5), 5)} == {skill}


def test_its_drills_are_certified() -> None:
    """Each is made, and one with a wrong answer is refused."""
    for level in KINDS["toy"].levels:
        for seed in range(5):
            drill = make(newest(read_code(f"toy-{level}-{seed}")))
            wrong = replace(drill.question, answer=drill.question.answer + 1)
            assert certify(drill.truth, drill.pattern, wrong) != ()


def test_its_drills_are_written_and_read_as_json(tmp_path: Path) -> None:
    """By the command, with the question read back equal."""
    said = call(tmp_path, "drill", "--kind", "toy", "--level", "3", "--seed", "1", "--count", "3", "--json")
    assert said.status == 0
    for line in said.out.splitlines():
        fields = json.loads(line)
        assert question_from_json(fields) == make(read_code(fields["code"])).question


def test_it_is_answered_as_text(tmp_path: Path) -> None:
    """Right, wrong, and not readable; it is kept under its own code and skill."""
    right = make(read_code("toy-2-3")).question.answer
    assert call(tmp_path, "drill", "toy-2-3", "--text", typed=f"{right}\n").status == 0
    assert call(tmp_path, "drill", "toy-2-3", "--text", typed=f"{right + 1}\n").status == 1
    refused = call(tmp_path, "drill", "toy-2-3", "--text", typed="many\n")
    assert (refused.status, refused.err) == (2, 'That cannot be read; answer with a number, as in "3".\n')
    assert [(each["code"], each["right"]) for each in log_of(tmp_path)] == [
        ("toy-2-3", True),
        ("toy-2-3", False),
    ]


async def test_it_is_answered_in_the_app_by_keys(tmp_path: Path) -> None:
    """Helped, typed, taken back, answered, told and kept; the line of keys has what its input has."""
    async with playing(tmp_path, read_code("toy-2-3"), settings=WAITING) as play:
        assert isinstance(play.drill.question, CountLines)
        assert "Counting lines" in play.said
        await play.keys("h")
        assert "turning points" in play.said
        await play.keys("8", "u", "enter")
        assert "Type the number first." in play.said
        await play.keys(str(play.drill.question.answer), "enter")
        assert play.at(DrillScreen).flow.verdict is not None
        assert "Kept." in play.said
        assert [each["skill"] for each in play.log()] == [play.drill.skill]


@pytest.mark.parametrize("right", [True, False])
async def test_it_is_answered_by_keys_alone(tmp_path: Path, right: bool) -> None:
    """As the tests of the screens answer any kind."""
    async with playing(tmp_path, read_code("toy-4-1"), settings=WAITING) as play:
        await answer(play, right)


async def test_it_is_answered_in_the_app_by_mouse(tmp_path: Path) -> None:
    """Its number is clicked up from nothing, and one less is there to be clicked too."""
    async with playing(tmp_path, read_code("toy-4-1"), settings=WAITING) as play:
        assert "[-] _ [+] number" in play.said
        await click_answer(play)
        assert [line["right"] for line in play.log()] == [True]
        assert [line["means"] for line in play.log()] == ["mouse"]


async def test_it_can_be_picked_at_its_levels(tmp_path: Path) -> None:
    """From the last kind's place, with its own levels and form; a level that it has not is brought near."""
    async with playing(tmp_path) as play:
        await play.keys("n", "down", "down", *["right"] * 6, "up", "up", "left")
        shown = " ".join(play.said.split())
        assert "(Counting lines)" in shown
        assert " 2 3 (4)" in shown.replace("  ", " ")
        assert "(count)" in shown
        await play.keys("enter")
        assert (play.drill.kind, play.drill.level) == ("toy", 4)
        assert not isinstance(play.screen, PickScreen)


def test_it_is_not_asked_by_the_placing_nor_by_the_yardstick(tmp_path: Path) -> None:
    """Unless its row says so; the yardstick's recipe is fixed."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        assert "toy" not in {drill.kind for drill in played(placing(kept, hands.clock), hands)}
    assert "toy" not in {code.kind for code in codes_of(1)}


def test_it_is_warmed_up_with_up_to_its_own_highest_level(tmp_path: Path) -> None:
    """Also where the warm-up rises to a level that only others have."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        for number, skill in enumerate(KINDS["toy"].skills):
            kept.keep(attempt(skill, hands.now.date(), number))
        shown = played(warm_up(kept, hands.clock, Target(level=7)), hands, seconds=10)
    assert {drill.kind for drill in shown} == {"toy"}
    assert max(drill.level for drill in shown) == 4


def test_it_is_met_among_the_others(tmp_path: Path) -> None:
    """A round of the day introduces it worked, half worked and alone, as any kind that is new."""
    hands = Hands()
    stages = []
    with store(tmp_path, hands) as kept:
        for number, skill in enumerate(skill for skill in skill_names() if not skill.startswith("toy ")):
            kept.keep(attempt(skill, hands.now.date() - timedelta(days=1), number))
        round_ = today(kept, hands.clock)
        while (drill := round_.next_drill()) is not None:
            if drill.kind == "toy":
                stages.append(round_.stage)
            go_through(round_, hands, drill)
            if len(stages) == 3:
                break
    assert stages == ["worked", "half", "alone"]


def test_it_is_told_in_the_record(tmp_path: Path) -> None:
    """By its title, the words for its skills and for what is missed."""
    with open_store(tmp_path, lambda: NOW, floors(), levels()) as kept:
        for number in range(6):
            missed = number % 2 == 0
            kept.keep(attempt("toy few", NOW.date(), number, right=not missed, misses=int(missed), level=2))
    said = call(tmp_path, "record")
    assert said.status == 0
    for words in ("Counting lines", "counting one line", "the number missed"):
        assert words in said.out
    fields = json.loads(call(tmp_path, "record", "--json").out)
    assert [row["name"] for row in fields["skills"]] == ["counting one line"]
