"""Attempts, rules and stores for the tests of the store."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from progress_store import Attempt, Floor, PaceKey, Rules, Store, open_store

START = datetime(2026, 3, 2, 12, tzinfo=UTC)
LATER = START + timedelta(days=1000)
"""When the stores of the tests are opened: none of the attempts is dated ahead of it."""
FLOORS = {"steps": Floor(3000), "sinks": Floor(1500, each=True), "labels": Floor(8000)}
LEVELS = {"steps": range(1, 8), "sinks": range(1, 8), "labels": range(1, 8), "find": range(2, 8)}
RULES = Rules(FLOORS, LEVELS)
READ = PaceKey("steps", "read", 1, "1", "keys")


def attempt(number: int = 0, day: int = 0, **changes: Any) -> Attempt:
    """Return a right answer to a steps drill, `number` minutes after noon UTC of a day counted from 0."""
    usual: dict[str, Any] = {
        "id": f"{day:04}-{number:04}",
        "at": START + timedelta(days=day, minutes=number),
        "offset_minutes": 0,
        "code": f"steps-1-{number}",
        "kind": "steps",
        "form": "read",
        "level": 1,
        "marks": 1,
        "skill": "steps 1:2",
        "right": True,
        "milliseconds": 4000,
        "inputs": 1,
    }
    return Attempt(**(usual | changes))


def store(folder: Path, *, writable: bool = True) -> Store:
    """Return the store of a folder under the rules of the tests."""
    return open_store(folder, lambda: LATER, FLOORS, LEVELS, writable=writable)
