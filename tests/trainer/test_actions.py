from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from itertools import chain
from pathlib import Path
from typing import Any, get_args

import pytest

from trainer.actions import (
    ACTIONS,
    CONTEXTS,
    LETTERS,
    WINDOW_WAYS,
    WITHOUT_LETTERS,
    Action,
    Context,
    actions_at,
    key_line,
    window_line,
)
from trainer.answering import AnswerInput
from trainer.screens.base_screen import GAP, LEAST_COLUMNS, BaseScreen, bindings_for, fitting
from trainer.screens.choice_screens import PickScreen, WarmUpScreen
from trainer.screens.contents import ContentsScreen
from trainer.screens.drill import DrillScreen, LessonScreen
from trainer.screens.ending import EndScreen
from trainer.screens.folding import FoldingScreen
from trainer.screens.missed import MissedScreen
from trainer.screens.opening import OpeningScreen
from trainer.screens.own import OwnSheetScreen, OwnSheetsScreen, PlanScreen
from trainer.screens.pages import HelpScreen, WelcomeScreen
from trainer.screens.record import RecordInWordsScreen, RecordScreen
from trainer.ways_of_asking import WAYS

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"
SOURCES = sorted(
    (*ROOT.glob("trainer/**/*.py"), *ROOT.glob("drills/**/*.py"), *ROOT.glob("progress_store/**/*.py"))
)
AVOIDED = re.compile(
    r"\b(decks?|cards?|flash ?cards?|again|hard|good|easy|streaks?|ease|due|daily goal|start of day"
    r"|course|see-through|stability|rating|review(s|ed)?)\b",
    re.IGNORECASE,
)
ALLOWED = {
    "The first three minutes again": "the plain word for once more; it labels no answer",
    "again after a miss": "the plain word for once more, of drills to come; nobody rates by it",
}
"""Plain English that stays, with the reason."""
INPUTS = [way.input for way in WAYS.values()]
SCREENS: dict[Context, type[BaseScreen]] = {
    "opening": OpeningScreen,
    "welcome": WelcomeScreen,
    "drill": DrillScreen,
    "letters": DrillScreen,
    "feedback": DrillScreen,
    "folding": FoldingScreen,
    "end": EndScreen,
    "record": RecordScreen,
    "details": RecordInWordsScreen,
    "missed": MissedScreen,
    "pick": PickScreen,
    "warm-up": WarmUpScreen,
    "lesson": LessonScreen,
    "contents": ContentsScreen,
    "own": OwnSheetsScreen,
    "own sheet": OwnSheetScreen,
    "plan": PlanScreen,
    "help": HelpScreen,
}
PANEL_COLUMNS = 30
TAKEN_BY_TERMINALS = {"ctrl+q", "ctrl+s", "ctrl+j", "ctrl+enter", "ctrl+z", "ctrl+b"}


@pytest.mark.parametrize("used", INPUTS)
@pytest.mark.parametrize("context", CONTEXTS)
def test_no_key_does_two_things_at_one_place(context: Context, used: type[AnswerInput[Any]]) -> None:
    """With each answer input."""
    keys = list(chain.from_iterable(action.keys for action in actions_at(context, used.actions)))
    assert len(keys) == len(set(keys))


def test_there_is_a_screen_for_every_place() -> None:
    """And no action is for a context that is none."""
    assert set(SCREENS) == set(CONTEXTS) == set(get_args(Context))
    assert {context for action in ACTIONS for context in action.contexts} <= set(CONTEXTS)


@pytest.mark.parametrize("context", CONTEXTS)
def test_every_action_is_what_its_screen_can_do(context: Context) -> None:
    """A method of that name on the screen itself, with a docstring that says what it does."""
    for action in actions_at(context):
        method = getattr(SCREENS[context], f"action_{action.name}", None)
        assert callable(method), action.name
        assert method.__module__.startswith("trainer.")
        assert method.__doc__


@pytest.mark.parametrize(
    "screen", sorted(set(SCREENS.values()), key=str), ids=lambda screen: str(screen.__name__)
)
def test_bindings_are_made_from_the_registry(screen: type[BaseScreen]) -> None:
    """All of those of the screen's contexts, and no other."""
    contexts = [context for context, at in SCREENS.items() if at is screen]
    assert bindings_for(*contexts) == screen.BINDINGS
    bound = {binding.key for binding in screen.BINDINGS if not isinstance(binding, tuple)}
    assert bound == {key for context in contexts for action in actions_at(context) for key in action.keys}
    assert screen.context in contexts


def test_keys_are_those_that_every_terminal_passes_on() -> None:
    """None of those that terminals, multiplexers or the system keep for themselves, but to do the same."""
    keys = {key for action in ACTIONS for key in action.keys if action.name != "sleep"}
    assert not keys & TAKEN_BY_TERMINALS
    assert not any(key.startswith(("ctrl+", "alt+", "cmd+")) for key in keys)


def test_every_place_can_be_left_in_two_ways_and_has_help() -> None:
    """By a letter and by Escape, by a sign and by F1."""
    for context in CONTEXTS:
        actions = {action.name: action.keys for action in actions_at(context)}
        leaving = ("letters_back", "letters") if context == "letters" else ("leave",)
        assert sum(len(actions[name]) for name in leaving) == len(actions["help"]) == 2


@pytest.mark.parametrize("context", CONTEXTS)
def test_the_line_of_keys_fits_every_window(context: Context) -> None:
    """What does not fit is left out of the line; the first key and help never are."""
    for used in INPUTS:
        whole = key_line(context, used.actions)
        for columns in (LEAST_COLUMNS, 80, 200):
            shown = fitting(whole, columns - 2)
            assert len(GAP.join(action.line for action in shown)) <= columns - 2
            assert (shown[0], shown[-1].name) == (whole[0], "help")


def test_the_window_is_moved_by_keys_that_no_line_of_keys_offers() -> None:
    """During a drill and after it, by plain keys too; the words stand below the overview, in two lines."""
    moving = window_line()
    assert [action.name for action in moving] == ["pan", "zoom", "whole", "into_view"]
    contexts: tuple[Context, ...] = ("drill", "letters", "feedback")
    for context in contexts:
        assert set(moving) <= set(actions_at(context))
        assert not set(moving) & set(key_line(context))
    assert set(WINDOW_WAYS) == set(moving[0].keys)
    assert sorted(WINDOW_WAYS[key] for key in "ijkl") == sorted(set(WINDOW_WAYS.values()))
    assert len(GAP.join(action.line for action in moving)) <= 2 * PANEL_COLUMNS


def test_every_manner_of_asking_can_be_answered_and_taken_back() -> None:
    """And moved about in, helped and copied."""
    for used in INPUTS:
        names = {action.name for action in actions_at("drill", used.actions)}
        assert {"answer", "go", "undo", "hint", "copy"} <= names
        assert ("mark" in names) == ("nothing" in names)
        assert used.actions <= names


def test_no_letter_on_the_board_is_an_m_or_v_or_can_be_taken_for_another_sign() -> None:
    """Nor is it a key of the lesson's own, which goes before those of a drill."""
    assert len(set(LETTERS)) == len(LETTERS)
    pages = {key for action in ACTIONS if action.contexts == ("lesson",) for key in action.keys}
    assert not set(LETTERS) & ({*"mvilo"} | pages)


def test_the_readme_has_the_same_keys() -> None:
    """Its table is the registry's, row by row."""
    assert rows_of_readme() == [(action.shown, action.words, where_in_words(action)) for action in ACTIONS]


def where_in_words(action: Action) -> str:
    """Return where an action works, in the README's words."""
    if action.contexts == tuple(CONTEXTS):
        return "everywhere"
    if action.contexts == WITHOUT_LETTERS:
        return "everywhere without letters on the board"
    return ", ".join(CONTEXTS[at] for at in action.contexts)


def rows_of_readme() -> list[tuple[str, str, str]]:
    """Return the rows of the README's table of keys."""
    _, _, after = README.read_text(encoding="utf-8").partition("| Key | What it does | Where |\n")
    lines = after.splitlines()[1:]
    rows = []
    for line in lines[: next((at for at, line in enumerate(lines) if not line.startswith("|")), len(lines))]:
        key, words, where = (cell.strip() for cell in re.split(r"(?<!\\)\|", line)[1:-1])
        rows.append((key, words, where))
    return rows


def test_a_word_to_avoid_is_found() -> None:
    """As a whole word, in either case, and not inside another."""
    assert AVOIDED.search("Good, the next Card is due")
    assert not AVOIDED.search("discarded residue, against, hardly, goods, easygoing")


@pytest.mark.parametrize("source", SOURCES, ids=lambda path: str(path.relative_to(ROOT)))
def test_no_text_has_a_word_to_avoid(source: Path) -> None:
    """No text that may reach a screen or a file; docstrings are for readers of the code."""
    found = [text for text in texts_of(source) if AVOIDED.search(text) and not allowed(text)]
    assert found == []


def texts_of(source: Path) -> Iterator[str]:
    """Yield the text constants of a file, those within f-strings too, its docstrings left out."""
    tree = ast.parse(source.read_text(encoding="utf-8"))
    notes = {id(statement.value) for statement in ast.walk(tree) if isinstance(statement, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in notes:
            yield node.value


def allowed(text: str) -> bool:
    """Whether every word to avoid in a text stands in a phrase that stays."""
    for phrase in ALLOWED:
        text = text.replace(phrase, "")
    return AVOIDED.search(text) is None


def test_every_phrase_that_stays_is_still_there() -> None:
    """What is no longer said needs no reason."""
    everything = "\n".join(text for source in SOURCES for text in texts_of(source))
    for phrase in ALLOWED:
        assert phrase in everything
