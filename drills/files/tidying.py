"""Taking out of a drawing what is not folded: flat lines, doubled points, lines of no length."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from drills.files.drawing_in import Drawing
from drills.files.laying import Laid
from drills.files.outline import is_simple, lines_of, neighbours, walk_round
from drills.files.refusals import FoldError
from drills.files.spots import Ends
from drills.files.words import counted
from drills.pattern.crease_pattern import Label


class Lines(NamedTuple):
    """The lines to fold and the paper's edge, by their ends, with labels and numbers in the file."""

    ends: Sequence[Ends]
    labels: Sequence[Label]
    numbers: Sequence[int]
    notices: Sequence[str]


def tidied(drawing: Drawing, laid: Laid) -> Lines:
    """Return the lines without flat ones and those of no length, joined where points are the same.

    Where no line is labelled B, flat ones round the outside are kept: they are the paper's edge.
    """
    first = _first_at_place(laid, {vertex for pair in drawing.ends for vertex in pair})
    lines = [(first[one], first[two]) for one, two in drawing.ends]
    long = {number for number, (one, two) in enumerate(lines) if one != two}
    flat = {number for number in long if drawing.labels[number] == "F"}
    flat -= _flat_outline(drawing, laid, lines, sorted(long))
    kept = sorted(long - flat)
    if not kept:
        raise FoldError("The file has no crease and no edge of the paper; save it with its lines labelled.")
    doubled = sum(vertex != other for vertex, other in first.items())
    unused = len(drawing.xs) - doubled - len({vertex for number in kept for vertex in lines[number]})
    counts = (
        ("Joined", doubled, "point", "in the place of another"),
        ("Left out", len(lines) - len(long), "line", "of no length"),
        ("Left out", len(flat), "flat line", "(F or J)"),
        ("Left out", unused, "point", "without a crease"),
    )
    said = [f"{did}: {counted(number, thing)} {which}." for did, number, thing, which in counts if number]
    return Lines([lines[it] for it in kept], [_label(drawing, it) for it in kept], kept, said)


def _label(drawing: Drawing, number: int) -> Label:
    label = drawing.labels[number]
    return "U" if label == "F" else label


def _flat_outline(drawing: Drawing, laid: Laid, lines: Sequence[Ends], long: Sequence[int]) -> set[int]:
    if "B" in drawing.labels or "F" not in drawing.labels or not long:
        return set()
    pairs = [lines[number] for number in long]
    ring = walk_round(laid.points, neighbours(pairs))
    return {long[line] for line in lines_of(ring, pairs)} if is_simple(ring) else set()


def _first_at_place(laid: Laid, used: set[int]) -> dict[int, int]:
    """Return per vertex the first one in its place, or within ``near`` of it where points are not exact."""
    reach = 0 if laid.exact else int(laid.near)
    size = 2 * reach + 1
    first: dict[int, int] = {}
    at: dict[Ends, int] = {}
    for vertex in sorted(used):
        x, y = laid.points[vertex]
        keys = [((x + i) // size, (y + j) // size) for i in (-reach, reach) for j in (-reach, reach)]
        first[vertex] = next((at[key] for key in keys if key in at), vertex)
        if first[vertex] == vertex:
            at[x // size, y // size] = vertex
    return first
