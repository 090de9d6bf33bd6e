"""The coin of an experiment for oneself: whether what was missed comes back that day.

It follows from the attempt's id alone, so that a log that is read again, or merged, tells the same.
"""

from __future__ import annotations

from hashlib import blake2b
from typing import Final

from progress_store.attempt import Attempt

WITH_COIN: Final = ", coin"
"""What the rule of an attempt ends in where a coin was to be thrown for a miss."""


def has_coin(attempt: Attempt) -> bool:
    """Whether an attempt belongs to the experiment."""
    return attempt.purpose == "today" and attempt.rule is not None and attempt.rule.endswith(WITH_COIN)


def comes_back(attempt: Attempt) -> bool:
    """Whether a miss comes back; without a coin each does."""
    return not has_coin(attempt) or bool(blake2b(attempt.id.encode(), digest_size=1).digest()[0] & 1)
