"""Faces of a sheet by way of networkx: its planar embedding, neighbours in the order of their angles."""

from __future__ import annotations

from math import atan2

import networkx as nx  # type: ignore[import-untyped]

from tests.independent.sheet import Sheet

Cycle = tuple[int, ...]


def is_planar(sheet: Sheet) -> bool:
    """Whether networkx can draw the graph of the sheet without crossings, and the sheet is drawn so."""
    found, _ = nx.check_planarity(nx.Graph(list(sheet.edges)))
    embedded(sheet).check_structure()
    return bool(found)


def embedded(sheet: Sheet) -> nx.PlanarEmbedding:
    """Return the embedding in which the sheet is drawn."""
    beside: dict[int, list[int]] = {point: [] for point in range(len(sheet.points))}
    for start, end in sheet.edges:
        beside[start].append(end)
        beside[end].append(start)

    def angle(here: int, there: int) -> float:
        (x, y), (to_x, to_y) = sheet.points[here], sheet.points[there]
        return atan2(to_y - y, to_x - x)

    embedding = nx.PlanarEmbedding()
    # networkx takes the neighbours clockwise
    embedding.set_data(
        {here: sorted(found, key=lambda there: -angle(here, there)) for here, found in beside.items()}
    )
    return embedding


def faces_of(sheet: Sheet) -> tuple[Cycle, ...]:
    """Return the faces as cycles of points, counterclockwise, each from its smallest point on."""
    embedding, seen = embedded(sheet), set[tuple[int, int]]()
    cycles = [embedding.traverse_face(*way, seen)[::-1] for way in list(embedding.edges()) if way not in seen]
    return tuple(sorted(turned(cycle) for cycle in cycles if area(sheet, cycle) > 0))


def turned(cycle: list[int] | Cycle) -> Cycle:
    """Return the cycle from its smallest point on."""
    first = cycle.index(min(cycle))
    return (*cycle[first:], *cycle[:first])


def area(sheet: Sheet, cycle: list[int]) -> float:
    """Return the signed area of a cycle of points, positive where it runs counterclockwise."""
    places = [sheet.points[point] for point in cycle]
    pairs = zip(places, places[1:] + places[:1], strict=True)
    return float(sum(x * other_y - y * other_x for (x, y), (other_x, other_y) in pairs)) / 2
