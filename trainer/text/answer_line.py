"""Reading the one line that answers a drill."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import NamedTuple

from drills.geometry import Point, Step, move_between, moved
from drills.questions.drill import Answer, Ask, Drill, MarkedPlaces, Marks, Outlines, Question
from drills.questions.judging_steps import with_directions_of
from trainer.text.drill import sheet_size
from trainer.text.input_error import InputError

_TAGS = 'answer with tags, as in "aa ac", or "none"'
_HOW: Mapping[Ask, str] = {
    "step": 'answer as in "1 across 2 up" or "1 2"',
    "place": 'answer as in "4,2", squares across and then down from the top left corner',
    "edges": _TAGS,
    "vertices": _TAGS,
    "join": 'answer with one tag, as in "ac"',
    "structures": 'answer with the tag of one crease of each, as in "aa ac", or "none"',
}
_REPEATED = ', for a step made twice "1 across 2 up x 2"'

_TOKEN = re.compile(r"[0-9]+|[a-z]+|[^\s,;]")
_FILLERS = frozenset({"to", "the", "and"})
_SIDEWAYS, _DOWNWARD = frozenset("alr"), frozenset("ud")
_WAYS = "across|a|left|l|right|r|up|u|down|d"
_STEP = re.compile(
    rf"([0-9]{{1,3}})(?: ({_WAYS}))? ([0-9]{{1,3}})(?: ({_WAYS}))?"
    r"(?: (?:(once)|(twice)|[x\u00d7] ([1-9][0-9]{0,2})|([1-9][0-9]{0,2}) times))?"
)


class _Numbers(NamedTuple):
    """Two numbers as typed: the way of each is the first letter of its word, or empty."""

    across: int
    way_across: str
    down: int
    way_down: str
    times: int | None


def how_to_answer(question: Question) -> str:
    """Return what an answer looks like, as the end of a sentence."""
    return _HOW[question.ask] + (_REPEATED if question.counts_repeats else "")


def answer_from(text: str, drill: Drill, tags: Mapping[int, str]) -> Answer:
    """Return the answer that a line gives; InputError says what an answer looks like."""
    if not text:
        raise InputError(f"Nothing was answered; {how_to_answer(drill.question)}.")
    if isinstance(drill.answer, Step):
        return _step(text, drill.question, drill.answer)
    if isinstance(drill.answer, Point):
        return _place(text, drill)
    marks = _marks(text, drill, tags)
    return spots_of(drill, marks.items) if isinstance(drill.answer, Outlines) else marks


def spots_of(drill: Drill, edges: Iterable[int]) -> MarkedPlaces:
    """Return the middles of some creases as places."""
    ends = (drill.pattern.ends(edge) for edge in edges)
    middles = (moved(start, move_between(start, end), Fraction(1, 2)) for start, end in ends)
    return MarkedPlaces(frozenset(middles))


def _unreadable(question: Question) -> InputError:
    return InputError(f"That cannot be read; {how_to_answer(question)}.")


def _numbers(text: str, question: Question) -> _Numbers:
    """Return two numbers with their ways, the one across first in whichever order they were typed."""
    tokens = [token for token in _TOKEN.findall(text.lower().rstrip(".")) if token not in _FILLERS]
    found = _STEP.fullmatch(" ".join(tokens))
    if not found:
        raise _unreadable(question)
    one, two = (int(found[1]), (found[2] or "")[:1]), (int(found[3]), (found[4] or "")[:1])
    named = 1 if found[5] else 2 if found[6] else None
    counted = found[7] or found[8]
    for across, down in ((one, two), (two, one)):
        if across[1] not in _DOWNWARD and down[1] not in _SIDEWAYS:
            return _Numbers(*across, *down, int(counted) if counted else named)
    raise _unreadable(question)


def _step(text: str, question: Question, lit: Step) -> Step:
    """Return the step typed; a number without a way takes it from the lit arrow."""
    typed = _numbers(text, question)
    step = with_directions_of(Step(typed.across, typed.down, typed.times or 1), lit)
    if typed.way_across in ("l", "r"):
        step = step._replace(across=-typed.across if typed.way_across == "l" else typed.across)
    if typed.way_down:
        step = step._replace(down=-typed.down if typed.way_down == "u" else typed.down)
    return step


def _place(text: str, drill: Drill) -> Point:
    typed = _numbers(text, drill.question)
    if typed.way_across == "l" or typed.way_down == "u" or typed.times is not None:
        raise _unreadable(drill.question)
    left, bottom, right, top = drill.pattern.box
    point = Point(left + typed.across, top - typed.down)
    if point.x > right or point.y < bottom:
        across, down = sheet_size(drill.pattern)
        raise InputError(f"That is not on the sheet, which is {across} across and {down} down.")
    return point


def _marks(text: str, drill: Drill, tags: Mapping[int, str]) -> Marks:
    words = [word for word in re.split(r"[\s,;]+", text.lower().rstrip(".")) if word]
    if words in (["none"], ["0"]):
        return Marks(frozenset())
    tagged = {tag: item for item, tag in tags.items()}
    is_too_many = drill.question.ask == "join" and len(words) > 1
    if not words or is_too_many or not tagged.keys() >= set(words):
        raise _unreadable(drill.question)
    return Marks(frozenset(tagged[word] for word in words))
