"""Screens of choices: picking a drill, and what a warm-up rises to."""

from __future__ import annotations

from abc import abstractmethod
from contextlib import suppress

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, Static

from drills.questions import ADDS, KINDS, Code, QuestionKind, codes_of, read_code, top_level
from drills.structures import TRIANGLES
from trainer.given import InputError, sheet_in_file
from trainer.practice import rounds
from trainer.practice.drill_source import SEEDS, codes_with, levels_with
from trainer.practice.rounds import Target, target_of, warm_up
from trainer.practice.session import PracticeSession
from trainer.screens.base_screen import BaseScreen, bindings_for, link


class ChoiceScreen(BaseScreen):
    """Choices by row; what is typed in the last row goes before them."""

    names: tuple[str, ...]
    typed: str
    hint: str

    def __init__(self) -> None:
        super().__init__()
        self.row = 0
        self.chosen = [0] * len(self.names)

    def body(self) -> ComposeResult:
        """Yield the rows, the line to type in and the line for what is wrong with it."""
        yield Static("", id="choices", classes="rows")
        yield Input(placeholder=self.hint, id="typed", max_length=400, compact=True)
        yield Static("", id="wrong", classes="rows", markup=False)

    def on_mount(self) -> None:
        """Begin at the first row."""
        self._go_to(0)

    @abstractmethod
    def options(self) -> tuple[list[str], ...]:
        """Return the words of the choices of each row."""

    def words_below(self, row: int) -> str:
        """Return what is said below a row."""
        return ""

    def set_choice(self, row: int, number: int) -> None:
        """Set a choice."""
        self.chosen[row] = number

    @abstractmethod
    def start(self, typed: str) -> None:
        """Start what is typed, or else what is set; InputError or ValueError says what is wrong with it."""

    @abstractmethod
    def session(self, typed: str) -> PracticeSession:
        """Return the session of what is typed, or else of what is set; it fails as ``start`` does."""

    def look_ahead(self, typed: str = "") -> None:
        """Let be prepared what would come first."""
        with suppress(InputError, ValueError):
            self.slantwise.making.prepare(self.session(typed).coming())

    def action_go(self, arrow: str) -> None:
        """Go to another row, or to another choice in it."""
        if arrow in ("up", "down"):
            self._go_to(self.row + (1 if arrow == "down" else -1))
        elif self.row < len(self.names):
            number = self.chosen[self.row] + (1 if arrow == "right" else -1)
            self.action_set(self.row, number % len(self.options()[self.row]))

    def action_set(self, row: int, number: int) -> None:
        """Set a choice by a click."""
        self.set_choice(row, number)
        self._go_to(row)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Start what is typed."""
        self.action_choose()

    def action_choose(self) -> None:
        """Start what is typed, or else what is set."""
        try:
            self.start(self.query_one(Input).value.strip())
        except (InputError, ValueError) as error:
            self.query_one("#wrong", Static).update(str(error))

    def _go_to(self, row: int) -> None:
        self.row = row % (len(self.names) + 1)
        if self.row == len(self.names):
            self.query_one(Input).focus()
        else:
            self.set_focus(None)
        self._write()

    def _write(self) -> None:
        rows = [self._row(row, options) for row, options in enumerate(self.options())]
        pointer = ">" if self.row == len(self.names) else " "
        rows.append(Content(f"{pointer} {self.typed}"))
        self.query_one("#choices", Static).update(Content("\n\n").join(rows))
        self.call_after_refresh(self.look_ahead)

    def _row(self, row: int, options: list[str]) -> Content:
        pointer = ">" if row == self.row else " "
        parts: list[Content] = [Content(f"{pointer} {self.names[row]:<8}")]
        for number, option in enumerate(options):
            shown = f"({option})" if number == self.chosen[row] else f" {option} "
            parts.append(link(shown, f"set({row}, {number})", bold=number == self.chosen[row]))
        below = self.words_below(row)
        return Content(" ").join(parts) + (f"\n{' ' * 11}{below}" if below else "")


ANY = "any"
KIND, FORM, LEVEL, TRIANGLE, ROUND = range(5)
AS_SET, ONE_MINUTE, BASES, BASES_BY_CLOCK = range(4)
ROUNDS = ["as set", "one minute", "five bases", "five bases by the clock"]


class PickScreen(ChoiceScreen):
    """Arrows choose; a code typed in the last row goes before what is chosen."""

    context = "pick"
    names = ("Kind", "Form", "Level", "Triangle", "Round")
    typed = "Code"
    hint = "or a code, such as labels-3-41"
    BINDINGS = bindings_for("pick")

    def __init__(self, of: int = AS_SET) -> None:
        super().__init__()
        self.chosen[ROUND] = of

    def on_mount(self) -> None:
        """Begin at the kind."""
        self.say("Pick a drill", "fresh ones like it follow")
        self._seed = self.slantwise.clock.now().microsecond % SEEDS
        super().on_mount()

    @property
    def kind(self) -> str:
        """The kind that is set."""
        return list(KINDS)[self.chosen[KIND]]

    @property
    def form(self) -> str:
        """The form that is set."""
        return list(self._entry.forms)[self.chosen[FORM]]

    @property
    def level(self) -> int:
        """The level that is set."""
        return self._entry.levels[self.chosen[LEVEL]]

    @property
    def triangle(self) -> str:
        """The triangle that is set, empty for any."""
        return self.options()[TRIANGLE][self.chosen[TRIANGLE]] if self.chosen[TRIANGLE] else ""

    @property
    def _entry(self) -> QuestionKind:
        return KINDS[self.kind]

    def options(self) -> tuple[list[str], ...]:
        """Return the words of the choices."""
        return (
            [kind.title for kind in KINDS.values()],
            [form.words for form in self._entry.forms.values()],
            [str(level) for level in self._entry.levels],
            [ANY, *(triangle.name for triangle in TRIANGLES)],
            ROUNDS,
        )

    def words_below(self, row: int) -> str:
        """Return what the level adds, which sheets have the triangle, and what a round of bases is."""
        if row == ROUND and self.chosen[ROUND] == ONE_MINUTE:
            return f"As many right as you can{self._best()}; without a triangle"
        if row == ROUND and self.chosen[ROUND]:
            within = " in five minutes" if self.chosen[ROUND] == BASES_BY_CLOCK else ""
            return f"Look through five bases{within}: find every slanted stretch"
        if row == LEVEL:
            return ADDS[self.level]
        if row == TRIANGLE and self.triangle:
            return f"on sheets of one stretch, levels {', '.join(map(str, self._levels()))}"
        return ""

    def set_choice(self, row: int, number: int) -> None:
        """Set a choice; level and triangle follow where they do not go together."""
        level = self.level
        self.chosen[row] = number
        if row == KIND:
            self.chosen[FORM] = 0
            self._set_level(self._entry.nearest_level(level))
        if self.triangle and self.level not in self._levels():
            if row == LEVEL or not self._levels():
                self.chosen[TRIANGLE] = 0
            else:
                self._set_level(min(self._levels(), key=lambda other: abs(other - level)))

    def start(self, typed: str) -> None:
        """Start the code that is typed, or else what is set."""
        self.slantwise.practise(self.session(typed))

    def session(self, typed: str) -> PracticeSession:
        """Return the session that begins with the code that is typed, or else what is set."""
        store, clock = self.slantwise.store, self.slantwise.clock
        if self.chosen[ROUND] == ONE_MINUTE and not typed:
            return rounds.one_minute(store, clock, self.kind, self.form, self.level)
        if self.chosen[ROUND] and not typed:
            return rounds.five_bases(store, clock, self.chosen[ROUND] == BASES_BY_CLOCK)
        code = read_code(typed) if typed else self._set_code()
        triangle = "" if typed else self.triangle
        return rounds.picked(store, clock, code, triangle)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Prepare a code as soon as it is typed."""
        self.look_ahead(event.value.strip())

    def _best(self) -> str:
        """Return the most right in a minute of what is set, as the end of a sentence; empty without one."""
        of = self.kind, self.form, self.level
        right = [each.right for each in self.slantwise.store.minutes_by_clock() if each.of == of]
        return f", {max(right)} at best until now" if right else ""

    def _levels(self) -> list[int]:
        return levels_with(self.triangle, self.kind)

    def _set_level(self, level: int) -> None:
        self.chosen[LEVEL] = self._entry.levels.index(level)

    def _set_code(self) -> Code:
        if not self.triangle:
            return next(codes_of(self.kind, self.form, self.level, self._seed))
        if (
            code := next(codes_with(self.triangle, self.kind, self.form, self.level, self._seed), None)
        ) is None:
            raise ValueError(
                f"This kind has no {self.triangle} at this level; choose another triangle, or any."
            )
        return code


RISE_TO, FOLDED = range(2)


class WarmUpScreen(ChoiceScreen):
    """Enter starts at once; rows and a file say what will be folded."""

    context = "warm-up"
    names = ("Level", "Triangle")
    typed = "File"
    hint = "or the FOLD file that you will fold"
    BINDINGS = bindings_for("warm-up")

    def on_mount(self) -> None:
        """Begin at the level."""
        self.say("Two minutes, then I fold", "what you know, rising to what you will fold")
        super().on_mount()

    def options(self) -> tuple[list[str], ...]:
        """Return the words of the choices."""
        return (
            ["mine", *map(str, range(2, top_level() + 1))],
            ["any", *(triangle.name for triangle in TRIANGLES)],
        )

    def words_below(self, row: int) -> str:
        """Return what the level means."""
        if row != RISE_TO:
            return ""
        level = self.chosen[RISE_TO] + 1
        return f"up to: {ADDS[level]}" if level > 1 else "up to your own level of each kind"

    def set_choice(self, row: int, number: int) -> None:
        """Set a choice; a triangle brings a level that has it, and a level without it lets it go."""
        self.chosen[row] = number
        having = levels_with(TRIANGLES[self.chosen[FOLDED] - 1].name) if self.chosen[FOLDED] else []
        if having and self.chosen[RISE_TO] + 1 not in having:
            if row == FOLDED:
                self.chosen[RISE_TO] = having[0] - 1
            else:
                self.chosen[FOLDED] = 0

    def start(self, typed: str) -> None:
        """Start, rising to what the file has or to what is set."""
        store, clock, target = self.slantwise.store, self.slantwise.clock, self._target(typed)
        if typed:
            asks = ", ".join(filter(None, (target.triangle, f"level {target.level}")))
            self.app.notify(f"Rising to what the pattern has: {asks}.", markup=False)
        self.slantwise.practise(warm_up(store, clock, target))

    def session(self, typed: str) -> PracticeSession:
        """Return the two minutes that rise to what the file has or to what is set."""
        return warm_up(self.slantwise.store, self.slantwise.clock, self._target(typed))

    def _target(self, typed: str) -> Target:
        if typed:
            return target_of(sheet_in_file(typed).pattern)
        level, triangle = self.chosen
        return Target(level + 1 if level else None, TRIANGLES[triangle - 1].name if triangle else "")
