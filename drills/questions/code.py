"""The code of a drill, and what it stands for before any geometry is built: form, skill, sheet.

A code is KIND-LEVEL-SEED, a later generator as .VERSION, another form as -FORM.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

from drills.geometry import Chance
from drills.structures import (
    TRIANGLE_345,
    Band,
    Base,
    FieldSheet,
    OwnSheet,
    Sheet,
    SheetDesign,
    Stretch,
    StructureKind,
    Triangle,
    Twist,
    Wanted,
    compose,
    cut,
    draw_base,
    pleats_only,
)

LARGEST_SEED = 10**9
TRIES = 100
_SHAPE = re.compile(r"([a-z]{1,12})-([0-9]{1,2})-([0-9]{1,10})(?:\.([0-9]{1,2}))?(?:-([a-z]{1,12}))?")


Features: TypeAlias = frozenset[str]
"""Named abilities of a generator, such as "roofs"."""

NO_FEATURES: Features = frozenset()


class CodeError(ValueError):
    """A code that names no drill; its text is one sentence that says what would."""


class Code(NamedTuple):
    """What names a drill for ever: the same code gives the same drill on every system.

    ``form`` is empty for the first form of the kind.
    """

    kind: str
    level: int
    seed: int
    version: int = 1
    form: str = ""

    def __str__(self) -> str:
        version = f".{self.version}" if self.version > 1 else ""
        form = f"-{self.form}" if self.form else ""
        return f"{self.kind}-{self.level}-{self.seed}{version}{form}"

    @property
    def chance(self) -> Chance:
        """The stream of draws that belongs to this code alone."""
        return Chance(str(self))


def parse_code(text: str) -> Code:
    """Read a code by its shape alone; CodeError says what a code looks like."""
    found = _SHAPE.fullmatch(text.strip())
    if not found:
        raise CodeError("A code looks like labels-3-41: a kind, a level and a seed, joined by hyphens.")
    kind, level, seed, version, form = found.groups()
    if int(seed) > LARGEST_SEED:
        raise CodeError(f"The seed of a code is a whole number from 0 to {LARGEST_SEED}.")
    return Code(kind, int(level), int(seed), int(version or 1), form or "")


_OWN_SHAPE = re.compile(r"([a-z]{1,12})-own-([0-9a-f]{12})-([0-9]{1,10})(?:-([a-z]{1,12}))?")


class OwnCode(NamedTuple):
    """What names a drill on a sheet of a person's own, by 12 hexadecimal digits of its file's hash."""

    kind: str
    hash: str
    seed: int
    form: str = ""

    def __str__(self) -> str:
        return f"{self.kind}-own-{self.hash}-{self.seed}{'-' * bool(self.form)}{self.form}"

    @property
    def chance(self) -> Chance:
        """The stream of draws that belongs to this code alone."""
        return Chance(str(self))


def parse_own_code(text: str) -> OwnCode | None:
    """Read the code of a drill on a sheet of one's own by its shape; None where it has another."""
    found = _OWN_SHAPE.fullmatch(text.strip())
    return OwnCode(found[1], found[2], int(found[3]), found[4] or "") if found else None


@dataclass(frozen=True)
class Recipe:
    """So many structures on a sheet of this size in squares, drawn by the chance of a seed.

    Each kind in ``needed`` occurs, none outside ``allowed`` does; no structures mean pleats alone.
    ``is_cut`` lets the paper's edge cut into them, with ``clear_edge`` through no turning point.
    """

    seed: str
    width: int
    height: int
    structures: int
    needed: tuple[StructureKind, ...] = ("stretch",)
    allowed: tuple[StructureKind, ...] = ("stretch", "roof", "diamond")
    triangles: tuple[Triangle, ...] = (TRIANGLE_345,)
    is_cut: bool = False
    clear_edge: bool = False

    def sheets(self) -> Iterator[Sheet]:
        """Yield sheets after this recipe, always the same ones; the first that will do is taken."""
        for attempt in range(TRIES):
            chance = Chance(f"{self.seed}/{attempt}")
            sheet = self._sheet(chance)
            yield cut(chance, sheet, self.clear_edge) if self.is_cut else sheet

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
class BaseRecipe:
    """A whole base of one of these sizes in squares with the blocks wanted, drawn by the chance of a seed."""

    seed: str
    sizes: tuple[tuple[int, int], ...]
    wanted: Wanted = ("stretch",)

    def sheets(self) -> Iterator[Base]:
        """Yield bases after this recipe, always the same ones; the first that will do is taken."""
        for attempt in range(TRIES):
            yield draw_base(Chance(f"{self.seed}/{attempt}"), self.sizes, self.wanted)


AnySheet: TypeAlias = Stretch | FieldSheet | Band | Twist | Base | OwnSheet | Recipe | BaseRecipe
"""What a spec may ask for: a sheet, or a recipe for some."""


@dataclass(frozen=True)
class Spec:
    """The drawn plan of a drill; ``detail`` is the ratio, the mistake or the look-alike that it turns on.

    ``code`` is None for a drill of a lesson, which no code makes, and on a sheet of one's own, which has
    an ``own`` one; ``features`` are those of its generator.
    """

    kind: str
    level: int
    form: str
    skill: str
    sheet: AnySheet
    detail: str
    code: Code | None = None
    features: Features = NO_FEATURES
    own: OwnCode | None = None

    @classmethod
    def of(cls, code: Code, form: str, skill: str, sheet: AnySheet, detail: str) -> Spec:
        """Return the plan of a code."""
        return cls(code.kind, code.level, form, skill, sheet, detail, code)

    def sheets(self) -> Iterable[SheetDesign]:
        """Return the sheet, or those that the recipe gives, in order of preference."""
        return self.sheet.sheets() if isinstance(self.sheet, Recipe | BaseRecipe) else (self.sheet,)
