"""What is remembered: the log of answers, the schedule, and what the record shows."""

from __future__ import annotations

from progress_store.attempt import Attempt, InputDevice, Purpose, practice_day, stamp
from progress_store.copies import is_copy
from progress_store.figures import (
    Confusions,
    Errors,
    PaceChange,
    Share,
    Week,
    after_a_week_away,
    errors,
    pace_changes,
    taken,
    weekly_pace,
    wilson,
)
from progress_store.files import StoreError, reason
from progress_store.log import LONGEST_LINE, Log
from progress_store.merge import MergeResult
from progress_store.pace import Floor, Gaps, Pace, PaceKey, Result, net_ms
from progress_store.record import attempt_rows, record
from progress_store.saved_state import state_from_json, state_to_json
from progress_store.schedule import LONGEST_DAYS, Memory, Standing, Word, recall, remembered
from progress_store.settings import Settings
from progress_store.state import Judged, Rules, State, replay
from progress_store.statistics import RESAMPLES, median_interval, middle, ratio_interval
from progress_store.store import Store, open_store
from progress_store.yardsticks import WHOLE, Yardstick, sittings, time_against, yardsticks

__all__ = [
    "LONGEST_DAYS",
    "LONGEST_LINE",
    "RESAMPLES",
    "WHOLE",
    "Attempt",
    "Confusions",
    "Errors",
    "Floor",
    "Gaps",
    "InputDevice",
    "Judged",
    "Log",
    "Memory",
    "MergeResult",
    "Pace",
    "PaceChange",
    "PaceKey",
    "Purpose",
    "Result",
    "Rules",
    "Settings",
    "Share",
    "Standing",
    "State",
    "Store",
    "StoreError",
    "Week",
    "Word",
    "Yardstick",
    "after_a_week_away",
    "attempt_rows",
    "errors",
    "is_copy",
    "median_interval",
    "middle",
    "net_ms",
    "open_store",
    "pace_changes",
    "practice_day",
    "ratio_interval",
    "reason",
    "recall",
    "record",
    "remembered",
    "replay",
    "sittings",
    "stamp",
    "state_from_json",
    "state_to_json",
    "taken",
    "time_against",
    "weekly_pace",
    "wilson",
    "yardsticks",
]
