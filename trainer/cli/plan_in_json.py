"""The precreasing plan as JSON values, vertices and edges by their numbers in the file or the drill."""

from __future__ import annotations

from collections.abc import Container, Sequence

from drills.exact.plane import Exact
from drills.plan.stretch_plan import Crease, Dot, StretchPlan, Way
from trainer.cli.pattern_given import Given
from trainer.cli.plan_in_text import CAUTION


def plan_to_json(plans: Sequence[StretchPlan], given: Given, found: Container[int]) -> dict[str, object]:
    """Return a sheet's plan as JSON values; numbers that are not whole are fractions in text.

    ``found`` are the edges whose labels were not given but found.
    """
    planned = {edge for each in plans for crease in each.creases for edge in crease.edges}
    return {
        "stretches": [_stretch(each, given) for each in plans],
        "found": sorted(given.edges[edge] for edge in planned if edge in found),
        "caution": " ".join(CAUTION),
        "pieces": {str(piece): whole for piece, whole in given.pieces.items()},
        "notices": list(given.notices),
    }


def _stretch(planned: StretchPlan, given: Given) -> dict[str, object]:
    corners = planned.corners
    return {
        "triangle": planned.triangle.name,
        "corners": [None if corner is None else given.vertices[corner] for corner in corners],
        "sides": [None if side is None else _way(side) for side in planned.sides],
        "equal": planned.is_equal,
        "dots": [_dot(dot, given) for dot in planned.dots],
        "outline": [_crease(crease, given) for crease in planned.outline],
        "inside": [_crease(crease, given) for crease in planned.inside],
        "middle": planned.has_middle,
    }


def _dot(dot: Dot, given: Given) -> dict[str, object]:
    return {
        "vertex": given.vertices[dot.vertex],
        "kind": dot.kind,
        "at": [_number(dot.across), _number(dot.down)],
        "grid": dot.grid,
    }


def _crease(crease: Crease, given: Given) -> dict[str, object]:
    return {
        "from": given.vertices[crease.vertices[0]],
        "to": given.vertices[crease.vertices[-1]],
        **_way(crease.way),
        "edges": [given.edges[edge] for edge in crease.edges],
        "labels": list(crease.labels),
    }


def _way(way: Way) -> dict[str, object]:
    return {"across": way.across, "down": way.down, "times": _number(way.times)}


def _number(number: Exact) -> int | str:
    return int(number) if number.denominator == 1 else str(number)
