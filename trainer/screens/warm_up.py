"""Two minutes, then I fold: what they rise to."""

from __future__ import annotations

from drills.questions import ADDS, top_level
from drills.structures import TRIANGLES
from trainer.practice.triangles import levels_with
from trainer.practice.warm_up import Target, target_of, warm_up
from trainer.screens.choice_screen import ChoiceScreen
from trainer.screens.drill import DrillScreen
from trainer.screens.lines import bindings_for
from trainer.text.pattern_source import sheet_in_file

LEVEL, TRIANGLE = range(2)


class WarmUpScreen(ChoiceScreen):
    """Enter starts at once; rows and a file say what will be folded."""

    place = "warm-up"
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
        if row != LEVEL:
            return ""
        level = self.chosen[LEVEL] + 1
        return f"up to: {ADDS[level]}" if level > 1 else "up to your own level of each kind"

    def set_choice(self, row: int, number: int) -> None:
        """Set a choice; a triangle brings a level that has it, and a level without it lets it go."""
        self.chosen[row] = number
        having = levels_with(TRIANGLES[self.chosen[TRIANGLE] - 1].name) if self.chosen[TRIANGLE] else []
        if having and self.chosen[LEVEL] + 1 not in having:
            if row == TRIANGLE:
                self.chosen[LEVEL] = having[0] - 1
            else:
                self.chosen[TRIANGLE] = 0

    def start(self, typed: str) -> None:
        """Start, rising to what the file has or to what is set."""
        store, clock, target = self.slantwise.store, self.slantwise.clock, self._target(typed)
        if typed:
            asks = ", ".join(filter(None, (target.triangle, f"level {target.level}")))
            self.app.notify(f"Rising to what the pattern has: {asks}.", markup=False)
        self.app.switch_screen(DrillScreen(warm_up(store, clock, target)))

    def _target(self, typed: str) -> Target:
        if typed:
            return target_of(sheet_in_file(typed).pattern)
        level, triangle = self.chosen
        return Target(level + 1 if level else None, TRIANGLES[triangle - 1].name if triangle else "")
