"""What the person has set."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

SCHEMA: Final = 1
NAME: Final = "settings.json"
MOST_MINUTES: Final = 120
MOST_PAGES: Final = 99
_LONGEST_THEME = 100


@dataclass(frozen=True, slots=True)
class Settings:
    """Minutes a day (1-120), whether a quick right answer goes on by itself, first start done, the theme.

    `blocks` asks for block signs in place of braille dots, None where nothing was chosen. `left` is what
    is remembered of a round that was left, JSON fields that mean nothing here. `lesson` is the page that
    was reached in the lesson, 0 where none is to be gone on from. `motion` lets frames play by themselves.
    `experiment` throws a coin for each miss, whether it comes back that day.

    Making one with a value that does not fit raises ValueError.
    """

    minutes_a_day: int = 5
    go_on_after_right: bool = True
    started: bool = False
    theme: str | None = None
    blocks: bool | None = None
    left: Mapping[str, object] | None = field(default=None, hash=False)
    lesson: int = 0
    motion: bool = True
    experiment: bool = False
    other: Mapping[str, object] = field(default_factory=dict, hash=False)

    def __post_init__(self) -> None:
        if type(self.minutes_a_day) is not int or not 1 <= self.minutes_a_day <= MOST_MINUTES:
            raise ValueError(f"Minutes a day must be a whole number from 1 to {MOST_MINUTES}.")
        if any(
            type(value) is not bool
            for value in (self.go_on_after_right, self.started, self.motion, self.experiment)
        ):
            raise ValueError("A setting that is on or off must be true or false.")
        if self.blocks is not None and type(self.blocks) is not bool:
            raise ValueError("A setting that is on or off must be true or false.")
        if self.left is not None and not isinstance(self.left, dict):
            raise ValueError("What is remembered of a round must be an object.")
        if type(self.lesson) is not int or not 0 <= self.lesson <= MOST_PAGES:
            raise ValueError(f"The page of the lesson must be a whole number from 0 to {MOST_PAGES}.")
        if self.theme is not None and not _is_name(self.theme):
            raise ValueError("The theme must be a name on one line.")

    def to_json(self) -> dict[str, object]:
        """Return the fields of the file, those of an unknown kind as they came."""
        return {**self.other, **{name: getattr(self, name) for name in _FIELDS}}

    @classmethod
    def from_json(cls, fields: Mapping[str, object]) -> Settings:
        """Return the settings of the file's fields, usual values for those missing; raises ValueError."""
        known = {name: fields[name] for name in _FIELDS if name in fields}
        other = {name: value for name, value in fields.items() if name not in _FIELDS and name != "schema"}
        return cls(**known, other=other)  # type: ignore[arg-type]


_FIELDS: Final = (
    "minutes_a_day",
    "go_on_after_right",
    "started",
    "theme",
    "blocks",
    "left",
    "lesson",
    "motion",
    "experiment",
)


def _is_name(value: object) -> bool:
    return isinstance(value, str) and 0 < len(value) <= _LONGEST_THEME and value.isprintable()
