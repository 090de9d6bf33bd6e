"""Making blocks: from a slanted stretch of equal sides, a 45-degree roof, a 45-degree stretch."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TypeAlias

from drills.geometry import SYMMETRIES, Direction, Point, direction_of, move_between
from drills.pattern import OTHER_LABEL, CreasePattern, Edge, Line
from drills.structures.block import (
    LEFT,
    RIGHT,
    Block,
    LeavingHinge,
    above,
    beside,
    mirror_pair,
    quarter_turned,
    turned_block,
    with_pleats_around,
)
from drills.structures.diamond import Diamond, cut_field, diamond_lines
from drills.structures.roof import Roof, roof_lines
from drills.structures.stretch import Stretch, draw, outline
from drills.structures.triangle import label_of_rank


def block_of_stretch(stretch: Stretch) -> Block:
    """Return the block of a stretch without pleats around it; ValueError where its sides are unequal.

    The pleats round unequal sides spiral, so they never close into an edge.
    """
    if not stretch.is_equal:
        raise ValueError("Only a stretch of equal sides is a block; give both sides as many pleats.")
    bare = replace(stretch, pleats=0, crop=(0, 0, 0, 0))
    pattern = draw(bare)
    inside = [edge for edge in pattern.edges if edge.label != "B"]
    lines = tuple(Line(*_ends(pattern, edge), edge.role, edge.label) for edge in inside)
    s, a, t, b = outline(bare)
    _, _, width, height = pattern.box
    return Block(
        width,
        height,
        lines,
        tuple(_exit(pattern, edge) for edge in inside if edge.role == "hinge" and _leaves(pattern, edge)),
        bare.kind(0),
        ((s, a, t, b),),
        bare.pleat_widths[2],
    )


def block_of_roof(roof: Roof) -> Block:
    """Return the block of a roof."""
    exits = tuple(
        LeavingHinge(place, way, label_of_rank(1)) for place, way in zip(roof.exits, roof.ways, strict=True)
    )
    return Block(roof.width, roof.height, tuple(roof_lines(roof)), exits)


def block_of_diamond(diamond: Diamond, roof: Roof) -> Block:
    """Return a roof set upright with a diamond in its field of vertical pleat lines.

    The roof is given lying; a quarter turn sets it upright. ValueError where the diamond does not
    lie strictly between the ends of the ridge line, so that two hinges would meet.
    """
    if diamond.field != roof.height:
        raise ValueError(
            f"The field of the 45-degree stretch must be {roof.height} pleats wide, as its roof."
        )
    if (
        not roof.height // 2
        < diamond.y - diamond.half
        <= diamond.y + diamond.half
        < roof.width - roof.height // 2
    ):
        raise ValueError("The 45-degree stretch must lie between the ends of the ridge line.")
    frame = quarter_turned(block_of_roof(roof))
    return replace(
        frame,
        lines=(*_cut(frame, diamond), *diamond_lines(diamond)),
        exits=(*frame.exits, *_diamond_exits(diamond)),
    )


def _cut(frame: Block, diamond: Diamond) -> tuple[Line, ...]:
    """Return the frame's lines, the upright pleat lines in the diamond's rows cut open."""
    kept: list[Line] = []
    for line in frame.lines:
        low, high = sorted((line.start, line.end), key=lambda point: point.y)
        is_field = low.x == high.x and low.y < diamond.y - diamond.half and high.y > diamond.y + diamond.half
        kept += cut_field([line._replace(start=low, end=high)], diamond) if is_field else [line]
    return tuple(kept)


def _diamond_exits(diamond: Diamond) -> tuple[LeavingHinge, ...]:
    """Return where the diamond's hinges leave; those of its side corners are of the kind they come from."""
    places = {"left": (0, LEFT), "right": (diamond.field, RIGHT)}
    exits = []
    for row, side in diamond.rows:
        x, way = places[side]
        exits.append(LeavingHinge(Point(x, row), way, label_of_rank(0 if row == diamond.y else 1)))
    return tuple(exits)


def _ends(pattern: CreasePattern, edge: Edge) -> tuple[Point, Point]:
    return pattern.vertices[edge.start], pattern.vertices[edge.end]


def _leaves(pattern: CreasePattern, edge: Edge) -> bool:
    return not {edge.start, edge.end} <= set(pattern.interior)


def _exit(pattern: CreasePattern, edge: Edge) -> LeavingHinge:
    """Return where a hinge's last piece leaves; beyond the edge it alternates."""
    inner, outer = _ends(pattern, edge)
    if edge.end in pattern.interior:
        inner, outer = outer, inner
    way: Direction = direction_of(move_between(inner, outer))
    return LeavingHinge(outer, way, OTHER_LABEL[edge.label])


@dataclass(frozen=True)
class Framed:
    """A diamond in the field of an upright roof, which is given lying."""

    diamond: Diamond
    roof: Roof


@dataclass(frozen=True)
class Around:
    """A part with so many pleats around it."""

    part: BlockDesign
    pleats: int


@dataclass(frozen=True)
class Turned:
    """A part in one of SYMMETRIES, by index: 1 is a quarter turn counterclockwise, 4 the mirror image."""

    part: BlockDesign
    facing: int


@dataclass(frozen=True)
class Beside:
    """Two parts side by side with so many pleats between them."""

    left: BlockDesign
    right: BlockDesign
    gap: int = 0


@dataclass(frozen=True)
class Above:
    """Two parts one above the other with so many pleats between them."""

    lower: BlockDesign
    upper: BlockDesign
    gap: int = 0


@dataclass(frozen=True)
class Mirrored:
    """A part with its mirror image at its right and so many pleats between them."""

    part: BlockDesign
    gap: int = 0


BlockDesign: TypeAlias = Stretch | Roof | Framed | Around | Turned | Beside | Above | Mirrored


@lru_cache(maxsize=512)
def block_of(part: BlockDesign) -> Block:
    """Return the block that a description stands for; ValueError where parts do not go together."""
    match part:
        case Stretch():
            return block_of_stretch(part)
        case Roof():
            return block_of_roof(part)
        case Framed(diamond, roof):
            return block_of_diamond(diamond, roof)
        case Around(inner, pleats):
            return with_pleats_around(block_of(inner), pleats)
        case Turned(inner, facing):
            return turned_block(block_of(inner), SYMMETRIES[facing])
        case Beside(left, right, gap):
            return beside(block_of(left), block_of(right), gap)
        case Above(lower, upper, gap):
            return above(block_of(lower), block_of(upper), gap)
        case Mirrored(inner, gap):
            return mirror_pair(block_of(inner), gap)


def structures_in(part: BlockDesign) -> int:
    """Return how many stretches, roofs and 45-degree stretches a part has; a frame does not count."""
    match part:
        case Stretch() | Roof() | Framed():
            return 1
        case Around(inner, _) | Turned(inner, _):
            return structures_in(inner)
        case Mirrored(inner, _):
            return 2 * structures_in(inner)
        case Beside(first, second, _) | Above(first, second, _):
            return structures_in(first) + structures_in(second)
