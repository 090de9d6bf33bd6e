"""The state as JSON fields and back, without loss."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import Final, TypedDict, cast

from progress_store.attempt import Attempt
from progress_store.files import DAMAGED, JsonFile, opened
from progress_store.fingerprint import Stamp
from progress_store.ledger import Ledger
from progress_store.log import Log
from progress_store.pace import Gaps, Pace, PaceKey, Result
from progress_store.schedule import Level, Mastery, Memory
from progress_store.state import Rules, Skill, State

SCHEMA: Final = 2
"""The first one had no runs and nothing owed; it is made anew from the log."""
NAME: Final = "state.json"
_MOST_ADDED: Final = 50


class SkillFields(TypedDict):
    """A skill as JSON fields, `form` those of its pace key, `standing` those of its mastery."""

    kind: str
    first_day: str
    last_day: str
    form: tuple[str, str, int, str, str]
    marks: int
    results: list[Result]
    met: int
    begun: bool
    owed: bool
    standing: tuple[bool, int, bool]
    memory: tuple[float, float, str] | None


class StateFields(TypedDict):
    """The state as JSON fields; a pace comes after the fields of its key."""

    attempts: int
    last: tuple[str, str] | None
    last_day: str | None
    gaps: dict[str, list[int]]
    paces: list[tuple[str, str, int, str, str, list[int], int | None]]
    skills: dict[str, SkillFields]
    levels: dict[str, tuple[int, int]]


def rules_to_json(rules: Rules) -> dict[str, object]:
    """Return the rules as JSON fields, by which a state made under other rules is told apart."""
    floors = {kind: [floor.milliseconds, floor.each] for kind, floor in sorted(rules.floors.items())}
    levels = {kind: [among[0], among[-1]] for kind, among in sorted(rules.levels.items())}
    return {"floors": floors, "levels": levels}


def state_to_json(state: State) -> StateFields:
    """Return the state as JSON fields, without the rules."""
    return {
        "attempts": state.attempts,
        "last": None if state.last is None else (state.last[0].isoformat(), state.last[1]),
        "last_day": _text(state.last_day),
        "gaps": {device: list(gaps.recent) for device, gaps in state.gaps.items()},
        "paces": [(*key, list(pace.recent), pace.best) for key, pace in state.paces.items()],
        "skills": {skill: _skill_to_json(known) for skill, known in state.skills.items()},
        "levels": {kind: (level.level, level.running) for kind, level in state.levels.items()},
    }


def state_from_json(fields: StateFields, rules: Rules) -> State:
    """Return the state of fields that `state_to_json` made; raises ValueError, TypeError or KeyError."""
    last = fields["last"]
    return State(
        rules,
        attempts=fields["attempts"],
        last=None if last is None else (datetime.fromisoformat(last[0]), last[1]),
        last_day=_day(fields["last_day"]),
        gaps={device: Gaps.of(gaps) for device, gaps in fields["gaps"].items()},
        paces={PaceKey(*row[:5]): Pace(tuple(row[5]), row[6]) for row in fields["paces"]},
        skills={skill: _skill_from_json(known) for skill, known in fields["skills"].items()},
        levels={kind: Level(*level) for kind, level in fields["levels"].items()},
    )


def _skill_to_json(skill: Skill) -> SkillFields:
    memory = skill.memory
    return {
        "kind": skill.kind,
        "first_day": skill.first_day.isoformat(),
        "last_day": skill.last_day.isoformat(),
        "form": skill.pace_key,
        "marks": skill.marks,
        "results": list(skill.results),
        "met": skill.met,
        "begun": skill.begun,
        "owed": skill.owed,
        "standing": skill.mastery,
        "memory": None if memory is None else (*memory[:2], memory.last.isoformat()),
    }


def _skill_from_json(fields: SkillFields) -> Skill:
    memory = fields["memory"]
    return Skill(
        kind=fields["kind"],
        first_day=date.fromisoformat(fields["first_day"]),
        last_day=date.fromisoformat(fields["last_day"]),
        pace_key=PaceKey(*fields["form"]),
        marks=fields["marks"],
        results=tuple(fields["results"]),
        met=fields["met"],
        begun=fields["begun"],
        owed=fields["owed"],
        mastery=Mastery(*fields["standing"]),
        memory=None if memory is None else Memory(*memory[:2], date.fromisoformat(memory[2])),
    )


def _text(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


def _day(text: str | None) -> date | None:
    return None if text is None else date.fromisoformat(text)


class SavedState:
    """The state file of a data folder: used only if made from this very log under these very rules."""

    def __init__(self, folder: Path, rules: Rules, tell: Callable[[str], None], *, writable: bool) -> None:
        self._folder, self._rules, self._tell, self._writable = folder, rules, tell, writable
        self._file = JsonFile(folder / NAME, SCHEMA, tell, writable=writable)

    def load(self, log: Log) -> State | None:
        """Return the saved state, or None if it is missing, stale, damaged or newer."""
        return self._file.read(lambda fields: self._state(fields, log))

    def go_on(self, log: Log, latest: datetime) -> Ledger | None:
        """Return what was saved of a log, with what was added to it since, and let the log go on from it.

        None where anything is not as it was left, where an answer is dated after `latest`, or where more
        was added than is quickly looked through: then all is to be read. Tells nothing.
        """
        try:
            with opened(self._folder / NAME) as file:
                fields = json.loads(file.read())
            saved = fields["ledger"]
            rules = rules_to_json(self._rules)
            is_ours = (fields["schema"], fields["rules"]) == (SCHEMA, json.loads(json.dumps(rules)))
            if (
                not is_ours
                or fields["state_hash"] != _hash(fields["state"])
                or saved["hash"] != _hash_of(saved)
            ):
                return None
            stamp = None if saved["stamp"] is None else Stamp(*saved["stamp"])
            if not log.go_on(saved["link"], fields["log_bytes"], fields["log_hash"], stamp):
                return None
            state = state_from_json(fields["state"], self._rules)
            if state.last is not None and state.last[0] > latest:
                return None
            ledger = Ledger.loaded(self._folder, state, saved)
            rest = log.rest(_MOST_ADDED)
            return ledger if rest is not None and _added(ledger, rest, latest) else None
        except (*DAMAGED, OSError):
            return None

    def save(self, state: State, log: Log, ledger: Ledger | None) -> None:
        """Replace the saved state; raises OSError, after which the log still holds everything.

        Without a ledger the next start reads the whole log.
        """
        fields = state_to_json(state)
        kept = None
        if ledger is not None and self._file.is_writable:
            ledger.write()
            kept = {**ledger.fields(), "link": log.digest.link, "stamp": log.stamp}
            kept["hash"] = _hash_of(kept)
        self._file.write(
            {
                "log_bytes": log.length,
                "log_hash": log.digest.hexdigest(),
                "rules": rules_to_json(self._rules),
                "state_hash": _hash(fields),
                "state": fields,
                "ledger": kept,
            }
        )

    def _state(self, fields: dict[str, object], log: Log) -> State | None:
        if fields["schema"] != SCHEMA:
            return None
        state = cast("StateFields", fields["state"])
        if fields["state_hash"] != _hash(state):
            raise ValueError("not what was written")
        # while one only reads, another program may have added to log and state in between
        if int(cast("int", fields["log_bytes"])) > log.length and self._writable:
            self._tell(
                "The log is shorter than it was; if you did not shorten it, bring it back from a copy,"
                " or wait until it is in step with your other machine."
            )
        fresh = (fields["log_bytes"], fields["log_hash"]) == (log.length, log.digest.hexdigest())
        if not fresh or fields["rules"] != rules_to_json(self._rules):
            return None
        return state_from_json(state, self._rules)


def _added(ledger: Ledger, rest: Sequence[tuple[int, Attempt]], latest: datetime) -> bool:
    """Count in what was added to a log; return whether all of it comes after what there was."""
    if rest and not ledger.follows([attempt for _, attempt in rest], latest):
        return False
    for line, attempt in rest:
        ledger.add(attempt, line)
    return True


def _hash_of(kept: Mapping[str, object]) -> str:
    return _hash({name: value for name, value in kept.items() if name != "hash"})


def _hash(fields: Mapping[str, object]) -> str:
    text = json.dumps(fields, sort_keys=True, separators=(",", ":"))
    return hashlib.blake2b(text.encode(), digest_size=16).hexdigest()
