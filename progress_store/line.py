"""One line of a log: an attempt as bytes that end in their check sum, and what else a line may be."""

from __future__ import annotations

import codecs
import hashlib
import json
import re
from typing import Final, NamedTuple

from progress_store.attempt import Attempt
from progress_store.files import StoreError

SCHEMA: Final = 2
"""What is written; lines of schema 1 have no check sum and are read as they are."""
LONGEST_LINE: Final = 64 * 1024
MOST_BRACKETS: Final = 500
NEWER: Final = "A newer Slantwise wrote it"

_IN_QUOTES: Final = re.compile(rb'"(?:[^"\\]|\\.)*"')
_SUM: Final = b',"sum":"'
_TORN: Final = b'{"schema":'
_WHOLE: Final = re.compile(rb'\{"schema": ?[0-9]{1,9}, ?"id": ?"')


class Odd(NamedTuple):
    """A line that does not count: why not, and whether it is the answer of a newer program."""

    why: str
    newer: bool = False


def written(attempt: Attempt) -> bytes:
    """Return the line of an attempt; raises StoreError where it is too long to be read back."""
    fields = {"schema": SCHEMA, **attempt.to_json()}
    body = json.dumps(fields, separators=(",", ":")).encode()
    line = body[:-1] + _SUM + _check_sum(body) + b'"}\n'
    if len(line) > LONGEST_LINE or _is_overgrown(line):
        raise StoreError("An attempt is too long for one line of the log; leave this attempt out.")
    return line


def is_writable(attempt: Attempt) -> bool:
    """Whether an attempt fits into one line of a log, as each does that has no fields of an unknown kind."""
    if not attempt.other:
        return True
    try:
        return bool(written(attempt))
    except StoreError:
        return False


def is_object(line: bytes) -> bool:
    """Whether a line is a JSON object from its first sign to its last, whatever its fields."""
    return _fields(line) is not None


def read(line: bytes) -> Attempt | Odd:
    """Return the attempt of a line, or why it is none; of a line that is too long the beginning is enough."""
    fields = _fields(line)
    if fields is None:
        return Odd(_why_unread(line))
    schema = fields.pop("schema", 1)
    if type(schema) is not int or schema < 1:
        return Odd('The field "schema" does not fit')
    if "sum" in fields and not _is_sound(line):
        return Odd("The check sum does not fit")
    if schema > SCHEMA:
        return Odd(NEWER, newer=_is_shaped_as_attempt(fields))
    if schema == SCHEMA and "sum" not in fields:
        return Odd("The check sum is missing")
    fields.pop("sum", None)
    try:
        return Attempt.from_json(fields)
    except StoreError as error:
        return Odd(str(error).partition(";")[0])


def begins_as_ours(line: bytes) -> bool:
    """Whether a line that does not count is one of ours, damaged."""
    return _WHOLE.match(line) is not None


def is_torn_of_ours(end: bytes) -> bool:
    """Whether what follows the last line end is a line of ours begun, or the zeros of a power cut."""
    return not end.strip(b"\0") or end.startswith(_TORN) or _TORN.startswith(end)


def _fields(line: bytes) -> dict[str, object] | None:
    if len(line) > LONGEST_LINE or _is_overgrown(line):
        return None
    try:
        fields = json.loads(line)
    except (ValueError, RecursionError):
        return None
    return fields if isinstance(fields, dict) else None


def _why_unread(line: bytes) -> str:
    if len(line) > LONGEST_LINE:
        return "It is too long"
    return "It has too many brackets" if _is_overgrown(line) else "It is no JSON object"


def _is_overgrown(line: bytes) -> bool:
    """Whether a line has far more lists and objects than an attempt, which are slow to make and large."""
    # those in texts do not count; they are looked for only where there are so many in all
    return _brackets(line) > MOST_BRACKETS and _brackets(_IN_QUOTES.sub(b"", line)) > MOST_BRACKETS


def _brackets(line: bytes) -> int:
    return line.count(b"[") + line.count(b"{")


def _is_sound(line: bytes) -> bool:
    """Whether a line ends in the check sum of what stands before; line ends and marks of editors apart."""
    body, _, end = line.removeprefix(codecs.BOM_UTF8).rstrip().rpartition(_SUM)
    return end == _check_sum(body + b"}") + b'"}'


def _check_sum(body: bytes) -> bytes:
    return hashlib.blake2b(body, digest_size=8).hexdigest().encode()


def _is_shaped_as_attempt(fields: dict[str, object]) -> bool:
    return all(isinstance(fields.get(name), str) for name in ("id", "at"))
