"""The yardstick: every 14 days 16 drills of one fixed recipe, the same for everybody, told at the end."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import count
from typing import Final, NamedTuple

from drills.geometry import Chance
from drills.pattern import number_of
from drills.questions import (
    KINDS,
    Code,
    CodeError,
    Recipe,
    Spec,
    checked,
    kind_of,
    parse_code,
    skill_of,
    spec,
)
from drills.structures import Stretch
from progress_store import WHOLE, Attempt, Store, sittings
from trainer.given import Clock
from trainer.practice.choosing import Done, History
from trainer.practice.drill_source import SEEDS
from trainer.practice.session import Moment, Planned, PracticeSession
from trainer.practice.words import NOT_CHOSEN

EVERY_DAYS: Final = 14
DRILLS_BEFORE: Final = 20
LEVEL: Final = 3
SEEDS_EACH: Final = 10_000
RECIPE: Final = (
    "steps read 1:3",
    "sinks mark equal few",
    "labels nothing",
    "find pleats",
    "steps place 1:2",
    "labels one",
    "sinks points equal few",
    "find roof",
    "steps read 3:4",
    "labels nothing",
    "sinks mark equal many",
    "labels pair",
    "find diamond",
    "steps place 3:4",
    "sinks join equal many",
    "labels side",
)
"""The skills of the 16 drills, kind after kind in this order; within labels and find the seeds mix it."""

VERSIONS: Final[Mapping[tuple[str, str], int]] = {
    ("steps", "read"): 1,
    ("steps", "place"): 1,
    ("sinks", "mark"): 1,
    ("sinks", "points"): 1,
    ("sinks", "join"): 1,
    ("labels", "mark"): 1,
    ("find", "mark"): 1,
}
"""The version of the generator for each form: pinned, so that a later one does not change the yardstick."""

BEGINS = "The yardstick: 16 drills, without a verdict in between. How each went is told at the end."
LEFT = "You can go on with the yardstick until 04:00: y. After that it is kept as unfinished."


class Offer(NamedTuple):
    """Whether a yardstick can be begun or gone on with now, in a word for the menu and in a sentence."""

    is_open: bool
    word: str
    says: str


def offer(store: Store) -> Offer:
    """Return what is offered now: the first on the second practice day, the next 14 days after the last."""
    found = sittings(store.measuring)
    if not found:
        return _first_offer(store)
    begun = found[-1][0].practice_day
    if begun == store.today and len(found[-1]) < WHOLE:
        left = number_of(WHOLE - len(found[-1]), "drill")
        return Offer(True, f"go on, {left} left", "")
    days = EVERY_DAYS - (store.today - begun).days
    if days <= 0:
        return Offer(True, "today", "")
    wait = "tomorrow" if days == 1 else f"in {days} days"
    return Offer(False, wait, f"The next yardstick comes {wait}, {EVERY_DAYS} days after the last.")


def _first_offer(store: Store) -> Offer:
    """Return the first one: soon, so that what is learnt is measured from near its beginning."""
    if store.days > 1 or sum(store.met.values()) >= DRILLS_BEFORE:
        return Offer(True, "today", "")
    says = (
        f"The first yardstick comes the day after your first drills, or once you have done {DRILLS_BEFORE}."
    )
    return Offer(False, "later", says)


def _not_met(store: Store) -> str:
    """Return in a sentence which forms it asks that the person has not met, empty where there is none."""
    unmet = list(dict.fromkeys(_form_in_words(skill) for skill in RECIPE if kind_of(skill) not in store.met))
    return f" Not met yet, and asked all the same: {', '.join(unmet)}." if unmet else ""


def _form_in_words(skill: str) -> str:
    """Return the kind of a skill, and of a further form what it trains: "Inside lines: join points"."""
    kind, form = kind_of(skill)
    title = KINDS[kind].title
    return title if form == KINDS[kind].first_form else f"{title}: {KINDS[kind].forms[form].words}"


def yardstick(store: Store, clock: Clock) -> PracticeSession:
    """Return the yardstick that is offered: a fresh one, or the rest of one that was begun today."""
    done = _begun_today(store)
    known = [_number_of(attempt.code) for attempt in store.measuring]
    number = max(map(_number_of, (each.code for each in done)), default=1 + max(known, default=0))
    answered = {attempt.code for attempt in done}
    left = [code for code in codes_of(number) if str(code) not in answered]

    def plan(now: Moment) -> Planned | None:
        number = len(now.history.done) - len(done)
        if number == len(left):
            return None
        tells = "" if number else BEGINS + _not_met(store)
        # the first of a rest was on the screen when the yardstick was left
        was_seen = bool(done) and not number
        return Planned(left[number], NOT_CHOSEN["yardstick"], tells=tells, was_seen=was_seen)

    session = PracticeSession(store, clock, "yardstick", plan, of=len(done) + len(left))
    earlier = (Done(each.skill, each.kind, "clean" if each.right else "miss") for each in done)
    session.take_up(History(tuple(earlier)), None)
    return session


def _begun_today(store: Store) -> Sequence[Attempt]:
    """Return the drills of a yardstick begun today and left before its end, none where there is none."""
    last = sittings(store.measuring)[-1:]
    return last[0] if last and last[0][0].practice_day == store.today and len(last[0]) < WHOLE else ()


@lru_cache(maxsize=4)
def codes_of(number: int) -> tuple[Code, ...]:
    """Return the 16 codes of a yardstick, numbered from 1, from seeds that fresh drills never draw.

    The look-alikes of find come once each, one of them without a stretch.
    """
    chance = Chance(f"yardstick {number}")
    skills = _mixed(_mixed(RECIPE, "labels", chance), "find", chance)
    without = chance.pick([skill for skill in skills if kind_of(skill)[0] == "find"])
    codes = list[Code]()
    for skill in skills:
        wanted = (
            code
            for code in _codes_for(skill, SEEDS + SEEDS_EACH * number)
            if code.kind != "find" or _has_stretch(spec(code)) is (skill != without)
        )
        codes.append(next(code for code in wanted if code not in codes))
    return tuple(codes)


def _codes_for(skill: str, seed: int) -> Iterator[Code]:
    """Yield codes of a skill at the level and in the pinned version, with seeds from one on."""
    kind, form = kind_of(skill)
    codes = (checked(Code(kind, LEVEL, number, VERSIONS[kind, form], form)) for number in count(seed))
    yield from (code for code in codes if skill_of(code) == skill)


def _mixed(skills: Sequence[str], kind: str, chance: Chance) -> list[str]:
    """Return the skills with those of a kind in a drawn order, so that no place tells what it holds."""
    drawn = iter(chance.shuffled([skill for skill in skills if kind_of(skill)[0] == kind]))
    return [next(drawn) if kind_of(skill)[0] == kind else skill for skill in skills]


def _has_stretch(planned: Spec) -> bool:
    sheet = planned.sheet
    if isinstance(sheet, Recipe):
        return sheet.structures > 0 and "stretch" in sheet.needed
    return isinstance(sheet, Stretch)


def _number_of(code: str) -> int:
    """Return the number of the yardstick that a code belongs to, 0 where it belongs to none."""
    try:
        return max(0, (parse_code(code).seed - SEEDS) // SEEDS_EACH)
    except CodeError:
        return 0
