"""Mountain or valley? Mark the labels that are wrong; there may be none."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import combinations

from drills.flatfold import is_settled_by_counting, is_settled_in_full
from drills.geometry import Chance
from drills.pattern import CreasePattern, bent_runs, straight_runs
from drills.questions.asking.labels import COUNTING_UP_TO, MarkWrongLabels
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
from drills.structures import MOST_STRUCTURES, SheetDesign, Stretch, Wanted, draw

FORMS = {"mark": Form("mark", MarkWrongLabels)}
SKILLS = {
    "labels one": "one wrong label",
    "labels pair": "an exchanged pair",
    "labels side": "a whole side switched",
    "labels line": "switched along a line",
    "labels hinge": "a hinge that forgot to alternate",
    "labels nothing": "nothing wrong",
}

_LEVELS = (
    Level(((1, 1),), (1,)),
    Level(((1, 1),), (2, 3)),
    Level(EQUAL, (1, 2, 3)),
    Level(EQUAL + UNEQUAL, (1, 2, 3), (0, 1, 2, 3), cropped=True),
)
_MISTAKES = (("one",), ("one",), ("one", "pair", "side", "hinge"), ("one", "pair", "side", "line", "hinge"))
_AT_MOST = (1, 1, 2, 3)
_NOTHING_ONE_IN = 5
_ON_BASES: tuple[Wanted, ...] = (("stretch",), ("stretch", "stretch"), ("stretch", "diamond"))
_VERSIONS = {
    ("mark", SEVERAL): (NO_FEATURES, frozenset({BASES})),
    ("mark", LARGE): (NO_FEATURES, frozenset({BASES})),
}
_UNCROPPED = frozenset({"side", "hinge", "line"})


def plan(code: Code, form: str, features: Features, chance: Chance) -> Spec:
    """Return the spec of a code: what went wrong, then a sheet of the level on which it can be settled."""
    if code.level >= ALONE:
        wrong = _wrong(_MISTAKES[-1], chance)
        return Spec.of(code, form, f"labels {wrong}", _larger(code, wrong, features, chance), wrong)
    wrong = _wrong(_MISTAKES[code.level - 1], chance)
    level = _LEVELS[code.level - 1]
    if wrong in _UNCROPPED:
        level = Level(level.units, level.pleats, level.facings)
    stretch = stretch_at(level, chance)
    while not can_settle(stretch, wrong, most_wrong(code.level)):
        stretch = stretch_at(level, chance)
    return Spec.of(code, form, f"labels {wrong}", stretch, wrong)


def _wrong(mistakes: Sequence[str], chance: Chance) -> str:
    return "nothing" if chance.one_in(_NOTHING_ONE_IN) else chance.pick(mistakes)


def _larger(code: Code, wrong: str, features: Features, chance: Chance) -> Stretch | Recipe | BaseRecipe:
    """Return a sheet from level 5 on; the paper's edge cuts into none."""
    if code.level in (SEVERAL, WHOLE) or (code.level == LARGE and chance.one_in(2)):
        if BASES in features or code.level == WHOLE:
            return base_at(code, chance.pick(_ON_BASES))
        return recipe_at(code, chance, _most_structures(code.level, wrong), may_be_cut=False)
    stretch = single_stretch_at(code.level, chance)
    while not can_settle(stretch, wrong, most_wrong(code.level)):
        stretch = single_stretch_at(code.level, chance)
    return stretch


def _most_structures(level: int, wrong: str) -> int:
    """Return how many structures a sheet may have; few of them have room for a side of several pieces."""
    if wrong == "side":
        return 2 if level == SEVERAL else 3
    return MOST_STRUCTURES if level == LARGE else 3


def most_wrong(level: int) -> int:
    """Return how many labels may be wrong at a level."""
    return _AT_MOST[min(level, len(_AT_MOST)) - 1]


def can_settle(stretch: Stretch, wrong: str, at_most: int) -> bool:
    """Whether the mistake can be made on this stretch with one smallest repair.

    A side of more pieces than labels may be switched is too long; a line needs room around it, and
    where sides are unequal a hinge across the longer one's pleats leaves more than one repair.
    """
    shallow, steep = stretch.units
    if wrong == "side":
        return any(1 < turned <= at_most for turned in stretch.turned)
    if wrong == "line":
        return stretch.pleats > 1
    if wrong == "hinge":
        longer = "shallow" if shallow > steep else "steep"
        return stretch.is_equal or longer not in stretch.hinges
    return True


def make(spec: Spec, chance: Chance) -> Drill:
    """Return the drill of a spec; RuntimeError if no fair set of labels exists, which tests rule out."""
    for sheet in spec.sheets():
        truth = draw(sheet)
        wrong = _fair(truth, spec, chance, sheet)
        if wrong is not None:
            break
    else:
        raise RuntimeError("The sheets of this drill have no fair set of wrong labels")
    return Drill(spec, sheet, truth.switched(wrong), truth, MarkWrongLabels.of(wrong, spec.level))


def _fair(truth: CreasePattern, spec: Spec, chance: Chance, sheet: SheetDesign) -> frozenset[int] | None:
    """Return a fair set of wrong labels, an empty one where that is the plan, None where there is none.

    No label is among them that only the layers decide, or that stands beside one.
    """
    if spec.detail == "nothing":
        return frozenset()
    left_open = sheet.left_open()
    shuffled = chance.shuffled([each for each in candidates(truth, spec) if each.isdisjoint(left_open)])
    return next((wrong for wrong in shuffled if is_fair(truth, wrong, spec.level)), None)


def candidates(truth: CreasePattern, spec: Spec) -> list[frozenset[int]]:
    """Return the sets of labels that the mistake of the spec may switch, in a fixed order."""
    sets = {wrong for wrong in MISTAKES[spec.detail](truth) if len(wrong) <= most_wrong(spec.level)}
    return sorted(sets, key=sorted)


def is_fair(truth: CreasePattern, wrong: frozenset[int], level: int) -> bool:
    """Whether these switched labels are the one smallest repair, on low levels by counting as well."""
    if not all(truth.interior_ends[edge] for edge in wrong):
        return False
    shown = truth.switched(wrong)
    if level <= COUNTING_UP_TO and not is_settled_by_counting(shown, wrong):
        return False
    return is_settled_in_full(shown, wrong)


def one_label(pattern: CreasePattern) -> Iterator[frozenset[int]]:
    """Yield each crease by itself."""
    yield from (frozenset({edge}) for edge in pattern.creases)


def exchanged_pair(pattern: CreasePattern) -> Iterator[frozenset[int]]:
    """Yield each mountain and valley that meet at a point."""
    for vertex in pattern.interior:
        for pair in combinations(pattern.around[vertex], 2):
            if len({pattern.edges[edge].label for edge in pair}) == 2:
                yield frozenset(pair)


def whole_side(pattern: CreasePattern) -> Iterator[frozenset[int]]:
    """Yield each side of an outline that is creased in more than one piece."""
    yield from (frozenset(run.edges) for run in straight_runs(pattern, "outline") if len(run.edges) > 1)


def along_line(pattern: CreasePattern) -> Iterator[frozenset[int]]:
    """Yield each two or three pieces in a row along a pleat line, round its bends."""
    for run in bent_runs(pattern, "pleat"):
        for length in (2, 3):
            starts = range(len(run.edges) - length + 1)
            yield from (frozenset(run.edges[start : start + length]) for start in starts)


def lazy_hinge(pattern: CreasePattern) -> Iterator[frozenset[int]]:
    """Yield, for each crossing where a hinge may forget to alternate, its pieces from there outward."""
    for run in straight_runs(pattern, "hinge"):
        inner = run.vertices[0] in pattern.interior
        outward = run.edges if inner else run.edges[::-1]
        yield from (frozenset(outward[start:]) for start in range(1, len(outward)))


MISTAKES: Mapping[str, Callable[[CreasePattern], Iterator[frozenset[int]]]] = {
    "one": one_label,
    "pair": exchanged_pair,
    "side": whole_side,
    "line": along_line,
    "hinge": lazy_hinge,
}
"""What goes wrong with labels in practice: for each mistake, the sets of labels it may switch."""

KIND = QuestionKind(
    title="Mountain or valley?",
    forms=FORMS,
    skills=SKILLS,
    partners=(
        ("labels one", "labels nothing"),
        ("labels pair", "labels hinge"),
        ("labels side", "labels line"),
    ),
    lowest=1,
    highest=WHOLE,
    in_placing=True,
    stretch_is_given=True,
    pace_floor=PaceFloor(8_000, is_each=False),
    missed_words="a wrong label not seen",
    taken_words="a right label taken for wrong",
    versions=_VERSIONS,
    plan=plan,
    make=make,
)
"""The numbers are common practice, no source."""
