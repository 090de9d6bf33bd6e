"""The whole plan of a sheet: what is creased after the grid, in an order in which each crease can be made.

A crease is made in one go along its line, as far as the pattern has it. Each end must be on the paper by
then, as a crossing of what is creased, a crossing of the grid, or a dot; where it is not, it is marked
first. All is a mountain seen from the printed side, so the paper is turned over once, after the grid.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import Literal, NamedTuple, TypeAlias

from drills.geometry import Direction, moved, opposite
from drills.pattern import CreasePattern, Run, across_down, straight_runs_among
from drills.plan.grid import GridPlan, grid_of
from drills.plan.stretches import Crease, Dot, StretchPlan, dot_at, plan

FoldKind: TypeAlias = Literal["ridge", "outline", "inside", "slanted", "between", "grid"]
"""In the order of work: 45-degree ridges, a stretch, other slanted creases, those between lines of the
grid, and hinges and pleats along its lines, which are creased already and only made sharp."""

ORDER: tuple[FoldKind, ...] = "ridge", "outline", "inside", "slanted", "between", "grid"


class Fold(NamedTuple):
    """Creases on one straight line, made in one go: a run for each piece, and the stretch it is of."""

    kind: FoldKind
    pieces: tuple[Run, ...]
    stretch: int | None = None

    @property
    def edges(self) -> tuple[int, ...]:
        """The edges of all pieces, in order."""
        return tuple(edge for piece in self.pieces for edge in piece.edges)


class Marks(NamedTuple):
    """Places to mark with a pencil dot before the creases ``of`` a kind, and the stretch they are of."""

    dots: tuple[Dot, ...]
    of: FoldKind
    stretch: int | None = None


Move: TypeAlias = Marks | Fold


@dataclass(frozen=True)
class SheetPlan:
    """The plan of a whole sheet: its grid, its stretches, and every mark and fold in the order of work.

    ``switches`` are the lines with valleys among what is creased, each with its valley pieces alone.
    """

    grid: GridPlan
    stretches: tuple[StretchPlan, ...]
    moves: tuple[Move, ...]
    switches: tuple[Fold, ...]

    @property
    def folds(self) -> tuple[Fold, ...]:
        """The creases, line by line."""
        return tuple(move for move in self.moves if isinstance(move, Fold))


def plan_sheet(pattern: CreasePattern) -> SheetPlan:
    """Return the plan of a sheet on a grid from blank paper on; flat creases are left out."""
    stretches = plan(pattern)
    folds = _folds(pattern, stretches)
    moves = tuple(_in_order(pattern, stretches, folds))
    made = [move for move in moves if isinstance(move, Fold)]
    return SheetPlan(grid_of(pattern), stretches, moves, tuple(_switches(pattern, made)))


def _folds(pattern: CreasePattern, stretches: Sequence[StretchPlan]) -> list[Fold]:
    """Return every line to crease, in the order wished for: lines of a stretch as its own plan has them."""
    own: list[Fold] = []
    for number, planned in enumerate(stretches):
        by_kind: Mapping[FoldKind, Sequence[Crease]] = {"outline": planned.outline, "inside": planned.inside}
        for kind, creases in by_kind.items():
            own += (Fold(kind, (Run(crease.edges, crease.vertices),), number) for crease in creases)
    taken = {edge for fold in own for edge in fold.edges}
    rest = (e for e in pattern.creases if e not in taken and pattern.edges[e].label != "F")
    runs = straight_runs_among(pattern, rest)
    return _on_one_line(pattern, own + [Fold(_kind(pattern, run), (run,)) for run in runs])


def _kind(pattern: CreasePattern, run: Run) -> FoldKind:
    way = _way(pattern, run)
    if way.dx and way.dy:
        return "ridge" if abs(way.dx) == abs(way.dy) else "slanted"
    across, down = across_down(pattern, pattern.vertices[run.vertices[0]])
    return "grid" if (across if way.dx == 0 else down).denominator == 1 else "between"


def _way(pattern: CreasePattern, run: Run) -> Direction:
    """Return the direction of a run, one of the two."""
    way = pattern.direction(run.edges[0], run.vertices[0])
    return max(way, opposite(way))


def _on_one_line(pattern: CreasePattern, folds: Iterable[Fold]) -> list[Fold]:
    """Return the folds with those of a kind that lie on one line put into the first of them."""
    lines: dict[object, list[Fold]] = defaultdict(list)
    for fold in folds:
        way = _way(pattern, fold.pieces[0])
        x, y = pattern.vertices[fold.pieces[0].vertices[0]]
        lines[fold.kind, way, way.dx * y - way.dy * x].append(fold)
    return [
        Fold(same[0].kind, tuple(piece for fold in same for piece in fold.pieces), same[0].stretch)
        for same in lines.values()
    ]


def _in_order(
    pattern: CreasePattern, stretches: Sequence[StretchPlan], folds: Iterable[Fold]
) -> Iterator[Move]:
    """Yield what is marked and creased, ends before creases; a stretch whole before the next one."""
    paper = _Paper(pattern)

    # a stretch is finished before the next, as a person works; what is of none keeps its place in ORDER
    def turn(fold: Fold) -> tuple[int, int, int]:
        of_stretch = fold.stretch is not None
        return (
            0 if fold.kind == "ridge" else 1 if of_stretch else 2,
            fold.stretch or 0,
            ORDER.index(fold.kind),
        )

    for _, same in groupby(sorted(folds, key=turn), key=turn):
        waiting = list(same)
        kind, stretch = waiting[0].kind, waiting[0].stretch
        if kind == "outline" and stretch is not None:
            dots = stretches[stretch].to_mark
            paper.mark(dots)
            yield Marks(dots, kind, stretch)
        while waiting:
            ready = next((fold for fold in waiting if paper.has_all_of(fold)), None)
            fold = ready or waiting[0]
            if missing := [] if ready else paper.missing(fold):
                dots = tuple(dot_at(pattern, vertex, "end") for vertex in missing)
                paper.mark(dots)
                yield Marks(dots, kind, stretch)
            waiting.remove(fold)
            paper.crease(fold)
            yield fold


class _Paper:
    """What is on the paper so far: the grid, dots, and the lines creased; by the vertices of the pattern."""

    def __init__(self, pattern: CreasePattern) -> None:
        self._pattern = pattern
        self._through: list[set[Direction]] = [set() for _ in pattern.vertices]
        self._marked: set[int] = set()
        for vertex, (x, y) in enumerate(across_down(pattern, point) for point in pattern.vertices):
            if x.denominator == 1:
                self._through[vertex].add(Direction(0, 1))
            if y.denominator == 1:
                self._through[vertex].add(Direction(1, 0))
        left, bottom, right, top = pattern.box
        border = [edge for edge in pattern.edges if edge.label == "B"]
        for edge in border:
            self._add((edge.start, edge.end))
        points = (pattern.vertices[end] for edge in border for end in (edge.start, edge.end))
        self._is_rectangle = all(x in (left, right) or y in (bottom, top) for x, y in points)

    def _add(self, vertices: Sequence[int]) -> None:
        for start, end in pairwise(vertices):
            edge = next(e for e in self._pattern.around[start] if self._pattern.other_end(e, start) == end)
            way = self._pattern.direction(edge, start)
            for vertex in (start, end):
                self._through[vertex].add(max(way, opposite(way)))

    def mark(self, dots: Iterable[Dot]) -> None:
        """Put pencil dots."""
        self._marked.update(dot.vertex for dot in dots)

    def crease(self, fold: Fold) -> None:
        """Crease a line."""
        for piece in fold.pieces:
            self._add(piece.vertices)

    def missing(self, fold: Fold) -> list[int]:
        """Return the ends that cannot be found on the paper yet."""
        ends = [end for piece in fold.pieces for end in (piece.vertices[0], piece.vertices[-1])]
        unknown = [end for end in dict.fromkeys(ends) if not self._has(end)]
        if not self._is_guided(fold):
            return unknown
        # the line can be laid through two places; an end is then where it meets what is there
        return [end for end in unknown if not self._through[end]]

    def has_all_of(self, fold: Fold) -> bool:
        """Whether the line can be laid and its ends are on the paper."""
        return not self.missing(fold)

    def _has(self, vertex: int) -> bool:
        return vertex in self._marked or len(self._through[vertex]) > 1

    def _is_guided(self, fold: Fold) -> bool:
        """Whether two places that are on the paper lie on the line."""
        known = {vertex for piece in fold.pieces for vertex in piece.vertices if self._has(vertex)}
        way = _way(self._pattern, fold.pieces[0])
        ways = way, opposite(way)
        return len(known) > 1 or any(
            self._leads_to_a_crossing(vertex, way) for vertex in known for way in ways
        )

    def _leads_to_a_crossing(self, vertex: int, way: Direction) -> bool:
        """Whether a step from a crossing of the grid ends on the paper, so at another crossing."""
        place = self._pattern.vertices[vertex]
        if not self._is_rectangle or any(part.denominator > 1 for part in across_down(self._pattern, place)):
            return False
        left, bottom, right, top = self._pattern.box
        end = moved(place, way)
        return left <= end.x <= right and bottom <= end.y <= top


def _switches(pattern: CreasePattern, folds: Iterable[Fold]) -> Iterator[Fold]:
    """Yield the lines with valleys, each with the longest rows of them."""
    for fold in folds:
        valleys = tuple(row for piece in fold.pieces for row in _rows_of(pattern, piece))
        if valleys:
            yield fold._replace(pieces=valleys)


def _rows_of(pattern: CreasePattern, piece: Run) -> Iterator[Run]:
    """Yield the longest rows of valleys of a run."""
    place = 0
    for label, row in groupby(piece.edges, key=lambda edge: pattern.edges[edge].label):
        start, place = place, place + len(list(row))
        if label == "V":
            yield Run(piece.edges[start:place], piece.vertices[start : place + 1])
