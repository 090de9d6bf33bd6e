"""How to add a look-alike: what a new block must pass once its one row is in the registry."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest

from drills.flatfold import check_angles, failing, folds, solve_layers
from drills.geometry import Chance
from drills.structures import (
    DOWN,
    STRUCTURES,
    UP,
    Around,
    Beside,
    BlockDesign,
    Mirrored,
    Sheet,
    Stretch,
    Structure,
    Tile,
    Triangle,
    Turned,
    block_of,
    compose,
    creases_of,
    cut,
    draw,
    drawn_outlines,
    find_stretches,
    mirrored,
    sheet_of,
    with_pleats_around,
)
from tests.drills.flatfold.assorted import folds_anew
from tests.drills.structures.toy_block import HALF_SIDES, SquareRoof, square_roof_tiles

TOY = "square roof"
UPRIGHT = Stretch((1, 1), ("steep", "steep"), pleats=0, facing=1)


@pytest.fixture
def registered(monkeypatch: pytest.MonkeyPatch) -> None:
    """Put the toy into the registry as a row of its own, for one test."""
    monkeypatch.setitem(STRUCTURES, TOY, Structure(square_roof_tiles))


@pytest.mark.parametrize("half", HALF_SIDES)
@pytest.mark.parametrize("pleats", [0, 1, 2])
def test_its_block_folds_with_pleats_around(half: int, pleats: int) -> None:
    """Angles, labels and layers, by the labels that ranks give; the layers by another solver too."""
    pattern = sheet_of(with_pleats_around(block_of(SquareRoof(half)), pleats))
    assert check_angles(pattern) == ()
    assert failing(pattern, pattern.labels(), folds) == ()
    assert solve_layers(pattern).folds is True
    assert folds_anew(pattern)


@pytest.mark.parametrize(
    "row",
    [
        Beside(SquareRoof(2), SquareRoof(2), 2),
        Beside(UPRIGHT, SquareRoof(2)),
        Beside(Around(SquareRoof(1), 1), UPRIGHT, 2),
        Mirrored(Turned(SquareRoof(2), 1)),
    ],
)
def test_it_joins_with_itself_and_with_others(row: BlockDesign) -> None:
    """Beside each other and mirrored, a layer order is found, and all structures are counted."""
    assert row.structures == 2
    assert solve_layers(draw(Sheet(row))).folds is True


def test_it_is_its_own_mirror_image() -> None:
    """Turning and mirroring a block works on what it draws, not on what it is."""
    block = block_of(SquareRoof(2))
    image = mirrored(block)
    assert {frozenset((line.start, line.end)) for line in image.lines} == {
        frozenset((line.start, line.end)) for line in block.lines
    }


@pytest.mark.usefixtures("registered")
def test_its_tiles_are_what_they_say() -> None:
    """Size and the directions in which hinges leave are those of the block."""
    for tile in STRUCTURES[TOY].tiles(()):
        block = block_of(tile.part)
        assert (tile.width, tile.height) == (block.width, block.height)
        assert tile.directions == {hinge.direction for hinge in block.leaving_hinges}


def toys_in(part: object) -> Iterator[SquareRoof]:
    """Yield the toys in a design, by looking through whatever designs it is made of."""
    if isinstance(part, SquareRoof):
        yield part
    elif isinstance(part, BlockDesign):
        for inner in vars(part).values():
            yield from toys_in(inner)


@pytest.mark.usefixtures("registered")
@pytest.mark.parametrize("seed", range(4))
def test_sheets_are_composed_with_it(seed: int) -> None:
    """With a stretch, and without: it occurs, the sheet folds, only the stretch is found, cut or not."""
    chance = Chance(f"toy {seed}")
    among = compose(chance, 24, 11, 3, needed=(TOY, "stretch"), allowed=(TOY, "stretch", "roof"))
    assert list(toys_in(among.part))
    assert solve_layers(draw(among)).folds is True
    found = {frozenset(stretch.outline) for stretch in find_stretches(draw(among))}
    assert found == set(drawn_outlines(among))
    assert solve_layers(draw(cut(chance, among))).folds is True
    alone = compose(chance, 22, 10, 2, needed=(TOY,), allowed=(TOY,))
    assert solve_layers(draw(alone)).folds is True
    assert find_stretches(creases_of(alone)) == ()


def test_a_kind_that_is_not_registered_is_refused() -> None:
    """Its name is told."""
    with pytest.raises(ValueError, match=TOY):
        compose(Chance("none"), 24, 11, 2, needed=(TOY,), allowed=(TOY,))


def searched(triangles: tuple[Triangle, ...]) -> Iterator[Tile]:
    """Yield toys that labels by rank do not fold."""
    yield from (tile._replace(is_by_rank=False) for tile in square_roof_tiles(triangles))


def sideways(triangles: tuple[Triangle, ...]) -> Iterator[Tile]:
    """Yield toys with hinges to the left and right alone."""
    yield from (tile for tile in square_roof_tiles(triangles) if not tile.directions <= {UP, DOWN})


@pytest.mark.parametrize("tiles", [searched, sideways])
def test_a_kind_without_a_tile_to_fall_back_on_is_refused(
    monkeypatch: pytest.MonkeyPatch, tiles: Callable[[tuple[Triangle, ...]], Iterator[Tile]]
) -> None:
    """No larger sheet would help it: a row falls back on tiles with hinges up and down, folded by rank."""
    monkeypatch.setitem(STRUCTURES, TOY, Structure(tiles))
    with pytest.raises(ValueError, match="No square roof can stand in a row"):
        compose(Chance("none"), 24, 11, 2, needed=(TOY,), allowed=(TOY,))
