"""A drill in words: tags for what can be marked, the sheet, the question, and once answered the verdict."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import chain, product
from string import ascii_lowercase

from drills.geometry import Exact, Point, Step
from drills.pattern import CreasePattern, across_down, mixed, short_place, step_with_directions
from drills.questions.code import Code
from drills.questions.drill import Answer, Drill, Marks, Outlines, Segment
from drills.questions.kinds import KINDS, make
from drills.questions.verdict import Verdict
from trainer.board import LABELS, ROLES
from trainer.text.input_error import InputError

_ReadingOrder = tuple[Exact, Exact]
_PLACES = "Places are squares across and down from the top left corner, as in 3,1."


def drill_of_code(code: Code) -> Drill:
    """Return the drill of a code; InputError where it is not fit to be shown."""
    try:
        return make(code)
    except RuntimeError as error:
        raise InputError(f"The drill {code} failed its own check; take another seed.") from error


def drill_as_text(drill: Drill, given: Answer | None, verdict: Verdict | None, heading: str = "") -> str:
    """Return the drill in words, to be pasted elsewhere, and once it is answered the verdict.

    A drill that was made without a code needs a ``heading``: the code in its spec makes another drill.
    """
    tags = tags_of(drill)
    lines = list(sheet_in_text(drill, tags, heading))
    if given is not None and verdict is not None:
        lines += verdict_in_text(drill, given, verdict, tags)
    return "\n".join(lines)


def tags_of(drill: Drill) -> Mapping[int, str]:
    """Return the tag of each point that can be marked where points are asked for, else of each crease."""
    asks_points = drill.question.ask in ("vertices", "join")
    items = points_in_order(drill) if asks_points else creases_in_order(drill)
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


def sheet_in_text(drill: Drill, tags: Mapping[int, str], heading: str = "") -> Iterator[str]:
    """Yield the lines of a drill: its name, the sheet, a line each for points and creases, the question."""
    yield heading or f"{KINDS[drill.spec.code.kind].title}, {drill.code}."
    across, down = sheet_size(drill.pattern)
    yield f"The sheet is {across} across and {down} down. {_PLACES}"
    if drill.question.ask in ("vertices", "join"):
        yield "Points:"
        yield from (f"{tag}: {_place(drill, vertex)}" for vertex, tag in tags.items())
    if drill.pattern.creases:
        yield "Creases:"
        yield from (_crease(drill, edge, tags) for edge in creases_in_order(drill))
    yield f"Question: {_question(drill, tags)}"


def sheet_size(pattern: CreasePattern) -> tuple[str, str]:
    """Return the width and the height of the sheet in squares, in words."""
    left, bottom, right, top = pattern.box
    return mixed(right - left), mixed(top - bottom)


def _crease(drill: Drill, edge: int, tags: Mapping[int, str]) -> str:
    """Return a crease with its ends, and with role and label where they are not asked for."""
    crease = drill.pattern.edges[edge]
    start, end = ends_in_order(drill.pattern, edge)
    tag = "" if drill.question.ask in ("vertices", "join") else f"{tags[edge]}: "
    role = "" if drill.question.role_asked else f", {ROLES[crease.role]}"
    label = f", {LABELS[crease.label]}" if drill.shows_labels else ""
    return f"{tag}from {_place(drill, start)} to {_place(drill, end)}{role}{label}"


def _question(drill: Drill, tags: Mapping[int, str]) -> str:
    question = drill.question
    if question.start is not None and question.step is not None:
        return _where_it_ends(drill, question.start, question.step)
    words = " ".join(question.says)
    if question.ask == "structures":
        return "Which slanted stretches are there? Name one crease of each outline. There may be none."
    if question.lit is not None:
        return f"{_lit_crease(drill, question.lit, tags)} {words}"
    if question.start_vertex is not None:
        start = question.start_vertex
        return f"The lit point is {tags[start]}, at {_place(drill, start)}. {words}"
    return words


def _where_it_ends(drill: Drill, start: Point, step: Step) -> str:
    """Return the question for a place; the drill's own words speak of a cursor, which there is none."""
    words = f"{short_place(drill.pattern, start)}: {step_with_directions(step)}"
    return f"A step starts at {words}. Where does it end?"


def _lit_crease(drill: Drill, lit: Segment, tags: Mapping[int, str]) -> str:
    start, end = drill.pattern.vertices[lit.start], drill.pattern.vertices[lit.end]
    side, way = "right" if end.x > start.x else "left", "up" if end.y > start.y else "down"
    row = ", ".join(tags[edge] for edge in lit.edges)
    return (
        f"The lit crease is {row}; its arrow points to the {side} and {way},"
        f" from {_place(drill, lit.start)} to {_place(drill, lit.end)}."
    )


def _place(drill: Drill, vertex: int) -> str:
    return short_place(drill.pattern, drill.pattern.vertices[vertex])


def verdict_in_text(drill: Drill, given: Answer, verdict: Verdict, tags: Mapping[int, str]) -> Iterator[str]:
    """Yield what was answered, what is true and why, with the tags that the board would light."""
    yield f"{verdict.answered} {'Right.' if verdict.right else 'Not right.'}"
    if isinstance(drill.answer, Marks) and isinstance(given, Marks):
        truth = drill.answer.items
        if not verdict.right and drill.question.ask != "join":
            yield from _listed("Missed", truth - given.items, tags)
            yield from _listed("Too many", given.items - truth, tags)
        yield verdict.truth
        yield from _listed("The right answer", truth, tags)
    else:
        yield verdict.truth
    if isinstance(drill.answer, Outlines):
        for outline in drill.answer.edges:
            yield from _listed("An outline", outline, tags)
    yield verdict.why


def _listed(words: str, items: Iterable[int], tags: Mapping[int, str]) -> Iterator[str]:
    """Yield one line that names the tags of the items, none where there are no items."""
    if named := sorted(tags[item] for item in items):
        yield f"{words}: {', '.join(named)}."
