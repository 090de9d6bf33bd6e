"""The part of a board that stays while the cursor moves: grid, paper, creases and their letters."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain, islice, repeat
from typing import Literal, TypeAlias

from drills.pattern import CreasePattern, Edge
from trainer.board.palette import PLAIN_STYLES, Ink, Style
from trainer.board.raster import Dot, Masks, dashed, doubled, line_dots, masks_of, ticked
from trainer.board.scale import Scale


@dataclass(frozen=True)
class StaticLayer:
    """What stays of a board, cell by cell, row by row from the top left.

    ``edges`` has the cells of each edge, in order from its start, none where it is hidden;
    ``drawn`` are the dots of all edges, ``grid`` those of the crossings; ``letters`` are the
    cells that hold an M or a V; ``keep`` are the cells of points, which no letter may cover.
    """

    scale: Scale
    edges: tuple[Masks, ...]
    drawn: tuple[int, ...]
    grid: tuple[int, ...]
    styles: tuple[Style, ...]
    letters: Mapping[int, str]
    keep: frozenset[int]


@lru_cache(maxsize=64)
def layer_of(
    pattern: CreasePattern, scale: Scale, labels: bool, hidden: frozenset[int], doubles: bool = True
) -> StaticLayer:
    """Return the pattern drawn at this scale, with or without its labels, the hidden edges left out.

    Labelled mountains are drawn as ``doubles`` and valleys plain, or mountains plain and valleys dashed.
    """
    crossings = frozenset(map(scale.dot, scale.crossings() if pattern.has_grid else ()))
    masks = tuple(
        {}
        if index in hidden
        else _edge_masks(pattern, scale, edge, _stroke(edge, labels, doubles), crossings)
        for index, edge in enumerate(pattern.edges)
    )
    drawn = _together(masks, scale)
    keep = _cells_of_points(pattern, scale)
    return StaticLayer(
        scale,
        masks,
        drawn,
        _together([masks_of(crossings, scale.columns, scale.rows)], scale),
        _styles(pattern, masks, drawn, labels),
        _letters(pattern, masks, scale.columns, keep) if labels else {},
        keep,
    )


def middle_first(masks: Masks) -> list[int]:
    """Return the cells of an edge, those nearest to its middle first."""
    cells = list(masks)
    middle = (len(cells) - 1) / 2
    return [cells[i] for i in sorted(range(len(cells)), key=lambda i: abs(i - middle))]


def ink_of(edge: Edge, labels: bool) -> Ink:
    """Return the ink of an edge on a board with or without labels."""
    if edge.label == "B":
        return Ink.PAPER
    return {"M": Ink.MOUNTAIN, "V": Ink.VALLEY}.get(edge.label, Ink.CREASE) if labels else Ink.CREASE


Stroke: TypeAlias = Literal["plain", "double", "dashed", "ticked"]


def _stroke(edge: Edge, labels: bool, doubles: bool) -> Stroke:
    """Return how an edge is drawn: what tells mountain from valley is more than colour and letter."""
    if edge.label == "B":
        return "ticked"
    if labels and edge.label == "M" and doubles:
        return "double"
    return "dashed" if labels and edge.label == "V" and not doubles else "plain"


def _edge_masks(
    pattern: CreasePattern, scale: Scale, edge: Edge, stroke: Stroke, crossings: frozenset[Dot]
) -> Masks:
    """Return the cells an edge runs through, in order; the gaps of a dashed one are cells of it too.

    Dashes and gaps are those of the whole edge, whatever part of it the window shows.
    """
    start, end = scale.dot(pattern.vertices[edge.start]), scale.dot(pattern.vertices[edge.end])
    if not scale.may_show(start, end):
        return {}
    line = line_dots(start, end)
    if stroke == "ticked":
        line = ticked(line, crossings)
    elif stroke == "double":
        line = doubled(line)
    solid = masks_of(line, scale.columns, scale.rows)
    if stroke != "dashed":
        return solid
    dashes = masks_of(dashed(line), scale.columns, scale.rows)
    return {cell: dashes.get(cell, 0) for cell in solid}


def _together(many: Sequence[Masks], scale: Scale) -> tuple[int, ...]:
    dots = [0] * (scale.columns * scale.rows)
    for masks in many:
        for cell, mask in masks.items():
            dots[cell] |= mask
    return tuple(dots)


def _cells_of_points(pattern: CreasePattern, scale: Scale) -> frozenset[int]:
    cells = (scale.cell(point) for point in pattern.vertices if scale.shows(point))
    return frozenset(cell.row * scale.columns + cell.column for cell in cells)


def _styles(
    pattern: CreasePattern, masks: Sequence[Masks], drawn: Sequence[int], labels: bool
) -> tuple[Style, ...]:
    """Return each cell's style: the kind of crease with most dots in the cell."""
    counts: dict[int, Counter[Ink]] = {}
    for edge, cells in zip(pattern.edges, masks, strict=True):
        ink = ink_of(edge, labels)
        for cell, mask in cells.items():
            counts.setdefault(cell, Counter())[ink] += mask.bit_count()
    grid = PLAIN_STYLES[Ink.GRID]
    return tuple(
        PLAIN_STYLES[counts[cell].most_common(1)[0][0]] if mask else grid for cell, mask in enumerate(drawn)
    )


def _letters(
    pattern: CreasePattern, masks: Sequence[Masks], columns: int, keep: frozenset[int]
) -> dict[int, str]:
    """Return the cells of letters: only where it is plain whose they are, nearest to the middle.

    There no other crease runs beside the letter and no letter is near; its own crease is seen before and
    after it. A crease along the grid that is too short for that may have it right between its points.
    """
    letters: dict[int, str] = {}
    crowd = Counter(chain.from_iterable(masks))
    edges = sorted(range(len(masks)), key=lambda index: len(masks[index]))
    along_grid = [index for index in edges if 0 in pattern.direction(index, pattern.edges[index].start)]
    for index, is_short in chain(zip(edges, repeat(False)), zip(along_grid, repeat(True))):
        mask, label = masks[index], pattern.edges[index].label
        if label in ("M", "V") and not letters.keys() & mask.keys():
            plain = (
                cell
                for last, cell, following in _triples(mask)
                if not keep & ({cell} if is_short else {last, cell, following})
                and all(crowd[own] == 1 or (is_short and own in keep) for own in (last, cell, following))
                and all(crowd[side] <= (side in mask) for side in (cell - 1, cell + 1))
                and not letters.keys() & _around(cell, columns)
            )
            letters.update((cell, label) for cell in islice(plain, 1))
    return letters


def _triples(masks: Masks) -> Iterator[tuple[int, int, int]]:
    """Yield each cell of an edge between the ones before and after it, those nearest to the middle first."""
    cells = list(masks)
    middle = (len(cells) - 1) / 2
    for place in sorted(range(1, len(cells) - 1), key=lambda place: abs(place - middle)):
        yield cells[place - 1], cells[place], cells[place + 1]


def _around(cell: int, columns: int) -> set[int]:
    """Return the cells in which another letter would be too near: two columns and one row away."""
    return {cell + across + down * columns for across in range(-2, 3) for down in (-1, 0, 1)}
