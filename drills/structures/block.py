"""Blocks: rectangles whose edge is itself a pleat line, with creases inside and hinges that leave.

Pleats run round a block in rings, with 45-degree ridges from its corners, and blocks can be put
together. The lower left corner is (0, 0).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple, TypeAlias

from drills.flatfold import check_angles
from drills.geometry import MIRROR, QUARTER_TURN, Direction, Exact, Point, Symmetry, moved
from drills.pattern import OTHER_LABEL, CreasePattern, Label, Line, Paper, build

Outline: TypeAlias = tuple[Point, Point, Point, Point]

RIGHT, UP, LEFT, DOWN = Direction(1, 0), Direction(0, 1), Direction(-1, 0), Direction(0, -1)


class LeavingHinge(NamedTuple):
    """A hinge that leaves a block: where, which way, the label of the piece that follows."""

    point: Point
    direction: Direction
    label: Label


class LookAlike(NamedTuple):
    """A structure that is no slanted stretch, where it lies: its kind and its corners in order."""

    kind: str
    corners: Outline


@dataclass(frozen=True)
class Block:
    """A rectangle whose edge is a pleat line labelled ``edge``; sizes in squares, pleats ``pleat`` wide.

    ``lines`` lie inside, the edge not among them; ``outlines`` are the corners S, A, T, B of each
    slanted stretch; of ``look_alikes`` one that lies in another comes first.
    """

    width: Exact
    height: Exact
    lines: tuple[Line, ...]
    leaving_hinges: tuple[LeavingHinge, ...]
    edge: Label = "M"
    outlines: tuple[Outline, ...] = ()
    pleat: int = 1
    look_alikes: tuple[LookAlike, ...] = ()

    @property
    def corners(self) -> Outline:
        """The corners counterclockwise from the lower left."""
        return Paper(0, 0, self.width, self.height).corners

    def leaving_towards(self, direction: Direction) -> tuple[LeavingHinge, ...]:
        """Return the hinges that leave in this direction."""
        return tuple(hinge for hinge in self.leaving_hinges if hinge.direction == direction)


def sheet_of(block: Block, crop: tuple[int, int, int, int] = (0, 0, 0, 0)) -> CreasePattern:
    """Return the pattern on paper that ends at the block's edge, or so much further in.

    The crop counts squares at the left, bottom, right and top.
    """
    left, bottom, right, top = crop
    return build(block.lines, Paper(left, bottom, block.width - right, block.height - top))


def with_pleats_around(block: Block, pleats: int) -> Block:
    """Return the block with so many more pleat lines around it and its hinges prolonged."""
    lines, hinges, edge = [*block.lines], block.leaving_hinges, block.edge
    for number in range(pleats):
        lines += _ring(block, number * block.pleat, edge)
        lines += [Line(at, moved(at, way, block.pleat), "hinge", label) for at, way, label in hinges]
        hinges = tuple(
            LeavingHinge(moved(at, way, block.pleat), way, OTHER_LABEL[label]) for at, way, label in hinges
        )
        edge = OTHER_LABEL[edge]
    reach = pleats * block.pleat
    width, height = block.width + 2 * reach, block.height + 2 * reach
    wider = replace(block, width=width, height=height, lines=tuple(lines), leaving_hinges=hinges, edge=edge)
    return shifted(wider, reach, reach) if pleats else block


def _ring(block: Block, distance: int, label: Label) -> Iterator[Line]:
    """Yield the pleat line so far around a block and the ridges to the next, of the inner end's kind."""
    paper = Paper(-distance, -distance, block.width + distance, block.height + distance)
    outward = (Direction(-1, -1), Direction(1, -1), Direction(1, 1), Direction(-1, 1))
    for start, end in zip(paper.corners, paper.corners[1:] + paper.corners[:1], strict=True):
        yield Line(start, end, "pleat", label)
    for corner, direction in zip(paper.corners, outward, strict=True):
        yield Line(corner, moved(corner, direction, block.pleat), "ridge", label)


def shifted(block: Block, right: Exact, up: Exact) -> Block:
    """Return the block's lines, hinges and outlines moved so far; its corner counts as (0, 0) as before."""
    return _mapped(block, lambda point: Point(point.x + right, point.y + up), lambda direction: direction)


def turned_block(block: Block, symmetry: Symmetry) -> Block:
    """Return the block's image under a symmetry of the square, its lower left corner again (0, 0)."""
    images = [symmetry.of(corner) for corner in block.corners]
    left, bottom = min(p.x for p in images), min(p.y for p in images)

    def image(point: Point) -> Point:
        x, y = symmetry.of(point)
        return Point(x - left, y - bottom)

    turned = _mapped(block, image, lambda direction: turned_direction(direction, symmetry))
    if symmetry.b == 0:
        return turned
    return replace(turned, width=block.height, height=block.width)


def turned_direction(direction: Direction, symmetry: Symmetry) -> Direction:
    """Return a direction's image under a symmetry of the square."""
    x, y = symmetry.of(Point(*direction))
    return Direction(int(x), int(y))


def mirrored(block: Block) -> Block:
    """Return the block with left and right exchanged."""
    return turned_block(block, MIRROR)


def quarter_turned(block: Block) -> Block:
    """Return the block turned a quarter counterclockwise."""
    return turned_block(block, QUARTER_TURN)


def exchanged(block: Block) -> Block:
    """Return the block with mountains and valleys exchanged."""
    return replace(
        block,
        lines=tuple(line._replace(label=OTHER_LABEL[line.label]) for line in block.lines),
        leaving_hinges=tuple(
            hinge._replace(label=OTHER_LABEL[hinge.label]) for hinge in block.leaving_hinges
        ),
        edge=OTHER_LABEL[block.edge],
    )


def _mapped(block: Block, image: Callable[[Point], Point], turn: Callable[[Direction], Direction]) -> Block:
    return replace(
        block,
        lines=tuple(Line(image(start), image(end), role, label) for start, end, role, label in block.lines),
        leaving_hinges=tuple(
            LeavingHinge(image(hinge.point), turn(hinge.direction), hinge.label)
            for hinge in block.leaving_hinges
        ),
        outlines=tuple(_image_of(outline, image) for outline in block.outlines),
        look_alikes=tuple(LookAlike(kind, _image_of(corners, image)) for kind, corners in block.look_alikes),
    )


def _image_of(corners: Outline, image: Callable[[Point], Point]) -> Outline:
    one, two, three, four = corners
    return image(one), image(two), image(three), image(four)


def beside(left: Block, right: Block, gap: int = 0) -> Block:
    """Return two blocks of one height side by side with so many pleats, an even number, between them.

    Each gets half of the gap around it, and the outermost pleat lines fall together. The right one's
    labels are exchanged where the shared line needs it. ValueError where they do not go together.
    """
    _check_hinges(left, right)
    return _joined(left, right, gap)


def mirror_pair(block: Block, gap: int = 0) -> Block:
    """Return a block with its mirror image at its right; hinges towards each other run into one.

    Such hinges break the alternation of the labels, so the pair then comes without any.
    """
    if block.leaving_towards(RIGHT):
        block = without_labels(block)
    return _joined(block, mirrored(block), gap)


def without_labels(block: Block) -> Block:
    """Return the block with the labels of all its lines and hinges taken away."""
    return replace(
        block,
        lines=tuple(line._replace(label="U") for line in block.lines),
        leaving_hinges=tuple(hinge._replace(label="U") for hinge in block.leaving_hinges),
        edge="U",
    )


def check_block(block: Block) -> Block:
    """Return the block if every point of it, its edge included, can fold flat; else ValueError."""
    pattern = sheet_of(with_pleats_around(block, 1))
    wrong = check_angles(pattern)
    if wrong:
        where = _point_in_words(pattern, wrong[0])
        raise ValueError(f"These blocks do not go together: the creases at {where} cannot fold.")
    return block


def _check_hinges(left: Block, right: Block) -> None:
    facing = [*left.leaving_towards(RIGHT), *right.leaving_towards(LEFT)]
    if facing:
        raise ValueError(
            f"A hinge leaves at height {facing[0].point.y} towards the other block; turn one of the two."
        )


def _joined(left: Block, right: Block, gap: int) -> Block:
    if left.pleat != right.pleat or gap % 2:
        raise ValueError("Blocks beside each other need pleats of one width and an even number between them.")
    if left.height != right.height:
        raise ValueError(
            f"Blocks beside each other must be of one height, not {left.height} and {right.height}."
        )
    if left.edge != right.edge:
        right = exchanged(right)
    left, right = (with_pleats_around(block, gap // 2) for block in (left, right))
    return check_block(_sharing(left, shifted(right, left.width, 0)))


def _sharing(left: Block, right: Block) -> Block:
    """Return the two as one block, the right one already in its place, their shared line drawn."""
    low, high = Point(left.width, 0), Point(left.width, left.height)
    outward = [hinge for hinge in left.leaving_hinges if hinge.direction != RIGHT]
    outward += [hinge for hinge in right.leaving_hinges if hinge.direction != LEFT]
    # at each end of the shared line two 45-degree ridges meet it: three creases, so a hinge joins them
    new = (LeavingHinge(low, DOWN, left.edge), LeavingHinge(high, UP, left.edge))
    return replace(
        left,
        width=left.width + right.width,
        lines=(*left.lines, *right.lines, Line(low, high, "pleat", left.edge)),
        leaving_hinges=(*outward, *new),
        outlines=left.outlines + right.outlines,
        look_alikes=left.look_alikes + right.look_alikes,
    )


def _point_in_words(pattern: CreasePattern, vertex: int) -> str:
    """Return a point in words, counted from the lower left corner of the block with a pleat around it."""
    x, y = pattern.vertices[vertex]
    return f"{x} across, {y} up"
