"""Inside lines: mark the interior sink lines, mark the turning points, or say what a line joins."""

from __future__ import annotations

from dataclasses import replace

from drills.geometry import Chance
from drills.pattern import CreasePattern
from drills.questions.asking.inside import (
    ALIKE,
    JoinPoints,
    MarkInsideLines,
    MarkTurningPoints,
    corners_of,
)
from drills.questions.code import NO_FEATURES, BaseRecipe, Code, Features, Recipe, Spec
from drills.questions.kind import Form, PaceFloor, QuestionKind
from drills.questions.levels import (
    ALONE,
    BASES,
    EQUAL,
    HIGHEST,
    LARGE,
    SEVERAL,
    UNEQUAL,
    WHOLE,
    WIDEST,
    Level,
    base_at,
    cut,
    recipe_at,
    single_stretch_at,
    stretch_at,
)
from drills.questions.question import AnyQuestion, Drill
from drills.structures import MOST_STRUCTURES, Stretch, Wanted, draw, find_stretches

FORMS = {
    "mark": Form("mark", MarkInsideLines),
    "points": Form("turning points", MarkTurningPoints),
    "join": Form("join points", JoinPoints),
}
SHAPES = {
    "equal few": "equal sides, up to 3 inside lines",
    "equal many": "equal sides, 4 inside lines or more",
    "unequal": "unequal sides",
    "several": "several structures",
}
_NAMES = {"mark": "inside lines", "points": "turning points", "join": "joining turning points"}
SKILLS = {
    f"sinks {form} {shape}": f"{_NAMES[form]}: {words}" for form in FORMS for shape, words in SHAPES.items()
}

_FEW = 3
_LEVELS = (
    Level(((2, 2),), (0,)),
    Level(((2, 2),), (1, 2, 3)),
    Level(EQUAL, (0, 1, 2, 3)),
    Level(EQUAL + UNEQUAL, (1, 2, 3), (0, 1, 2, 3), cropped=True),
)
_FEW_LINES = ((1, 1), (1, 2), (2, 1), (2, 2))
"""Units of the sides with one inside line, which has no turning point, with two, and with three."""
_NOTHING_FROM, _NOTHING_ONE_IN = 4, 12
_NO_STRETCH: Wanted = ()
ROOFS = "roofs"
"""Feature: a sheet without an inside line may show 45-degree roofs."""
LINES = "one to three lines"
"""Feature: below level 3 too the number of inside lines varies, and the stretch faces every way."""
NO_TIPS = "no tips"
"""Feature: a sheet without an inside line shows 45-degree roofs, never the mere tip of an outline."""
CLEAR_EDGE = "clear edge"
"""Feature: the paper's edge runs through no turning point of a sheet with several structures."""
VERSIONS = {
    **{(form, level): (NO_FEATURES, frozenset({LINES})) for form in FORMS for level in (1, 2)},
    ("mark", 4): (NO_FEATURES, frozenset({ROOFS}), frozenset({NO_TIPS})),
    **{(form, level): (NO_FEATURES, frozenset({BASES})) for form in FORMS for level in (SEVERAL, LARGE)},
    **{
        ("points", level): (NO_FEATURES, frozenset({CLEAR_EDGE}), frozenset({BASES}))
        for level in (SEVERAL, LARGE)
    },
}
_ON_BASES: tuple[Wanted, ...] = (
    ("stretch",),
    ("stretch", "stretch"),
    ("stretch", "diamond"),
    ("stretch", "tips"),
)


def plan(code: Code, form: str, features: Features, chance: Chance) -> Spec:
    """Return the spec of a code: a sheet of the level, for "mark" sometimes one without an inside line."""
    if code.level >= ALONE:
        sheet, shape = _larger(code, form, features, chance)
        return Spec.of(code, form, f"sinks {form} {shape}", sheet, shape)
    level = _LEVELS[code.level - 1]
    if LINES in features:
        level = Level(_FEW_LINES if form == "mark" else _FEW_LINES[1:], level.pleats, (0, 1, 2, 3))
    if form == "mark" and code.level >= _NOTHING_FROM and chance.one_in(_NOTHING_ONE_IN):
        if NO_TIPS in features or (ROOFS in features and chance.one_in(2)):
            return Spec.of(code, form, f"sinks {form} equal few", _roofs(code, chance), "equal few")
        stretch = tip(stretch_at(Level(EQUAL, (3,), level.facings), chance))
    elif form == "mark":
        stretch = stretch_at(level, chance)
    else:
        stretch = stretch_at(Level(level.units, level.pleats, level.facings), chance)
    return Spec.of(code, form, f"sinks {form} {shape_of(stretch)}", stretch, shape_of(stretch))


def _roofs(code: Code, chance: Chance) -> Recipe:
    """Return the recipe of a sheet with 45-degree roofs alone, which have no inside line."""
    size = WIDEST, HIGHEST - chance.below(3)
    return Recipe(f"{code}/sheet", *size, 1 + chance.below(2), needed=("roof",), allowed=("roof",))


def _larger(
    code: Code, form: str, features: Features, chance: Chance
) -> tuple[Stretch | Recipe | BaseRecipe, str]:
    """Return a sheet from level 5 on and what makes its inside lines alike to others."""
    if code.level == ALONE or (code.level == LARGE and chance.one_in(2)):
        stretch = single_stretch_at(code.level, chance)
        while form != "mark" and stretch.inside_lines == 1:
            stretch = single_stretch_at(code.level, chance)
        return cut(stretch, chance) if form == "mark" else stretch, shape_of(stretch)
    if BASES in features or code.level == WHOLE:
        is_empty = code.level < WHOLE and form == "mark" and chance.one_in(_NOTHING_ONE_IN)
        return base_at(code, _NO_STRETCH if is_empty else chance.pick(_ON_BASES)), "several"
    if form == "mark" and chance.one_in(_NOTHING_ONE_IN):
        return replace(recipe_at(code, chance, 3), needed=("roof",), allowed=("roof",)), "several"
    most = {"mark": 3 if code.level == SEVERAL else MOST_STRUCTURES}.get(form, 2)
    # where the paper's edge cuts a hidden line, nothing shows the point that it leads to
    recipe = recipe_at(code, chance, most, may_be_cut=form != "join")
    return replace(recipe, clear_edge=CLEAR_EDGE in features), "several"


def shape_of(stretch: Stretch) -> str:
    """Return what makes inside lines of this stretch alike to others: its sides and how many lines."""
    if not stretch.is_equal:
        return "unequal"
    return "equal few" if stretch.inside_lines <= _FEW else "equal many"


def tip(stretch: Stretch) -> Stretch:
    """Return an equal-sided stretch cut next to its side corner: a piece of outline, no inside line."""
    _, corner, far, _ = stretch.corners
    around = stretch.pleats
    crop = (around + int(corner.x) - 1, 0, 0, around + int(far.y - corner.y))
    return Stretch(stretch.units, stretch.hinges, around, stretch.facing, stretch.exchanged, crop)


def make(spec: Spec, chance: Chance) -> Drill:
    """Return the drill of a spec; RuntimeError where no sheet has a turning point, which tests rule out."""
    for sheet in spec.sheets():
        truth = draw(sheet)
        if spec.level == WHOLE and spec.form != "join":
            if question := _of_one(spec.form, truth, chance):
                return Drill(spec, sheet, truth.unlabelled(), truth, question)
        elif spec.form == "mark" or turning_points(truth):
            return Drill(spec, sheet, truth.unlabelled(), truth, _question(spec.form, truth, chance))
    raise RuntimeError(f"The sheets of this {spec.form} drill have no turning point")


def _question(form: str, truth: CreasePattern, chance: Chance) -> AnyQuestion:
    inside = frozenset(edge for edge in truth.creases if truth.edges[edge].role == "inside")
    if form == "mark":
        return MarkInsideLines.of(inside)
    if form == "points":
        return MarkTurningPoints.of(frozenset(turning_points(truth)))
    start = chance.pick(turning_points(truth))
    line = next(edge for edge in truth.around[start] if edge in inside)
    return JoinPoints.of(start, truth.other_end(line, start), inside)


def _of_one(form: str, truth: CreasePattern, chance: Chance) -> AnyQuestion | None:
    """Return a question of one of the stretches on a sheet; None where none has what is asked for."""
    for found in chance.shuffled(find_stretches(truth)):
        corners = corners_of(truth, found)
        if form == "mark":
            return MarkInsideLines.of(frozenset(found.inside), corners)
        if found.turning_points:
            return MarkTurningPoints.of(frozenset(found.turning_points), corners)
    return None


def turning_points(pattern: CreasePattern) -> list[int]:
    """Return the vertices on an outline, off its corners, where an inside line meets a pleat line."""
    meeting = {"outline", "inside", "pleat"}
    return [
        v for v in pattern.interior if {pattern.edges[edge].role for edge in pattern.around[v]} == meeting
    ]


KIND = QuestionKind(
    title="Inside lines",
    forms=FORMS,
    skills=SKILLS,
    partners=(
        *((f"sinks mark {shape}", f"sinks mark {ALIKE[shape]}") for shape in ("equal few", "equal many")),
        ("sinks points equal few", "sinks points unequal"),
        ("sinks join equal many", "sinks join unequal"),
    ),
    lowest=1,
    highest=WHOLE,
    in_placing=True,
    stretch_is_given=True,
    pace_floor=PaceFloor(1_500, is_each=True),
    missed_words="a line or point not marked",
    taken_words="something else taken for one",
    versions=VERSIONS,
    plan=plan,
    make=make,
)
"""The numbers are common practice, no source: a ridge beside an inside line is taken for one."""
