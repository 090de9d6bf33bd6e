"""A whole base: a sheet cut into cells, with flap tips where they meet and hinges that join them.

It is drawn after a plan: which blocks it must have on how many squares, a seed for the cut, and the
number of the choice of hinges. Of a base with a mirror axis one half is cut, the other is its image.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import isqrt
from typing import NamedTuple

from drills.geometry import SYMMETRIES, Chance, Direction, Point, move_between, moved
from drills.pattern import CreasePattern, Line, Paper, build, to_origin, turned
from drills.structures.bases.cell_block import RANK_ZERO, CellBlock
from drills.structures.bases.hinges import HingePaths
from drills.structures.bases.labels import Group, labelled_by_rank
from drills.structures.bases.layout import Layout, Wanted, draw_layout
from drills.structures.block import LookAlike, Outline
from drills.structures.sheets import Join, SheetDesign
from drills.structures.triangle import label_of_rank

MOST_STRETCHES = 4


class Plan(NamedTuple):
    """What a base is drawn after; ``wanted`` are the blocks that it, or its left half, must have.

    ``seed`` draws the cut into cells, ``hinges`` numbers the choices of hinges for it.
    """

    width: int
    height: int
    wanted: Wanted
    has_axis: bool
    seed: int
    hinges: int = 0

    @property
    def _chance(self) -> Chance:
        axis = "/axis" if self.has_axis else ""
        return Chance(f"base/{self.width}x{self.height}{axis}/{'-'.join(self.wanted)}/{self.seed}")

    def layout(self) -> Layout | None:
        """Return the cut into cells, of the left half where there is an axis; None where none is found."""
        parts = 2 if self.has_axis else 1
        most = MOST_STRETCHES // parts
        width = self.width // parts
        return draw_layout(self._chance, width, self.height, self.wanted, most, is_half=self.has_axis)

    def hinge_lines(self, paths: HingePaths) -> list[Line] | None:
        """Return the hinges of this number; None where no choice makes every point even."""
        chosen = paths.solution(self._chance.branch(f"hinges/{self.hinges}"))
        if chosen is None:
            return None
        lines = [line for path in sorted(chosen) for line in paths.paths[path].lines()]
        return [*lines, *(_image(line, self.width) for line in lines)] if self.has_axis else lines


def _image(line: Line, width: int) -> Line:
    start, end = (Point(width - point.x, point.y) for point in (line.start, line.end))
    return line._replace(start=start, end=end)


class Drawn(NamedTuple):
    """A base as it is drawn: its labelled pattern, the creases of rank 0, the blocks in their places."""

    pattern: CreasePattern
    rank_zero: frozenset[int]
    blocks: tuple[CellBlock, ...]


def drawn_on(plan: Plan, paths: HingePaths) -> Drawn | None:
    """Return the base of a plan on the hinge paths of its layout; None where it does not fold so."""
    hinges = plan.hinge_lines(paths)
    if hinges is None:
        return None
    layout = paths.layout.with_image()
    blocks = tuple(cell.placed for cell in layout.cells)
    lines = [line for block in blocks for line in block.lines]
    try:
        pattern = build([*lines, *_side_lines(layout), *hinges], Paper(0, 0, plan.width, plan.height))
    except ValueError:
        return None
    labelled = labelled_by_rank(pattern, _groups(pattern, plan))
    if labelled is None:
        return None
    rank_zero = frozenset(edge for edge in pattern.creases if pattern.edges[edge].label == RANK_ZERO)
    return Drawn(labelled, rank_zero, blocks)


def _side_lines(layout: Layout) -> Iterator[Line]:
    """Yield the sides of the cells, each row of them as one line."""
    steps: dict[tuple[bool, int], set[int]] = defaultdict(set)
    for cell in layout.cells:
        for (x, y), (right, top) in pairwise((*cell.corners, cell.corners[0])):
            is_upright = x == right
            low, high = sorted((y, top) if is_upright else (x, right))
            steps[is_upright, x if is_upright else y].update(range(low, high))
    for (is_upright, at), found in sorted(steps.items()):
        for low in sorted(start for start in found if start - 1 not in found):
            high = next(end for end in range(low + 1, low + len(found) + 1) if end not in found)
            start, end = (Point(at, along) if is_upright else Point(along, at) for along in (low, high))
            yield Line(start, end, "pleat", RANK_ZERO)


def _groups(pattern: CreasePattern, plan: Plan) -> list[Group]:
    """Return the creases, where there is an axis each with its mirror image."""
    if not plan.has_axis:
        return [(edge,) for edge in pattern.creases]
    number = {point: vertex for vertex, point in enumerate(pattern.vertices)}
    image = [number[Point(plan.width - x, y)] for x, y in pattern.vertices]
    at = {frozenset(edge[:2]): place for place, edge in enumerate(pattern.edges)}
    couples = (
        (edge, at[frozenset(image[vertex] for vertex in pattern.edges[edge][:2])]) for edge in pattern.creases
    )
    return list(dict.fromkeys(tuple(sorted(set(couple))) for couple in couples))


@lru_cache(maxsize=64)
def drawn_after(plan: Plan) -> Drawn:
    """Return the base of a plan, remembered; ValueError where it does not fold."""
    layout = plan.layout()
    drawn = layout and drawn_on(plan, HingePaths(layout))
    if not drawn:
        raise ValueError("No base of this plan folds flat; take another seed, or other hinges.")
    return drawn


@dataclass(frozen=True)
class Base(SheetDesign):
    """A base in one of SYMMETRIES by index, labels exchanged or not, and cropped.

    ``crop`` cuts so many squares off at the left, bottom, right and top before it is turned.
    """

    plan: Plan
    facing: int = 0
    exchanged: bool = False
    crop: tuple[int, int, int, int] = (0, 0, 0, 0)

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the paper in squares."""
        left, bottom, right, top = self.paper
        size = int(right - left), int(top - bottom)
        return size if SYMMETRIES[self.facing].b == 0 else (size[1], size[0])

    @property
    def paper(self) -> Paper:
        """The paper on the base before it is turned."""
        left, bottom, right, top = self.crop
        return Paper(left, bottom, self.plan.width - right, self.plan.height - top)

    def drawn(self) -> CreasePattern:
        """Return the labelled pattern; ValueError where the plan's base does not fold."""
        pattern = self._on_paper(drawn_after(self.plan).pattern)
        return pattern.switched(pattern.creases) if self.exchanged else pattern

    def _on_paper(self, pattern: CreasePattern) -> CreasePattern:
        if any(self.crop):
            lines = (Line(*pattern.ends(edge), *pattern.edges[edge][2:]) for edge in pattern.creases)
            pattern = to_origin(build(lines, self.paper))
        return turned(pattern, SYMMETRIES[self.facing])

    def left_open(self) -> frozenset[int]:
        """Return the creases of rank 0, and those that meet one whose label is not that of its rank."""
        pattern, rank_zero, _ = drawn_after(self.plan)
        unlike = {edge for edge in rank_zero if pattern.edges[edge].label != label_of_rank(0)}
        beside = {
            edge for each in unlike for vertex in pattern.edges[each][:2] for edge in pattern.around[vertex]
        }
        marked = (
            RANK_ZERO if label != "B" and edge in rank_zero | beside else label
            for edge, label in enumerate(pattern.labels())
        )
        labels = self._on_paper(pattern.with_labels(marked)).labels()
        return frozenset(edge for edge, label in enumerate(labels) if label == RANK_ZERO)

    def _placed(self, point: Point) -> Point:
        """Return where a point of the base lies on the sheet."""
        symmetry, corners = SYMMETRIES[self.facing], self.paper.corners
        images = [symmetry.of(corner) for corner in corners]
        x, y = symmetry.of(point)
        return Point(x - min(p.x for p in images), y - min(p.y for p in images))

    def _corners(self, outline: Outline) -> Outline:
        one, two, three, four = map(self._placed, outline)
        return one, two, three, four

    def outlines(self) -> tuple[Outline, ...]:
        """Return S, A, T, B of each slanted stretch; a crop may leave some of them outside."""
        blocks = drawn_after(self.plan).blocks
        return tuple(self._corners(outline) for block in blocks for outline in block.outlines)

    def look_alikes(self) -> tuple[LookAlike, ...]:
        """Return its roofs, 45-degree stretches and blocks of three tips; a crop may leave some outside."""
        found = (alike for block in drawn_after(self.plan).blocks for alike in block.look_alikes)
        return tuple(LookAlike(kind, self._corners(corners)) for kind, corners in found)

    def slanted_corners(self) -> tuple[Point, ...]:
        """Return the corners of all that is slanted on the uncropped base, before it is turned."""
        blocks = drawn_after(self.plan).blocks
        alike = [corners for block in blocks for kind, corners in block.look_alikes if kind == "tips"]
        outlines = [outline for block in blocks for outline in block.outlines]
        return tuple(corner for corners in (*alike, *outlines) for corner in corners)

    def joins(self) -> tuple[Join, ...]:
        """Return what each slanted stretch joins, in the order of the outlines."""
        blocks = (block for block in drawn_after(self.plan).blocks if block.outlines)
        return tuple(self._join(block) for block in blocks)

    def _join(self, block: CellBlock) -> Join:
        """Return the tips at the two corners of the cell that the far corners look at.

        Folded they are as far apart as the far corners and the pleats between these and the tips.
        """
        ((start, _, far, _),) = block.outlines
        across, up = move_between(start, far)
        pleats = (block.width - abs(int(across))) // 2
        outward = Direction(1 if across > 0 else -1, 1 if up > 0 else -1)
        folded = isqrt(int(across**2 + up**2)) + 2 * pleats
        tips = self._placed(moved(start, outward, -pleats)), self._placed(moved(far, outward, pleats))
        return Join(tips, self._corners(block.outlines[0]), folded)
