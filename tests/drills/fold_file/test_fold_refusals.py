"""What the reader refuses, each with a sentence of its own that repeats nothing of the file."""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Callable
from typing import Any, TypeVar

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.fold_file import LARGEST_MIB, FoldFileError, from_fold, read_fold, to_fold
from drills.structures import Stretch, draw


def test_a_file_that_is_no_json_is_refused_with_the_line() -> None:
    """The sentence says where reading stopped and what to do."""
    with pytest.raises(FoldFileError, match=r"^The file is not JSON from line 2 on; save it as FOLD 1\.2\.$"):
        read_fold('{"file_spec": 1.2,\n what}')


GOOD: dict[str, Any] = {
    "file_spec": 1.2,
    "vertices_coords": [[0, 0], [4, 0], [4, 3.5]],
    "edges_vertices": [[0, 1], [1, 2], [2, 0]],
    "edges_assignment": ["B", "M", "V"],
}
EXACT = "slantwise:vertices_exact"
ROLE = "slantwise:edges_role"
Change = Callable[[dict[str, Any]], None]


def put(key: str, *path_and_value: object) -> Change:
    """Return a change that puts a value at a key, or at a place in the list under it."""

    def change(fold: dict[str, Any]) -> None:
        *path, value = path_and_value
        at: Any = fold
        for step in (key, *path)[:-1]:
            at = at[step]
        at[(key, *path)[-1]] = value

    return change


def without(key: str) -> Change:
    """Return a change that takes a key away."""
    return lambda fold: fold.__delitem__(key)


EVIL = "\x1b[31m[bold]evil"
REFUSALS: list[tuple[Change, str]] = [
    (put("file_spec", EVIL), "file_spec is not a version"),
    (put("file_spec", True), "file_spec is not a version"),
    (put("file_spec", 2), "file_spec is not a version"),
    (put("file_frames", [{"frame_parent": 0}]), "several frames"),
    (put("frame_classes", ["foldedForm"]), "folded model"),
    (without("vertices_coords"), "no list vertices_coords"),
    (put("vertices_coords", []), "no list vertices_coords"),
    (put("vertices_coords", EVIL), "no list vertices_coords"),
    (put("vertices_coords", [[0, 0]] * 20_001), "vertices_coords has more than 20000 entries"),
    (put("vertices_coords", 1, 7), r"vertices_coords\[1\] is not a point"),
    (put("vertices_coords", 1, [1]), r"vertices_coords\[1\] is not a point"),
    (put("vertices_coords", 1, [1, 2, 0, 0]), r"vertices_coords\[1\] is not a point"),
    (put("vertices_coords", 1, [4, 0, 1]), r"vertices_coords\[1\] lies off the flat sheet"),
    (put("vertices_coords", 1, [EVIL, 0]), r"vertices_coords\[1\] is not a number"),
    (put("vertices_coords", 1, [True, 0]), r"vertices_coords\[1\] is not a number"),
    (put("vertices_coords", 1, [None, 0]), r"vertices_coords\[1\] is not a number"),
    (put("vertices_coords", 1, [10**9 + 1, 0]), r"vertices_coords\[1\] is more than 1000000000 from zero"),
    (put("vertices_coords", 1, [0, -2e9]), r"vertices_coords\[1\] is more than 1000000000 from zero"),
    (put("vertices_coords", 2, [0.0, 0]), "Vertices 0 and 2 are the same point"),
    (without("edges_vertices"), "no list edges_vertices"),
    (put("edges_vertices", [[0, 1]] * 60_001), "edges_vertices has more than 60000 entries"),
    (put("edges_vertices", 1, 3), r"edges_vertices\[1\] is not a pair"),
    (put("edges_vertices", 1, [0, 1, 2]), r"edges_vertices\[1\] is not a pair"),
    (put("edges_vertices", 1, [0, 3]), r"edges_vertices\[1\] names a vertex that is not there"),
    (put("edges_vertices", 1, [-1, 0]), r"edges_vertices\[1\] names a vertex that is not there"),
    (put("edges_vertices", 1, [0, 1.0]), r"edges_vertices\[1\] holds something that is no whole number"),
    (put("edges_vertices", 1, [True, 0]), r"edges_vertices\[1\] holds something that is no whole number"),
    (put("edges_vertices", 1, [EVIL, 0]), r"edges_vertices\[1\] holds something that is no whole number"),
    (put("edges_vertices", 1, [2, 2]), r"edges_vertices\[1\] joins a vertex to itself"),
    (put("edges_vertices", 1, [1, 0]), "Edges 0 and 1 join the same two vertices"),
    (without("edges_assignment"), "no list edges_assignment"),
    (put("edges_assignment", ["B", "M"]), "edges_assignment has 2 entries and should have 3"),
    (put("edges_assignment", ["B"] * 60_001), "edges_assignment has more than 60000 entries"),
    (put("edges_assignment", 1, "C"), r"edges_assignment\[1\] is a cut or a join"),
    (put("edges_assignment", 1, "J"), r"edges_assignment\[1\] is a cut or a join"),
    (put("edges_assignment", 1, "m"), r"edges_assignment\[1\] is not a label"),
    (put("edges_assignment", 1, EVIL), r"edges_assignment\[1\] is not a label"),
    (put("edges_assignment", 1, ["M"]), r"edges_assignment\[1\] is not a label"),
    (put(ROLE, ["border"]), f"{ROLE} has 1 entries and should have 3"),
    (put(ROLE, "border"), f"no list {ROLE}"),
    (put(ROLE, ["border", EVIL, "inside"]), rf"{ROLE}\[1\] is not a role"),
    (put(ROLE, ["border", {}, "inside"]), rf"{ROLE}\[1\] is not a role"),
    (put(EXACT, [["0", "0"]]), f"{EXACT} has 1 entries and should have 3"),
    (put(EXACT, [["0", "0"], ["4"], ["4", "7/2"]]), rf"{EXACT}\[1\] is not a point"),
    (put(EXACT, [["0", "0"], ["4", "1/7"], ["4", "7/2"]]), rf"{EXACT}\[1\] is not the point"),
    (put(EXACT, [["0", "0"], ["4", "0/0"], ["4", "7/2"]]), rf"{EXACT}\[1\] divides by zero"),
    (put(EXACT, [["0", "0"], ["4", 0], ["4", "7/2"]]), rf"{EXACT}\[1\] is not a fraction in text"),
    (put(EXACT, [["0", "0"], ["4", EVIL], ["4", "7/2"]]), rf"{EXACT}\[1\] is not a fraction in text"),
    (put(EXACT, [["0", "0"], ["4", "0\n"], ["4", "7/2"]]), rf"{EXACT}\[1\] is not a fraction in text"),
    (put(EXACT, [["0", "0"], ["4", "9" * 99], ["4", "7/2"]]), rf"{EXACT}\[1\] is not a fraction in text"),
]


@pytest.mark.parametrize(("change", "words"), REFUSALS, ids=[words for _, words in REFUSALS])
def test_each_fault_has_its_sentence(change: Change, words: str) -> None:
    """A good file with one fault is refused, as an object and as text, in one clean sentence."""
    fold = copy.deepcopy(GOOD)
    change(fold)
    with pytest.raises(FoldFileError, match=words) as of_object:
        from_fold(fold)
    with pytest.raises(FoldFileError, match=words) as of_text:
        read_fold(json.dumps(fold))
    assert str(of_object.value) == str(of_text.value)
    assert is_one_clean_sentence(str(of_text.value))


def is_one_clean_sentence(words: str) -> bool:
    """Whether the words are one printable sentence without text from the file that says what to do."""
    one = words.endswith(".") and not re.search(r"[.!?]\s", words)
    return one and ";" in words and words.isprintable() and "evil" not in words


def test_the_good_file_is_good() -> None:
    """Without a fault nothing is refused."""
    assert len(from_fold(copy.deepcopy(GOOD)).edges) == 3


@pytest.mark.parametrize("data", [None, 3, "text", [GOOD], True])
def test_what_is_no_object_is_refused(data: object) -> None:
    """A list, a number or a text at the top is not a FOLD file."""
    with pytest.raises(FoldFileError, match="does not hold a JSON object"):
        from_fold(data)


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_numbers_that_are_not_finite_are_refused(value: float) -> None:
    """NaN and Infinity, which some programs write, are refused as object and as text."""
    fold = copy.deepcopy(GOOD)
    fold["vertices_coords"][1][0] = value
    with pytest.raises(FoldFileError, match=r"vertices_coords\[1\] is not finite"):
        from_fold(fold)
    with pytest.raises(FoldFileError, match="NaN or an infinite number"):
        read_fold(json.dumps(fold))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("1e999999", "exponent beyond 99"),
        ("1e-999999", "exponent beyond 99"),
        ("1E+99999999999999999999", "exponent beyond 99"),
        ("1." + "3" * 5000, "more than 60 characters"),
        ("9" * 5000, "more than 60 characters"),
        ("1e99", "more than 1000000000 from zero"),
    ],
)
def test_numbers_that_would_take_for_ever_are_refused_at_once(text: str, words: str) -> None:
    """Huge exponents and very long numbers are never worked out."""
    with pytest.raises(FoldFileError, match=words) as refused:
        read_fold(f'{{"vertices_coords": [[0, {text}]]}}')
    assert is_one_clean_sentence(str(refused.value))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("[" * 100_000, "nests its lists too deeply"),
        ('{"a":' * 100_000, "nests its lists too deeply"),
        (" " * (LARGEST_MIB * 2**20 + 1), "larger than 4 MiB"),
        (b" " * (LARGEST_MIB * 2**20 + 1), "larger than 4 MiB"),
        (b"\xff\xfe{\x00}\x00", "not UTF-8 text"),
        (b"%PDF-1.7", "not JSON from line 1 on"),
        ("", "not JSON from line 1 on"),
    ],
)
def test_what_is_no_fold_text_is_refused(text: str | bytes, words: str) -> None:
    """Deep nesting, a large file, other encodings and other files each have their sentence."""
    with pytest.raises(FoldFileError, match=words) as refused:
        read_fold(text)
    assert is_one_clean_sentence(str(refused.value))


Content = TypeVar("Content")


def is_read_or_cleanly_refused(read: Callable[[Content], object], content: Content) -> bool:
    """Whether reading gives a pattern, or refuses with one clean sentence; other errors go on up."""
    try:
        read(content)
    except FoldFileError as refused:
        return is_one_clean_sentence(str(refused))
    return True


values = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=3)
    | st.sampled_from("BMVFUCJ"),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=3), inner, max_size=2),
    max_leaves=6,
)
KEYS = [*to_fold(draw(Stretch((1, 1)))), EXACT, "file_frames"]


@given(st.dictionaries(st.sampled_from(KEYS), values), st.sampled_from(KEYS))
def test_damaged_objects_are_read_or_refused_and_nothing_else(damage: dict[str, object], gone: str) -> None:
    """Whatever stands under the keys, reading ends with a pattern or a clean sentence."""
    fold: dict[str, object] = {**copy.deepcopy(GOOD), **damage}
    fold.pop(gone, None)
    assert is_read_or_cleanly_refused(from_fold, fold)
    assert is_read_or_cleanly_refused(read_fold, json.dumps(fold))


@given(st.integers(0, 10**6), st.binary(max_size=3), st.integers(0, 3))
def test_damaged_text_is_read_or_refused_and_nothing_else(place: int, extra: bytes, cut: int) -> None:
    """A file with some bytes put in or taken out is read or refused with a clean sentence."""
    text = json.dumps(to_fold(draw(Stretch((1, 1))))).encode()
    at = place % len(text)
    assert is_read_or_cleanly_refused(read_fold, text[:at] + extra + text[at + cut :])
