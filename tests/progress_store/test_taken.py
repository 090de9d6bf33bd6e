from datetime import date

from progress_store import Confusions, taken
from tests.progress_store.making import attempt


def test_what_is_taken_for_what_by_skill() -> None:
    """By hand: drills with a miss, with a false alarm and with a slip, the most often wrong first."""
    log = [
        attempt(0, skill="find roof", kind="find", misses=2, false_alarms=1, right=False),
        attempt(1, skill="find roof", kind="find", misses=1, right=False),
        attempt(2, day=1, skill="find roof", kind="find"),
        attempt(3, skill="steps 1:2", slip="exchanged"),
        attempt(4, skill="all right"),
    ]
    assert taken(log) == [
        Confusions("find", "find roof", 2, 1, (), 3, date(2026, 3, 2), date(2026, 3, 3)),
        Confusions("steps", "steps 1:2", 0, 0, (("exchanged", 1),), 1, date(2026, 3, 2), date(2026, 3, 2)),
    ]


def test_the_walk_takes_nothing_for_anything() -> None:
    """What was half done for the person says nothing of them."""
    assert taken([attempt(0, purpose="walk", misses=1, right=False)]) == []
