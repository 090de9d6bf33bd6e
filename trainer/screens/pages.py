"""Screens that are a page of text: welcome, the end of a session or of the lesson, the help."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import wrap

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Resize
from textual.widgets import Static

from trainer.actions import CONTEXTS, Context, actions_at, key_line
from trainer.practice.lesson_pages import AFTER_LESSON
from trainer.practice.placing import most_drills
from trainer.screens.base_screen import BaseScreen, KeyLine, bindings_for, link

_BEFORE = (
    "Most of a box-pleated crease pattern runs along the grid or at 45 degrees.",
    "Then there is a slanted parallelogram. Slantwise trains you to read it:",
    "",
    "  its creases as whole-number steps, so many across and so many down,",
    "  which lines run inside it and go in with the sink,",
    "  and which mountain and valley labels are wrong.",
    "",
)
_PLACING = f"A few drills that find your level, {most_drills()} at most"
_AFTER = (
    "That was a step, an inside line and a wrong label.",
    "",
    "A few drills now find your level; they take two or three minutes.",
    "",
)
_BEGIN = (("begin", "Enter   Three minutes on one small sheet, to see how it goes"),)
_OTHERS = (
    ("place_me", f"p       {_PLACING}"),
    ("skip", "s       Skip both and start at level 1"),
)
_PLACE_ME = (
    ("begin", f"Enter   {_PLACING}"),
    ("skip", "s       Skip them and start at level 1"),
)


class WelcomeScreen(BaseScreen):
    """Offers the first three minutes, and after them the placing drills."""

    context = "welcome"
    BINDINGS = bindings_for("welcome")

    def __init__(self, first_minutes_over: bool = False) -> None:
        super().__init__()
        self.first_minutes_over = first_minutes_over

    def body(self) -> ComposeResult:
        """Yield the words and the choices."""
        words = map(Content, _AFTER if self.first_minutes_over else _BEFORE)
        choices = _PLACE_ME if self.first_minutes_over else (*_BEGIN, *_OTHERS)
        offered = (link(line, name) for name, line in choices)
        with VerticalScroll(can_focus=False):
            yield Static(Content("\n").join([*words, *offered]), classes="page")

    def on_mount(self) -> None:
        """Say where this is; the placing is what begins once the three minutes are over."""
        self.say("Slantwise", "Welcome")
        barred = {"place_me"} if self.first_minutes_over else set()
        keys = (action for action in key_line("welcome") if action.name not in barred)
        self.query_one(KeyLine).show_keys(keys)

    def action_begin(self) -> None:
        """Begin with the three minutes, or after them with placing."""
        if self.first_minutes_over:
            self.action_place_me()
        else:
            self.slantwise.open("first minutes")

    def action_place_me(self) -> None:
        """Go to the placing drills."""
        self.slantwise.remember(started=True)
        self.slantwise.open("placing")

    def action_skip(self) -> None:
        """Go straight to the opening."""
        self.slantwise.remember(started=True)
        self.app.pop_screen()

    def action_leave(self) -> None:
        """Leave the program from the first start, the screen after the three minutes."""
        if self.first_minutes_over:
            self.action_skip()
        else:
            self.app.exit()


class LessonEndScreen(BaseScreen):
    """What comes after the lesson."""

    context = "end"
    BINDINGS = bindings_for("end")

    def body(self) -> ComposeResult:
        """Yield what is said at the end."""
        first, *more = AFTER_LESSON
        lines = [Content.styled(first, "bold"), *map(Content, [*more, "", "Enter  back to the opening"])]
        with VerticalScroll(can_focus=False):
            yield Static(Content("\n").join(lines), classes="page")

    def on_mount(self) -> None:
        """Say where this is."""
        self.say("Lesson | the end")

    def action_go_on(self) -> None:
        """Go back to the opening."""
        self.app.pop_screen()


class ReadingScreen(BaseScreen):
    """Shows lines of text; arrows, page keys and the wheel scroll them."""

    def lines(self) -> Iterable[Content]:
        """Return the text, line by line."""
        return ()

    def body(self) -> ComposeResult:
        """Yield the text."""
        with VerticalScroll(can_focus=False):
            yield Static(Content("\n").join(self.lines()), classes="page")

    def action_scroll(self, key: str) -> None:
        """Scroll by a line or by a page."""
        text = self.query_one(VerticalScroll)
        ways = {
            "up": text.scroll_up,
            "down": text.scroll_down,
            "pageup": text.scroll_page_up,
            "pagedown": text.scroll_page_down,
        }
        ways[key](animate=False)


KEY_COLUMNS = 12
"""The columns that the help keeps for keys."""
BESIDE_PAGE = 6
"""The columns of a window beside a page of text: its padding and the bar that scrolls it."""

MOUSE = (
    "The mouse does all of it too: click creases, points and crossings on the board, [-] and [+] beside a "
    "number, and the words of the line below. A second click on the same spot takes the next crease there. "
    "On a large sheet the wheel and a drag move the window, Ctrl and the wheel zoom."
)

PLACES_IN_WORDS = (
    "Places are counted in squares from the top left corner of the sheet: "
    "(3;\N{NO-BREAK SPACE}1) is 3 across and 1 down."
)
LINES = (
    "Pleat lines run along the grid, many side by side. A hinge crosses them, from a corner of the outline. "
    "Ridges are where pleat lines turn."
)


class HelpScreen(ReadingScreen):
    """Lists the keys; Escape, q or ? goes back."""

    context = "help"
    BINDINGS = bindings_for("help")

    def __init__(self, asked_from: Context) -> None:
        super().__init__()
        self.asked_from = asked_from

    def lines(self) -> Iterable[Content]:
        """Return the keys, those of the screen before first."""
        others = [other for other in CONTEXTS if other not in (self.asked_from, "help")]
        yield from map(Content, (MOUSE, "", PLACES_IN_WORDS, "", LINES))
        for screen in (self.asked_from, *others):
            yield from _keys_of(screen, self.app.size.width - BESIDE_PAGE)

    def on_mount(self) -> None:
        """Say what this is."""
        self.say("Help", "Escape goes back")

    def on_resize(self, event: Resize) -> None:
        """Wrap the words anew."""
        super().on_resize(event)
        self.query_one(".page", Static).update(Content("\n").join(self.lines()))

    def action_help(self) -> None:
        """Go back."""
        self.action_leave()


def _keys_of(screen: Context, columns: int) -> Iterator[Content]:
    """Yield the keys of a screen; what does not fit beside its key goes on below its words, not the key."""
    yield from (Content(""), Content.styled(CONTEXTS[screen], "bold"))
    for action in actions_at(screen):
        first, *more = wrap(action.words, max(1, columns - KEY_COLUMNS))
        yield Content(f"{f'  {action.shown}':<{KEY_COLUMNS}}{first}")
        yield from (Content(f"{'':<{KEY_COLUMNS}}{line}") for line in more)
