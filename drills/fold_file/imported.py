"""Reading anyone's crease pattern: put on its grid, split where creases meet, the paper's edge found."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from drills.fold_file.border import neighbours, paper_edge
from drills.fold_file.drawing import Drawing, read_drawing
from drills.fold_file.grid import Grid, is_kinked
from drills.fold_file.numbers import Spot
from drills.fold_file.refusals import counted
from drills.fold_file.snapping import Laid, laid_as_written, laid_on_grid, tidied
from drills.fold_file.split import NearMissError, Pieces, pieces_of, split
from drills.geometry import Exact, Point
from drills.pattern import CreasePattern, Edge


@dataclass(frozen=True)
class ImportedPattern:
    """A crease pattern out of a file; all its lines hang together, inside one convex paper's edge.

    ``vertices`` and ``edges`` are the numbers in the file of the pattern's, in its order; points and
    pieces that came by splitting are numbered on after the file's, and ``pieces`` gives for each
    such piece the file's edge that it is of. Where ``exact`` is false no grid fits, and the points
    are the file's decimals; else they are in squares of the ``grid``. ``notices`` are sentences
    that tell the person what was done to the file.
    """

    pattern: CreasePattern
    exact: bool
    grid: Grid
    vertices: tuple[int, ...]
    edges: tuple[int, ...]
    pieces: Mapping[int, int]
    notices: tuple[str, ...]


def read_sheet(text: bytes) -> ImportedPattern:
    """Return the crease pattern of any FOLD 1.x file; FoldError says in one sentence what is wrong.

    Flat lines (F, J), doubled lines and points that belong to no crease are left out.
    """
    drawing = read_drawing(text)
    laid = laid_on_grid(drawing)
    if laid is not None:
        try:
            return _sheet(drawing, laid)
        except NearMissError:
            pass
    return _sheet(drawing, laid_as_written(drawing))


def _sheet(drawing: Drawing, laid: Laid) -> ImportedPattern:
    lines = tidied(drawing, laid)
    if laid.exact and laid.near and is_kinked(laid.points, neighbours(lines.ends), laid.near):
        raise NearMissError
    spots, along = split(laid.points, lines.ends, laid.near, laid.exact)
    pieces = pieces_of(lines, along, len(drawing.ends))
    rounding = 0 if laid.exact else laid.near
    sources = [pieces.further.get(number, number) for number in pieces.numbers]
    border = paper_edge(spots, pieces.ends, pieces.labels, sources, rounding)
    vertices = sorted({vertex for pair in pieces.ends for vertex in pair})
    said = [
        *drawing.notices,
        *laid.notices,
        *lines.notices,
        *_about_split(len(spots) - len(laid.points), pieces),
        *_about_border(border, pieces),
    ]
    return ImportedPattern(
        _pattern(spots, vertices, pieces, border, laid.units),
        laid.exact,
        laid.grid,
        tuple(vertices),
        tuple(pieces.numbers),
        pieces.further,
        tuple(said),
    )


def _pattern(
    spots: list[Spot], vertices: list[int], pieces: Pieces, border: frozenset[int], units: int
) -> CreasePattern:
    place = {vertex: index for index, vertex in enumerate(vertices)}
    values: dict[Exact, Exact] = {}
    for vertex in vertices:
        for number in spots[vertex]:
            if number not in values:
                values[number] = _squares(number, units)
    points = tuple(Point(values[spots[v][0]], values[spots[v][1]]) for v in vertices)
    edges = tuple(
        Edge.joining(place[one], place[two], "border", "B")
        if line in border
        else Edge.joining(place[one], place[two], "other", label)
        for line, ((one, two), label) in enumerate(zip(pieces.ends, pieces.labels, strict=True))
    )
    return CreasePattern(points, edges)


def _squares(number: Exact, units: int) -> Exact:
    value = Fraction(number) / units
    return value.numerator if value.denominator == 1 else value


def _about_split(points: int, pieces: Pieces) -> list[str]:
    said = []
    if pieces.further:
        points_too = f"{counted(points, 'new point')} and " if points else ""
        said.append(f"Split where creases meet: {points_too}{counted(len(pieces.further), 'new piece')}.")
    if pieces.doubled:
        said.append(f"Left out: {counted(pieces.doubled, 'line')} on top of another.")
    return said


def _about_border(border: frozenset[int], pieces: Pieces) -> list[str]:
    taken = sum(pieces.labels[line] != "B" for line in border)
    if not taken:
        return []
    if taken == len(border):
        return ["The paper's edge is not labelled, so the outline was taken."]
    return [f"Taken as the paper's edge: {counted(taken, 'line')} of the outline without the label B."]
