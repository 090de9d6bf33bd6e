"""Picking a drill: kind, form, level and triangle, or a code."""

from __future__ import annotations

from drills.questions import ADDS, KINDS, Code, QuestionKind, checked, newest, read_code
from drills.structures import TRIANGLES
from trainer.practice import rounds
from trainer.practice.triangles import codes_with, levels_with
from trainer.screens.choice_screen import ChoiceScreen
from trainer.screens.drill import DrillScreen
from trainer.screens.lines import bindings_for

FORMS = {
    "read": "read a step",
    "place": "place a step",
    "mark": "mark",
    "points": "turning points",
    "join": "join points",
}
ANY = "any"
KIND, FORM, LEVEL, TRIANGLE = range(4)
_SEEDS = 10**6


class PickScreen(ChoiceScreen):
    """Arrows choose; a code typed in the last row goes before what is chosen."""

    place = "pick"
    names = ("Kind", "Form", "Level", "Triangle")
    typed = "Code"
    hint = "or a code, such as labels-3-41"
    BINDINGS = bindings_for("pick")

    def on_mount(self) -> None:
        """Begin at the kind."""
        self.say("Pick a drill", "fresh ones of its like follow")
        super().on_mount()

    @property
    def kind(self) -> str:
        """The kind that is set."""
        return list(KINDS)[self.chosen[KIND]]

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
            [FORMS[form] for form in self._entry.forms],
            [str(level) for level in self._entry.levels],
            [ANY, *(triangle.name for triangle in TRIANGLES)],
        )

    def words_below(self, row: int) -> str:
        """Return what the level adds, and which sheets have the triangle."""
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
            self._set_level(max(level, self._entry.lowest))
        if self.triangle and self.level not in self._levels():
            if row == LEVEL:
                self.chosen[TRIANGLE] = 0
            else:
                self._set_level(min(self._levels(), key=lambda other: abs(other - level)))

    def start(self, typed: str) -> None:
        """Start the code that is typed, or else what is set."""
        code = read_code(typed) if typed else self._set_code()
        triangle = "" if typed else self.triangle
        sitting = rounds.picked(self.slantwise.store, self.slantwise.clock, code, triangle)
        self.app.switch_screen(DrillScreen(sitting))

    def _levels(self) -> list[int]:
        return [level for level in levels_with(self.triangle) if level in self._entry.levels]

    def _set_level(self, level: int) -> None:
        self.chosen[LEVEL] = self._entry.levels.index(level)

    def _set_code(self) -> Code:
        form = list(self._entry.forms)[self.chosen[FORM]]
        seed = self.slantwise.clock.now().microsecond % _SEEDS
        if self.triangle:
            return next(codes_with(self.triangle, self.kind, form, self.level, seed))
        return newest(checked(Code(self.kind, self.level, seed, form=form)))
