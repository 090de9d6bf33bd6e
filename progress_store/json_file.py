"""A small JSON file with a schema version, replaced whole and never lost."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Final, TypeVar

from progress_store.files import move_aside, reason, replace_file, shown

LARGEST_BYTES: Final = 4 << 20

T = TypeVar("T")


class Document:
    """One JSON file; what is wrong with it is told as a sentence through `tell`.

    A file of a newer schema is left as it is; a damaged one is moved aside if this program may write.
    """

    def __init__(self, path: Path, schema: int, tell: Callable[[str], None], *, writable: bool) -> None:
        self._path, self._schema, self._tell, self._writable = path, schema, tell, writable

    def read(self, made: Callable[[dict[str, object]], T]) -> T | None:
        """Return what `made` makes of the fields; None if there is no file or none that can be used.

        `made` says with ValueError, TypeError or KeyError that the fields are damaged.
        """
        try:
            fields = self._fields()
            if fields is None:
                return None
            if self._is_newer(fields):
                self._leave()
                return None
            return made(fields)
        except (ValueError, TypeError, KeyError, RecursionError):
            self._put_aside()
        except OSError as error:
            self._tell(f"{shown(self._path)} cannot be read ({reason(error)}); make it readable.")
            self._writable = False
        return None

    def write(self, fields: Mapping[str, object]) -> None:
        """Replace the file by the fields under our schema, unless it is not ours to write; raises OSError."""
        if self._writable:
            replace_file(self._path, json.dumps({**fields, "schema": self._schema}).encode() + b"\n")

    def _fields(self) -> dict[str, object] | None:
        if not self._path.exists():
            return None
        with self._path.open("rb") as file:
            content = file.read(LARGEST_BYTES + 1)
        if len(content) > LARGEST_BYTES:
            raise ValueError("too large")
        fields = json.loads(content)
        if not isinstance(fields, dict) or type(fields.get("schema")) is not int:
            raise ValueError("not an object with a schema")
        return fields

    def _is_newer(self, fields: dict[str, object]) -> bool:
        schema = fields["schema"]
        return isinstance(schema, int) and schema > self._schema

    def _leave(self) -> None:
        self._writable = False
        self._tell(
            f"{shown(self._path)} was written by a newer Slantwise and is left as it is; update this one."
        )

    def _put_aside(self) -> None:
        if not self._writable:
            return
        try:
            aside = move_aside(self._path)
        except OSError as error:
            self._writable = False
            self._tell(f"{shown(self._path)} is damaged ({reason(error)}); move it away yourself.")
        else:
            kept = shown(Path(aside.name))
            self._tell(f"{shown(self._path)} was damaged; it is kept as {kept} and is made anew.")
