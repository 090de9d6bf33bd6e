"""Across and down: read the step of a slanted crease, or place a step on the bare grid."""

from __future__ import annotations

from drills.geometry import Chance, Step, is_whole, step_between
from drills.pattern import CreasePattern, Paper, Role, Run, build, straight_runs
from drills.questions.asking.steps import RATIOS, PlaceStep, ReadStep, Segment, practised_as
from drills.questions.code import NO_FEATURES, BaseRecipe, Code, Features, Recipe, Spec
from drills.questions.kind import Form, PaceFloor, QuestionKind
from drills.questions.levels import (
    ALONE,
    BASES,
    EQUAL,
    LARGE,
    SEVERAL,
    UNEQUAL,
    WHOLE,
    Level,
    base_at,
    recipe_at,
    single_stretch_at,
    stretch_at,
)
from drills.questions.question import Drill
from drills.structures import MOST_STRUCTURES, TRIANGLES, Base, Stretch, Triangle, Wanted, draw

FORMS = {"read": Form("read a step", ReadStep), "place": Form("place a step", PlaceStep)}
_NAMES = {"read": "reading", "place": "placing"}
SLANTS = {ratio: f"a {ratio.replace(':', ' by ')} slant" for ratio in RATIOS}
SLANTS |= {"1:4": "a slant such as 1 by 4, or 1 by 5", "2:3": "a slant such as 2 by 3, or 3 by 5"}
SKILLS = {
    f"steps {form} {ratio}": f"{_NAMES[form]} {name}" for form in FORMS for ratio, name in SLANTS.items()
}

_LEVELS = (
    Level(((1, 1),), (0,)),
    Level(((1, 1),), (1, 2, 3)),
    Level(EQUAL, (0, 1, 2, 3)),
    Level(EQUAL + UNEQUAL, (1, 2, 3), (0, 1, 2, 3), cropped=True),
)
REPEATS_FROM = 3
VARIED = "varied"
"""Feature: below level 3 too steps repeat, which is asked for, and the stretch faces every way."""
_VARIED_LEVELS = (
    Level(((1, 1), (2, 2)), (0,), (0, 1, 2, 3)),
    Level(((1, 1), (2, 2)), (1, 2, 3), (0, 1, 2, 3)),
)
VERSIONS = {
    **{
        (form, level): (NO_FEATURES, frozenset({VARIED}))
        for form in FORMS
        for level in range(1, REPEATS_FROM)
    },
    **{(form, level): (NO_FEATURES, frozenset({BASES})) for form in FORMS for level in (SEVERAL, LARGE)},
}
_ON_BASES: tuple[Wanted, ...] = (
    ("stretch",),
    ("stretch", "stretch"),
    ("stretch", "diamond"),
    ("stretch", "tips"),
)


def plan(code: Code, form: str, features: Features, chance: Chance) -> Spec:
    """Return the spec of a code: the sheet of the level and the ratio of the crease to be read."""
    if code.level >= ALONE:
        ratio, sheet = _larger(code, features, chance)
    else:
        levels = _VARIED_LEVELS if VARIED in features else _LEVELS
        ratio, sheet = _small(levels[code.level - 1], chance)
    return Spec.of(code, form, f"steps {form} {ratio}", sheet, ratio)


def _small(level: Level, chance: Chance) -> tuple[str, Stretch | Recipe]:
    """Return a ratio and a sheet of one of the first four levels."""
    return chance.pick(RATIOS), stretch_at(level, chance)


def _larger(code: Code, features: Features, chance: Chance) -> tuple[str, Stretch | Recipe | BaseRecipe]:
    """Return a ratio and a sheet from level 5 on; the other triangles stand alone, or on whole bases."""
    ratio = chance.pick(RATIOS if code.level == SEVERAL else tuple(SLANTS))
    if code.level == WHOLE:
        return ratio, base_at(code, chance.pick(_ON_BASES) if ratio in RATIOS else ("other",))
    if code.level == SEVERAL or (code.level == LARGE and ratio in RATIOS):
        if BASES in features:
            return ratio, base_at(code, chance.pick(_ON_BASES))
        return ratio, recipe_at(code, chance, MOST_STRUCTURES if code.level == LARGE else 3)
    return ratio, single_stretch_at(code.level, chance, [t for t in TRIANGLES if ratio in ratios_of(t)])


def ratios_of(triangle: Triangle) -> set[str]:
    """Return what the creases of a stretch of this triangle may be asked as."""
    return {practised_as(way) for way in (triangle.shallow, triangle.steep, triangle.inside)}


def make(spec: Spec, chance: Chance) -> Drill:
    """Return the drill of a spec; RuntimeError where no sheet shows the ratio, which tests rule out."""
    for sheet in spec.sheets():
        truth = draw(sheet)
        if found := segments(truth, spec.detail, ANY_ROLE if isinstance(sheet, Base) else _SLANTED_ROLES):
            break
    else:
        raise RuntimeError(f"The sheets of this {spec.form} drill show no step of {spec.detail}")
    segment = chance.pick(found)
    if chance.one_in(2):
        segment = Segment(segment.end, segment.start, segment.edges[::-1])
    step = step_of(truth, segment)
    if spec.form == "read":
        counts_repeats = spec.level >= REPEATS_FROM or VARIED in spec.features
        question = ReadStep.of(segment, step, counts_repeats)
        return Drill(spec, sheet, truth.unlabelled(), truth, question)
    return Drill(
        spec, sheet, build((), Paper(*truth.box)), truth, PlaceStep.of(truth.vertices[segment.start], step)
    )


def step_of(pattern: CreasePattern, segment: Segment) -> Step:
    """Return the step of a slanted crease from its start to its end."""
    return step_between(pattern.vertices[segment.start], pattern.vertices[segment.end])


_SLANTED_ROLES: tuple[Role, ...] = ("outline", "inside")
ANY_ROLE: tuple[Role, ...] = (*_SLANTED_ROLES, "ridge", "pleat")


def segments(pattern: CreasePattern, ratio: str, roles: tuple[Role, ...] = _SLANTED_ROLES) -> list[Segment]:
    """Return the slanted creases practised as a ratio, from the first to the last crossing of the grid."""
    runs = [run for role in roles for run in straight_runs(pattern, role)]
    found = [segment for run in runs if (segment := _between_crossings(pattern, run))]
    ways = (pattern.direction(segment.edges[0], segment.start) for segment in found)
    return [segment for segment, way in zip(found, ways, strict=True) if practised_as(way) == ratio]


def _between_crossings(pattern: CreasePattern, run: Run) -> Segment | None:
    """Return the part of a run between its first and last crossing of the grid, if it has two."""
    whole = [at for at, vertex in enumerate(run.vertices) if is_whole(pattern.vertices[vertex])]
    if len(whole) < 2:
        return None
    first, last = whole[0], whole[-1]
    return Segment(run.vertices[first], run.vertices[last], run.edges[first:last])


KIND = QuestionKind(
    title="Across and down",
    forms=FORMS,
    skills=SKILLS,
    partners=(
        ("steps read 1:2", "steps read 1:3"),
        ("steps read 1:3", "steps read 1:4"),
        ("steps read 3:4", "steps read 2:3"),
        ("steps place 1:2", "steps place 1:3"),
        ("steps place 1:3", "steps place 1:4"),
        ("steps place 3:4", "steps place 2:3"),
    ),
    lowest=1,
    highest=WHOLE,
    in_placing=True,
    stretch_is_given=True,
    pace_floor=PaceFloor(3_000, is_each=False),
    missed_words="the step missed",
    taken_words="",
    versions=VERSIONS,
    plan=plan,
    make=make,
)
"""The numbers are common practice, no source: nearly the same step is taken for another."""
