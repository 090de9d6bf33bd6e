"""Find: mark every slanted stretch on the sheet; there may be none."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from drills.geometry import SYMMETRIES, Chance
from drills.questions.asking.stretches import FindStretches
from drills.questions.code import NO_FEATURES, AnySheet, BaseRecipe, Code, Features, Recipe, Spec
from drills.questions.kind import Form, PaceFloor, QuestionKind
from drills.questions.levels import (
    ALONE,
    EQUAL,
    HIGHEST,
    LARGE,
    SCREEN_HIGHEST,
    SCREEN_WIDEST,
    SEVERAL,
    SMALL_BASES,
    UNEQUAL,
    WHOLE,
    WIDEST,
    Level,
    base_at,
    recipe_at,
    single_stretch_at,
    stretch_at,
)
from drills.questions.question import Drill
from drills.structures import (
    MOST_STRUCTURES,
    SIDEWAYS_HINGES,
    TRIANGLES,
    Band,
    Diamond,
    FieldSheet,
    Stretch,
    StructureKind,
    Twist,
    Wanted,
    draw,
    draw_band,
    draw_twist,
    drawn_outlines,
)

FORMS = {"mark": Form("mark", FindStretches)}
LOWEST = 2
LOOK_ALIKES: dict[str, str] = {
    "pleats": "among pleats",
    "roof": "beside 45-degree roofs",
    "diamond": "beside 45-degree stretches",
    "tips": "beside three flap tips joined aslant",
    "band": "beside bands of slanted ridges and twists",
}
"""What slanted stretches stand among: pleats alone, or a structure by its name."""
SLANTED = "slanted look-alikes"
"""Feature: on one sheet in two something is slanted that is no stretch; from level 4 on most are bases."""
BY_FEATURE: dict[str, str] = {"tips": SLANTED, "band": SLANTED}
"""The look-alikes that only a version with a feature shows, each with its feature: all others are always
drawn from, so that a further one changes no drill of an older code."""
SKILLS = {f"find {like}": f"finding slanted stretches {where}" for like, where in LOOK_ALIKES.items()}

_SLANTED_LIKES = ("tips", "band")
_VERSIONS = {("mark", level): (NO_FEATURES, frozenset({SLANTED})) for level in range(3, WHOLE)}
_NOTHING_ONE_IN = 5
_CUT_ONE_IN = 2
_ALONE: Mapping[int, Level] = {
    2: Level(((1, 1),), (1, 2, 3)),
    3: Level(EQUAL, (1, 2, 3)),
    4: Level(EQUAL + UNEQUAL, (1, 2, 3), (0, 1, 2, 3), cropped=True),
}


def plan(code: Code, form: str, features: Features, chance: Chance) -> Spec:
    """Return the spec of a code: the look-alike, and a sheet with it, with stretches or without any."""
    if code.level == WHOLE:
        features |= {SLANTED}
    offered = [like for like in LOOK_ALIKES if like not in BY_FEATURE or BY_FEATURE[like] in features]
    if SLANTED in features:
        offered = _of_one_half(code.level, offered, chance)
    like = chance.pick(offered)
    is_empty = chance.one_in(_NOTHING_ONE_IN)
    draw_sheet = _on_new_sheet if SLANTED in features else _sheet
    return Spec.of(code, form, f"find {like}", draw_sheet(code, like, is_empty, chance), like)


def _of_one_half(level: int, offered: list[str], chance: Chance) -> list[str]:
    """Return the slanted look-alikes, or one time in two the others, that a level has sheets with."""
    absent = {SEVERAL: ("pleats",), WHOLE: ("pleats", "band")}.get(level, ())
    offered = [like for like in offered if like not in absent]
    is_slanted = chance.one_in(2)
    return [like for like in offered if (like in _SLANTED_LIKES) is is_slanted]


def _on_new_sheet(code: Code, like: str, is_empty: bool, chance: Chance) -> AnySheet:
    """Return a sheet of a version with slanted look-alikes, and from level 4 on with whole bases."""
    if like == "band":
        return _open_field(code.level, is_empty, chance)
    if like == "tips" or (code.level > 3 and like != "pleats"):
        return _base(code, like, is_empty, chance)
    if code.level == 4 and not is_empty:
        return stretch_at(replace(_ALONE[4], cropped=False), chance)
    if code.level == LARGE and not is_empty:
        return single_stretch_at(LARGE, chance)
    return _sheet(code, like, is_empty, chance)


def _open_field(level: int, is_empty: bool, chance: Chance) -> Band | Twist:
    """Return a band, or where there is to be no stretch one time in two a twist."""
    widest, highest = (WIDEST, HIGHEST) if level == 3 else (16, 16) if level <= ALONE else (20, 18)
    if is_empty and chance.one_in(2):
        return draw_twist(chance, widest, highest)
    return draw_band(chance, widest, highest, has_stretch=not is_empty)


def _base(code: Code, like: str, is_empty: bool, chance: Chance) -> BaseRecipe:
    """Return the recipe of a base with a look-alike; roofs are on all of them."""
    among: Wanted = () if like == "roof" else (like,)
    wanted: Wanted = among if is_empty else ("stretch", *among)
    if code.level == 3:
        return BaseRecipe(f"{code}/base", ((WIDEST, HIGHEST),), wanted)
    if code.level <= ALONE:
        return BaseRecipe(f"{code}/base", SMALL_BASES, wanted)
    if like == "roof" and not is_empty:
        several: tuple[Wanted, ...] = (("stretch",), ("stretch", "stretch"))
        wanted = chance.pick(several if code.level == SEVERAL else (*several, ("other",)))
    return base_at(code, wanted)


def _sheet(code: Code, like: str, is_empty: bool, chance: Chance) -> Stretch | FieldSheet | Recipe:
    if like == "pleats":
        return _among_pleats(code, is_empty, chance)
    if like == "diamond" and is_empty and code.level < ALONE:
        return _in_open_field(chance)
    return _beside(code, like, is_empty, chance)


def _in_open_field(chance: Chance) -> FieldSheet:
    """Return a 45-degree stretch alone among pleats that run from edge to edge."""
    half, facing = 1 + chance.below(3), chance.below(len(SYMMETRIES))
    size = WIDEST - chance.below(3), HIGHEST - chance.below(4)
    field, height = size if SYMMETRIES[facing].b == 0 else size[::-1]
    x, y = (half + 1 + chance.below(reach - 2 * half - 1) for reach in (field, height))
    diamond = Diamond(x, y, half, field, chance.pick(SIDEWAYS_HINGES))
    return FieldSheet(diamond, height, facing, chance.one_in(2))


def _among_pleats(code: Code, is_empty: bool, chance: Chance) -> Stretch | Recipe:
    """Return stretches, or nothing but pleats, on a sheet of the level."""
    if is_empty:
        return replace(_recipe(code, chance), structures=0, is_cut=False)
    if code.level in _ALONE:
        return stretch_at(_ALONE[code.level], chance)
    if code.level == ALONE or (code.level == LARGE and chance.one_in(2)):
        return single_stretch_at(code.level, chance)
    return replace(_recipe(code, chance), allowed=("stretch",))


def _beside(code: Code, like: str, is_empty: bool, chance: Chance) -> Recipe:
    """Return a recipe with a look-alike; from level 3 on others may be there too."""
    needed: tuple[StructureKind, ...] = (like,) if is_empty else ("stretch", like)
    others = tuple(dict.fromkeys(("roof", "diamond", like))) if code.level > LOWEST else (like,)
    recipe = replace(
        _recipe(code, chance), needed=needed, allowed=others if is_empty else ("stretch", *others)
    )
    if is_empty and code.level == LOWEST:
        return replace(recipe, structures=1)
    if code.level in (ALONE, LARGE) and not is_empty and chance.one_in(2):
        return replace(recipe, triangles=TRIANGLES if code.level == LARGE else TRIANGLES[:3])
    return recipe


def _recipe(code: Code, chance: Chance) -> Recipe:
    """Return the recipe of a sheet of the level's size: two structures, from level 6 on up to six."""
    if code.level >= SEVERAL:
        return recipe_at(code, chance, MOST_STRUCTURES if code.level == LARGE else 4)
    width, height = _size_at(code.level, chance)
    is_cut = code.level >= 4 and chance.one_in(_CUT_ONE_IN)
    return Recipe(f"{code}/sheet", width, height, 2, is_cut=is_cut)


def _size_at(level: int, chance: Chance) -> tuple[int, int]:
    if level == ALONE:
        return SCREEN_WIDEST, SCREEN_HIGHEST - chance.below(4)
    return WIDEST - chance.below(2), HIGHEST - chance.below(4)


def make(spec: Spec, chance: Chance) -> Drill:
    """Return the drill of a spec."""
    sheet = next(iter(spec.sheets()))
    truth = draw(sheet)
    outlines = sorted(drawn_outlines(sheet), key=sorted)
    return Drill(spec, sheet, truth.unlabelled(), truth, FindStretches.of(tuple(outlines)))


KIND = QuestionKind(
    title="Find",
    forms=FORMS,
    skills=SKILLS,
    partners=(
        ("find pleats", "find roof"),
        ("find roof", "find diamond"),
        ("find tips", "find band"),
    ),
    lowest=LOWEST,
    highest=WHOLE,
    in_placing=False,
    stretch_is_given=False,
    pace_floor=PaceFloor(3_000, is_each=True),
    missed_words="a stretch not seen",
    taken_words="something else taken for one",
    versions=_VERSIONS,
    plan=plan,
    make=make,
)
"""The numbers are common practice, no source: a look-alike is taken for a stretch."""
