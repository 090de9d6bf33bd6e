"""What a code stands for before any geometry is built: form, skill, and the sheet or how to come to one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from drills.geometry import Chance
from drills.questions.code import Code
from drills.structures import (
    TRIANGLE_345,
    FieldSheet,
    Sheet,
    SheetDesign,
    Stretch,
    StructureKind,
    Triangle,
    compose,
    cut,
    pleats_only,
)

TRIES = 100


@dataclass(frozen=True)
class Recipe:
    """So many structures on a sheet of this size in squares, drawn by the chance of a seed.

    Each kind in ``needed`` occurs, none outside ``allowed`` does; no structures mean pleats alone.
    ``is_cut`` lets the paper's edge cut into them.
    """

    seed: str
    width: int
    height: int
    structures: int
    needed: tuple[StructureKind, ...] = ("stretch",)
    allowed: tuple[StructureKind, ...] = ("stretch", "roof", "diamond")
    triangles: tuple[Triangle, ...] = (TRIANGLE_345,)
    is_cut: bool = False

    def sheets(self) -> Iterator[Sheet]:
        """Yield sheets after this recipe, always the same ones; the first that will do is taken."""
        for attempt in range(TRIES):
            chance = Chance(f"{self.seed}/{attempt}")
            sheet = self._sheet(chance)
            yield cut(chance, sheet) if self.is_cut else sheet

    def _sheet(self, chance: Chance) -> Sheet:
        if not self.structures:
            return pleats_only(chance, self.width, self.height)
        return compose(
            chance,
            self.width,
            self.height,
            self.structures,
            needed=self.needed,
            allowed=self.allowed,
            triangles=self.triangles,
        )


@dataclass(frozen=True)
class Spec:
    """The drawn plan of a drill; ``detail`` is the ratio, the mistake or the look-alike that it turns on.

    ``code`` is None for a drill of a lesson, which no code makes.
    """

    kind: str
    level: int
    form: str
    skill: str
    sheet: Stretch | FieldSheet | Recipe
    detail: str
    code: Code | None = None

    @classmethod
    def of(cls, code: Code, form: str, skill: str, sheet: Stretch | FieldSheet | Recipe, detail: str) -> Spec:
        """Return the plan of a code."""
        return cls(code.kind, code.level, form, skill, sheet, detail, code)

    def sheets(self) -> Iterable[SheetDesign]:
        """Return the sheet, or those that the recipe gives, in order of preference."""
        return self.sheet.sheets() if isinstance(self.sheet, Recipe) else (self.sheet,)
