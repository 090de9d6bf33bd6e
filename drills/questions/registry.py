"""The one door to the drills: the kinds of question, code to spec, code to drill, skill to code and back."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import lru_cache
from itertools import chain

from drills.questions import find, labels, sinks, steps
from drills.questions.certificate import certify
from drills.questions.code import LARGEST_SEED, Code, CodeError, Spec, parse_code
from drills.questions.kind import QuestionKind
from drills.questions.question import AnyQuestion, Drill, Fields

KINDS: dict[str, QuestionKind] = {
    "steps": steps.KIND,
    "sinks": sinks.KIND,
    "labels": labels.KIND,
    "find": find.KIND,
}


class DrillError(RuntimeError):
    """A drill that failed its own check and is not shown; its text is one sentence that says what to do."""

    def __init__(self, code: Code, faults: tuple[str, ...]) -> None:
        super().__init__(f"The drill {code} failed its own check; take another seed.")
        self.faults = faults


def top_level() -> int:
    """Return the highest level that any kind has."""
    return max(kind.highest for kind in KINDS.values())


def skill_names() -> Mapping[str, str]:
    """Return the words of every skill, kind by kind."""
    return {skill: name for kind in KINDS.values() for skill, name in kind.skills.items()}


def partners_of(skill: str) -> tuple[str, ...]:
    """Return the skills that one is easily taken for; none where there is none."""
    pairs = [pair for kind in KINDS.values() for pair in kind.partners]
    ahead = [second for first, second in pairs if first == skill]
    return (*ahead, *(first for first, second in pairs if second == skill))


def read_code(text: str) -> Code:
    """Read a code that names a drill; CodeError says in one sentence what would."""
    return checked(parse_code(text))


def checked(code: Code) -> Code:
    """Return the code in its shortest form; CodeError where there is no such kind, form, level or version."""
    code = code._replace(form=short_form(code.kind, code.form, code.seed))
    kind = KINDS[code.kind]
    if code.level not in kind.levels:
        raise CodeError(f"The levels of {code.kind} go from {kind.lowest} to {kind.highest}.")
    if not 1 <= code.version <= newest(code).version:
        raise CodeError(f"The last way of making these drills is {newest(code)}; leave out what is after it.")
    return code


def short_form(kind: str, form: str, seed: int) -> str:
    """Return a form as a code writes it, the first one empty; CodeError for no such kind, form or seed."""
    if kind not in KINDS:
        raise CodeError(f"There is no kind of question of that name; choose from {', '.join(KINDS)}.")
    row = KINDS[kind]
    if form and form not in row.forms:
        raise CodeError(f"The forms of {kind} are {', '.join(row.forms)}.")
    if not 0 <= seed <= LARGEST_SEED:
        raise CodeError(f"A seed is a whole number from 0 to {LARGEST_SEED}.")
    return "" if form == row.first_form else form


def newest(code: Code) -> Code:
    """Return the code of the same kind, form, level and seed in the way such drills are made today."""
    kind = KINDS[code.kind]
    return code._replace(version=len(kind.features(code.form or kind.first_form, code.level)))


@lru_cache(maxsize=64)
def spec(code: Code) -> Spec:
    """Return structure, form, facing and skill of a code, without building anything."""
    kind, form = KINDS[code.kind], code.form or KINDS[code.kind].first_form
    features = kind.features(form, code.level)[code.version - 1]
    return replace(kind.plan(code, form, features, code.chance.branch("plan")), features=features)


@lru_cache(maxsize=64)
def make(code: Code) -> Drill:
    """Return the drill of a code, certified; the same code always gives the same drill.

    DrillError where the certificate is refused.
    """
    try:
        drill = KINDS[code.kind].make(spec(code), code.chance.branch("make"))
    except RuntimeError as error:
        raise DrillError(code, (str(error),)) from error
    if faults := certify(drill.truth, drill.pattern, drill.question):
        raise DrillError(code, faults)
    return drill


def question_from_json(fields: Fields) -> AnyQuestion:
    """Return the question of a drill's JSON; KeyError or TypeError where the fields are of no question."""
    asking = KINDS[fields["kind"]].forms[fields["form"]].question
    return asking.from_json(fields["question"], fields["answer"], fields["level"])


def skill_of(code: Code) -> str:
    """Return the one skill that the drill of a code trains."""
    return spec(code).skill


def kind_of(skill: str) -> tuple[str, str]:
    """Return the kind and the form that a skill belongs to."""
    kind = skill.split(" ")[0]
    forms = KINDS[kind].forms
    return kind, next((form for form in forms if form in skill.split(" ")), KINDS[kind].first_form)


def codes_of(kind: str, form: str, level: int, seed: int) -> Iterator[Code]:
    """Yield the codes of a form at a level, as such drills are made today, with seeds from one on."""
    for number in chain(range(seed, LARGEST_SEED + 1), range(seed)):
        yield newest(checked(Code(kind, level, number, form=form)))


def codes_for(skill: str, level: int, seed: int) -> Iterator[Code]:
    """Yield codes of a skill with seeds from the given one on, at the nearest level that trains it.

    A skill that a level does not train is looked for at the levels above, then below.
    """
    kind, form = kind_of(skill)
    nearest = sorted(KINDS[kind].levels, key=lambda other: (abs(other - level), other < level))
    at = next(level for level in nearest if skill in skills_at(kind, form, level))
    yield from (code for code in codes_of(kind, form, at, seed) if skill_of(code) == skill)


@lru_cache(maxsize=64)
def skills_at(kind: str, form: str, level: int) -> frozenset[str]:
    """Return the skills that a form of a kind trains at a level, seen in its first hundred codes."""
    codes = (newest(checked(Code(kind, level, seed, form=form))) for seed in range(100))
    return frozenset(skill_of(code) for code in codes)
