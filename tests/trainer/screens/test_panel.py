"""The lines beside the board."""

from __future__ import annotations

from trainer.screens.side import wrapped

COLUMNS = 29
NO_BREAK = "\u00a0"


def test_a_place_is_never_broken_at_the_end_of_a_line() -> None:
    """Wherever it comes to stand, with parts of a square too; all other words are as they were."""
    for before in range(COLUMNS):
        words = f"{'x' * before} at (10; 4 1/2) and on"
        lines = wrapped(words, COLUMNS).splitlines()
        assert f"(10;{NO_BREAK}4{NO_BREAK}1/2)" in "\n".join(lines)
        assert max(map(len, lines)) <= COLUMNS
        assert " ".join(lines).replace(NO_BREAK, " ").split() == words.split()


def test_lines_that_fit_keep_their_spaces() -> None:
    """A table stands in columns, and empty lines stay."""
    table = "3-4-5    3-1   1\n\n5-12-13  5-1   2"
    assert wrapped(table, COLUMNS) == table
