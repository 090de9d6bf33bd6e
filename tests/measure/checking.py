"""The whole process of `slantwise check`: time and peak memory on 10,000 and on 20,000 creases."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter

RUNS = 5
SIDES = (71, 100)
MOST_SECONDS, MOST_RATIO, MOST_MB = 1.0, 2.3, 150


def main() -> None:
    """Print the table: wall seconds of whole processes, medians, and the ratio for twice the creases."""
    print(f"check, {RUNS} runs          creases   seconds   peak MB")
    with TemporaryDirectory() as folder:
        for uncut in (False, True):
            seconds = [_measured(Path(folder), side, uncut) for side in SIDES]
            print(f"  twice the creases: {seconds[1] / seconds[0]:.2f} times as long (at most {MOST_RATIO})")
    print(f"  at most {MOST_SECONDS} s and {MOST_MB} MB for 10,000 creases")


def _measured(folder: Path, side: int, uncut: bool) -> float:
    path = folder / "sheet.fold"
    path.write_text(json.dumps(_full_lines(side) if uncut else _cut(side)))
    runs = [_run(path) for _ in range(RUNS)]
    seconds, memory = median(s for s, _ in runs), max(m for _, m in runs)
    name = "lines from edge to edge" if uncut else "cut at every point"
    print(f"{name:<26}{2 * side * (side - 1):7}{seconds:10.2f}{memory:10.0f}")
    return seconds


def _run(path: Path) -> tuple[float, float]:
    """Return wall seconds and peak memory in MB of one run."""
    start = perf_counter()
    command = [sys.executable, "-m", "trainer", "check", str(path), "--json"]
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, _, usage = os.wait4(process.pid, 0)
    process.returncode = 0
    scale = 2**20 if sys.platform == "darwin" else 2**10
    return perf_counter() - start, usage.ru_maxrss / scale


def _cut(side: int) -> dict[str, object]:
    """Return a labelled map of side x side squares, every crease between two points."""
    number = {(x, y): y * (side + 1) + x for y in range(side + 1) for x in range(side + 1)}
    edges, labels = [], []
    for x, y in number:
        for across, up in ((1, 0), (0, 1)):
            if (x + across, y + up) in number:
                on_edge = y in (0, side) if across else x in (0, side)
                edges.append([number[x, y], number[x + across, y + up]])
                labels.append("B" if on_edge else "MV"[y % 2] if across else "MV"[(x + y) % 2])
    return _fold(list(number), edges, labels)


def _full_lines(side: int) -> dict[str, object]:
    """Return the same lines uncut and without labels."""
    corners = [(0, 0), (side, 0), (side, side), (0, side)]
    points = [*corners]
    edges = [[0, 1], [1, 2], [2, 3], [3, 0]]
    for at in range(1, side):
        for start, end in (((0, at), (side, at)), ((at, 0), (at, side))):
            edges.append([len(points), len(points) + 1])
            points += [start, end]
    return _fold(points, edges, ["B"] * 4 + ["U"] * (len(edges) - 4))


def _fold(points: list[tuple[int, int]], edges: list[list[int]], labels: list[str]) -> dict[str, object]:
    return {
        "file_spec": 1.2,
        "vertices_coords": points,
        "edges_vertices": edges,
        "edges_assignment": labels,
    }


if __name__ == "__main__":
    main()
