"""Fifty FOLD files made to be slow: `check` on each, its processor time and its peak memory."""

from __future__ import annotations

import json
import random
import subprocess
import sys
from collections.abc import Iterable, Iterator, Sequence
from itertools import product
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final, NamedTuple

from drills.fold_file import MOST_MIB, to_fold
from drills.questions import make, read_code

MOST_SECONDS: Final = 2.5
MOST_MB: Final = 300
SIZE: Final = 1_000_000

Place = tuple[float, float]
Row = tuple[Place, Place, str]
CORNERS: Final = [(0, 0), (SIZE, 0), (SIZE, SIZE), (0, SIZE)]


class Slow(NamedTuple):
    """How `check` fared on a file: its exit status, user seconds and peak MB."""

    name: str
    status: int
    seconds: float
    megabytes: float

    @property
    def is_within(self) -> bool:
        """Whether it ended in a verdict or a sentence, in time and in memory."""
        return self.status in (0, 1, 2) and self.seconds <= MOST_SECONDS and self.megabytes <= MOST_MB


def measured() -> Iterator[Slow]:
    """Yield how `check` fares on each file, in a process of its own."""
    with TemporaryDirectory() as folder:
        # made elsewhere: a child's peak memory counts what its parent had when it was begun
        made = [sys.executable, "-m", "tests.hardness.slow_files", folder]
        for name in subprocess.run(made, capture_output=True, text=True, check=True).stdout.splitlines():
            yield _measured(name, Path(folder) / _file_name(name))


def _file_name(name: str) -> str:
    return "".join(sign for sign in name if sign.isalnum()) + ".fold"


MEASURE: Final = """
import resource, subprocess, sys
ended = subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(-99 if b"Traceback" in ended.stderr else ended.returncode, used.ru_utime, used.ru_maxrss)
"""


def _measured(name: str, path: Path) -> Slow:
    command = [sys.executable, "-c", MEASURE, sys.executable, "-m", "trainer", "check", str(path)]
    status, seconds, most = subprocess.run(command, capture_output=True, text=True, check=True).stdout.split()
    scale = 2**20 if sys.platform == "darwin" else 2**10
    return Slow(name, int(status), float(seconds), int(most) / scale)


def files() -> Iterator[tuple[str, bytes]]:
    """Yield the files by name."""
    yield from _texts()
    for name, rows in _drawings():
        yield name, drawn(rows)
    yield from _joined()
    for code in ("labels-7-1", "find-7-2"):
        fold = to_fold(make(read_code(code)).truth)
        fold["edges_assignment"] = ["B" if role == "border" else "U" for role in _roles(fold)]
        yield f"{code}, no labels", json.dumps(fold).encode()


def _roles(fold: dict[str, object]) -> Sequence[str]:
    roles = fold["slantwise:edges_role"]
    return roles if isinstance(roles, list) else []


def drawn(rows: Iterable[Row]) -> bytes:
    """Return lines in a square sheet as a file, each with two points of its own."""
    edge = [(one, two, "B") for one, two in zip(CORNERS, CORNERS[1:] + CORNERS[:1], strict=True)]
    lines = [*edge, *rows]
    return fold_of(
        [place for one, two, _ in lines for place in (one, two)],
        [(2 * line, 2 * line + 1) for line in range(len(lines))],
        [label for *_, label in lines],
    )


def fold_of(points: Sequence[Place], edges: Sequence[tuple[int, int]], labels: Sequence[str]) -> bytes:
    """Return a FOLD file."""
    return json.dumps(
        {"file_spec": 1.2, "vertices_coords": points, "edges_vertices": edges, "edges_assignment": labels}
    ).encode()


def _texts() -> Iterator[tuple[str, bytes]]:
    """Yield files that are slow to parse: as large as may be, of whatever is dear in memory."""
    whole = (MOST_MIB << 20) - 100
    for piece in (
        b"[],",
        b'{"a":0},',
        b"1.5,",
        b'"ab",',
        b"300,",
        b"[[1]],",
        b" ",
        b"[" * 30 + b"]" * 30 + b",",
    ):
        yield f"{MOST_MIB} MiB of {piece[:12].decode()}", b'{"a":[' + piece * (whole // len(piece)) + b"0]}"
    for piece in (b"1.501,", b'{"a":1.5},'):
        values = 1_990_000 if piece[:1] == b"1" else 790_000
        yield f"{values:,} times {piece.decode()}", b'{"a":[' + piece * values + b"0]}"
    yield "one text of 16 MiB", b'{"a":"' + b"\\u0041" * (whole // 6) + b'"}'
    yield "as many keys as fit", b"{" + b",".join(b'"%d":0' % key for key in range(1_400_000)) + b"}"


def _drawings() -> Iterator[tuple[str, Iterable[Row]]]:
    """Yield lines that cross, touch, lie on each other or crowd one place."""
    chance = random.Random(1)
    yield from _long_lines(chance)
    yield from _crowded(chance)
    for across in (12, 40, 120):
        yield from _grids(SIZE / across, across)


def _long_lines(chance: random.Random) -> Iterator[tuple[str, Iterable[Row]]]:
    def anywhere() -> Place:
        return chance.randrange(1, SIZE), chance.randrange(1, SIZE)

    for number in (400, 2_000, 14_000, 29_000):
        yield f"{number:,} lines across", [(anywhere(), anywhere(), "U") for _ in range(number)]
    for number in (2_000, 8_000, 29_000):
        middle = (SIZE // 2, SIZE // 2)
        yield f"{number:,} lines from the middle", [(middle, anywhere(), "U") for _ in range(number)]
    for number in (5_000, 29_000):
        yield f"{number:,} lines from a corner", [((0, 0), anywhere(), "U") for _ in range(number)]
        heights = range(SIZE // number, SIZE - 1, SIZE // number)
        yield f"{number:,} lines side by side", [((0, y), (SIZE, y), "U") for y in heights]
    for number in (600, 28_000):
        yield f"{number:,} lines on one line", [((at, 7), (SIZE - at, 7), "M") for at in range(1, number)]
    ends = [(_long(chance), _long(chance), _long(chance), _long(chance)) for _ in range(29_000)]
    yield "long decimals", [((x, y), (to_x, to_y), "U") for x, y, to_x, to_y in ends]


def _crowded(chance: random.Random) -> Iterator[tuple[str, Iterable[Row]]]:
    yield "lines end to end in one cell", [((at, 7), (at + 1, 7), "M") for at in range(1, 28_000)]
    strip = [((3, 7 * at + 3), (SIZE - 3, 7 * at + 3), "U") for at in range(370)]
    yield "370 lines in one strip", strip
    heights = [5.017 * at + 3 for at in range(1_100)]
    yield "1,100 lines in one cell", [((3.137 * (y % 7 + 1), y), (900.123, y), "U") for y in heights]
    for reach in (40, 3_000):
        near = [(x, y, "U") for x, y in _short(chance, reach)]
        yield f"{len(near):,} short lines of {reach}", near
    near = [((x, 500_001 + x % 3), (x, 900_000), "U") for x in range(40, SIZE, 50)]
    yield "points near a line", [((0, 500_000), (SIZE, 500_000), "U"), *near]
    yield "decimals near a grid", [((x + 1e-4, y + 1e-4), (x + 976, y + 1e-4), "M") for x, y in _grid(150)]


def _grids(step: float, across: int) -> Iterator[tuple[str, Iterable[Row]]]:
    rows: list[Row] = [((0, at * step), (SIZE, at * step), "U") for at in range(1, across)]
    rows += [((at * step, 0), (at * step, SIZE), "U") for at in range(1, across)]
    yield f"a plain grid of {across}", rows
    slants: list[Row] = [((at * step, 0), (SIZE, SIZE - at * step), "UM"[at % 2]) for at in range(across)]
    slants += [((0, at * step), (SIZE - at * step, SIZE), "UM"[at % 2]) for at in range(1, across)]
    yield f"a grid of {across} with slants", [*rows, *slants]


def _short(chance: random.Random, reach: int) -> Iterator[tuple[Place, Place]]:
    for _ in range(29_000):
        x, y = chance.randrange(reach, SIZE // 20), chance.randrange(reach, SIZE // 20)
        yield (x, y), (x + chance.randrange(1, reach), y + chance.randrange(1, reach))


def _long(chance: random.Random) -> float:
    return chance.random() * SIZE


def _grid(across: int) -> Iterator[Place]:
    step = SIZE // 1024
    yield from ((x * step, y * step) for x, y in product(range(1, across), repeat=2))


def _joined() -> Iterator[tuple[str, bytes]]:
    """Yield creases that share their points, at one point or around the paper's edge."""
    for number in (198, 500, 2_000, 10_000, 59_000):
        ring = list(_ring(number))
        edge = [(at + 1, (at + 1) % number + 1) for at in range(number)]
        spokes = [(0, at + 1) for at in range(number)]
        labels = ["B"] * number + ["U"] * number
        yield f"{number:,} creases at one point", fold_of([(0, 0), *ring], edge + spokes, labels)
    ring = list(_ring(59_000))
    yield (
        "an edge of 59,000 lines",
        fold_of(ring, [(at, (at + 1) % 59_000) for at in range(59_000)], ["B"] * 59_000),
    )
    yield (
        "100,000 creases at one point",
        fold_of([(0, 0), *_ring(100_000)], [(0, at + 1) for at in range(100_000)], ["U"] * 100_000),
    )
    yield "1,000,000 vertices", fold_of([(x, y) for x, y in product(range(1000), repeat=2)], [(0, 1)], ["B"])
    yield (
        "150,000 times one line",
        fold_of(
            [*CORNERS, (5, 0), (5, SIZE)],
            [(0, 1), (1, 2), (2, 3), (3, 0)] + [(4, 5)] * 149_990,
            ["B"] * 4 + ["M"] * 149_990,
        ),
    )


def _ring(number: int) -> Iterator[Place]:
    """Yield points around a square, counterclockwise, the corners among them."""
    for at in range(number):
        side, along = divmod(4 * at / number, 1)
        way = round(2 * along * SIZE) - SIZE
        yield [(way, -SIZE), (SIZE, way), (-way, SIZE), (-SIZE, -way)][int(side)]


def main(folder: Path) -> None:
    """Write the files into a folder and tell their names."""
    for name, text in files():
        (folder / _file_name(name)).write_bytes(text)
        sys.stdout.write(f"{name}\n")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
