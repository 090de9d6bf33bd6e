"""The one door to the drills: code to spec, code to drill, skill to code and back."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache
from itertools import chain
from typing import NamedTuple

from drills.geometry import Chance
from drills.questions import find, labels, sinks, steps
from drills.questions.certificate import check_drill
from drills.questions.code import LARGEST_SEED, Code, CodeError, parse_code
from drills.questions.drill import Drill
from drills.questions.larger import LARGE
from drills.questions.spec import Spec

TOP_LEVEL = LARGE


class QuestionKind(NamedTuple):
    """One kind of question: its name on the screen, its forms, its skills, its two makers, its lowest level.

    ``later`` says, for forms and levels that are drawn in a later way by now, the number of that way.
    """

    title: str
    forms: tuple[str, ...]
    skills: Mapping[str, str]
    plan: Callable[[Code, str, Chance], Spec]
    make: Callable[[Spec, Chance], Drill]
    lowest: int = 1
    later: Mapping[tuple[str, int], int] = {}

    @property
    def levels(self) -> range:
        """The levels there are."""
        return range(self.lowest, TOP_LEVEL + 1)


KINDS: Mapping[str, QuestionKind] = {
    "steps": QuestionKind("Across and down", steps.FORMS, steps.SKILLS, steps.plan, steps.make),
    "sinks": QuestionKind(
        "Inside lines", sinks.FORMS, sinks.SKILLS, sinks.plan, sinks.make, later=sinks.LATER
    ),
    "labels": QuestionKind("Mountain or valley?", labels.FORMS, labels.SKILLS, labels.plan, labels.make),
    "find": QuestionKind("Find", find.FORMS, find.SKILLS, find.plan, find.make, find.LOWEST),
}

SKILL_NAMES: Mapping[str, str] = {
    skill: name for kind in KINDS.values() for skill, name in kind.skills.items()
}


def read_code(text: str) -> Code:
    """Read a code that names a drill; CodeError says in one sentence what would."""
    code = parse_code(text)
    return checked(code)


def checked(code: Code) -> Code:
    """Return the code in its shortest form; CodeError where there is no such kind, form, level or version."""
    if code.kind not in KINDS:
        raise CodeError(f"There is no kind of question of that name; choose from {', '.join(KINDS)}.")
    kind = KINDS[code.kind]
    if code.form and code.form not in kind.forms:
        raise CodeError(f"The forms of {code.kind} are {', '.join(kind.forms)}.")
    if code.level not in kind.levels:
        raise CodeError(f"The levels of {code.kind} go from {kind.lowest} to {TOP_LEVEL}.")
    if not 0 <= code.seed <= LARGEST_SEED:
        raise CodeError(f"A seed is a whole number from 0 to {LARGEST_SEED}.")
    code = code._replace(form="" if code.form == kind.forms[0] else code.form)
    if not 1 <= code.version <= newest(code).version:
        raise CodeError(f"The last way of making these drills is {newest(code)}; leave out what is after it.")
    return code


def newest(code: Code) -> Code:
    """Return the code of the same kind, form, level and seed in the way such drills are made today."""
    kind = KINDS[code.kind]
    return code._replace(version=kind.later.get((code.form or kind.forms[0], code.level), 1))


def spec(code: Code) -> Spec:
    """Return structure, form, facing and skill of a code, without building anything."""
    kind = KINDS[code.kind]
    return kind.plan(code, code.form or kind.forms[0], code.chance.branch("plan"))


@lru_cache(maxsize=64)
def make(code: Code) -> Drill:
    """Return the drill of a code, checked by a second route; the same code always gives the same drill."""
    drill = KINDS[code.kind].make(spec(code), code.chance.branch("make"))
    faults = check_drill(drill)
    if faults:
        raise RuntimeError(f"{code} is not fit to be shown: {' '.join(faults)}")
    return drill


def skill_of(code: Code) -> str:
    """Return the one skill that the drill of a code trains."""
    return spec(code).skill


def kind_of(skill: str) -> tuple[str, str]:
    """Return the kind and the form that a skill belongs to."""
    kind = skill.split(" ")[0]
    forms = KINDS[kind].forms
    return kind, next((form for form in forms if form in skill.split(" ")), forms[0])


def codes_for(skill: str, level: int, seed: int) -> Iterator[Code]:
    """Yield codes of a skill with seeds from the given one on, at the nearest level that trains it.

    A skill that a level does not train is looked for at the levels above, then below.
    """
    kind, form = kind_of(skill)
    at = next(level for level in _nearest(kind, level) if skill in skills_at(kind, form, level))
    for number in chain(range(seed, LARGEST_SEED + 1), range(seed)):
        code = newest(checked(Code(kind, at, number, form=form)))
        if skill_of(code) == skill:
            yield code


@lru_cache(maxsize=64)
def skills_at(kind: str, form: str, level: int) -> frozenset[str]:
    """Return the skills that a form of a kind trains at a level, seen in its first hundred codes."""
    codes = (newest(checked(Code(kind, level, seed, form=form))) for seed in range(100))
    return frozenset(skill_of(code) for code in codes)


def _nearest(kind: str, level: int) -> list[int]:
    return sorted(KINDS[kind].levels, key=lambda other: (abs(other - level), other < level))
