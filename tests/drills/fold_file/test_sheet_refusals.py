"""What the reader of anyone's files refuses, each with a sentence of its own that repeats nothing of it."""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Callable
from time import process_time
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.fold_file import MOST_MIB, FoldFileError, read_sheet
from drills.structures import Stretch, draw
from tests.drills.fold_file.writing import border, lines_fold, plain_fold, read, square, text_of


def test_a_folded_form_is_refused_as_such() -> None:
    """A file that says it is a folded form is not read as a pattern."""
    with pytest.raises(
        FoldFileError, match=r"^This is a folded form, not a crease pattern; save the crease pattern\.$"
    ):
        read({**GOOD, "frame_classes": ["foldedForm"]})


GOOD = lines_fold([*square(4), ((0, 1), (4, 1), "M"), ((0, 3), (4, 3), "V")])
EVIL = "\x1b[31m[bold]evil\x00"
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


def drop(*keys: str) -> Change:
    """Return a change that takes keys away."""

    def change(fold: dict[str, Any]) -> None:
        for key in keys:
            del fold[key]

    return change


def also(*changes: Change) -> Change:
    """Return a change made of several."""

    def change(fold: dict[str, Any]) -> None:
        for one in changes:
            one(fold)

    return change


def lines(*drawn: tuple[tuple[float, float], tuple[float, float], str]) -> Change:
    """Return a change that draws other lines instead."""
    return lambda fold: fold.update(lines_fold(drawn))


EXACT = "slantwise:vertices_exact"
FACE = also(drop("edges_vertices", "edges_assignment"), put("faces_vertices", [[0, 1, 2], [0, 2, 9]]))
INNER = border([(1, 1), (3, 1), (3, 3), (1, 3)])
NOTCHED = border([(0, 0), (4, 0), (4, 4), (2, 1), (0, 4)])
NO_FRACTIONS = [EVIL, 0, "0\n", "9" * 99]
EMPTY = drop("vertices_coords")
REFUSALS: list[tuple[Change, str]] = [
    (put("file_spec", EVIL), "file_spec is not a version"),
    (put("file_spec", True), "file_spec is not a version"),
    (put("file_spec", 2.5), "file_spec is not a version"),
    (put("file_spec", 0), "file_spec is not a version"),
    (put("frame_classes", "foldedForm"), "This is a folded form"),
    (put("file_frames", 3), "file_frames is not a list of frames"),
    (put("file_frames", [EVIL]), "file_frames is not a list of frames"),
    (also(EMPTY, put("file_frames", [{}])), "No frame of the file is a whole crease pattern"),
    (also(EMPTY, put("file_frames", [{"frame_classes": ["foldedForm"]}])), "This is a folded form"),
    (also(EMPTY, put("file_frames", [{"frame_inherit": True}])), "takes lists from another frame"),
    (EMPTY, "no list vertices_coords"),
    (put("vertices_coords", []), "no list vertices_coords"),
    (put("vertices_coords", EVIL), "no list vertices_coords"),
    (put("vertices_coords", [[0, 0]] * 60_001), "vertices_coords has more than 60000 entries"),
    (put("vertices_coords", 1, 7), r"vertices_coords\[1\] is not a point"),
    (put("vertices_coords", 1, [1]), r"vertices_coords\[1\] is not a point"),
    (put("vertices_coords", 1, [1, 2, 0, 0]), r"vertices_coords\[1\] is not a point"),
    (put("vertices_coords", 1, [EVIL, 0]), r"vertices_coords\[1\] is not a number"),
    (put("vertices_coords", 1, ["1.5", 0]), r"vertices_coords\[1\] is not a number"),
    (put("vertices_coords", 1, [True, 0]), r"vertices_coords\[1\] is not a number"),
    (put("vertices_coords", 1, [None, 0]), r"vertices_coords\[1\] is not a number"),
    (put("vertices_coords", 1, [4, 0, 1]), "do not lie in one flat sheet"),
    (put("vertices_coords", 1, [4, 0, -0.25]), "do not lie in one flat sheet"),
    (put("vertices_coords", 1, [10**9 + 1, 0]), "more than 1000000000 from zero"),
    (put("vertices_coords", 1, [0, -2e9]), "more than 1000000000 from zero"),
    (put("edges_vertices", []), "no list edges_vertices"),
    (drop("edges_vertices", "edges_assignment"), "no list edges_vertices"),
    (put("edges_vertices", [[0, 1]] * 150_001), "edges_vertices has more than 150000 entries"),
    (put("edges_vertices", 1, 3), r"edges_vertices\[1\] is not a pair"),
    (put("edges_vertices", 1, [0, 1, 2]), r"edges_vertices\[1\] is not a pair"),
    (put("edges_vertices", 1, [0, 12]), r"edges_vertices\[1\] names a vertex that is not there; use 0 to 11"),
    (put("edges_vertices", 1, [-1, 0]), r"edges_vertices\[1\] names a vertex that is not there"),
    (put("edges_vertices", 1, [0, 1.0]), r"edges_vertices\[1\] holds something that is no whole number"),
    (put("edges_vertices", 1, [True, 0]), r"edges_vertices\[1\] holds something that is no whole number"),
    (put("edges_vertices", 1, [EVIL, 0]), r"edges_vertices\[1\] holds something that is no whole number"),
    (put("edges_vertices", 1, [2, 2]), r"edges_vertices\[1\] joins a vertex to itself"),
    (also(drop("edges_vertices"), put("faces_vertices", [[0, 1, 2]])), "labels but no list edges_vertices"),
    (also(FACE, put("faces_vertices", 1, [0, 1])), r"faces_vertices\[1\] is not a face"),
    (also(FACE, put("faces_vertices", 1, EVIL)), r"faces_vertices\[1\] is not a face"),
    (
        also(FACE, put("faces_vertices", 1, [0, 1, 12])),
        r"faces_vertices\[1\] names a vertex that is not there",
    ),
    (also(FACE, put("faces_vertices", 1, [0, 1, 1])), r"faces_vertices\[1\] joins a vertex to itself"),
    (put("edges_assignment", EVIL), "no list edges_assignment"),
    (put("edges_assignment", ["B", "M"]), "edges_assignment has 2 entries and should have 6"),
    (put("edges_assignment", 4, "C"), r"Edge 4 is a cut \(C\)"),
    (put("edges_assignment", 4, "m"), r"edges_assignment\[4\] is not a label"),
    (put("edges_assignment", 4, EVIL), r"edges_assignment\[4\] is not a label"),
    (put("edges_assignment", 4, ["M"]), r"edges_assignment\[4\] is not a label"),
    (put("edges_foldAngle", [180]), "edges_foldAngle has 1 entries and should have 6"),
    (put("edges_foldAngle", [0, 0, 0, 0, EVIL, 0]), r"edges_foldAngle\[4\] is not a number"),
    (put("edges_foldAngle", [0, 0, 0, 0, False, 0]), r"edges_foldAngle\[4\] is not a number"),
    (put(EXACT, [["0", "0"]]), f"{EXACT} has 1 entries and should have 12"),
    (put(EXACT, [["0", "1"]] * 12), rf"{EXACT}\[0\] is not the point of vertices_coords"),
    (put(EXACT, [["0"]] * 12), rf"{EXACT}\[0\] is not a point"),
    (put(EXACT, [["0", "0/0"]] * 12), rf"{EXACT}\[0\] divides by zero"),
    *((put(EXACT, [["0", bad]] * 12), rf"{EXACT}\[0\] is not a fraction in text") for bad in NO_FRACTIONS),
    (lines(((0, 0), (0, 0), "B")), "has no crease and no edge of the paper"),
    (lines(((0, 0), (4, 0), "M"), ((4, 0), (4, 4), "M")), "No closed convex edge of the paper"),
    (
        lines(*square(4)[:3], ((0, 0), (4, 4), "M")),
        "The paper's edge is open or branches at edge 0",
    ),
    (lines(*square(4), ((0, 2), (4, 2), "B")), "The paper's edge is open or branches at edge 1"),
    (lines(*square(4), *INNER), "The paper has a hole or is in several pieces"),
    (lines(*square(4), *border([(5, 0), (9, 0), (9, 4)])), "The paper has a hole or is in several pieces"),
    (lines(*NOTCHED), "The paper is not convex"),
    (lines(*NOTCHED, ((0, 4), (4, 4), "M")), "The paper is not convex"),
    (lines(*square(4), ((1, 1), (5, 2), "M")), "Edge 4 runs beyond the paper's edge"),
    (lines(*square(4), ((5, 1), (5, 2), "M")), "Edge 4 is not joined to the paper's edge"),
    (lines(*square(4), ((-1, -1), (-1, -2), "M")), "Edge 4 runs beyond the paper's edge"),
    (lines(*square(4), ((1, 1), (2, 3), "M")), "Edge 4 is not joined to the paper's edge"),
    (
        lines(*square(4), ((0, 1), (4, 1), "M"), ((0, 1), (2, 1), "V")),
        "Edges 4 and 5 lie on top of each other",
    ),
]


@pytest.mark.parametrize(("change", "words"), REFUSALS, ids=[words for _, words in REFUSALS])
def test_each_fault_has_its_sentence(change: Change, words: str) -> None:
    """A good file with one fault is refused in one clean sentence that says what to do."""
    fold = copy.deepcopy(GOOD)
    change(fold)
    with pytest.raises(FoldFileError, match=words) as refused:
        read(fold)
    assert is_one_clean_sentence(str(refused.value))


def is_one_clean_sentence(words: str) -> bool:
    """Whether the words are one printable sentence without text from the file that says what to do."""
    one = words.endswith(".") and not re.search(r"[.!?]\s", words)
    return one and ";" in words and words.isprintable() and "evil" not in words


def test_the_good_file_is_good() -> None:
    """Without a fault nothing is refused; the same with a flat outline, and with what is not read spoilt."""
    assert len(read(GOOD).pattern.creases) == 2
    flat = {**GOOD, "edges_assignment": ["F"] * 4 + ["M", "V"]}
    assert read(flat).pattern == read(GOOD).pattern
    spoilt = {**GOOD, "file_title": EVIL, "faces_vertices": EVIL, "edges_length": [EVIL], EVIL: EVIL}
    assert read(spoilt) == read(GOOD)


@pytest.mark.parametrize("value", ["NaN", "Infinity", "-Infinity"])
def test_numbers_that_are_not_finite_are_refused(value: str) -> None:
    """NaN and Infinity, which some programs write, are no numbers."""
    with pytest.raises(FoldFileError, match="NaN or an infinite number"):
        read_sheet(b'{"vertices_coords": [[0, %s]]}' % value.encode())


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (b'{"vertices_coords": [[0, 1e999999]]}', "exponent beyond 99"),
        (b'{"vertices_coords": [[0, 1E-99999999999999999999]]}', "exponent beyond 99"),
        (b'{"vertices_coords": [[0, 1.' + b"3" * 5000 + b"]]}", "more than 60 characters"),
        (b'{"vertices_coords": [[0, ' + b"9" * 5000 + b"]]}", "more than 60 characters"),
        (b'{"vertices_coords": [[0, 1e99]]}', "more than 1000000000 from zero"),
        (b'{"file_spec": 1.' + b"1" * 99 + b"}", "no list vertices_coords"),
        (b'{"file_spec": ' + b"1" * 99 + b"}", "more than 60 characters"),
        (b"[" * 100_000, "nests its lists too deeply|is not JSON"),
        (b'{"a":' * 100_000, "nests its lists too deeply|is not JSON"),
        (b"[" * 65 + b"]" * 65, "nests its lists too deeply"),
        (b'{"a":' * 64 + b"[]" + b"}" * 64, "nests its lists too deeply"),
        (b"[" * 64 + b"]" * 64, "does not hold a JSON object"),
        (b'{"a":[' + b"0," * 2_000_000 + b"0]}", "holds too many values"),
        (b'{"a":[' + b"[]," * 1_000_000 + b"0]}", "holds too many values"),
        (b" " * (MOST_MIB * 2**20 + 1), "larger than 16 MiB"),
        (b"\xff\xfe{\x00}\x00", "not UTF-8 text"),
        (b"%PDF-1.7", "is a PDF, not a crease pattern"),
        (b"\x89PNG\r\n\x1a\n", "is a picture, not a crease pattern"),
        (b"PK\x03\x04", "is a packed file, not a crease pattern"),
        (b"<!DOCTYPE html><html>", "is XML or a web page"),
        (b'{"file_spec": 1.2,\n what}', "not JSON from line 2 on"),
        (b"", "not JSON from line 1 on"),
        (b"null", "does not hold a JSON object"),
        (b'"text"', "does not hold a JSON object"),
    ],
)
def test_what_is_no_fold_text_is_refused_at_once(text: bytes, words: str) -> None:
    """Huge numbers, deep nesting, large files, other encodings and other files each have their sentence."""
    start = process_time()
    with pytest.raises(FoldFileError, match=words) as refused:
        read_sheet(text)
    assert is_one_clean_sentence(str(refused.value))
    assert process_time() - start < 1


def test_a_crowd_of_long_creases_is_refused_before_it_is_sorted() -> None:
    """Of 29,000 creases from one point each would pass through a hundred cells."""
    text = text_of(
        lines_fold([*square(500), *(((250, 250), (at % 499 + 0.5, at / 60), "U") for at in range(29_000))])
    )
    start = process_time()
    with pytest.raises(FoldFileError, match="Too many creases lie close together"):
        read_sheet(text)
    assert process_time() - start < 1.5


def test_brackets_in_titles_are_no_nesting() -> None:
    """Text may hold any brackets."""
    assert read({**GOOD, "file_title": "[" * 500, "file_description": "{[" * 90 + "]}" * 30}) == read(GOOD)


def is_read_or_cleanly_refused(text: bytes) -> bool:
    """Whether reading ends within a second, with a sheet or one clean sentence; other errors go on up."""
    start = process_time()
    try:
        sheet = read_sheet(text)
    except FoldFileError as refused:
        return is_one_clean_sentence(str(refused)) and process_time() - start < 1
    said = all(words.endswith(".") and words.isprintable() and "evil" not in words for words in sheet.notices)
    return said and process_time() - start < 1


values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.sampled_from(["B", "M", "F", "J", EVIL]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=3), inner, max_size=2),
    max_leaves=6,
)
KEYS = [*GOOD, "edges_foldAngle", "faces_vertices", "file_frames", "frame_classes", "file_title", EXACT]


@given(st.dictionaries(st.sampled_from(KEYS), values), st.sampled_from(KEYS))
def test_damaged_files_are_read_or_refused_and_nothing_else(damage: dict[str, object], gone: str) -> None:
    """Whatever stands under the keys, reading ends with a sheet or a clean sentence."""
    fold: dict[str, object] = {**copy.deepcopy(GOOD), **damage}
    fold.pop(gone, None)
    assert is_read_or_cleanly_refused(json.dumps(fold).encode())


@given(st.integers(0, 10**6), st.binary(max_size=3), st.integers(0, 3))
def test_damaged_text_is_read_or_refused_and_nothing_else(place: int, extra: bytes, cut: int) -> None:
    """A file with some bytes put in or taken out is read or refused with a clean sentence."""
    text = text_of(plain_fold(draw(Stretch((1, 1)))))
    at = place % len(text)
    assert is_read_or_cleanly_refused(text[:at] + extra + text[at + cut :])


@given(st.binary(max_size=200))
def test_any_bytes_are_refused(text: bytes) -> None:
    """Bytes that are no FOLD file end in a clean sentence."""
    assert is_read_or_cleanly_refused(text)


@st.composite
def drawings(draw_from: st.DrawFn) -> dict[str, Any]:
    """Draw any few points, close ones among them, and any lines between them with any labels."""
    numbers = st.integers(-3, 3) | st.floats(-3, 3) | st.sampled_from([1e-9, 1 + 1e-9, 1e9, -1e-99, 1 / 3])
    found = draw_from(st.lists(st.lists(numbers, min_size=2, max_size=2), min_size=2, max_size=9))
    ends = st.lists(st.integers(0, len(found) - 1), min_size=2, max_size=2, unique=True)
    pairs = draw_from(st.lists(ends, min_size=1, max_size=20))
    labels = draw_from(st.lists(st.sampled_from("BMVFUJ"), min_size=len(pairs), max_size=len(pairs)))
    return {"vertices_coords": found, "edges_vertices": pairs, "edges_assignment": labels}


@given(drawings(), st.booleans())
def test_any_drawing_is_read_or_refused_and_nothing_else(fold: dict[str, Any], in_a_sheet: bool) -> None:
    """Lines that cross, touch, overlap, double and dangle end in a sheet or a clean sentence."""
    if in_a_sheet:
        fold["edges_vertices"] += [
            [len(fold["vertices_coords"]) + k for k in (i, (i + 1) % 4)] for i in range(4)
        ]
        fold["vertices_coords"] += [[-3, -3], [3, -3], [3, 3], [-3, 3]]
        fold["edges_assignment"] += ["B"] * 4
    assert is_read_or_cleanly_refused(text_of(fold))
