"""From the bytes of a FOLD file to one frame: bounded in size and nesting, a sentence for each fault.

Numbers stay exact: an integer is an int, and a decimal is kept as the text that it is written with
until ``scaled_numbers`` makes whole numbers of all of them.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Final, NamedTuple, TypeAlias

from drills.fold_file.other_files import why_other
from drills.geometry import Exact, as_int

MOST_MIB: Final = 16
MOST_VERTICES: Final = 60_000
MOST_EDGES: Final = 150_000

_MOST_VALUES: Final = 2_000_000
_MOST_LISTS: Final = 800_000
_DEEPEST: Final = 64
_NOT_BRACKETS: Final = bytes(set(range(256)) - set(b"[]{}"))
_ALL_SQUARE: Final = bytes.maketrans(b"{}", b"[]")
_FARTHEST: Final = 10**9
"""The largest coordinate taken; up to here a float is exact to a millionth."""

_LONGEST: Final = 60
_LARGEST_EXPONENT: Final = 99
_FRACTION: Final = re.compile(r"-?[0-9]{1,40}(/[0-9]{1,40})?")

Frame: TypeAlias = Mapping[str, object]

Ends: TypeAlias = tuple[int, int]
"""The two points that a line joins, by their indices."""


class FoldFileError(ValueError):
    """A FOLD file that cannot be read; the message is one sentence that says what to change.

    It names places by key and index and never repeats text from the file.
    """


def counted(number: int, thing: str) -> str:
    """Return a number with its noun, as in "1 line" and "2 lines"."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def json_of(text: bytes) -> object:
    """Return a file's JSON values, decimals as DecimalText; FoldFileError says what is wrong."""
    if why := why_other(text):
        raise FoldFileError(why)
    if len(text) > MOST_MIB * 1024 * 1024:
        raise FoldFileError(
            f"The file is larger than {MOST_MIB} MiB; save the crease pattern alone, without other frames."
        )
    try:
        plain_text = text.decode("utf-8-sig")
        _check_extent(text)
        return json.loads(
            plain_text, parse_int=_int_of, parse_float=DecimalText, parse_constant=_refuse_constant
        )
    except RecursionError:
        raise FoldFileError(_TOO_DEEP) from None
    except UnicodeError:
        raise FoldFileError(
            "The file is not UTF-8 text; save it as FOLD 1.2, which is JSON in UTF-8."
        ) from None
    except json.JSONDecodeError as fault:
        raise FoldFileError(
            f"The file is not JSON from line {fault.lineno} on; save it as FOLD 1.2."
        ) from None


_TOO_MANY: Final = "The file holds too many values; save the crease pattern alone, without other frames."
_TOO_DEEP: Final = "The file nests its lists too deeply; save the crease pattern as FOLD 1.2."


def _check_extent(text: bytes) -> None:
    """Refuse what would take much memory, or nests too deeply, before anything is made of it."""
    # signs are counted in C, far quicker than in a loop; those inside texts count too, which matters
    # only for a text that has as many of them itself
    brackets = text.translate(_ALL_SQUARE, _NOT_BRACKETS)
    if text.count(b",") + text.count(b":") > _MOST_VALUES or len(brackets) > 2 * _MOST_LISTS:
        raise FoldFileError(_TOO_MANY)
    # the innermost pairs of brackets are taken away level by level
    for _ in range(_DEEPEST):
        inner = brackets.replace(b"[]", b"")
        if len(inner) == len(brackets):
            return
        brackets = inner
    if b"[]" in brackets:
        raise FoldFileError(_TOO_DEEP)


_FOLDED: Final = "This is a folded form, not a crease pattern; save the crease pattern."


def pattern_frame(data: object) -> tuple[Frame, str]:
    """Return the frame that holds the crease pattern and what to tell the person about it, if anything.

    The key frame is taken; where it is empty, the first whole crease pattern among the other frames.
    """
    if not isinstance(data, dict):
        raise FoldFileError("The file does not hold a JSON object; save the crease pattern as FOLD 1.2.")
    _check_version(data.get("file_spec", 1))
    others = _other_frames(data)
    if "vertices_coords" in data or not others:
        _check_flat(data)
        more = (
            f"The file holds {counted(len(others), 'more frame')}, and only the first one was read."
            if others
            else ""
        )
        return data, more
    for number, frame in enumerate(others, start=1):
        if _is_whole_pattern(frame):
            return frame, f"The file's first frame is empty, and frame {number} was read."
    raise FoldFileError(_why_no_frame(others))


def _check_version(spec: object) -> None:
    known = not isinstance(spec, bool) and isinstance(spec, (int, DecimalText))
    if not known or not 1 <= float(str(spec)) < 2:
        raise FoldFileError("file_spec is not a version from 1 up to 2; save the file as FOLD 1.2.")


def _other_frames(data: Frame) -> list[Frame]:
    frames = data.get("file_frames", [])
    if not isinstance(frames, list) or not all(isinstance(frame, dict) for frame in frames):
        raise FoldFileError("file_frames is not a list of frames; save the crease pattern alone.")
    return frames


def _check_flat(frame: Frame) -> None:
    classes = _classes(frame)
    if "foldedForm" in classes and "creasePattern" not in classes:
        raise FoldFileError(_FOLDED)


def _classes(frame: Frame) -> list[object]:
    classes = frame.get("frame_classes", [])
    return classes if isinstance(classes, list) else [classes]


def _is_whole_pattern(frame: Frame) -> bool:
    has_edges = "edges_vertices" in frame or "faces_vertices" in frame
    is_own = "vertices_coords" in frame and has_edges and not frame.get("frame_inherit")
    return is_own and "creasePattern" in _classes(frame)


def _why_no_frame(frames: list[Frame]) -> str:
    if any(frame.get("frame_inherit") for frame in frames):
        return "The crease pattern's frame takes lists from another frame; save the crease pattern alone."
    if any("foldedForm" in _classes(frame) for frame in frames):
        return _FOLDED
    return "No frame of the file is a whole crease pattern; save the crease pattern alone."


def rows_of(frame: Frame, key: str, most: int, length: int | None = None) -> list[object]:
    """Return a list of the frame, of the given length if one is given, not empty and not too long."""
    rows = frame.get(key)
    if not isinstance(rows, list) or not rows:
        raise FoldFileError(f"The file has no list {key}; save it as FOLD 1.2 with this list.")
    if len(rows) > most:
        raise FoldFileError(f"{key} has more than {most} entries; save a smaller part of the pattern.")
    if length is not None and len(rows) != length:
        raise FoldFileError(f"{key} has {len(rows)} entries and should have {length}; give one for each.")
    return rows


def pair_of(row: object, vertices: int, key: str, index: int) -> Ends:
    """Return an entry of a list that names two different vertices out of so many."""
    if type(row) is not list or len(row) != 2:
        raise FoldFileError(f"{key}[{index}] is not a pair; give the two vertices that the edge joins.")
    one, two = row
    if type(one) is not int or type(two) is not int:
        raise FoldFileError(
            f"{key}[{index}] holds something that is no whole number; give vertices by their index."
        )
    if not (0 <= one < vertices and 0 <= two < vertices):
        raise FoldFileError(f"{key}[{index}] names a vertex that is not there; use 0 to {vertices - 1}.")
    if one == two:
        raise FoldFileError(f"{key}[{index}] joins a vertex to itself; give it two different ends.")
    return one, two


class DecimalText(str):
    """A decimal as it stands in the file, kept as text until it is needed."""

    __slots__ = ()


Number: TypeAlias = int | DecimalText


class ScaledNumbers(NamedTuple):
    """Per number as written the whole number it is when multiplied by 10 ** places."""

    values: Mapping[Number, int]
    places: int


def scaled_numbers(numbers: Iterable[Number]) -> ScaledNumbers:
    """Return the numbers exactly; FoldFileError where one is too long or too far from zero."""
    parts = {number: _digits_and_power(number) for number in set(numbers)}
    places = max(0, max((-power for _, power in parts.values()), default=0))
    values = {number: digits * 10 ** (places + power) for number, (digits, power) in parts.items()}
    farthest = _FARTHEST * 10**places
    if not all(-farthest <= value <= farthest for value in values.values()):
        raise FoldFileError(f"A coordinate is more than {_FARTHEST} from zero; scale the pattern down.")
    return ScaledNumbers(values, places)


def sign_of(number: Number) -> int:
    """Return 1, 0 or -1."""
    digits = number if isinstance(number, int) else _digits_and_power(number)[0]
    return (digits > 0) - (digits < 0)


def fraction_of(value: object, place: str) -> Exact:
    """Return a number that is written as a fraction in text, such as "1/3" or "-2"."""
    if not isinstance(value, str) or not _FRACTION.fullmatch(value):
        raise FoldFileError(f'{place} is not a fraction in text; write it like "1/3" or "-2".')
    top, _, bottom = value.partition("/")
    if bottom and not int(bottom):
        raise FoldFileError(f"{place} divides by zero; give the fraction another denominator.")
    return as_int(Fraction(int(top), int(bottom or 1)))


def _digits_and_power(number: Number) -> tuple[int, int]:
    """Return a whole number and the power of ten that it is multiplied by."""
    if isinstance(number, int):
        return number, 0
    _check_length(number)
    mantissa, _, exponent = number.lower().partition("e")
    if exponent and abs(int(exponent)) > _LARGEST_EXPONENT:
        raise FoldFileError("The file has a number with an exponent beyond 99; write it without one.")
    whole, _, part = mantissa.partition(".")
    return int(whole + part), int(exponent or 0) - len(part)


def _int_of(text: str) -> int:
    _check_length(text)
    return int(text)


def _refuse_constant(_text: str) -> object:
    raise FoldFileError("The file has a NaN or an infinite number; give every coordinate a finite value.")


def _check_length(text: str) -> None:
    """Refuse a number that takes very long to work out."""
    if len(text) > _LONGEST:
        raise FoldFileError(f"The file has a number of more than {_LONGEST} characters; round its numbers.")
