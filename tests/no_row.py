"""What is said where a table of the tests has no row for something that was added."""

from __future__ import annotations

from pathlib import Path
from typing import NoReturn

import pytest

ROOT = Path(__file__).parents[1]


def no_row(name: object, table: str, file: str) -> NoReturn:
    """Fail with the place where a row is to be added."""
    pytest.fail(f"No row for {name}: add one to {table} in {Path(file).relative_to(ROOT)}.")
