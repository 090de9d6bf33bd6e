"""Which missed drills are still open: until two of their skill were right after them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Final, NamedTuple

from progress_store.attempt import Attempt
from progress_store.columns import Columns, is_helped, is_right

RIGHT_TO_CLOSE = 2
"""So many right answers without help to drills of its skill close a miss."""


_UNTOLD: Final = ("yardstick", "minute")
"""In these a verdict is not told."""


class Told(NamedTuple):
    """What of an answered drill decides: its skill, whether it was right, and whether that closes a miss.

    It does not where there was help, nor where verdicts are not told.
    """

    skill: object
    right: bool
    closes: bool


def open_misses(drills: Columns) -> list[int]:
    """Return the places of the rows of misses that are open, the latest first; the walk has none."""
    rows = drills.table()
    places = (rows["purpose"] != drills.purposes.place("walk")).nonzero()[0]
    own = rows[places]
    closes = ~is_helped(own)
    for purpose in _UNTOLD:
        closes &= own["purpose"] != drills.purposes.place(purpose)
    told = zip(own["skill"].tolist(), is_right(own).tolist(), closes.tolist(), strict=True)
    return [int(places[place]) for place in _open([Told(*each) for each in told])]


def open_among(attempts: Sequence[Attempt]) -> list[Attempt]:
    """Return the misses that are open of attempts in order of time, the latest first."""
    own = [each for each in attempts if each.purpose != "walk"]
    told = [Told(each.skill, each.right, not each.helped and each.purpose not in _UNTOLD) for each in own]
    return [own[place] for place in _open(told)]


def _open(told: Sequence[Told]) -> list[int]:
    right_since, found = Counter[object](), list[int]()
    for place in range(len(told) - 1, -1, -1):
        each = told[place]
        if each.right:
            right_since[each.skill] += each.closes
        elif right_since[each.skill] < RIGHT_TO_CLOSE:
            found.append(place)
    return found
