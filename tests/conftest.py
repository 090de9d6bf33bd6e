"""How thoroughly generated examples are tried: fewer in the quick run than among the long tests."""

from __future__ import annotations

import pytest
from hypothesis import settings

settings.register_profile("quick", max_examples=20, deadline=None)
settings.register_profile("long", max_examples=100, deadline=None)


def pytest_configure(config: pytest.Config) -> None:
    """Choose by the tests that are asked for."""
    settings.load_profile("long" if config.getoption("markexpr") == "long" else "quick")
