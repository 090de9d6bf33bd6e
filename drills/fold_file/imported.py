"""Reading anyone's crease pattern: put on its grid, split where creases meet, the paper's edge found."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Final, NamedTuple

from drills.fold_file.border import neighbours, paper_edge
from drills.fold_file.drawing import Drawing, read_drawing
from drills.fold_file.grid import Grid
from drills.fold_file.read import Ends, FoldFileError, counted
from drills.fold_file.snapping import Lines, Snapped, has_near_miss, snapped_to_grid, taken_as_written, tidied
from drills.fold_file.split import NearMissError, split
from drills.fold_file.turning import turned_back
from drills.geometry import Exact, Pair, Point, divided
from drills.pattern import CreasePattern, Edge, Label

_STRENGTH: Final[Mapping[Label, int]] = {"U": 0, "M": 1, "V": 1, "B": 2}
"""Of two lines on top of each other the one with the greater number counts."""


@dataclass(frozen=True)
class ImportedPattern:
    """A crease pattern out of a file; all its lines hang together, inside one convex paper's edge.

    ``vertices`` and ``edges`` are the numbers in the file of the pattern's, in its order; points and
    pieces that came by splitting are numbered on after the file's, and ``pieces`` gives for each
    such piece the file's edge that it is of. Where ``exact`` is false no grid fits, and the points
    are the file's decimals; else they are in squares of the ``grid``. ``off`` is how far from where it
    was meant a point may lie, in the pattern's units. ``notices`` are sentences that tell the person
    what was done to the file.
    """

    pattern: CreasePattern
    exact: bool
    grid: Grid
    vertices: tuple[int, ...]
    edges: tuple[int, ...]
    pieces: Mapping[int, int]
    notices: tuple[str, ...]
    off: Fraction


def read_sheet(text: bytes) -> ImportedPattern:
    """Return the crease pattern of any FOLD 1.x file; FoldFileError says in one sentence what is wrong.

    Flat lines (F, J), doubled lines and points that belong to no crease are left out.
    """
    return sheet_drawn(read_drawing(text))


def sheet_drawn(drawing: Drawing) -> ImportedPattern:
    """Return the crease pattern of a drawing: turned back, on its grid, split where creases meet."""
    drawing = turned_back(drawing)
    snapped = snapped_to_grid(drawing)
    if snapped is not None:
        try:
            return _sheet(drawing, snapped)
        except NearMissError:
            pass
    try:
        sheet = _sheet(drawing, taken_as_written(drawing))
    except FoldFileError:
        # ends that do not quite meet leave the edge open: perhaps they are only further apart
        with suppress(FoldFileError):
            return _sheet(drawing, taken_as_written(drawing, by_hand=True))
        raise
    if loose := _loose_ends(sheet.pattern):
        with suppress(FoldFileError):
            wider = _sheet(drawing, taken_as_written(drawing, by_hand=True))
            if _loose_ends(wider.pattern) < loose:
                return wider
    return sheet


def _loose_ends(pattern: CreasePattern) -> int:
    """Return how many creases end inside the sheet with nothing to meet."""
    return sum(len(pattern.around[vertex]) == 1 for vertex in pattern.interior)


def _sheet(drawing: Drawing, snapped: Snapped) -> ImportedPattern:
    lines = tidied(drawing, snapped)
    points, tolerance = snapped.points, snapped.tolerance
    if snapped.exact and tolerance and has_near_miss(points, neighbours(lines.ends), tolerance):
        raise NearMissError
    raw_points, along = split(points, lines.ends, tolerance, snapped.exact)
    pieces = _pieces_of(lines, along, len(drawing.ends))
    rounding = 0 if snapped.exact else tolerance
    sources = [pieces.further.get(number, number) for number in pieces.numbers]
    border = paper_edge(raw_points, pieces.ends, pieces.labels, sources, rounding)
    vertices = sorted({vertex for pair in pieces.ends for vertex in pair})
    said = [
        *drawing.notices,
        *snapped.notices,
        *lines.notices,
        *_about_split(len(raw_points) - len(points), pieces),
        *_about_border(border, pieces),
    ]
    return ImportedPattern(
        _pattern(raw_points, vertices, pieces, border, snapped),
        snapped.exact,
        snapped.grid,
        tuple(vertices),
        tuple(pieces.numbers),
        pieces.further,
        tuple(said),
        snapped.off,
    )


class _Pieces(NamedTuple):
    """Lines that meet only at their ends: first pieces by their line's number, then the further ones.

    ``further`` gives for each number of a further piece the file's edge that it is of; ``doubled``
    counts the pieces left out because they lay on top of another.
    """

    ends: list[Ends]
    labels: list[Label]
    numbers: list[int]
    further: dict[int, int]
    doubled: int


def _pieces_of(lines: Lines, along: Sequence[Sequence[int]], edges: int) -> _Pieces:
    """Return the pieces of lines through these points; further ones are numbered from ``edges`` on.

    Of two on top of each other the paper's edge counts rather than a crease, and a label rather
    than none; FoldFileError where one is a mountain and one a valley.
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
    return _Pieces(
        list(sources), list(labels.values()), list(numbers.values()), further, len(drawn) - len(sources)
    )


def _stronger(lines: Lines, first: int, label: Label, second: int) -> Label:
    other = lines.labels[second]
    if _STRENGTH[label] == _STRENGTH[other]:
        numbers = sorted((lines.numbers[first], lines.numbers[second]))
        raise FoldFileError(
            f"Edges {numbers[0]} and {numbers[1]} lie on top of each other with different labels;"
            " take one of them out."
        )
    return max(label, other, key=_STRENGTH.__getitem__)


def _pattern(
    raw_points: list[Pair], vertices: list[int], pieces: _Pieces, border: frozenset[int], snapped: Snapped
) -> CreasePattern:
    place = {vertex: index for index, vertex in enumerate(vertices)}
    values: dict[Exact, Exact] = {}
    for vertex in vertices:
        for number in raw_points[vertex]:
            if number not in values:
                values[number] = divided(number, snapped.units)
    points = tuple(Point(values[raw_points[v][0]], values[raw_points[v][1]]) for v in vertices)
    edges = tuple(
        Edge.joining(place[one], place[two], "border", "B")
        if line in border
        else Edge.joining(place[one], place[two], "other", label)
        for line, ((one, two), label) in enumerate(zip(pieces.ends, pieces.labels, strict=True))
    )
    return CreasePattern(points, edges, has_grid=snapped.exact)


def _about_split(points: int, pieces: _Pieces) -> list[str]:
    said = []
    if pieces.further:
        points_too = f"{counted(points, 'new point')} and " if points else ""
        said.append(f"Split where creases meet: {points_too}{counted(len(pieces.further), 'new piece')}.")
    if pieces.doubled:
        said.append(f"Left out: {counted(pieces.doubled, 'line')} on top of another.")
    return said


def _about_border(border: frozenset[int], pieces: _Pieces) -> list[str]:
    taken = sum(pieces.labels[line] != "B" for line in border)
    if not taken:
        return []
    if taken == len(border):
        return ["The paper's edge is not labelled, so the outline was taken."]
    return [f"Taken as the paper's edge: {counted(taken, 'line')} of the outline without the label B."]
