"""Words for the figures of the record: shares, times, windows, forms."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from drills.questions.kinds import KINDS
from progress_store import Form

UNSURE = "too few to be sure"


def part(title: str, lines: Iterator[str]) -> Iterator[str]:
    """Yield a title and its lines, nothing where there are none."""
    for number, line in enumerate(lines):
        if number == 0:
            yield from ("", f"{title}:")
        yield f"  {line}"


def likely(interval: Sequence[float]) -> str:
    """Return where a share likely lies, as in "likely 57 to 93 %"."""
    low, high = (round(100 * end) for end in interval)
    return f"likely {low} to {high} %"


def likely_ratio(interval: Sequence[float] | None) -> str:
    """Return where a ratio of times likely lies, or that there are too few drills to say."""
    return f"likely {interval[0]:.2f} to {interval[1]:.2f}" if interval else UNSURE


def seconds(milliseconds: float | None) -> str:
    """Return a time in seconds, as in "4.0 s"."""
    return "not yet" if milliseconds is None else f"{milliseconds / 1000:.1f} s"


def window(row: Any) -> str:
    """Return the first and the last practice day of a figure."""
    return f"{row['since']} to {row['until']}"


def form_in_words(row: Any) -> str:
    """Return a form whose times can be compared, as in "Find, mark, level 3, marks 1, by keys"."""
    kind, form, level, marks, means = (row[name] for name in Form._fields)
    return f"{titled(kind)}, {form}, level {level}, marks {marks}, by {means}"


def titled(kind: str) -> str:
    """Return the title of a kind; one that this version does not know keeps its name."""
    return KINDS[kind].title if kind in KINDS else kind
