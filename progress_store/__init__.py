"""What is remembered: the log of answers, the schedule, and what the record shows."""

from __future__ import annotations

from progress_store.attempt import Attempt, InputDevice, Purpose, practice_day, stamp
from progress_store.coin import WITH_COIN, comes_back, has_coin
from progress_store.columns import Columns
from progress_store.experiment import EXPERIMENT_DAYS, Experiment, experiment
from progress_store.figures import (
    AfterAWeekAway,
    Confusions,
    Errors,
    PaceChange,
    Slip,
    Taken,
    Window,
    after_a_week_away,
    confusions,
    errors,
    pace_changes,
)
from progress_store.files import JsonFile, StoreError
from progress_store.line import LONGEST_LINE
from progress_store.log import Log
from progress_store.merge import LARGEST_COPY, MergeResult, is_copy
from progress_store.minute import MinuteByClock, minutes_by_clock
from progress_store.pace import Floor, Gaps, Pace, PaceKey, Result, net_ms
from progress_store.record import DayRow, Record, SkillRow
from progress_store.record_views import attempt_rows, record_to_json
from progress_store.saved_state import state_from_json, state_to_json
from progress_store.schedule import (
    LONGEST_DAYS,
    RUNNING_TO_RISE,
    Level,
    Mastery,
    Memory,
    Word,
    recall,
    remembered,
)
from progress_store.settings import MOST_MINUTES, Settings
from progress_store.state import Judged, Rules, State, replay
from progress_store.statistics import (
    Share,
    difference_interval,
    median_interval,
    middle,
    ratio_interval,
    wilson,
)
from progress_store.store import Repaired, Store, open_store
from progress_store.weeks import SkillsInWeek, Week, WeeklyPace, skills_by_week, weekly_pace
from progress_store.yardsticks import WHOLE, AnswerRate, TimeRatio, Yardstick, sittings, yardsticks

__all__ = [
    "EXPERIMENT_DAYS",
    "LARGEST_COPY",
    "LONGEST_DAYS",
    "LONGEST_LINE",
    "MOST_MINUTES",
    "RUNNING_TO_RISE",
    "WHOLE",
    "WITH_COIN",
    "AfterAWeekAway",
    "AnswerRate",
    "Attempt",
    "Columns",
    "Confusions",
    "DayRow",
    "Errors",
    "Experiment",
    "Floor",
    "Gaps",
    "InputDevice",
    "JsonFile",
    "Judged",
    "Level",
    "Log",
    "Mastery",
    "Memory",
    "MergeResult",
    "MinuteByClock",
    "Pace",
    "PaceChange",
    "PaceKey",
    "Purpose",
    "Record",
    "Repaired",
    "Result",
    "Rules",
    "Settings",
    "Share",
    "SkillRow",
    "SkillsInWeek",
    "Slip",
    "State",
    "Store",
    "StoreError",
    "Taken",
    "TimeRatio",
    "Week",
    "WeeklyPace",
    "Window",
    "Word",
    "Yardstick",
    "after_a_week_away",
    "attempt_rows",
    "comes_back",
    "confusions",
    "difference_interval",
    "errors",
    "experiment",
    "has_coin",
    "is_copy",
    "median_interval",
    "middle",
    "minutes_by_clock",
    "net_ms",
    "open_store",
    "pace_changes",
    "practice_day",
    "ratio_interval",
    "recall",
    "record_to_json",
    "remembered",
    "replay",
    "sittings",
    "skills_by_week",
    "stamp",
    "state_from_json",
    "state_to_json",
    "weekly_pace",
    "wilson",
    "yardsticks",
]
