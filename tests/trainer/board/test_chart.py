"""Charts in the board's dots: checked by hand against rows drawn on squared paper."""

from __future__ import annotations

import pytest

from trainer.board import GLYPHS, Chart, Line, Value, draw_chart


def text(lines: tuple[Line, ...]) -> list[str]:
    """Return the signs of lines."""
    return ["".join(span.text for span in line).rstrip() for line in lines]


BARS = Chart("Bars", (Value(7), None, Value(3), Value(0)), 7, ("1 Mar", "4 Mar"), "Four days.", bars=True)


def test_bars_stand_as_high_as_their_figures() -> None:
    """By hand: two rows are eight dots, 7 takes eight of them and 3 four, 0 and nothing none."""
    title, upper, lower, ends, says, _ = text(draw_chart(BARS, 17, 6, GLYPHS["blocks"]))
    assert (title, says) == ("Bars", "Four days.")
    assert upper.startswith("   7 ██·")
    assert lower.startswith("   0 ██·")
    assert upper[11:13].strip(" ·") == ""
    assert lower[11:13] == "██"
    assert ends.split() == ["1", "Mar", "4", "Mar"]


def test_a_value_lies_across_its_interval() -> None:
    """By hand: of sixteen dots' height a quarter to three quarters is the line, the value is wider in it."""
    chart = Chart("One", (Value(8, (4, 12)),), 16, ("today", ""), "8, likely 4 to 12.")
    rows = text(draw_chart(chart, 20, 8, GLYPHS["braille"]))[1:5]
    columns = [[sign for sign in row[5:] if sign not in "⠁⡀ "] for row in rows]
    assert [bool(signs) for signs in columns] == [False, True, True, False]
    assert max(map(len, columns)) == 4  # seven dots across, from the fourth on


@pytest.mark.parametrize("columns", [20, 38, 57])
@pytest.mark.parametrize("rows", [5, 10, 18])
def test_a_chart_fills_its_room(columns: int, rows: int) -> None:
    """As many rows as it is given, each as wide, whatever is said."""
    nothing = Chart("None", (), 1, ("", ""), "a sentence that is longer than its room " * 4)
    for chart in (BARS, nothing):
        lines = draw_chart(chart, columns, rows, GLYPHS["braille"])
        assert [sum(len(span.text) for span in line) for line in lines] == [columns] * rows
