"""What a false mark is on, told to whoever made it: a hinge, a corner, a roof."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from drills.geometry import Point, move_between, moved
from drills.pattern import number_of, roles_in_words
from drills.questions.question import Drill
from drills.structures import look_alike_at, outlines

_PLACES = {
    "roof": "You marked a roof: no side is slanted.",
    "diamond": "You marked a 45-degree stretch: no side is slanted.",
    "tips": "You marked three flap tips joined by slanted lines: triangles, each with three ridges, "
    "and no parallelogram.",
    "band": "You marked a band of slanted ridges: they run on to the paper's edge and close no outline.",
    "twist": "You marked a twist: nothing runs inside its outline, and no ridge leaves its corners "
    "at 45 degrees on the bisector.",
    None: "You marked pleats: nothing is slanted there.",
}
"""What is said of a place by the look-alike it lies in."""
_SEVERAL = {
    "roof": "in a roof",
    "diamond": "in a 45-degree stretch",
    "tips": "among three flap tips",
    "band": "in a band of ridges",
    "twist": "in a twist",
    None: "on pleats only",
}
_NO_STRETCH = {
    "tips": "The slanted creases here join three flap tips: triangles, each with three ridges to its "
    "middle, and no parallelogram.",
    "band": "The slanted ridges here run on to the paper's edge in parallel and close no outline.",
    "twist": "The slanted creases here are a twist: pleats leave its corners, and nothing runs inside it.",
    None: "Every crease here runs along the grid or at 45 degrees, so nothing is slanted.",
}
"""Why a sheet has no slanted stretch, by what is slanted on it."""


def why_no_stretch(drill: Drill) -> str:
    """Return why there is no slanted stretch on a sheet, though something slanted may be."""
    kinds = [kind for kind, _ in drill.design.look_alikes()]
    return _NO_STRETCH[next((kind for kind in _NO_STRETCH if kind in kinds), None)]


def false_creases(drill: Drill, creases: frozenset[int], corners: frozenset[int] = frozenset()) -> str:
    """Return what creases taken for inside lines are; empty where there are none.

    With corners lines were asked of one outline, so that those of others are false too.
    """
    pattern = drill.pattern
    elsewhere = frozenset(crease for crease in creases if pattern.edges[crease].role == "inside")
    sides = frozenset(crease for crease in creases if pattern.edges[crease].role == "outline")
    others = creases - sides - (elsewhere if corners else frozenset())
    within = frozenset(crease for crease in others if _is_in_diamond(drill, crease))
    told = []
    if corners and elsewhere:
        told.append(f"You marked {number_of(len(elsewhere), 'inside line')} of another outline.")
    if outside := others - within:
        roles = roles_in_words(pattern.edges[crease].role for crease in outside)
        told.append(f"You marked {roles}; {'it stays' if len(outside) == 1 else 'they stay'} outside.")
    if sides:
        roles = roles_in_words("outline" for _ in sides)
        told.append(f"You marked {roles}; inside lines run between the sides.")
    if within:
        line = number_of(len(within), "line")
        told.append(f"You marked {line} of a 45-degree stretch, which has no slanted side.")
    return " ".join(told)


def _is_in_diamond(drill: Drill, crease: int) -> bool:
    start, end = drill.pattern.ends(crease)
    middle = moved(start, move_between(start, end), Fraction(1, 2))
    return look_alike_at(drill.design, middle) == "diamond"


def false_points(drill: Drill, vertices: frozenset[int]) -> str:
    """Return what points taken for turning points are; empty where there are none."""
    at_corners = {point for outline in outlines(drill.design) for point in outline}
    corners = [vertex for vertex in vertices if drill.pattern.vertices[vertex] in at_corners]
    on_sides = [vertex for vertex in vertices if vertex not in corners and _is_on_outline(drill, vertex)]
    others = len(vertices) - len(corners) - len(on_sides)
    told = []
    if corners:
        noun = "a corner" if len(corners) == 1 else f"{len(corners)} corners"
        told.append(f"You marked {noun}; corners are no turning points.")
    if on_sides:
        told.append(
            f"You marked {_points(len(on_sides))} of the outline where no pleat line meets an inside line."
        )
    if others:
        told.append(f"You marked {_points(others)} off the outline.")
    return " ".join(told)


def _is_on_outline(drill: Drill, vertex: int) -> bool:
    return any(drill.pattern.edges[edge].role == "outline" for edge in drill.pattern.around[vertex])


def _points(number: int) -> str:
    return "a point" if number == 1 else f"{number} points"


def false_places(drill: Drill, places: Iterable[Point]) -> str:
    """Return what places taken for a slanted stretch lie in; empty where there are none."""
    kinds = [look_alike_at(drill.design, place) for place in places]
    kinds = [kind if kind in _PLACES else None for kind in kinds]
    if len(set(kinds)) == 1:
        return _PLACES[kinds[0]]
    parts = [f"{kinds.count(kind)} {words}" for kind, words in _SEVERAL.items() if kind in kinds]
    return f"No stretch is at {len(kinds)} of your marks: {', '.join(parts)}." if parts else ""
