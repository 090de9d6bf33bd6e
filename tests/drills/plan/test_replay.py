"""A plan done from bare paper, by another hand: each crease is possible when its turn comes, and all is made.

The replay knows the grid, the marks and segments by their ends, nothing of how the plan was found. A
crease is possible where it can be laid through two places that are on the paper, and where each of its
ends is such a place or lies on what is there.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import islice, pairwise
from math import gcd, lcm
from typing import TypeAlias

import pytest

from drills.flatfold import check_pattern
from drills.pattern import CreasePattern
from drills.plan import Fold, Marks, SheetPlan, plan_sheet
from drills.questions import KINDS, Code, codes_of, make, read_code
from drills.structures import TRIANGLES, Roof, Sheet, Stretch, draw
from tests.drills.sheets import map_sheet, miura

Place: TypeAlias = tuple[int, int]
Line: TypeAlias = tuple[Place, Place]
Slope: TypeAlias = tuple[int, int]
MOST_TURNS = 1


class BarePaper:
    """A sheet with its grid creased, in whole numbers of a small unit, ``square`` of which are a square."""

    def __init__(self, pattern: CreasePattern) -> None:
        self.square = lcm(*(part.denominator for point in pattern.vertices for part in point))
        left, bottom, right, top = (int(side * self.square) for side in pattern.box)
        self.paper = left, bottom, right, top
        self.upright, self.level = range(left, right + 1, self.square), range(top, bottom - 1, -self.square)
        self.lines: list[Line] = [self.line(pattern, e[:2]) for e in pattern.edges if e.label == "B"]
        self.lines += [((x, bottom), (x, top)) for x in self.upright]
        self.lines += [((left, y), (right, y)) for y in self.level]
        self.dots: set[Place] = set()

    def place(self, pattern: CreasePattern, vertex: int) -> Place:
        """Return where a vertex is."""
        x, y = pattern.vertices[vertex]
        return int(x * self.square), int(y * self.square)

    def line(self, pattern: CreasePattern, vertices: Sequence[int]) -> Line:
        """Return the line from the first of some vertices to the last."""
        return self.place(pattern, vertices[0]), self.place(pattern, vertices[-1])

    def ways_through(self, place: Place) -> set[Slope]:
        """Return the slopes of what runs through or ends at a place."""
        return {slope(line) for line in self.lines if lies_on(place, line)}

    def can_crease(self, line: Line) -> bool:
        """Whether the line can be laid through two places and each end is on the paper."""
        if not all(end in self.dots or self.ways_through(end) for end in line):
            return False
        there = (p for p in self._on(line) if p in self.dots or len(self.ways_through(p)) > 1)
        return len(list(islice(there, 2))) == 2

    def _on(self, line: Line) -> set[Place]:
        """Return places on the line, or where it is prolonged to a crossing, that might be pointed at."""
        (x, y), (to_x, to_y) = line
        found = {*line, *(dot for dot in self.dots if lies_on(dot, line))}
        found |= {end for other in self.lines for end in other if lies_on(end, line)}
        if x != to_x:
            crossings = ((at, y + Fraction((to_y - y) * (at - x), to_x - x)) for at in self.upright)
            found |= {(at, int(up)) for at, up in crossings if up in self.level}
        return found


def slope(line: Line) -> Slope:
    """Return the slope of a line as the smallest step along it, to the right or straight up."""
    (x, y), (to_x, to_y) = line
    shared = gcd(to_x - x, to_y - y)
    way = (to_x - x) // shared, (to_y - y) // shared
    return max(way, (-way[0], -way[1]))


def lies_on(place: Place, line: Line) -> bool:
    """Whether a place lies on a segment, ends included."""
    (x, y), (to_x, to_y) = line
    if not min(x, to_x) <= place[0] <= max(x, to_x) or not min(y, to_y) <= place[1] <= max(y, to_y):
        return False
    return (to_x - x) * (place[1] - y) == (to_y - y) * (place[0] - x)


def replay(pattern: CreasePattern) -> SheetPlan:
    """Do a plan move by move, each possible when its turn comes; in the end all creases are there, once."""
    sheet, paper = plan_sheet(pattern), BarePaper(pattern)
    seen: set[tuple[str, int, int, int]] = set()
    for move in sheet.moves:
        if isinstance(move, Marks):
            paper.dots |= {paper.place(pattern, dot.vertex) for dot in move.dots}
            continue
        lines = [paper.line(pattern, piece.vertices) for piece in move.pieces]
        for line in lines:
            assert paper.can_crease(line), (move.kind, line)
        (dx, dy) = slope(lines[0])
        same_line = {(move.kind, dx, dy, dx * y - dy * x) for (x, y), _ in lines}
        assert len(same_line) == 1
        assert not same_line & seen
        seen |= same_line
        paper.lines += lines
    edges = [edge for fold in sheet.folds for edge in fold.edges]
    assert sorted(edges) == [e for e in pattern.creases if pattern.edges[e].label != "F"]
    valleys = {edge for fold in sheet.switches for edge in fold.edges}
    assert valleys == {e for e in pattern.creases if pattern.edges[e].label == "V"}
    return sheet


def own_sheets() -> list[CreasePattern]:
    """Return ten sheets of our own invention, of all structures and triangles, cut, unequal, with bases."""
    third = TRIANGLES[-1]
    cut = [
        draw(Stretch((2, 2), pleats=0, crop=(0, 0, 3, 0))),
        draw(Stretch((3, 3), pleats=0, crop=(0, 2, 1, 1))),
    ]
    whole = [
        draw(Stretch((2, 2), pleats=2)),
        draw(Stretch((1, 3), pleats=1, facing=2)),
        draw(Stretch((1, 1), triangle=third, widths=(2, 2, 2))),
        draw(Stretch((1, 1), triangle=TRIANGLES[1], widths=(1, 1, 1), facing=1)),
        draw(Sheet(Roof(5, 2), 1, 0, False)),
    ]
    base = make(read_code("find-8-1")).truth
    return [*cut, *whole, base, map_sheet(3, 4), miura(3, 4)]


@pytest.mark.parametrize("number", range(10))
def test_ten_own_sheets_from_bare_paper(number: int) -> None:
    """Each is made whole; a flat crease is left out."""
    pattern = own_sheets()[number]
    replay(pattern)
    flat = next((e for e in pattern.creases if pattern.edges[e].role not in ("outline", "inside")), None)
    labels = ["F" if e == flat else edge.label for e, edge in enumerate(pattern.edges)]
    replay(pattern.with_labels(labels))


def drills_of(count: int) -> Iterator[CreasePattern]:
    """Yield the sheets of so many drills, over all kinds, forms and levels in turn."""
    ways = [
        (kind, form, level) for kind, entry in KINDS.items() for form in entry.forms for level in entry.levels
    ]
    for number in range(count):
        kind, form, level = ways[number % len(ways)]
        code: Code = next(codes_of(kind, form, level, number))
        yield make(code).truth


def test_drills_from_bare_paper() -> None:
    """A few here, 300 in the long run."""
    for pattern in drills_of(12):
        replay(pattern)


@pytest.mark.long
def test_three_hundred_drills_from_bare_paper() -> None:
    """Over all kinds, forms and levels; the naive order turns the paper far more often than once."""
    turns = []
    for pattern in drills_of(300):
        replay(pattern)
        turns.append(naive_turns(pattern))
    assert sorted(turns)[len(turns) // 2] > 10 * MOST_TURNS


def naive_turns(pattern: CreasePattern) -> int:
    """Return how often the paper is turned where each line is folded towards the folder as it is labelled."""
    kinds = [
        pattern.edges[edge].label
        for fold in plan_sheet(pattern).folds
        for piece in fold.pieces
        for edge in piece.edges
    ]
    return sum(one != other for one, other in pairwise(kinds))


def test_a_replay_sees_an_impossible_order() -> None:
    """Inside lines before what they start from, on a sheet whose turning points are at thirds."""
    pattern = draw(Stretch((1, 1), triangle=TRIANGLES[-1], widths=(2, 2, 2)))
    assert check_pattern(pattern).ok
    paper = BarePaper(pattern)
    inside = [m for m in plan_sheet(pattern).moves if isinstance(m, Fold) and m.kind == "inside"]
    lines = [paper.line(pattern, move.pieces[0].vertices) for move in inside]
    assert not all(map(paper.can_crease, lines))
