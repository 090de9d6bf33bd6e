"""From the bytes of a file to JSON values, bounded in size and nesting, with a sentence for each fault."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Final

from drills.files.numbers_in import no_constant
from drills.files.refusals import FoldError

DEEPEST: Final = 64
_NOT_BRACKETS: Final = bytes(set(range(256)) - set(b"[]{}"))
_ALL_SQUARE: Final = bytes.maketrans(b"{}", b"[]")


def json_of(
    text: str | bytes, most_mib: int, whole_of: Callable[[str], object], decimal_of: Callable[[str], object]
) -> object:
    """Return a text's JSON values, numbers made by the two functions; FoldError says what is wrong."""
    if len(text) > most_mib * 1024 * 1024:
        raise FoldError(
            f"The file is larger than {most_mib} MiB; save the crease pattern alone, without other frames."
        )
    try:
        plain_text = text.decode("utf-8-sig") if isinstance(text, bytes) else text
        _check_nesting(plain_text)
        return json.loads(plain_text, parse_int=whole_of, parse_float=decimal_of, parse_constant=no_constant)
    except RecursionError:
        raise FoldError(_TOO_DEEP) from None
    except UnicodeError:
        raise FoldError("The file is not UTF-8 text; save it as FOLD 1.2, which is JSON in UTF-8.") from None
    except json.JSONDecodeError as fault:
        raise FoldError(f"The file is not JSON from line {fault.lineno} on; save it as FOLD 1.2.") from None


_TOO_DEEP = "The file nests its lists too deeply; save the crease pattern as FOLD 1.2."


def _check_nesting(text: str) -> None:
    """Refuse what nests too deeply, by taking the innermost pairs of brackets away level by level."""
    brackets = text.encode().translate(_ALL_SQUARE, _NOT_BRACKETS)
    for _ in range(DEEPEST):
        inner = brackets.replace(b"[]", b"")
        if len(inner) == len(brackets):
            return
        brackets = inner
    if b"[]" in brackets:
        raise FoldError(_TOO_DEEP)
