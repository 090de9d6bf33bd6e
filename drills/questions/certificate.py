"""The certificate: every drill is checked by a second route before it is shown.

The second route knows nothing of ranks, roles or the way the drill was made: it looks at the
angles and labels at every point, at the layers of the folded sheet, and finds the answer again
from where the creases run.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from drills.flatfold import check_angles, failing, folds, is_settled_in_full
from drills.geometry import FACINGS, Direction, Move, Point, Step, cross, move_between
from drills.pattern import CreasePattern
from drills.questions.drill import Ask, Drill, Marks, Outlines
from drills.structures import Found, draw_figure, find_stretches, is_proven


def check_drill(drill: Drill) -> tuple[str, ...]:
    """Return what is wrong with a drill, one sentence a fault; empty where it may be shown."""
    truth = drill.truth
    faults = [
        *(f"The angles at vertex {vertex} do not fold flat." for vertex in check_angles(truth)),
        *(f"The labels at vertex {vertex} cannot fold." for vertex in failing(truth, truth.labels(), folds)),
    ]
    if not is_proven(drill.sheet) or drill.truth != draw_figure(drill.sheet):
        faults.append("The sheet is not proven to fold flat.")
    if not _ROUTES[drill.question.ask](drill):
        faults.append("The answer is not certain.")
    return tuple(faults)


def _step_is_walked(drill: Drill) -> bool:
    lit, step = drill.question.lit, drill.answer
    if lit is None or not isinstance(step, Step) or step.smallest() != step:
        return False
    ways: set[Direction] = set()
    here = lit.start
    for edge in lit.edges:
        ways.add(drill.truth.direction(edge, here))
        here = drill.truth.other_end(edge, here)
    arrives = step.end_from(drill.truth.vertices[lit.start]) == drill.truth.vertices[here]
    return here == lit.end and ways == {step.direction} and arrives


def _place_is_reached(drill: Drill) -> bool:
    start, step, end = drill.question.start, drill.question.step, drill.answer
    if start is None or step is None or not isinstance(end, Point):
        return False
    left, bottom, right, top = drill.pattern.box
    return step.end_from(start) == end and left <= end.x <= right and bottom <= end.y <= top


def _edges_are_certain(drill: Drill) -> bool:
    if not isinstance(drill.answer, Marks):
        return False
    if drill.shows_labels:
        return is_settled_in_full(drill.pattern, drill.answer.items)
    inside = (edge for found in find_stretches(drill.truth) for edge in found.inside)
    return drill.answer == Marks(frozenset(inside))


def _vertices_are_turning_points(drill: Drill) -> bool:
    turning = (vertex for found in find_stretches(drill.truth) for vertex in found.turning_points)
    return drill.answer == Marks(frozenset(turning))


def _join_is_the_only_one(drill: Drill) -> bool:
    """Whether one outline point alone lies from the start the way the inside lines run."""
    start = drill.question.start_vertex
    if start is None:
        return False
    found = [each for each in find_stretches(drill.truth) if start in each.turning_points]
    return len(found) == 1 and drill.answer == Marks(_aimed_at(drill.truth, found[0], start))


def _aimed_at(pattern: CreasePattern, found: Found, start: int) -> frozenset[int]:
    """Return the ends of a stretch's inside lines that lie the way these lines run from a point."""
    ends = {vertex for edge in found.inside for vertex in pattern.edges[edge][:2]} - {start}
    way = Move(*FACINGS[found.facing].of(Point(*found.triangle.inside)))
    here = pattern.vertices[start]
    return frozenset(v for v in ends if cross(way, move_between(here, pattern.vertices[v])) == 0)


def _structures_are_found(drill: Drill) -> bool:
    found = sorted((frozenset(each.outline) for each in find_stretches(drill.truth)), key=sorted)
    return drill.answer == Outlines(tuple(found))


_ROUTES: Mapping[Ask, Callable[[Drill], bool]] = {
    "step": _step_is_walked,
    "place": _place_is_reached,
    "edges": _edges_are_certain,
    "vertices": _vertices_are_turning_points,
    "join": _join_is_the_only_one,
    "structures": _structures_are_found,
}
