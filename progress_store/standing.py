"""One word for a skill, and the level of a kind."""

from __future__ import annotations

from collections.abc import Sequence
from statistics import median
from typing import Final, Literal, NamedTuple

from progress_store.pace import Result

Word = Literal["new", "right", "quick", "kept"]

BLOCK: Final = 12
RIGHT_TO_RISE: Final = 11
RIGHT_TO_FALL: Final = 8
CLEAN_DAYS: Final = 3
DAYS_AWAY: Final = 7


class Standing(NamedTuple):
    """What first drills of a day have shown: `clean_days` in a row, `kept`: one after a week."""

    was_right: bool = False
    clean_days: int = 0
    kept: bool = False

    def after(self, result: Result, days_away: int | None) -> Standing:
        """Return the standing after a first drill; `days_away` since the skill was last met, or None."""
        if result != "clean":
            return Standing(self.was_right or result == "slow")
        return Standing(True, self.clean_days + 1, self.kept or (days_away or 0) >= DAYS_AWAY)

    @property
    def word(self) -> Word:
        """The word for it; a first drill not clean takes "quick" and "kept" away until shown again."""
        if self.kept:
            return "kept"
        if self.clean_days >= CLEAN_DAYS:
            return "quick"
        return "right" if self.was_right else "new"


class Level(NamedTuple):
    """The level of a kind and its block so far: right or not, and time against goal where known."""

    level: int
    rights: tuple[bool, ...] = ()
    ratios: tuple[float, ...] = ()

    def after(self, right: bool, ratio: float | None, among: range) -> Level:
        """Return the level after a first drill at it; a block of 12 may move it by one, among the kind's."""
        rights = (*self.rights, right)
        ratios = self.ratios if ratio is None else (*self.ratios, ratio)
        if len(rights) < BLOCK:
            return Level(self.level, rights, ratios)
        return Level(min(max(self.level + _move(sum(rights), ratios), among[0]), among[-1]))

    def placed(self, level: int, among: range) -> Level:
        """Return the level after a right placing drill: the highest such level, with a fresh block."""
        higher = min(level, among[-1])
        return Level(higher) if higher > self.level else self


def _move(right: int, ratios: Sequence[float]) -> int:
    """Return 1 up, -1 down or 0; while there is no goal, the time holds nobody back."""
    if right <= RIGHT_TO_FALL:
        return -1
    return 1 if right >= RIGHT_TO_RISE and (not ratios or median(ratios) <= 1) else 0
