"""How long a layer verdict takes, against the plain route: shapely, python-sat. Run with python -m.

And of large sheets, ours alone, each in a process of its own, whose peak memory is then its own.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from resource import RUSAGE_SELF, getrusage
from statistics import median
from time import perf_counter, process_time

from drills.flatfold import check_pattern, solve_layers
from drills.fold_file import to_fold
from drills.geometry import Chance
from drills.pattern import CreasePattern
from drills.structures import Stretch, compose, draw
from tests.independent.layers import does_fold, forget
from tests.independent.sheet import sheet_of

LARGE: dict[str, tuple[Callable[[], CreasePattern], float]] = {
    "labelled, 490": (lambda: draw(Stretch((6, 6), pleats=73)), 0.1),
    "labelled, 980": (lambda: draw(Stretch((10, 10), pleats=150)), 0.4),
    "labelled, 1,888": (lambda: draw(Stretch((14, 14), pleats=296)), 1.5),
    "bare, 236": (lambda: draw(compose(Chance("big 64"), 64, 20, 6)).unlabelled(), 1.5),
}
"""Sheets by what they are, and how many seconds of processor time they may take."""

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
    sys.stdout.write("\nlarge sheets       faces  verdict        seconds (at most)   peak MB\n")
    for name in LARGE:
        sys.stdout.flush()
        subprocess.run([sys.executable, "-m", "tests.measure.layers", name], check=True)


def large(name: str) -> None:
    """Print the row of a large sheet: faces, verdict, processor seconds from cold, peak memory in MB."""
    make, most = LARGE[name]
    drawn = make()
    forget_all()
    pattern = CreasePattern(drawn.vertices, drawn.edges)
    start = process_time()
    layers = check_pattern(pattern).layers
    seconds = process_time() - start
    peak = getrusage(RUSAGE_SELF).ru_maxrss / (2**20 if sys.platform == "darwin" else 2**10)
    faces = len(pattern.edges) - len(pattern.vertices) + 1
    verdict = {True: "folds", False: "does not fold", None: "left open"}[layers]
    sys.stdout.write(f"{name:<18}{faces:6}  {verdict:<14}{seconds:8.2f}{most:10}{peak:10.0f}\n")


if __name__ == "__main__":
    if sys.argv[1:]:
        large(sys.argv[1])
    else:
        main()
