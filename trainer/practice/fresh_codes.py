"""Fresh codes: of a skill, of a form, or with one triangle, on sheets that were not shown yet."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from drills.geometry import Chance
from drills.questions import ALONE, KINDS, SINGLE_STRETCHES, Code, Recipe, codes_for, codes_of, spec
from drills.structures import TRIANGLE_345, FieldSheet, Stretch

SEEDS = 10**6
"""Fresh drills draw their seed below this; larger seeds are kept for measuring."""
TRIED = 20
SEARCHED = 1000
"""A triangle that so many codes do not have is not there."""


class FreshCodes:
    """Draws codes; of the first twenty that fit, the first whose sheet it has not given yet."""

    def __init__(self, chance: Chance) -> None:
        self._chance = chance
        self._shown: set[Stretch | FieldSheet | Recipe] = set()

    def of_skill(self, skill: str, level: int) -> Code:
        """Return a code of a skill, at the nearest level that trains it."""
        return self._unlike_any(codes_for(skill, level, self._chance.below(SEEDS)))

    def of_form(self, kind: str, form: str, level: int) -> Code:
        """Return a code of a form at a level, whatever skill it trains."""
        return self._unlike_any(codes_of(kind, form, level, self._chance.below(SEEDS)))

    def of_triangle(self, triangle: str, kind: str, form: str, level: int) -> Code | None:
        """Return a code whose sheet is a lone stretch of a triangle; None where the level has none."""
        first = self._chance.below(SEEDS)
        if next(codes_with(triangle, kind, form, level, first), None) is None:
            return None
        return self._unlike_any(codes_with(triangle, kind, form, level, first))

    def _unlike_any(self, codes: Iterator[Code]) -> Code:
        for code in islice(codes, TRIED):
            if (sheet := spec(code).sheet) not in self._shown:
                break
        self._shown.add(sheet)
        return code


def levels_with(triangle: str, kind: str = "") -> list[int]:
    """Return the levels, of a kind or of any, at which a stretch of a triangle fills a sheet alone."""
    if triangle == TRIANGLE_345.name:
        having = list(range(1, ALONE + 1))
    else:
        having = [
            level
            for level, singles in SINGLE_STRETCHES.items()
            if any(each.triangle.name == triangle for each in singles)
        ]
    return [level for level in having if not kind or level in KINDS[kind].levels]


def has_triangle(code: Code, triangle: str) -> bool:
    """Whether a code's sheet is a lone stretch of this triangle."""
    sheet = spec(code).sheet
    return isinstance(sheet, Stretch) and sheet.triangle.name == triangle


def codes_with(triangle: str, kind: str, form: str, level: int, seed: int) -> Iterator[Code]:
    """Yield, of the next thousand codes from a seed on, those whose sheet is a lone stretch of a triangle."""
    codes = islice(codes_of(kind, form, level, seed), SEARCHED)
    yield from (code for code in codes if has_triangle(code, triangle))
