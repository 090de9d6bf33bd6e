"""How long a layer verdict takes, against the plain route: shapely, python-sat. Run with python -m."""

from __future__ import annotations

import sys
from collections.abc import Callable
from statistics import median
from time import perf_counter

from drills.flatfold import solve_layers
from drills.fold_file import to_fold
from drills.pattern import CreasePattern
from drills.structures import Stretch, draw
from tests.independent.layers import does_fold, forget
from tests.independent.sheet import sheet_of

UNITS_AND_PLEATS = ((1, 1), (1, 2), (1, 3), (2, 3), (3, 3), (3, 6), (3, 9), (3, 13), (3, 17))
TIMES = 3


def forget_all() -> None:
    """Empty every cache of both routes."""
    forget()
    for name, module in list(sys.modules.items()):
        if name.startswith("drills."):
            for value in vars(module).values():
                if hasattr(value, "cache_clear"):
                    value.cache_clear()


def milliseconds(work: Callable[[], object]) -> float:
    """Return how long some work takes from cold."""
    forget_all()
    start = perf_counter()
    found = work()
    took = 1000 * (perf_counter() - start)
    if found is not True:
        raise RuntimeError("a sheet that folds was found not to")
    return took


def row(pattern: CreasePattern) -> tuple[int, float, float]:
    """Return faces, and the medians of ours and of the plain route, in milliseconds, taken in turn."""
    sheet = sheet_of(to_fold(pattern))
    ours, other = [], []
    for _ in range(TIMES):
        # a pattern made anew remembers nothing
        fresh = CreasePattern(pattern.vertices, pattern.edges)
        ours.append(milliseconds(lambda fresh=fresh: solve_layers(fresh).folds))  # type: ignore[misc]
        other.append(milliseconds(lambda: does_fold(sheet)))
    return len(pattern.edges) - len(pattern.vertices) + 1, median(ours), median(other)


def main() -> None:
    """Print a table of the sheets, smallest first."""
    row(draw(Stretch((1, 1))))  # what only the first sheet takes is not counted
    sys.stdout.write(f"{'faces':>5} {'ours ms':>9} {'plain ms':>9} {'ratio':>6}\n")
    for units, pleats in UNITS_AND_PLEATS:
        faces, ours, other = row(draw(Stretch((units, units), pleats=pleats)))
        sys.stdout.write(f"{faces:5} {ours:9.1f} {other:9.1f} {other / ours:6.1f}\n")


if __name__ == "__main__":
    main()
