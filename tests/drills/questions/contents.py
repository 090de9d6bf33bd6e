"""What each level contains, seen in what its codes stand for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from drills.questions.code import BaseRecipe, Code, Recipe, Spec
from drills.questions.labels import most_wrong
from drills.questions.levels import ADDS
from drills.questions.registry import KINDS, checked, newest, spec
from drills.structures import STRUCTURES, TRIANGLES, Stretch
from drills.structures.bases.base import MOST_STRETCHES
from drills.structures.bases.layout import TRIANGLES_OF
from tests.no_row import no_row

SEEN = 150
LOOK_ALIKES = {"roof": "roofs", "diamond": "45-degree stretches"}
ON_BASES = {"tips": "three tips joined aslant"}
"""What stands on whole bases alone."""
"""What several of a structure are called that is not slanted."""
HEADINGS = (
    "Level",
    "Adds",
    "Sheets up to",
    "Structures",
    "Triangles",
    "Sides",
    "Pleats",
    "Paper's edge",
    "Labels wrong",
)


class Contents(NamedTuple):
    """What one level contains, each in a few words."""

    level: int
    adds: str
    sheets: str
    structures: str
    triangles: str
    sides: str
    pleats: str
    edge: str
    wrong: str


@lru_cache(maxsize=16)
def contents(level: int) -> Contents:
    """Return what a level contains, over the first codes of every kind and form that has it."""
    specs = list(_specs(level))
    recipes = [each.sheet for each in specs if isinstance(each.sheet, Recipe)]
    bases = [each.sheet for each in specs if isinstance(each.sheet, BaseRecipe)]
    stretches = [each.sheet for each in specs if isinstance(each.sheet, Stretch)]
    sizes = [sheet.size for each in specs if not isinstance(sheet := each.sheet, Recipe | BaseRecipe)]
    sizes += [(recipe.width, recipe.height) for recipe in recipes]
    sizes += [size for base in bases for size in base.sizes]
    return Contents(
        level,
        ADDS[level],
        f"{max(width for width, _ in sizes)} x {max(height for _, height in sizes)}",
        _structures(recipes, bases, has_single=bool(stretches)),
        _triangles(stretches, recipes, bases),
        _sides(stretches),
        _pleats(stretches),
        _edge([any(each.crop) for each in stretches] + [each.is_cut for each in recipes]),
        f"up to {most_wrong(level)}" if most_wrong(level) > 1 else "1",
    )


def _specs(level: int) -> Iterator[Spec]:
    for name, kind in KINDS.items():
        if level in kind.levels:
            for form in kind.forms:
                codes = (Code(name, level, seed, form=form) for seed in range(SEEN))
                yield from (spec(newest(checked(code))) for code in codes)


def _structures(recipes: Iterable[Recipe], bases: Sequence[BaseRecipe], *, has_single: bool) -> str:
    """Return how many structures a sheet has, and which look-alikes stand among them."""
    rows = _in_rows(recipes, has_single=has_single)
    return "; ".join(filter(None, (rows, _on_bases(bases))))


def _on_bases(bases: Sequence[BaseRecipe]) -> str:
    """Return what stands on whole bases, all of which have roofs."""
    if not bases:
        return ""
    among = {kind for base in bases for kind in base.wanted}
    alike = {"roof": LOOK_ALIKES["roof"], "diamond": LOOK_ALIKES["diamond"], **ON_BASES}
    names = [words for kind, words in alike.items() if kind in among or kind == "roof"]
    return f"bases of up to {MOST_STRETCHES} stretches, with {_joined(names)}"


def _in_rows(recipes: Iterable[Recipe], *, has_single: bool) -> str:
    """Return how many structures stand in a row or alone, and which look-alikes among them."""
    numbers = {recipe.structures for recipe in recipes if recipe.structures} | ({1} if has_single else set())
    among = {kind for recipe in recipes if recipe.structures for kind in recipe.allowed}
    alike = [_named(kind) for kind, row in STRUCTURES.items() if kind in among and not row.is_slanted]
    return ", with ".join(filter(None, (_range(numbers), _joined(alike)))) if numbers else ""


def _named(kind: str) -> str:
    return LOOK_ALIKES[kind] if kind in LOOK_ALIKES else no_row(kind, "LOOK_ALIKES", __file__)


def _joined(words: list[str]) -> str:
    *others, last = words or [""]
    return f"{', '.join(others)} and {last}" if others else last


def _triangles(stretches: Iterable[Stretch], recipes: Iterable[Recipe], bases: Iterable[BaseRecipe]) -> str:
    met = {stretch.triangle for stretch in stretches} | {t for recipe in recipes for t in recipe.triangles}
    met |= {t for base in bases for kind in base.wanted for t in TRIANGLES_OF.get(kind, ())}
    names = [triangle.name for triangle in TRIANGLES if triangle in met]
    return "all" if len(names) == len(TRIANGLES) else ", ".join(names)


def _sides(stretches: Iterable[Stretch]) -> str:
    """Return how many pleats the sides of lone stretches turn, and whether they may be unequal."""
    turned = {pleats for stretch in stretches for pleats in stretch.turned}
    unequal = ", also unequal" if any(not stretch.is_equal for stretch in stretches) else ""
    return f"{_range(turned)} {'pleat' if turned == {1} else 'pleats'}{unequal}" if turned else "as they fit"


def _pleats(stretches: Iterable[Stretch]) -> str:
    """Return how many pleats lie around lone stretches, and how wide they are."""
    around = {stretch.pleats for stretch in stretches}
    widths = {width for stretch in stretches for width in stretch.pleat_widths}
    wide = f", {_range(widths)} squares wide" if widths - {1} else ""
    return f"{_range(around)} around{wide}" if around else "as they fit"


def _edge(cuts: Iterable[bool]) -> str:
    return "cuts in" if any(cuts) else "lies outside"


def _range(numbers: Iterable[int]) -> str:
    low, high = min(numbers), max(numbers)
    return str(low) if low == high else f"{low} to {high}"
