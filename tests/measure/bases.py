"""Whole bases: how they come out by the independent checker, and the search for prepared ones.

python -m tests.measure.bases [COUNT [FACES]]: so many bases, going round the styles, with a table;
those of up to so many faces go through the independent solver, which takes it seconds each.
python -m tests.measure.bases prepare WIDTH HEIGHT AXIS [KIND ...]: seeds of one style that fold.
"""

from __future__ import annotations

import json
import sys
from collections import defaultdict
from collections.abc import Iterator
from itertools import zip_longest
from statistics import median
from time import process_time
from typing import NamedTuple

from drills.flatfold import solve_layers
from drills.fold_file import to_fold
from drills.geometry import SYMMETRIES
from drills.pattern import CreasePattern, faces, turned
from drills.questions import certificate
from drills.structures import Base, draw, drawn_outlines
from drills.structures.bases import PREPARED, HingePaths, Plan, Style, drawn_on, plans_of
from tests.drills.flatfold.assorted import folds_anew
from tests.drills.questions.plain_sheet import PlainSheet
from tests.drills.questions.slow_repairs import angles_fold, layering, passes
from tests.independent.layers import forget

MOST_FACES = 250
"""Prepared bases have up to so many faces, and as many may go through the independent solver."""
HINGES, SEEDS, WANTED, LAYER_TRIES = 4, 2000, 16, 400


class Row(NamedTuple):
    """One base: its size, faces, hinges that close, time to draw and prove it, and what was found."""

    squares: int
    has_axis: bool
    faces: int
    seconds: float
    angles: bool
    labels: bool
    layers: bool | None
    stretches: bool


def main(count: int, most_faces: int) -> None:
    """Print the table of so many bases, largest last."""
    rows = [measured(base, most_faces) for base in list(going_round())[:count]]
    by_size = defaultdict(list)
    for row in rows:
        by_size[row.squares].append(row)
    print("squares  bases  axis  faces (most)  angles  labels  layers  stretches  median s  most s")
    for squares, those in sorted(by_size.items()):
        solved = [row.layers for row in those if row.layers is not None]
        times = [row.seconds for row in those]
        print(
            f"{squares:7}{len(those):7}{sum(row.has_axis for row in those):6}"
            f"{median(row.faces for row in those):7.0f} ({max(row.faces for row in those):4})"
            f"{sum(row.angles for row in those):8}{sum(row.labels for row in those):8}"
            f"{sum(solved):5}/{len(solved)}{sum(row.stretches for row in those):9}"
            f"{median(times):12.2f}{max(times):8.2f}",
            flush=True,
        )


def going_round() -> Iterator[Base]:
    """Yield the first base of every style, then the second ones, and so on."""
    for plans in zip_longest(*map(plans_of, PREPARED)):
        yield from (Base(plan) for plan in plans if plan)


def measured(base: Base, most_faces: int) -> Row:
    """Return what another hand finds on a base, and how long it took to draw and to prove."""
    start = process_time()
    pattern = draw(base)
    assert certificate._fold_faults(pattern) == ()
    seconds = process_time() - start
    line = {"pattern": to_fold(pattern), "question": {}, "answer": {}}
    sheet = PlainSheet(json.dumps(line))
    number = len(sheet.faces)
    layers = folds_anew(pattern) if number <= most_faces else None
    forget()
    found = {each.outline for each in sheet.stretches}
    return Row(
        base.plan.width,
        base.plan.has_axis,
        number,
        seconds,
        all(angles_fold(sheet, vertex) for vertex in sheet.inner),
        passes(sheet, sheet.labels, layering),
        layers,
        found == set(drawn_outlines(base)) and len(found) == len(base.outlines()),
    )


def prepare(style: Style) -> None:
    """Print a row of the prepared bases: seeds, with the number of the hinges, that fold."""
    found: dict[CreasePattern, str] = {}
    for seed in range(SEEDS):
        if (layout := Plan(*style, seed).layout()) is None:
            continue
        paths = HingePaths(layout)
        for hinges in range(HINGES):
            drawn = drawn_on(Plan(*style, seed, hinges), paths)
            if drawn and is_fit(drawn.pattern, drawn.rank_zero):
                found.setdefault(figure(drawn.pattern), f"{seed}/{hinges}" if hinges else str(seed))
                break
        if len(found) == WANTED:
            break
    print(f"{style}: {' '.join(found.values())}")


def is_fit(pattern: CreasePattern, rank_zero: frozenset[int]) -> bool:
    """Whether a base is small enough, half of rank 0 is labelled by it, and its layers are soon found."""
    own = [pattern.edges[edge].label == "M" for edge in rank_zero]
    is_small = len(faces(pattern)) <= MOST_FACES
    return is_small and 2 * sum(own) >= len(own) and solve_layers(pattern, LAYER_TRIES).folds is True


def figure(pattern: CreasePattern) -> CreasePattern:
    """Return one of the eight turned patterns, the same one whichever way it is drawn."""
    alike = (turned(pattern.unlabelled(), symmetry) for symmetry in SYMMETRIES)
    return min(alike, key=lambda each: (each.vertices, each.edges))


if __name__ == "__main__":
    if sys.argv[1:2] == ["prepare"]:
        width, height, axis, *kinds = sys.argv[2:]
        prepare(Style(int(width), int(height), tuple(kinds), axis == "axis"))
    else:
        count, faces_solved, *_ = (*map(int, sys.argv[1:]), *(500, MOST_FACES)[len(sys.argv) - 1 :])
        main(count, faces_solved)
