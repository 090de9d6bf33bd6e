"""Hinges of a base: every way they can run, and choices of them that make every point even.

A hinge runs straight over pleat lines and ridge lines and turns at 45-degree ridges, so that it stays
at one distance from a flap tip. It ends at nodes and at the paper's edge, or closes round a tip. Which
of these paths are creased is a linear system over the field of two elements: one unknown a path, one
equation a node.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from drills.flatfold import bits
from drills.geometry import Chance, Direction, Point, opposite
from drills.pattern import Line
from drills.structures.bases.cell_block import GridPoint, Node
from drills.structures.bases.layout import Layout
from drills.structures.block import DOWN, LEFT, RIGHT, UP

_WAYS = (RIGHT, UP, LEFT, DOWN)
_EDGE_COSTS = 8
"""Squares by which a hinge that runs to the paper's edge counts as longer: round flaps look real."""
_UPHILL = 5
"""A solution may be lengthened by up to a hundredth part so many times, so that there are several."""


class Path(NamedTuple):
    """A way that a hinge can run: from crossing to crossing, the nodes it makes odd, its cost."""

    points: tuple[GridPoint, ...]
    odd: frozenset[GridPoint]
    cost: int

    def lines(self) -> Iterator[Line]:
        """Yield its straight parts."""
        start = self.points[0]
        for here, after in zip(self.points[1:], (*self.points[2:], None), strict=True):
            if after is None or _turns(start, here, after):
                yield Line(Point(*start), Point(*here), "hinge", "U")
                start = here


def _turns(start: GridPoint, here: GridPoint, after: GridPoint) -> bool:
    return not (start[0] == here[0] == after[0] or start[1] == here[1] == after[1])


@dataclass(frozen=True)
class HingePaths:
    """The ways that hinges can run over a layout."""

    layout: Layout

    @cached_property
    def nodes(self) -> Mapping[GridPoint, Node]:
        """The points where hinges may end off the paper's edge, also where a side ends at another."""
        placed = {at: node for cell in self.layout.cells for at, node in cell.placed.nodes.items()}
        ending = dict(self._sides_ending())
        # where a side ends at an odd point of a block, one makes up for the other
        both = {at: node for at, node in {**placed, **ending}.items() if (at in placed) != (at in ending)}
        return {at: node for at, node in both.items() if not self._is_at_edge(at)}

    def _sides_ending(self) -> Iterator[tuple[GridPoint, Node]]:
        for at in sorted(self.layout.tips):
            missing = [way for way in _WAYS if (at, way) not in self.sides]
            if len(missing) == 1:
                yield at, Node(True, (missing[0],))

    @cached_property
    def sides(self) -> frozenset[tuple[GridPoint, Direction]]:
        """The sides of the cells, square by square: from each crossing on one, the ways it goes on."""
        found = set()
        for cell in self.layout.cells:
            for start, end in zip(cell.corners, cell.corners[1:] + cell.corners[:1], strict=True):
                way = _way(start, end)
                for at in _between(start, end):
                    found |= {(at, way), (_step(at, way), opposite(way))}
        return frozenset(found)

    @cached_property
    def _mirrors(self) -> Mapping[GridPoint, int]:
        """The crossings on 45-degree ridges, with 1 where they rise to the right and -1 where they fall."""
        found = {}
        for line in (line for cell in self.layout.cells for line in cell.placed.lines):
            (x, y), (right, top) = sorted((line.start, line.end))
            if right - x == abs(top - y) and x.denominator == y.denominator == 1:
                slope = 1 if top > y else -1
                found.update({(int(x) + n, int(y) + slope * n): slope for n in range(int(right - x) + 1)})
        return found

    @cached_property
    def _shut(self) -> frozenset[GridPoint]:
        """The crossings that no hinge may run over."""
        return self.layout.tips.union(*(cell.placed.shut for cell in self.layout.cells))

    def _is_at_edge(self, at: GridPoint) -> bool:
        return at[0] in (0, self.layout.width) or at[1] in (0, self.layout.height)

    def _is_on_axis(self, at: GridPoint) -> bool:
        return self.layout.is_half and at[0] == self.layout.width

    @cached_property
    def paths(self) -> tuple[Path, ...]:
        """Every path once: those that begin at nodes, then the others that cross a cell's side."""
        found: list[Path] = []
        taken: set[frozenset[GridPoint]] = set()
        for start, way in self._starts():
            if frozenset((start, _step(start, way))) not in taken:
                path = self._whole_path(start, way)
                if path:
                    taken.update(map(frozenset, zip(path.points, path.points[1:], strict=False)))
                    found.append(path)
        return tuple(found)

    def _starts(self) -> Iterator[tuple[GridPoint, Direction]]:
        for at, node in self.nodes.items():
            yield from ((at, way) for way in node.ways)
        for at, way in sorted(self.sides):
            across = (UP, DOWN) if way in (LEFT, RIGHT) else (LEFT, RIGHT)
            if at not in self._shut and at not in self.nodes:
                yield from ((at, on) for on in across if self._is_on_sheet(_step(at, on)))

    def _is_on_sheet(self, at: GridPoint) -> bool:
        return 0 <= at[0] <= self.layout.width and 0 <= at[1] <= self.layout.height

    def _whole_path(self, start: GridPoint, way: Direction) -> Path | None:
        """Return the path through a crossing along a direction, whole; None where it may not run."""
        ahead = self._followed(start, way)
        if ahead is None:
            return None
        points = ahead
        if start not in self.nodes and not self._is_at_edge(start) and ahead[-1] != start:
            behind = self._followed(start, opposite(way))
            if behind is None:
                return None
            points = [*behind[:0:-1], *ahead]
        ends = [points[0], points[-1]] if points[0] != points[-1] else []
        at_edge = sum(self._is_at_edge(end) and not self._is_on_axis(end) for end in ends)
        odd = frozenset(end for end in ends if end in self.nodes)
        return Path(tuple(points), odd, len(points) - 1 + _EDGE_COSTS * at_edge)

    def _followed(self, start: GridPoint, way: Direction) -> list[GridPoint] | None:
        """Return the crossings from a start on to a node, the paper's edge or round to the start."""
        points, begin = [start], way
        while True:
            here = _step(points[-1], way)
            points.append(here)
            if here in self.nodes:
                return points if opposite(way) in self.nodes[here].ways else None
            if here in self._shut:
                return None
            if self._is_at_edge(here):
                return points
            if here in self._mirrors:
                slope = self._mirrors[here]
                # it goes on as the mirror image of the piece it came by
                way = Direction(-slope * way.dy, -slope * way.dx)
            if (here, way) == (start, begin):
                return points

    @cached_property
    def _equations(self) -> tuple[list[int], int]:
        """Per path the nodes it makes odd, and the nodes that must be odd, as bits."""
        place = {at: 1 << number for number, at in enumerate(self.nodes)}
        target = sum(place[at] for at, node in self.nodes.items() if node.is_odd)
        return [sum(place[at] for at in path.odd) for path in self.paths], target

    def solution(self, chance: Chance) -> frozenset[int] | None:
        """Return paths, by number, that together make every point even; None where there are none.

        The shortest ones come first; then what may be added is, where it shortens the whole or hardly
        lengthens it.
        """
        rows, target = self._equations
        costs = [path.cost for path in self.paths]
        order = sorted(range(len(rows)), key=lambda path: (costs[path] * (60 + chance.below(80)), path))
        solved = _solved(rows, order, target)
        if solved is None:
            return None
        chosen, free = solved
        total = sum(costs[path] for path in bits(chosen))
        for change in free:
            cost = sum(costs[path] for path in bits(chosen ^ change))
            if 100 * cost < total * (100 + chance.below(_UPHILL + 1)):
                chosen, total = chosen ^ change, cost
        return frozenset(bits(chosen))


def _solved(rows: list[int], order: Iterable[int], target: int) -> tuple[int, list[int]] | None:
    """Return a choice of rows that adds up to the target, and the choices that add up to nothing.

    Gaussian elimination over the field of two elements; rows and choices are bits.
    """
    pivots: dict[int, tuple[int, int]] = {}
    free = []

    def reduced(value: int, choice: int) -> tuple[int, int]:
        while value and value.bit_length() in pivots:
            row, chosen = pivots[value.bit_length()]
            value, choice = value ^ row, choice ^ chosen
        return value, choice

    for path in order:
        value, choice = reduced(rows[path], 1 << path)
        if value:
            pivots[value.bit_length()] = value, choice
        else:
            free.append(choice)
    rest, chosen = reduced(target, 0)
    return None if rest else (chosen, free)


def _way(start: GridPoint, end: GridPoint) -> Direction:
    (x, y), (right, top) = start, end
    return Direction((right > x) - (right < x), (top > y) - (top < y))


def _step(at: GridPoint, way: Direction) -> GridPoint:
    return at[0] + way.dx, at[1] + way.dy


def _between(start: GridPoint, end: GridPoint) -> Iterator[GridPoint]:
    """Yield the crossings from a start up to, but not including, an end."""
    way = _way(start, end)
    while start != end:
        yield start
        start = _step(start, way)
