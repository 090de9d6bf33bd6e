"""Picking a drill: kind, form and level, or a code."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, Static

from drills.questions.code import Code, CodeError
from drills.questions.contents import ADDS
from drills.questions.kinds import KINDS, checked, newest, read_code
from trainer.practice import rounds
from trainer.screens.drill import DrillScreen
from trainer.screens.keys import bindings_for
from trainer.screens.links import link
from trainer.screens.shell import Shell

FORMS = {
    "read": "read a step",
    "place": "place a step",
    "mark": "mark",
    "points": "turning points",
    "join": "join points",
}
ROWS = ("Kind", "Form", "Level", "Code")
_SEEDS = 10**6


class PickScreen(Shell):
    """Arrows choose; a code typed in the last row goes before what is chosen."""

    place = "pick"
    BINDINGS = bindings_for("pick")

    def __init__(self) -> None:
        super().__init__()
        self.row = 0
        self.chosen = [0, 0, 0]

    def body(self) -> ComposeResult:
        """Yield the rows, the code and the line for what is wrong with it."""
        yield Static("", id="choices", classes="rows")
        yield Input(placeholder="or a code, such as labels-3-41", id="code", max_length=40, compact=True)
        yield Static("", id="wrong", classes="rows", markup=False)

    def on_mount(self) -> None:
        """Begin at the kind."""
        self.say("Pick a drill", "fresh ones of its like follow")
        self._go_to(0)

    @property
    def kind(self) -> str:
        """The kind that is set."""
        return list(KINDS)[self.chosen[0]]

    def _options(self) -> tuple[list[str], ...]:
        titles = [kind.title for kind in KINDS.values()]
        forms = [FORMS[form] for form in KINDS[self.kind].forms]
        return titles, forms, [str(level) for level in KINDS[self.kind].levels]

    def _go_to(self, row: int) -> None:
        self.row = row % len(ROWS)
        if ROWS[self.row] == "Code":
            self.query_one(Input).focus()
        else:
            self.set_focus(None)
        self._write()

    def _write(self) -> None:
        rows = [self._row(row, options) for row, options in enumerate(self._options())]
        pointer = ">" if ROWS[self.row] == "Code" else " "
        rows[2] += f"\n{' ' * 10}{ADDS[KINDS[self.kind].levels[self.chosen[2]]]}"
        self.query_one("#choices", Static).update(Content("\n\n").join([*rows, Content(f"{pointer} Code")]))

    def _row(self, row: int, options: list[str]) -> Content:
        pointer = ">" if row == self.row else " "
        parts: list[Content] = [Content(f"{pointer} {ROWS[row]:<7}")]
        for number, option in enumerate(options):
            shown = f"({option})" if number == self.chosen[row] else f" {option} "
            parts.append(link(shown, f"set({row}, {number})", bold=number == self.chosen[row]))
        return Content(" ").join(parts)

    def action_go(self, arrow: str) -> None:
        """Go to another row, or to another choice in it."""
        if arrow in ("up", "down"):
            self._go_to(self.row + (1 if arrow == "down" else -1))
        elif ROWS[self.row] != "Code":
            number = self.chosen[self.row] + (1 if arrow == "right" else -1)
            self.action_set(self.row, number % len(self._options()[self.row]))

    def action_set(self, row: int, number: int) -> None:
        """Set a choice."""
        before = KINDS[self.kind].levels[self.chosen[2]]
        self.chosen[row] = number
        if row == 0:
            self._keep_level(before)
            self.chosen[1] = 0
        self._go_to(row)

    def _keep_level(self, level: int) -> None:
        """Keep the level as another kind is set, as far as that has it."""
        levels = KINDS[self.kind].levels
        self.chosen[2] = levels.index(max(level, levels[0]))

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Start the code that is typed."""
        self.action_choose()

    def action_choose(self) -> None:
        """Start the code that is typed, or else what is set."""
        typed = self.query_one(Input).value.strip()
        try:
            code = read_code(typed) if typed else self._set_code()
        except CodeError as error:
            self.query_one("#wrong", Static).update(str(error))
            return
        sitting = rounds.picked(self.slantwise.store, self.slantwise.clock, code)
        self.app.switch_screen(DrillScreen(sitting))

    def _set_code(self) -> Code:
        form = KINDS[self.kind].forms[self.chosen[1]]
        seed = self.slantwise.clock.now().microsecond % _SEEDS
        level = KINDS[self.kind].levels[self.chosen[2]]
        return newest(checked(Code(self.kind, level, seed, form=form)))
