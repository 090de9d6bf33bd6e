"""The state kept in a file, so that a start need not work everything out anew."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final, cast

from progress_store.documents import Document
from progress_store.log import Log
from progress_store.state import Rules, State
from progress_store.state_json import rules_to_json, state_from_json, state_to_json

SCHEMA: Final = 1
NAME: Final = "state.json"


class SavedState:
    """The state file of a data folder: used only if made from this very log under these very rules."""

    def __init__(self, folder: Path, rules: Rules, tell: Callable[[str], None], *, writable: bool) -> None:
        self._rules, self._tell = rules, tell
        self._document = Document(folder / NAME, SCHEMA, tell, writable=writable)

    def load(self, log: Log) -> State | None:
        """Return the saved state, or None if it is missing, stale, damaged or newer."""
        return self._document.read(lambda fields: self._state(fields, log))

    def save(self, state: State, log: Log) -> None:
        """Replace the saved state; raises OSError, after which the log still holds everything."""
        fields = state_to_json(state)
        self._document.write(
            {
                "log_bytes": log.length,
                "log_hash": log.digest.hexdigest(),
                "rules": rules_to_json(self._rules),
                "state_hash": _hash(fields),
                "state": fields,
            }
        )

    def _state(self, fields: dict[str, object], log: Log) -> State | None:
        state = cast("dict[str, Any]", fields["state"])
        if fields["state_hash"] != _hash(state):
            raise ValueError("not what was written")
        if int(cast("int", fields["log_bytes"])) > log.length:
            self._tell(
                "The log is shorter than it was; if you did not shorten it, bring it back from a copy,"
                " or wait until it is in step with your other machine."
            )
        fresh = (fields["log_bytes"], fields["log_hash"]) == (log.length, log.digest.hexdigest())
        if not fresh or fields["rules"] != rules_to_json(self._rules):
            return None
        return state_from_json(state, self._rules)


def _hash(fields: dict[str, object]) -> str:
    text = json.dumps(fields, sort_keys=True, separators=(",", ":"))
    return hashlib.blake2b(text.encode(), digest_size=16).hexdigest()
