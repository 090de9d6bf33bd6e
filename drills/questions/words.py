"""Steps and counts in words."""

from __future__ import annotations

from drills.exact.step import Step


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
