"""Which lines are the paper's edge: it must be closed and convex, with everything else inside."""

from __future__ import annotations

from collections.abc import Sequence, Set

from drills.exact.plane import Exact
from drills.files.outline import is_convex, is_simple, lines_of, neighbours, reached, walk_round
from drills.files.refusals import FoldError
from drills.files.spots import Ends, Spot
from drills.pattern.crease_pattern import Label


def paper_edge(
    spots: Sequence[Spot], pairs: Sequence[Ends], labels: Sequence[Label], numbers: Sequence[int], near: Exact
) -> frozenset[int]:
    """Return the lines round the outside; all those labelled B must be among them.

    Lines meet only at their ends; ``numbers`` are those of the file's edges that they are of. FoldError
    says what is wrong.
    """
    joined = neighbours(pairs)
    ring = walk_round(spots, joined)
    outer = lines_of(ring, pairs)
    drawn = {line for line, label in enumerate(labels) if label == "B"}
    if not (is_simple(ring) and is_convex(spots, ring, near) and drawn <= outer):
        raise FoldError(_why(spots, pairs, drawn, outer - drawn, numbers, near))
    loose = set(joined) - reached(joined, ring[0])
    if loose:
        number = min(numbers[line] for line, pair in enumerate(pairs) if pair[0] in loose)
        raise FoldError(f"Edge {number} is not joined to the paper's edge; join it or take it out.")
    return outer


def _why(
    spots: Sequence[Spot],
    pairs: Sequence[Ends],
    drawn: Set[int],
    beyond: Set[int],
    numbers: Sequence[int],
    near: Exact,
) -> str:
    """Return what is wrong with the paper's edge as it is labelled."""
    if not drawn:
        return "No closed convex edge of the paper lies round the creases; draw it with edges labelled B."
    joined = neighbours([pairs[line] for line in sorted(drawn)])
    uneven = {vertex for vertex, others in joined.items() if len(others) != 2}
    if uneven:
        number = min(numbers[line] for line in drawn if uneven.intersection(pairs[line]))
        return (
            f"The paper's edge is open or branches at edge {number};"
            " draw it once all the way round, with edges labelled B."
        )
    if len(reached(joined, next(iter(joined)))) < len(joined):
        return "The paper has a hole or is in several pieces; save one piece of paper without holes."
    if not beyond or not is_convex(spots, walk_round(spots, joined), near):
        return "The paper is not convex; save a sheet without notches, such as a square or a strip."
    number = min(numbers[line] for line in beyond)
    return f"Edge {number} runs beyond the paper's edge; shorten it or take it out."
