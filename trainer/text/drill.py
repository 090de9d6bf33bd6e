"""A drill in words: the sheet, the question, the typed answer, and once it is answered the verdict."""

from __future__ import annotations

from collections.abc import Iterator

from drills.pattern import LABELS, ROLES
from drills.questions import KINDS, Drill, Verdict
from trainer.given import InputError
from trainer.text.asked import Tags, creases_in_order, ends_in_order, point_in_text, sheet_size, tags_of
from trainer.ways_of_asking import way_of

_PLACES = "Places are squares across and down from the top left corner, as in (3; 1)."


def drill_as_text(drill: Drill, given: object | None, verdict: Verdict | None, heading: str = "") -> str:
    """Return the drill in words, to be pasted elsewhere, and once it is answered the verdict.

    A drill that no code makes needs a ``heading``.
    """
    tags = tags_of(drill)
    lines = list(sheet_in_text(drill, tags, heading))
    if given is not None and verdict is not None:
        lines += verdict_in_text(drill, given, verdict, tags)
    return "\n".join(lines)


def sheet_in_text(drill: Drill, tags: Tags, heading: str = "") -> Iterator[str]:
    """Yield the lines of a drill: its name, the sheet, a line each for points and creases, the question."""
    yield heading or f"{KINDS[drill.kind].title}, {drill.code}."
    across, down = sheet_size(drill.pattern)
    yield f"The sheet is {across} across and {down} down. {_PLACES}"
    if drill.question.marks_points:
        yield "Points:"
        yield from (f"{tag}: {point_in_text(drill, vertex)}" for vertex, tag in tags.items())
    if drill.pattern.creases:
        yield "Creases:"
        yield from (_crease(drill, edge, tags) for edge in creases_in_order(drill))
    yield f"Question: {way_of(drill).text.put(drill.question, drill, tags)}"


def _crease(drill: Drill, edge: int, tags: Tags) -> str:
    """Return a crease with its ends, and with role and label where they are not asked for."""
    crease = drill.pattern.edges[edge]
    start, end = ends_in_order(drill.pattern, edge)
    tag = "" if drill.question.marks_points else f"{tags[edge]}: "
    role = "" if drill.question.asks_for_roles else f", {ROLES[crease.role]}"
    label = f", {LABELS[crease.label]}" if drill.shows_labels else ""
    return f"{tag}from {point_in_text(drill, start)} to {point_in_text(drill, end)}{role}{label}"


def answer_from(line: str, drill: Drill, tags: Tags) -> object:
    """Return the answer that a typed line gives; InputError says what an answer looks like."""
    if not line:
        raise InputError(f"Nothing was answered; {drill.question.how_to_answer()}.")
    return way_of(drill).text.read(drill.question, drill, tags, line)


def verdict_in_text(drill: Drill, given: object, verdict: Verdict, tags: Tags) -> Iterator[str]:
    """Yield what was answered, what is true and why, with the tags that the board would light."""
    yield f"{verdict.answered} {'Right.' if verdict.right else 'Not right.'}"
    yield from way_of(drill).text.tell(drill.question, drill, tags, given, verdict)
    yield verdict.why
