"""What is missing on a sheet, in words: lines inside slanted stretches, and other creases by their ways."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import reduce
from itertools import pairwise

from drills.flatfold import Missing, Way, completed
from drills.geometry import Point, direction_of, is_whole, move_between, on_segment, opposite, step_between
from drills.pattern import CreasePattern, number_of, place, step_with_directions, straight_runs_among
from drills.structures import Found, find_stretches

_STRAIGHT = {(0, -1): "down", (0, 1): "up", (1, 0): "right", (-1, 0): "left"}


def stretches_in_text(pattern: CreasePattern, missing: Sequence[Missing]) -> Iterator[str]:
    """Yield a line for each slanted stretch, also where creases of it are missing, then the other creases.

    Where there are several ways for a crease, the first counts for what the stretches are.
    """
    whole = with_missing(pattern, missing)
    told: set[Way] = set()
    for found in find_stretches(whole):
        lines = [
            (whole.vertices[run.vertices[0]], whole.vertices[run.vertices[-1]])
            for run in straight_runs_among(whole, found.inside)
        ]
        ways = [gap.ways[0] for gap in missing if any(lies_on(gap.ways[0], line) for line in lines)]
        told.update(ways)
        yield _stretch_in_part(whole, found, len(lines), ways) if ways else _stretch(whole, found)
    yield from (missing_in_words(pattern, gap) for gap in missing if gap.ways[0] not in told)


def with_missing(pattern: CreasePattern, missing: Sequence[Missing]) -> CreasePattern:
    """Return the pattern with each missing crease drawn, the first of its ways."""
    return reduce(completed, (gap.ways[0] for gap in missing), pattern)


def lies_on(way: Way, line: tuple[Point, Point]) -> bool:
    """Whether a line lies on one straight piece of a way."""
    return any(all(on_segment(end, *piece) for end in line) for piece in pairwise(way.points))


def missing_in_words(pattern: CreasePattern, gap: Missing) -> str:
    """Return a missing crease in words, by a point that cannot do without it and the ways it may run."""
    start = _start(pattern, gap)
    if start is None:
        (first, *_, last), *others = (way.points for way in gap.ways)
        further = f", or at {number_of(len(others), 'other place')}" if others else ""
        return f"A crease is missing from {place(pattern, first)} to {place(pattern, last)}{further}."
    vertex = pattern.vertices.index(start)
    lines = sorted(way.points if way.points[0] == start else way.points[::-1] for way in gap.ways)
    kinds = {_kind(pattern, vertex, line) for line in lines}
    kind = kinds.pop() if len(kinds) == 1 else "crease"
    meet = number_of(len(pattern.around[vertex]), "crease")
    ways = " or ".join(_way(pattern, line) for line in lines)
    verb = "ends" if len(pattern.around[vertex]) == 1 else "meet"
    return f"At {place(pattern, start)} {meet} {verb}; a {kind} is missing, {ways}."


def _start(pattern: CreasePattern, gap: Missing) -> Point | None:
    """Return a failing point at an end of each way, the one with most ways out of it to be told."""
    first, *others = gap.ways
    for end in (first.points[0], first.points[-1]):
        if end in first.mends and all(end in (way.points[0], way.points[-1]) for way in others):
            return end
    return None


def _kind(pattern: CreasePattern, vertex: int, line: Sequence[Point]) -> str:
    """Return what a crease is called by how it leaves a point."""
    dx, dy = direction_of(move_between(line[0], line[1]))
    if abs(dx) == abs(dy):
        return "ridge"
    if dx and dy:
        return "crease"
    # a pleat line ends on a ridge or outline that runs straight on, a hinge leaves a corner
    ahead = pattern.leaving[vertex]
    return "pleat line" if any(opposite(way) in ahead for way in ahead) else "hinge"


def _way(pattern: CreasePattern, line: Sequence[Point]) -> str:
    """Return the way of a crease: in which direction it leaves, where it bends, where it ends."""
    dx, dy = direction_of(move_between(line[0], line[1]))
    slanted = f"{'down' if dy < 0 else 'up'} and {'left' if dx < 0 else 'right'}"
    leaves = _STRAIGHT.get((dx, dy), slanted)
    *bends, end = (place(pattern, point) for point in line[1:])
    through = f" by {', '.join(bends)}" if bends else ""
    return f"{leaves}{through} to {end}"


def _stretch(pattern: CreasePattern, found: Found) -> str:
    """Return a slanted stretch in words: its triangle, its sides from a far corner, its inside lines."""
    lines = number_of(len(found.inside), "inside line")
    name = f"Slanted stretch of the triangle {found.triangle.name}"
    start, a, _, b = found.corners
    if start is None or a is None or b is None or not all(map(is_whole, (start, a, b))):
        return f"{name}, cut by the paper's edge or between squares: {lines}."
    sides = " and ".join(step_with_directions(step_between(start, end)) for end in (a, b))
    return f"{name}, from {place(pattern, start)}: sides {sides}; {lines}."


def _stretch_in_part(pattern: CreasePattern, found: Found, lines: int, ways: Sequence[Way]) -> str:
    """Return a slanted stretch of which inside lines are missing, with these lines."""
    start, _, far, _ = found.corners
    name = f"Slanted stretch of the triangle {found.triangle.name}"
    if start is None or far is None:
        name = f"{name}, cut by the paper's edge"
    else:
        name = f"{name}, {place(pattern, start)} to {place(pattern, far)}"
    belong = "1 inside line belongs" if lines == 1 else f"{lines} inside lines belong"
    drawn = lines - len(ways)
    are = f"{drawn or 'none'} {'is' if drawn < 2 else 'are'} drawn"
    ends = (sorted((way.points[0], way.points[-1])) for way in ways)
    gone = ", ".join(f"{place(pattern, one)} to {place(pattern, two)}" for one, two in ends)
    return f"{name}: {belong} here, {are}; missing: {gone}."
