"""Places in words: counted in squares from the top left corner of the sheet."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from drills.geometry import Exact, Point, Step
from drills.pattern.crease_pattern import CreasePattern, Label, Role

ROLES: dict[Role, str] = {
    "outline": "outline side",
    "inside": "inside line",
    "ridge": "ridge",
    "pleat": "pleat line",
    "hinge": "hinge",
    "border": "paper's edge",
    "other": "crease",
}
LABELS: dict[Label, str] = {"M": "mountain", "V": "valley", "F": "flat", "U": "no label"}


def across_down(pattern: CreasePattern, point: Point) -> tuple[Exact, Exact]:
    """Return how far the point lies across and down from the top left corner."""
    left, _, _, top = pattern.box
    return point.x - left, top - point.y


def place(pattern: CreasePattern, point: Point) -> str:
    """Return the place of a point as it is written everywhere, across before down: "(3; 5 1/2)".

    Half of Europe reads a comma between numbers as a decimal sign, and "3 across 5 down" is a step.
    Without a grid it is where a person finds it: "about 0.293 of the way across, 0.5 down".
    """
    across, down = across_down(pattern, point)
    if pattern.has_grid:
        return f"({mixed(across)}; {mixed(down)})"
    left, bottom, right, top = pattern.box
    return f"about {_share(across, right - left)} of the way across, {_share(down, top - bottom)} down"


def _share(part: Exact, whole: Exact) -> str:
    return f"{float(Fraction(part) / whole):.3f}".rstrip("0").rstrip(".")


def place_of(pattern: CreasePattern, vertex: int) -> str:
    """Return the place of a vertex."""
    return place(pattern, pattern.vertices[vertex])


def mixed(number: Exact) -> str:
    """Return a number as it is said: 2, 1/2 or 2 1/2; the number must not be below 0."""
    whole, rest = divmod(Fraction(number), 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)


def times(number: int) -> str:
    """Return how often in words: once, twice, 3 times."""
    return {1: "once", 2: "twice"}.get(number, f"{number} times")


def step_in_words(step: Step, with_times: bool = False) -> str:
    """Return a step as it is read, as in "3 across 1 down", "1 across 2 up, twice"."""
    way = "down" if step.down > 0 else "up"
    repeated = f", {times(step.times)}" if with_times else ""
    return f"{abs(step.across)} across {abs(step.down)} {way}{repeated}"


def step_with_directions(step: Step) -> str:
    """Return a step with the way it goes across, as in "3 to the left, 1 down, twice"."""
    side = "right" if step.across > 0 else "left"
    way = "down" if step.down > 0 else "up"
    repeated = f", {times(step.times)}" if step.times > 1 else ""
    return f"{abs(step.across)} to the {side}, {abs(step.down)} {way}{repeated}"


def number_of(count: int, one: str, many: str = "") -> str:
    """Return a count with its noun: "1 label", "2 labels", "no labels"."""
    noun = one if count == 1 else many or f"{one}s"
    return f"{count or 'no'} {noun}"


def roles_in_words(roles: Iterable[Role]) -> str:
    """Return creases by their roles: "a hinge", "2 hinges and an outline side"."""
    given = list(roles)
    parts = [_some(given.count(role), name) for role, name in ROLES.items() if role in given]
    return f"{', '.join(parts[:-1])} and {parts[-1]}" if len(parts) > 1 else "".join(parts)


def _some(count: int, noun: str) -> str:
    if count > 1:
        return f"{count} {noun}s"
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"
