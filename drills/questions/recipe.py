"""Recipes: what a sheet with several structures should hold, and the sheets that chance makes of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from drills.geometry import Chance
from drills.structures import TRIANGLE_345, Sheet, StructureKind, Triangle, compose, cut, pleats_only

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
