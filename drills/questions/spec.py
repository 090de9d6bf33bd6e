"""What a code stands for before any geometry is built: form, skill, and the sheet or how to come to one."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from drills.questions.code import Code
from drills.questions.recipe import Recipe
from drills.structures import FieldSheet, SheetDesign, Stretch


@dataclass(frozen=True)
class Spec:
    """The drawn plan of a drill; ``detail`` is the ratio, the mistake or the look-alike that it turns on."""

    code: Code
    form: str
    skill: str
    sheet: Stretch | FieldSheet | Recipe
    detail: str

    def sheets(self) -> Iterable[SheetDesign]:
        """Return the sheet, or those that the recipe gives, in order of preference."""
        return self.sheet.sheets() if isinstance(self.sheet, Recipe) else (self.sheet,)
