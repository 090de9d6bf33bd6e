"""The pieces of split lines, numbered as the file numbers them, those that lie doubled only once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Final, NamedTuple

from drills.files.refusals import FoldError
from drills.files.spots import Ends
from drills.files.tidying import Lines
from drills.pattern.crease_pattern import Label

_STRENGTH: Final[Mapping[Label, int]] = {"U": 0, "M": 1, "V": 1, "B": 2}


class Pieces(NamedTuple):
    """Lines that meet only at their ends: first pieces by their line's number, then the further ones.

    ``further`` gives for each number of a further piece the file's edge that it is of; ``doubled``
    counts the pieces left out because they lay on top of another.
    """

    ends: list[Ends]
    labels: list[Label]
    numbers: list[int]
    further: dict[int, int]
    doubled: int


def pieces_of(lines: Lines, along: Sequence[Sequence[int]], edges: int) -> Pieces:
    """Return the pieces of lines through these points; further ones are numbered from ``edges`` on.

    Of two on top of each other the paper's edge counts rather than a crease, and a label rather
    than none; FoldError where one is a mountain and one a valley.
    """
    sources: dict[Ends, int] = {}
    labels: dict[Ends, Label] = {}
    numbers: dict[Ends, int] = {}
    further: dict[int, int] = {}
    drawn = [(line, (points[0], points[1]), True) for line, points in enumerate(along)]
    drawn += [(line, pair, False) for line, points in enumerate(along) for pair in pairwise(points[1:])]
    for line, pair, is_first in drawn:
        if pair[0] > pair[1]:
            pair = pair[1], pair[0]
        if pair in sources:
            if labels[pair] != lines.labels[line]:
                labels[pair] = _stronger(lines, sources[pair], labels[pair], line)
            continue
        sources[pair], labels[pair] = line, lines.labels[line]
        numbers[pair] = lines.numbers[line] if is_first else edges + len(further)
        if not is_first:
            further[numbers[pair]] = lines.numbers[line]
    return Pieces(
        list(sources), list(labels.values()), list(numbers.values()), further, len(drawn) - len(sources)
    )


def _stronger(lines: Lines, first: int, label: Label, second: int) -> Label:
    other = lines.labels[second]
    if _STRENGTH[label] == _STRENGTH[other]:
        numbers = sorted((lines.numbers[first], lines.numbers[second]))
        raise FoldError(
            f"Edges {numbers[0]} and {numbers[1]} lie on top of each other with different labels;"
            " take one of them out."
        )
    return max(label, other, key=_STRENGTH.__getitem__)
