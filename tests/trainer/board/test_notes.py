"""Words on a board stand where it is plain what they are about."""

from __future__ import annotations

import pytest

from drills.questions import KINDS, Code, Marks, make
from tests.trainer.board.drawn_boards import text
from trainer.answering import verdict_look
from trainer.board import Room, draw_board, followed, opened
from trainer.board.static_layer import layer_of
from trainer.ways_of_asking import way_of

SEEDS = [range(1, 5), pytest.param(range(5, 25), marks=pytest.mark.long)]


@pytest.mark.parametrize("seeds", SEEDS, ids=len)
@pytest.mark.parametrize("level", KINDS["labels"].levels)
def test_what_a_label_should_be_touches_its_crease(level: int, seeds: range) -> None:
    """On or directly beside a cell of that crease alone, where it has one; on or beside its middle if not."""
    for seed in seeds:
        drill = make(Code("labels", level, seed))
        asked = way_of(drill).input(drill, drill.question).look()
        look = verdict_look(drill, drill.judge(Marks(frozenset())), asked)
        window = followed(opened(drill.pattern, Room(43, 19), asked), asked, look)
        board = draw_board(drill.pattern, look, window.scale)
        sheet, columns = layer_of(drill.pattern, window.scale, True, frozenset()), window.scale.columns
        signs = text(board).replace("\n", "")
        for edge, words in look.notes:
            cells = list(sheet.edges[edge])
            others = set().union(*(cells for other, cells in enumerate(sheet.edges) if other != edge))
            own = [cell for cell in cells if cell not in others] or cells[len(cells) // 2 - 1 :][:2]
            near = {cell + step for cell in own for step in (0, 1, -1, columns, -columns)}
            places = [at for at in range(len(signs)) if signs.startswith(f"!{words}", at)]
            touching = [at for at in places if near & set(range(at, at + len(words) + 1))]
            assert touching or not cells, (drill.code, drill.pattern.ends(edge))
