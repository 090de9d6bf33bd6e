"""How each way of asking is put in words, answered by a typed line, and told once it is answered."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction
from itertools import chain, product
from string import ascii_lowercase
from typing import Any, NamedTuple, TypeAlias

from drills.geometry import Exact, Point, Step, move_between, moved
from drills.pattern import CreasePattern, across_down, mixed, place, place_of, step_with_directions
from drills.questions import (
    AnyQuestion,
    Drill,
    FindStretches,
    MarkedPlaces,
    MarkInsideLines,
    Marks,
    MarkTurningPoints,
    PlaceStep,
    ReadStep,
    Segment,
    Verdict,
    with_directions_of,
)
from trainer.given import InputError

Tags: TypeAlias = Mapping[int, str]
"""Of what can be marked, a crease or a point, its two letters."""

_ReadingOrder: TypeAlias = tuple[Exact, Exact]


class TextManner(NamedTuple):
    """What a way of asking says and reads as text, each with the drill's question first.

    ``put`` gives the question for someone without a board, ``read`` the answer of a typed line
    (InputError where it is none), ``tell`` what is true, with the tags that the board would light.
    """

    put: Callable[[Any, Drill, Tags], str]
    read: Callable[[Any, Drill, Tags, str], object]
    tell: Callable[[Any, Drill, Tags, Any, Verdict], Iterator[str]]


def tags_of(drill: Drill) -> Mapping[int, str]:
    """Return the tag of each point that can be marked where points are asked for, else of each crease."""
    items = points_in_order(drill) if drill.question.marks_points else creases_in_order(drill)
    return dict(zip(items, _tags(), strict=False))


def creases_in_order(drill: Drill) -> list[int]:
    """Return the creases that are shown, by index, in reading order."""
    pattern = drill.pattern
    shown = [edge for edge in pattern.creases if edge not in drill.question.hidden]
    return sorted(
        shown, key=lambda edge: [_order(pattern, vertex) for vertex in ends_in_order(pattern, edge)]
    )


def points_in_order(drill: Drill) -> list[int]:
    """Return the points where creases that are shown end, by index, in reading order."""
    ends = {vertex for edge in creases_in_order(drill) for vertex in drill.pattern.edges[edge][:2]}
    return sorted(ends, key=lambda vertex: _order(drill.pattern, vertex))


def ends_in_order(pattern: CreasePattern, edge: int) -> list[int]:
    """Return the two ends of an edge in reading order."""
    ends = pattern.edges[edge]
    return sorted((ends.start, ends.end), key=lambda vertex: _order(pattern, vertex))


def _order(pattern: CreasePattern, vertex: int) -> _ReadingOrder:
    across, down = across_down(pattern, pattern.vertices[vertex])
    return down, across


def _tags() -> Iterator[str]:
    """Yield aa, ab, ... zz, and on with three letters for the largest sheets."""
    for letters in chain(product(ascii_lowercase, repeat=2), product(ascii_lowercase, repeat=3)):
        yield "".join(letters)


def sheet_size(pattern: CreasePattern) -> tuple[str, str]:
    """Return the width and the height of the sheet in squares, in words."""
    left, bottom, right, top = pattern.box
    return mixed(right - left), mixed(top - bottom)


def point_in_text(drill: Drill, vertex: int) -> str:
    """Return the place of a vertex in short."""
    return place_of(drill.pattern, vertex)


def put_as_said(question: AnyQuestion, drill: Drill, tags: Tags) -> str:
    """Return the question's own words."""
    return " ".join(question.says)


def put_of_outline(question: MarkInsideLines | MarkTurningPoints, drill: Drill, tags: Tags) -> str:
    """Return which outline is asked of, by its lit corners where it is one of several, and the question."""
    words = " ".join(question.says)
    if not question.corners:
        return words
    corners = sorted(question.corners, key=lambda vertex: _order(drill.pattern, vertex))
    places = ", ".join(point_in_text(drill, vertex) for vertex in corners)
    return f"The lit corners are at {places}. {words}"


def put_lit_crease(question: ReadStep, drill: Drill, tags: Tags) -> str:
    """Return where the lit crease runs, and the question."""
    return f"{_lit_crease(drill, question.lit, tags)} {' '.join(question.says)}"


def put_step(question: PlaceStep, drill: Drill, tags: Tags) -> str:
    """Return the question for a place; the drill's own words speak of a cursor, which there is none."""
    words = f"{place(drill.pattern, question.start)}: {step_with_directions(question.step)}"
    return f"A step starts at {words}. Where does it end?"


def put_lit_point(question: AnyQuestion, drill: Drill, tags: Tags) -> str:
    """Return which point is lit, by its tag too where points have tags, and the question."""
    (lit,) = question.lit_points
    tag = f"{tags[lit]}, " if question.marks_points else ""
    return f"The lit point is {tag}at {point_in_text(drill, lit)}. {' '.join(question.says)}"


def put_outlines(question: FindStretches, drill: Drill, tags: Tags) -> str:
    """Return the question for outlines; the drill's own words speak of marks on the board."""
    return "Which slanted stretches are there? Name one crease of each outline. There may be none."


def _lit_crease(drill: Drill, lit: Segment, tags: Mapping[int, str]) -> str:
    start, end = drill.pattern.vertices[lit.start], drill.pattern.vertices[lit.end]
    side, way = "right" if end.x > start.x else "left", "up" if end.y > start.y else "down"
    row = ", ".join(tags[edge] for edge in lit.edges)
    return (
        f"The lit crease is {row}; its arrow points to the {side} and {way},"
        f" from {point_in_text(drill, lit.start)} to {point_in_text(drill, lit.end)}."
    )


_TOKEN = re.compile(r"[0-9]+|[a-z]+|[^\s,;()]")
_NUMBER = re.compile(r"[0-9]{1,3}\.?")
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


def read_step(question: ReadStep, drill: Drill, tags: Tags, line: str) -> Step:
    """Return the step typed; a number without a way takes it from the lit arrow."""
    typed = _numbers(line, question)
    step = with_directions_of(Step(typed.across, typed.down, typed.times or 1), question.answer)
    if typed.way_across in ("l", "r"):
        step = step._replace(across=-typed.across if typed.way_across == "l" else typed.across)
    if typed.way_down:
        step = step._replace(down=-typed.down if typed.way_down == "u" else typed.down)
    return step


def read_place(question: PlaceStep, drill: Drill, tags: Tags, line: str) -> Point:
    """Return the crossing typed, counted from the top left corner."""
    typed = _numbers(line, question)
    if typed.way_across == "l" or typed.way_down == "u" or typed.times is not None:
        raise _unreadable(question)
    left, bottom, right, top = drill.pattern.box
    point = Point(left + typed.across, top - typed.down)
    if point.x > right or point.y < bottom:
        across, down = sheet_size(drill.pattern)
        raise InputError(f"That is not on the sheet, which is {across} across and {down} down.")
    return point


def read_number(question: AnyQuestion, drill: Drill, tags: Tags, line: str) -> int:
    """Return the number typed."""
    if not _NUMBER.fullmatch(line):
        raise _unreadable(question)
    return int(line.rstrip("."))


def read_marks(question: AnyQuestion, drill: Drill, tags: Tags, line: str) -> Marks:
    """Return the creases or points whose tags are typed, none for "none"."""
    words = [word for word in re.split(r"[\s,;]+", line.lower().rstrip(".")) if word]
    if words in (["none"], ["0"]):
        return Marks(frozenset())
    tagged = {tag: item for item, tag in tags.items()}
    if not words or not tagged.keys() >= set(words):
        raise _unreadable(question)
    return Marks(frozenset(tagged[word] for word in words))


def read_one_mark(question: AnyQuestion, drill: Drill, tags: Tags, line: str) -> Marks:
    """Return the one point whose tag is typed; "none" is an answer too, a wrong one."""
    marks = read_marks(question, drill, tags, line)
    if len(marks.items) > 1 or len(line.split()) > 1:
        raise _unreadable(question)
    return marks


def read_outlines(question: FindStretches, drill: Drill, tags: Tags, line: str) -> MarkedPlaces:
    """Return the middles of the creases whose tags are typed."""
    edges = read_marks(question, drill, tags, line).items
    ends = (drill.pattern.ends(edge) for edge in edges)
    middles = (moved(start, move_between(start, end), Fraction(1, 2)) for start, end in ends)
    return MarkedPlaces(frozenset(middles))


def _unreadable(question: AnyQuestion) -> InputError:
    return InputError(f"That cannot be read; {question.how_to_answer()}.")


def _numbers(text: str, question: AnyQuestion) -> _Numbers:
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


def tell_truth(
    question: AnyQuestion, drill: Drill, tags: Tags, given: object, verdict: Verdict
) -> Iterator[str]:
    """Yield what is true."""
    yield verdict.truth


def tell_marks(
    question: AnyQuestion, drill: Drill, tags: Tags, given: Marks, verdict: Verdict
) -> Iterator[str]:
    """Yield what was missed and what was too many, what is true, and what the reason speaks of."""
    truth = question.answer.items
    if not verdict.right:
        yield from _listed("Missed", truth - given.items, tags)
        yield from _listed("Too many", given.items - truth, tags)
    yield from tell_one_mark(question, drill, tags, given, verdict)
    counts = [f"{m}M {v}V at {place_of(drill.pattern, vertex)}" for vertex, m, v in verdict.lit.counts]
    if counts:
        yield f"Out of balance: {', '.join(counts)}."
    yield from _listed("Lit", verdict.lit.angles, tags)


def tell_one_mark(
    question: AnyQuestion, drill: Drill, tags: Tags, given: Marks, verdict: Verdict
) -> Iterator[str]:
    """Yield what is true, with the tags of the right answer."""
    yield verdict.truth
    yield from _listed("The right answer", question.answer.items, tags)


def tell_outlines(
    question: FindStretches, drill: Drill, tags: Tags, given: MarkedPlaces, verdict: Verdict
) -> Iterator[str]:
    """Yield what is true, with the tags of each outline."""
    yield verdict.truth
    for outline in question.answer.edges:
        yield from _listed("An outline", outline, tags)


def _listed(words: str, items: Iterable[int], tags: Mapping[int, str]) -> Iterator[str]:
    """Yield one line that names the tags of the items, none where there are no items."""
    if named := sorted(tags[item] for item in items):
        yield f"{words}: {', '.join(named)}."
