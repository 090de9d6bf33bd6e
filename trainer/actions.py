"""The one registry of actions: keys, words, and the contexts where they work.

Key bindings, the line of keys, the help and the README's table are all made from it.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

Context: TypeAlias = Literal[
    "opening",
    "welcome",
    "drill",
    "letters",
    "feedback",
    "folding",
    "end",
    "record",
    "details",
    "missed",
    "pick",
    "warm-up",
    "lesson",
    "contents",
    "own",
    "own sheet",
    "plan",
    "help",
]

CONTEXTS: Mapping[Context, str] = {
    "opening": "Opening",
    "welcome": "First start",
    "drill": "Drill",
    "letters": "Letters on the board",
    "feedback": "After the answer",
    "folding": "What it becomes",
    "end": "End of a round",
    "record": "Record",
    "details": "Record in words",
    "missed": "What I missed",
    "pick": "Pick a drill",
    "warm-up": "Before folding",
    "lesson": "Lesson",
    "contents": "Pages of the lesson",
    "own": "My pattern",
    "own sheet": "Your own sheet",
    "plan": "The plan, step by step",
    "help": "Help",
}
_ALL = tuple(CONTEXTS)
WITHOUT_LETTERS = tuple(context for context in CONTEXTS if context != "letters")
"""Where letters on the board do not need the keys."""
LETTERS = "bdefghnpqrstwxy"
"""The letters on the board: none that labels a crease, looks like another sign, or does something there."""
DIGITS = "123456789"
"""They take parts of the board, and are further letters where it is in one part."""
WINDOW_WAYS: Mapping[str, tuple[int, int]] = {
    "i": (0, -1),
    "j": (-1, 0),
    "k": (0, 1),
    "l": (1, 0),
    "shift+up": (0, -1),
    "shift+left": (-1, 0),
    "shift+down": (0, 1),
    "shift+right": (1, 0),
}
"""The keys that move the window on a sheet, and how far right and down; some terminals keep Shift+arrows."""


@dataclass(frozen=True)
class Action:
    """What a person can do: its name in the code, its keys, how they are shown, and what it does.

    ``line`` is what the line of keys says for it, empty where it leaves it out; ``is_for_some``
    says that not every answer input has it; ``takes_key`` passes the pressed key on; what
    ``moves_window`` is said beside the overview of a large sheet, not in the line of keys.
    """

    name: str
    keys: tuple[str, ...]
    shown: str
    line: str
    words: str
    contexts: tuple[Context, ...]
    is_for_some: bool = False
    takes_key: bool = False
    moves_window: bool = False


ACTIONS = (
    Action("start", ("enter",), "Enter", "Enter today", "Start today's minutes, or go on", ("opening",)),
    Action(
        "warm_up",
        ("w",),
        "w",
        "",
        "Two minutes, then I fold: what you know, rising to what you will fold",
        ("opening",),
    ),
    Action(
        "pick",
        ("n",),
        "n",
        "",
        "Pick a drill: kind, form, level, triangle, a code, or five bases",
        ("opening",),
    ),
    Action("one_minute", ("1",), "1", "", "One minute by the clock: as many right as you can", ("opening",)),
    Action("record", ("r",), "r", "", "The record: what has changed, and how sure that is", ("opening",)),
    Action(
        "missed",
        ("m",),
        "m",
        "",
        "What I missed: each as it was, then a fresh one of its like",
        ("opening",),
    ),
    Action(
        "yardstick",
        ("y",),
        "y",
        "",
        "The yardstick: 16 drills every 14 days, the results at the end",
        ("opening",),
    ),
    Action(
        "lesson",
        ("c",),
        "c",
        "",
        "The lesson: how to read a slanted stretch, page by page, from where you left it",
        ("opening",),
    ),
    Action(
        "own",
        ("o",),
        "o",
        "",
        "My pattern: what is wrong with a sheet of your own, its plan step by step, drills on it",
        ("opening",),
    ),
    Action("walk", ("f",), "f", "", "The first three minutes once more", ("opening",)),
    Action(
        "minutes",
        ("plus", "minus"),
        "+ -",
        "+ - minutes",
        "More or fewer minutes a day",
        ("opening",),
        False,
        True,
    ),
    Action(
        "going_on",
        ("g",),
        "g",
        "",
        "Go on by itself after a quick right answer, or wait for a key",
        ("opening",),
    ),
    Action(
        "begin",
        ("enter",),
        "Enter",
        "Enter begin",
        "Three minutes on one small sheet, and after them the drills that find your level",
        ("welcome",),
    ),
    Action("place_me", ("p",), "p", "p find my level", "A few drills that find your level", ("welcome",)),
    Action("skip", ("s",), "s", "s skip", "Skip what is offered and start at level 1", ("welcome",)),
    Action("answer", ("enter",), "Enter", "Enter answer", "Answer", ("drill", "letters")),
    Action(
        "go",
        ("up", "down", "left", "right"),
        "arrows",
        "arrows move",
        "Go from point to point or from square to square; change a number or a choice",
        ("drill", "letters", "pick", "warm-up", "own"),
        False,
        True,
    ),
    Action(
        "turn_left",
        ("less_than_sign", "comma"),
        "<",
        "",
        "Next crease round the point, counterclockwise",
        ("drill", "letters"),
        True,
    ),
    Action(
        "turn_right",
        ("greater_than_sign", "full_stop"),
        ">",
        "< > crease",
        "Next crease round the point, clockwise",
        ("drill", "letters"),
        True,
    ),
    Action(
        "mark",
        ("space",),
        "Space",
        "Space mark",
        "Mark the crease or point, or take its mark away",
        ("drill", "letters"),
        True,
    ),
    Action(
        "letters",
        ("a",),
        "a",
        "a letters",
        "Put a letter on each crease, point or part in view, or take the letters away",
        ("drill", "letters"),
        True,
    ),
    Action(
        "letter",
        tuple(LETTERS + DIGITS),
        "b-y 1-9",
        "b-y mark",
        "Mark what has the letter, or take its mark away; where there are many, a digit first chooses a part",
        ("letters",),
        takes_key=True,
    ),
    Action(
        "letters_back",
        ("escape",),
        "Esc",
        "Esc back",
        "From the letters of a part to those of all parts, then to none",
        ("letters",),
    ),
    Action(
        "far",
        ("home", "end", "pageup", "pagedown"),
        "Home End",
        "",
        "Go five squares left or right; with Page up and Page down five up or down",
        ("drill", "letters"),
        True,
        True,
    ),
    Action(
        "number",
        tuple("0123456789"),
        "0-9",
        "0-9 number",
        "Type a number; the next one follows by itself where no second digit can",
        ("drill",),
        True,
        True,
    ),
    Action(
        "next_number",
        ("comma", "a", "d"),
        ", a d",
        ", next",
        "The number is whole: on to the next one",
        ("drill",),
        True,
    ),
    Action(
        "nothing", ("0",), "0", "0 none", "Answer that there is nothing to mark", ("drill", "letters"), True
    ),
    Action(
        "scroll",
        ("up", "down", "pageup", "pagedown"),
        "arrows",
        "↑ ↓ scroll",
        "Scroll the text, Page up and Page down by a screen",
        ("details", "help", "own sheet", "plan"),
        False,
        True,
    ),
    Action(
        "details",
        ("enter", "d"),
        "Enter",
        "Enter in words",
        "Every figure in words, with its drills, its days and where it likely lies",
        ("record",),
    ),
    Action(
        "choose_missed",
        ("up", "down", "pageup", "pagedown"),
        "arrows",
        "arrows choose",
        "Choose one of the list, Page up and Page down by a screen",
        ("missed", "end"),
        takes_key=True,
    ),
    Action(
        "look",
        ("enter",),
        "Enter",
        "Enter look",
        "Look at it as it was, then do a fresh one of its like",
        ("missed",),
    ),
    Action(
        "experiment",
        ("e",),
        "e",
        "e experiment",
        "An experiment for yourself, on or off: a coin decides whether what you miss comes back that day",
        ("details",),
    ),
    Action("hint", ("h",), "h", "h hint", "A little help; the answer then counts as slow", ("drill",)),
    Action(
        "undo",
        ("u", "backspace"),
        "u",
        "u undo",
        "Take back the last mark, digit or move",
        ("drill", "letters"),
    ),
    Action(
        "next_point", ("tab",), "Tab", "", "Next point in reading order, or next number", ("drill", "letters")
    ),
    Action("last_point", ("shift+tab",), "Shift+Tab", "", "The point or number before", ("drill", "letters")),
    Action(
        "pan",
        (*WINDOW_WAYS,),
        "i j k l",
        "ijkl scroll",
        "Move over a sheet too large to be shown whole, also with Shift and an arrow, the wheel or a drag",
        ("drill", "letters", "feedback", "own sheet", "plan"),
        takes_key=True,
        moves_window=True,
    ),
    Action(
        "zoom",
        ("plus", "equals_sign", "minus"),
        "+ -",
        "+ - zoom",
        "Show the sheet larger or smaller, also with Ctrl and the wheel",
        ("drill", "letters", "feedback", "own sheet", "plan"),
        takes_key=True,
        moves_window=True,
    ),
    Action(
        "whole",
        ("z",),
        "z",
        "z whole",
        "The whole sheet, or as much of it as can be looked over, and back to a part close by",
        ("drill", "letters", "feedback", "own sheet", "plan"),
        moves_window=True,
    ),
    Action(
        "into_view",
        ("v",),
        "v",
        "v back",
        "Back to the cursor or what is asked; after the answer on to the next sign of the verdict",
        ("drill", "letters", "feedback", "own sheet", "plan"),
        moves_window=True,
    ),
    Action("go_on", ("enter", "space"), "Enter", "Enter go on", "Go on", ("feedback", "end")),
    Action("another", ("a",), "a", "a another like it", "Do a fresh one like the chosen miss", ("end",)),
    Action("why", ("w",), "w", "w why", "Why you met this drill", ("drill", "feedback")),
    Action(
        "fold",
        ("f",),
        "f",
        "f folded",
        "What the sheet becomes, frame by frame",
        ("feedback",),
    ),
    Action(
        "frame",
        ("left", "right"),
        "← →",
        "arrows step",
        "Step through the frames from the sheet to its folded shape",
        ("folding",),
        takes_key=True,
    ),
    Action(
        "play",
        ("enter", "space"),
        "Enter",
        "Enter play",
        "Play the frames once, or without motion go from the sheet to the shape and back",
        ("folding",),
    ),
    Action("side", ("o",), "o", "o other side", "See it from the other side", ("folding",)),
    Action("motion", ("m",), "m", "m motion", "Play frames by themselves, or only step", ("folding",)),
    Action("copy", ("x",), "x", "x copy", "Copy the drill and your answer as text", ("drill", "feedback")),
    Action("page_on", ("pagedown",), "Page down", "", "The next page", ("lesson",)),
    Action(
        "page_back", ("pageup",), "Page up", "", "The beginning of the page, or the page before", ("lesson",)
    ),
    Action("contents", ("c",), "c", "", "The list of pages, to go to any of them", ("lesson",)),
    Action(
        "choose_page",
        ("up", "down"),
        "arrows",
        "arrows choose",
        "Choose a page of the list",
        ("contents",),
        takes_key=True,
    ),
    Action("open_page", ("enter",), "Enter", "Enter go there", "Go to the page", ("contents",)),
    Action(
        "choose",
        ("enter",),
        "Enter",
        "Enter start",
        "Start what is set, or what is typed",
        ("pick", "warm-up"),
    ),
    Action("choose_file", ("enter",), "Enter", "Enter open", "Open the file typed or chosen", ("own",)),
    Action("complete", ("tab",), "Tab", "Tab complete", "Complete the path as far as it is clear", ("own",)),
    Action(
        "plan",
        ("enter", "p"),
        "Enter",
        "Enter plan",
        "Go through the plan from blank paper, one instruction a screen",
        ("own sheet",),
    ),
    Action(
        "practise",
        ("1", "2", "3", "4"),
        "1-4",
        "1-4 practise",
        "Drills on this sheet: across and down, inside lines, labels, find",
        ("own sheet",),
        takes_key=True,
    ),
    Action("tick", ("space", "enter"), "Space", "Space done", "Tick it off, on to the next", ("plan",)),
    Action(
        "look_at",
        ("left", "right"),
        "← →",
        "← → look",
        "Look at the instruction before or after, without ticking",
        ("plan",),
        takes_key=True,
    ),
    Action("sleep", ("ctrl+z",), "Ctrl+Z", "", "Let the program sleep; fg in the shell wakes it", _ALL),
    Action(
        "leave",
        ("escape", "q"),
        "q Esc",
        "q leave",
        "Leave this screen; what is answered is kept",
        WITHOUT_LETTERS,
    ),
    Action("dots", ("b",), "b", "", "Draw with braille dots or with blocks", WITHOUT_LETTERS),
    Action("theme", ("t",), "t", "", "Dark or light", WITHOUT_LETTERS),
    Action("help", ("question_mark", "f1"), "?", "? help", "Every key", _ALL),
)


def actions_at(context: Context, having: Collection[str] | None = None) -> tuple[Action, ...]:
    """Return the actions that work in a context: all, or with an answer input those that it is ``having``."""
    return tuple(
        action
        for action in ACTIONS
        if context in action.contexts and (having is None or not action.is_for_some or action.name in having)
    )


def key_line(context: Context, having: Collection[str] | None = None) -> list[Action]:
    """Return the actions that the line of keys of a context shows, the first ones first to be kept."""
    return [action for action in actions_at(context, having) if action.line and not action.moves_window]


def window_line() -> list[Action]:
    """Return the actions that move the window on a sheet."""
    return [action for action in ACTIONS if action.moves_window]
