"""What is remembered of a person's practice: the log, the schedule, the pace and the summaries."""

from progress_store.attempt import Attempt, Means, Purpose, practice_day, stamp
from progress_store.errors import StoreError
from progress_store.merging import TakenIn
from progress_store.pace import Floor, Form, Result
from progress_store.settings import Settings
from progress_store.state import Judged, Rules, Skill, State
from progress_store.store import Store, open_store

__all__ = [
    "Attempt",
    "Floor",
    "Form",
    "Judged",
    "Means",
    "Purpose",
    "Result",
    "Rules",
    "Settings",
    "Skill",
    "State",
    "Store",
    "StoreError",
    "TakenIn",
    "open_store",
    "practice_day",
    "stamp",
]
