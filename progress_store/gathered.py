"""Attempts of one or more logs, each id once."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator

from progress_store.attempt import Attempt


class Gathered:
    """Attempts by id: of two that share one the first by order stays, whichever was added first.

    `clashing` has the ids that different attempts share.
    """

    def __init__(self, attempts: Iterable[Attempt] = ()) -> None:
        self._by_id: dict[str, Attempt] = {}
        self.clashing: set[str] = set()
        self.add_all(attempts)

    def add_all(self, attempts: Iterable[Attempt]) -> None:
        """Count attempts in."""
        for attempt in attempts:
            self.add(attempt)

    def add(self, attempt: Attempt) -> None:
        """Count an attempt in."""
        if self.clashes(attempt):
            self.clashing.add(attempt.id)
        if self.lacks(attempt):
            self._by_id[attempt.id] = attempt

    def lacks(self, attempt: Attempt) -> bool:
        """Whether adding an attempt would change which attempts there are."""
        known = self._by_id.get(attempt.id)
        return known is None or (known != attempt and _rank(attempt) < _rank(known))

    def clashes(self, attempt: Attempt) -> bool:
        """Whether a different attempt has this one's id."""
        known = self._by_id.get(attempt.id)
        return known is not None and known != attempt and _rank(known) != _rank(attempt)

    def __contains__(self, identity: str) -> bool:
        return identity in self._by_id

    def __iter__(self) -> Iterator[Attempt]:
        return iter(self._by_id.values())

    def __len__(self) -> int:
        return len(self._by_id)


def _rank(attempt: Attempt) -> tuple[object, str]:
    return attempt.order, json.dumps(attempt.to_json(), sort_keys=True)
