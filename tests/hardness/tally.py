"""What was tried against the program, and what it lost or crashed at."""

from __future__ import annotations

import os
import random
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from itertools import count
from math import inf
from pathlib import Path
from time import monotonic
from typing import NamedTuple
from unittest.mock import patch


class LostError(Exception):
    """An answer that was said to be kept is not there, is there twice or is another one."""


class NotHereError(Exception):
    """What is to be tried cannot be done on this machine; the message says why."""


class Trials:
    """A row of the table in the making: tries are counted, and those that went wrong are named.

    Where so many ``seconds`` are over, further tries are left out.
    """

    def __init__(self, folder: Path, *, long: bool, seconds: float = inf) -> None:
        self.long = long
        self.ends = monotonic() + seconds
        self.chance = random.Random(1)
        self.tried = 0
        self.lost: list[str] = []
        self.crashed: list[str] = []
        self._folder, self._numbers = folder, count()

    @contextmanager
    def one(self, what: str) -> Iterator[Path]:
        """Give an empty folder for one try; whatever it raises is counted and does not stop the others."""
        folder = self._folder / str(next(self._numbers))
        folder.mkdir(parents=True)
        self.tried += 1
        try:
            # what is on the disk for certain matters in the power cut, which is played
            with patch.object(os, "fsync", lambda handle: None):
                yield folder
        except LostError as loss:
            self.lost.append(f"{what}: {loss}")
        except NotHereError:
            raise
        except Exception as error:  # whatever it is, it is what is looked for
            self.crashed.append(f"{what}: {type(error).__name__}: {error}")
        finally:
            shutil.rmtree(folder, ignore_errors=True)

    @property
    def is_time_over(self) -> bool:
        """Whether no further try is to be made."""
        return monotonic() > self.ends

    @property
    def faults(self) -> list[str]:
        """What went wrong, a line each."""
        return [*(f"lost at {each}" for each in self.lost), *(f"crashed at {each}" for each in self.crashed)]


class Hardship(NamedTuple):
    """A row of the table: what is done to the program, and the function that does it."""

    name: str
    work: Callable[[Trials], None]
    only_long: bool = False


def heading() -> str:
    """Return the heading of the table."""
    return f"{'':44}{'tried':>9}{'lost':>6}{'crashed':>9}"


def row(name: str, trials: Trials) -> str:
    """Return a row of the table."""
    return f"{name:44}{trials.tried:9,}{len(trials.lost):6}{len(trials.crashed):9}"
