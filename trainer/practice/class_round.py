"""A class set gone through in its order; what came of it is exported as one small JSON file.

    {"slantwise:results": 1, "name": "Ada", "drills": [
        {"code": "labels-3-41", "right": true, "answered": "You marked nothing.",
         "milliseconds": 5200, "helped": false}]}

``name`` is what the person typed or null, ``milliseconds`` null where the person was away meanwhile.
"""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import NamedTuple

from drills.questions import Code, Drill, Verdict
from progress_store import Judged, Store, StoreError
from trainer.given import Clock
from trainer.practice.attempts import Measured
from trainer.practice.session import Moment, Planned, PracticeSession

WHY = "It is in the class set."


class ClassTask(NamedTuple):
    """The codes of a set, the file for the results, and the name to be written there, empty for none."""

    codes: tuple[Code, ...]
    results: Path
    name: str


class ClassRound(PracticeSession):
    """The drills of a set, each kept like a picked one; the results are written anew after each answer."""

    def __init__(self, store: Store, clock: Clock, task: ClassTask) -> None:
        def plan(now: Moment) -> Planned | None:
            done = len(now.history.done)
            return Planned(task.codes[done], WHY) if done < len(task.codes) else None

        super().__init__(store, clock, "picked", plan, of=len(task.codes))
        self._task = task
        self._results: list[dict[str, object]] = []
        self._is_written = True

    @property
    def title(self) -> str:
        """What the session is called."""
        return "Class set"

    def keep(self, drill: Drill, verdict: Verdict, measured: Measured, helped: bool) -> Judged:
        """Write an answered drill to the log, and the results so far to their file."""
        self._results.append(
            {
                "code": drill.code,
                "right": verdict.right,
                "answered": verdict.answered,
                "milliseconds": measured.milliseconds,
                "helped": helped,
            }
        )
        self._write()
        return super().keep(drill, verdict, measured, helped)

    def keep_rest(self) -> None:
        """Write what could not be written before; StoreError where it still cannot."""
        super().keep_rest()
        if not self._is_written and not self._write():
            raise StoreError(
                "The results could not be written; make room where the set is and do it once more."
            )

    def _write(self) -> bool:
        """Write all results, the old file replaced once the new one is whole; return whether it was done."""
        held = {"slantwise:results": 1, "name": self._task.name or None, "drills": self._results}
        part = self._task.results.with_name(f"{self._task.results.name}.part")
        try:
            part.write_text(json.dumps(held, indent=1) + "\n", encoding="utf-8")
            os.replace(part, self._task.results)
        except OSError:
            self._is_written = False
        else:
            self._is_written = True
        return self._is_written


def results_beside(path: Path) -> Path:
    """Return where the results of a set go: beside it, under the first such name that is free."""
    first = path.with_name(f"{path.stem}-results.json")
    number = 1
    result = first
    while result.exists():
        number += 1
        result = first.with_stem(f"{first.stem}-{number}")
    return result
