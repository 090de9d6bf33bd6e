"""Composing what is asked for: the kinds needed and allowed, other triangles, small sheets."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import product

import pytest

from drills.flatfold import solve_layers
from drills.geometry import Chance
from drills.structures import (
    TRIANGLE_345,
    TRIANGLES,
    Around,
    Beside,
    BlockDesign,
    Framed,
    Mirrored,
    Roof,
    RowRequest,
    Sheet,
    Stretch,
    StructureKind,
    Triangle,
    Turned,
    compose,
    creases_of,
    draw,
    least_rows,
    narrowest,
)
from tests.drills.flatfold.assorted import folds_anew
from tests.drills.sheets import is_slanted

ALL: tuple[StructureKind, ...] = ("stretch", "roof", "diamond")
LOOK_ALIKES: tuple[StructureKind, ...] = ("roof", "diamond")


def test_look_alikes_alone_leave_nothing_slanted() -> None:
    """Where roofs and diamonds only are allowed no crease is slanted, on five sheets."""
    for seed in range(5):
        sheet = compose(Chance(f"alike {seed}"), 30, 14, 3, needed=("roof",), allowed=LOOK_ALIKES)
        kinds = Counter(kind for kind, _ in structures(sheet.part))
        assert kinds["roof"] >= 1
        assert kinds["stretch"] == 0
        assert sum(kinds.values()) == 3
        pattern = draw(sheet)
        assert not any(is_slanted(pattern.direction(e, pattern.edges[e].start)) for e in pattern.creases)


def structures(part: BlockDesign) -> Iterator[tuple[StructureKind, Triangle | None]]:
    """Yield the kind of each structure of a part, and the triangle of each slanted stretch."""
    match part:
        case Stretch():
            yield "stretch", part.triangle
        case Roof():
            yield "roof", None
        case Framed():
            yield "diamond", None
        case Around(inner, _) | Turned(inner, _):
            yield from structures(inner)
        case Mirrored(inner, _):
            yield from 2 * list(structures(inner))
        case Beside(one, two, _):
            yield from structures(one)
            yield from structures(two)


@pytest.mark.parametrize("seeds", [range(3), pytest.param(range(3, 6), marks=pytest.mark.long)])
@pytest.mark.parametrize("needed", [("stretch",), ("roof",), ("diamond",), ("roof", "stretch"), ALL])
def test_what_is_needed_occurs(needed: tuple[StructureKind, ...], seeds: range) -> None:
    """Each kind at least once, as many structures as asked, on paper of the size asked, proven to fold."""
    for seed in seeds:
        number = max(2, len(needed)) + seed % 2
        sheet = compose(Chance(f"needed {seed}"), 26 + seed, 12, number, needed=needed)
        kinds = [kind for kind, _ in structures(sheet.part)]
        assert set(needed) <= set(kinds)
        assert len(kinds) == number
        assert sheet.size == (26 + seed, 12)
        assert solve_layers(draw(sheet)).folds is True


SMALL = [*enumerate(product((12, 13, 14), range(8, 13)))]


@pytest.mark.parametrize("sizes", [SMALL[::2], pytest.param(SMALL[1::2], marks=pytest.mark.long)])
@pytest.mark.parametrize("other", LOOK_ALIKES)
def test_small_sheets_have_room_for_two(
    other: StructureKind, sizes: list[tuple[int, tuple[int, int]]]
) -> None:
    """A stretch and a roof, or a diamond, on 12 to 14 by 8 to 12 squares, either way up."""
    for place, (width, height) in sizes:
        size = (width, height) if place % 2 else (height, width)
        sheet = compose(Chance(f"two {place}"), *size, 2, needed=("stretch", other))
        assert {kind for kind, _ in structures(sheet.part)} == {"stretch", other}
        assert sheet.size == size
        assert solve_layers(draw(sheet)).folds is True


SIZES = {"5-12-13": (32, 14, 3), "8-15-17": (36, 14, 3), "7-24-25": (44, 12, 3), "20-21-29": (48, 26, 2)}


@pytest.mark.parametrize("seeds", [[0], pytest.param([1, 2], marks=pytest.mark.long)])
@pytest.mark.parametrize("triangle", TRIANGLES[1:], ids=lambda triangle: triangle.name)
def test_stretches_of_other_triangles(triangle: Triangle, seeds: list[int]) -> None:
    """All stretches are of the triangles named; their turning points lie on parts of squares."""
    for seed in seeds:
        sheet = compose(Chance(f"{triangle.name} {seed}"), *SIZES[triangle.name], triangles=(triangle,))
        kinds = Counter(structures(sheet.part))
        assert kinds["stretch", triangle] >= 1
        assert {found for kind, found in kinds if kind == "stretch"} == {triangle}
        pattern = creases_of(sheet)
        assert any(value.denominator > 1 for point in pattern.vertices for value in point)
        assert solve_layers(draw(sheet)).folds is True


@pytest.mark.long
def test_two_triangles_on_one_sheet() -> None:
    """Both occur, on some sheet together."""
    pairs = [
        {found for _, found in structures(compose(chance, 40, 14, 4, triangles=TRIANGLES[:2]).part) if found}
        for chance in (Chance(f"both {seed}") for seed in range(8))
    ]
    assert set(TRIANGLES[:2]) in pairs


@pytest.mark.long
def test_pleats_of_two_widths_come_now_and_then() -> None:
    """On one to a third of the sheets a stretch turns wider pleats at a side corner."""
    varied = sum("widths=(" in repr(compose(Chance(f"now {seed}"), 18, 10, 2)) for seed in range(24))
    assert 1 <= varied <= 8


@pytest.mark.parametrize("kind", ALL)
@pytest.mark.parametrize("height", [4, 6, 8])
def test_the_simplest_rows_fold(kind: StructureKind, height: int) -> None:
    """Rows of the narrowest of each kind, kept for need, fold with the labels that ranks give."""
    wish = RowRequest(3, (kind,), (kind,), (TRIANGLE_345,))
    least = narrowest(height, kind, (TRIANGLE_345,))
    assert least is not None
    assert wish.heights(3 * least.width - 1, height).count(height) == 0
    rows = list(least_rows(wish, (3 * least.width, height)))
    assert rows
    for row in rows:
        assert solve_layers(creases_of(Sheet(row))).folds is True


LATER = [pytest.param(seed, marks=pytest.mark.long) for seed in range(3, 12)]


@pytest.mark.parametrize("seed", [*range(3), *LATER])
def test_small_sheets_fold_for_another_solver(seed: int) -> None:
    """The independent clauses and solver find layers for the composed labels too."""
    wishes: list[tuple[StructureKind, ...]] = [
        ("stretch", "roof"),
        ("stretch", "diamond"),
        ("roof", "diamond"),
    ]
    sheet = compose(Chance(f"anew {seed}"), 12 + seed % 3, 9, 2, needed=wishes[seed % 3])
    assert folds_anew(draw(sheet))


def test_a_narrow_pleated_triangle_folds_for_another_solver() -> None:
    """5-12-13 with pleats one square wide, alone on its sheet."""
    assert folds_anew(draw(compose(Chance("thin"), 16, 9, 1, triangles=(TRIANGLES[1],))))


@pytest.mark.parametrize(
    ("structures", "needed", "allowed", "reason"),
    [
        (1, ("stretch", "roof"), ALL, "do not fit"),
        (3, ("stretch",), ("roof", "diamond"), "Allow the kinds"),
        (3, (), (), "Allow the kinds"),
        (6, ("diamond", "diamond"), ("diamond",), "do not fit"),
    ],
)
def test_wishes_that_cannot_be_met_are_refused(
    structures: int, needed: tuple[StructureKind, ...], allowed: tuple[StructureKind, ...], reason: str
) -> None:
    """More kinds than structures, a kind needed but not allowed, nothing allowed, no room."""
    with pytest.raises(ValueError, match=reason):
        compose(Chance("no"), 30, 12, structures, needed=needed, allowed=allowed)


def test_a_triangle_that_is_too_large_is_refused() -> None:
    """20-21-29 needs 20 squares either way and does not fit 40 by 18."""
    with pytest.raises(ValueError, match="do not fit 40 by 18"):
        compose(Chance("no"), 40, 18, 2, triangles=(TRIANGLES[4],))
