"""Rows of choices and one line to type in, gone through with arrows or clicked."""

from __future__ import annotations

from abc import abstractmethod

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, Static

from trainer.screens.base_screen import BaseScreen
from trainer.screens.lines import link
from trainer.text.input_error import InputError


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

    def _row(self, row: int, options: list[str]) -> Content:
        pointer = ">" if row == self.row else " "
        parts: list[Content] = [Content(f"{pointer} {self.names[row]:<8}")]
        for number, option in enumerate(options):
            shown = f"({option})" if number == self.chosen[row] else f" {option} "
            parts.append(link(shown, f"set({row}, {number})", bold=number == self.chosen[row]))
        below = self.words_below(row)
        return Content(" ").join(parts) + (f"\n{' ' * 11}{below}" if below else "")
