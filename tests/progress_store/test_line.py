"""One line of a log: its check sum, its schema, and what an odd line is."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from progress_store import LONGEST_LINE, StoreError
from tests.progress_store.logs import LOG, checked, lines, newer
from tests.progress_store.making import attempt, store

LINE = checked([attempt(0)])


def log_with(folder: Path, *parts: bytes) -> Path:
    """Write a log of these bytes."""
    (folder / LOG).write_bytes(b"".join(parts))
    return folder / LOG


def test_a_line_ends_in_a_check_sum_of_its_body(tmp_path: Path) -> None:
    """Schema first, our fields, those of an unknown kind, and the sum by which any flipped bit is seen."""
    with store(tmp_path) as opened:
        opened.keep(attempt(0, other={"mood": "calm"}))
    line = (tmp_path / LOG).read_bytes()
    assert line.startswith(b'{"schema":2,"id":"0000-0000",')
    assert list(json.loads(line))[-2:] == ["mood", "sum"]
    with store(tmp_path) as again:
        assert (again.attempts, again.notices) == ((attempt(0, other={"mood": "calm"}),), ())


ASKED: dict[str, Any] = {
    "why": "round",
    "rule": "four running, 2",
    "sitting": "0a1b",
    "place": 3,
    "taken_for": "steps 1:3",
    "given": "1,3,1",
}


def test_a_line_says_why_it_was_asked_and_what_was_answered(tmp_path: Path) -> None:
    """The fields stand there where they are known, and only there: a line without them stays as it was."""
    with store(tmp_path) as opened:
        opened.keep(attempt(0, **ASKED))
        opened.keep(attempt(1))
    said, silent = map(json.loads, (tmp_path / LOG).read_bytes().splitlines())
    assert {name: said[name] for name in ASKED} == ASKED
    assert said["schema"] == 2
    assert not silent.keys() & ASKED.keys()
    with store(tmp_path) as again:
        assert (again.attempts, again.notices) == ((attempt(0, **ASKED), attempt(1)), ())


@pytest.mark.parametrize("field", ASKED)
def test_a_reason_that_is_none_makes_an_odd_line(field: str) -> None:
    """Words as words, the place as a count."""
    odd: tuple[Any, ...] = ([], {}, True, -1, 2.5, "", "a\nb")
    for wrong in odd:
        with pytest.raises(StoreError, match=f'"{field}"'):
            attempt(0, **{field: wrong})


def test_what_was_kept_by_a_version_that_did_not_know_the_fields_has_them(tmp_path: Path) -> None:
    """It passed them through, so that a merge takes both kinds of lines and equal ones are one."""
    log_with(tmp_path, lines([attempt(0)]), checked([attempt(1, **ASKED)]))
    (tmp_path / "attempts (1).jsonl").write_bytes(checked([attempt(0)]) + lines([attempt(1, **ASKED)]))
    with store(tmp_path) as opened:
        assert opened.attempts == (attempt(0), attempt(1, **ASKED))
        assert "Nothing was new" in opened.notices[0]


def test_a_flipped_bit_anywhere_is_noticed(tmp_path: Path) -> None:
    """A disk that loses a bit must not turn an answer into another one."""
    for place in range(0, 8 * (len(LINE) - 1), 13):
        damaged = bytearray(LINE)
        damaged[place // 8] ^= 1 << place % 8
        log_with(tmp_path, checked([attempt(1)]), bytes(damaged), checked([attempt(2)]))
        with store(tmp_path, writable=False) as reader:
            assert reader.attempts == (attempt(1), attempt(2)), bytes(damaged)
            assert "is unreadable in line" in reader.notices[0]


def test_line_ends_and_a_mark_of_an_editor_leave_the_sum_right(tmp_path: Path) -> None:
    """An editor of another system may rewrite them."""
    log_with(tmp_path, b"\xef\xbb\xbf", LINE.replace(b"\n", b"\r\n"), checked([attempt(1)])[:-1])
    with store(tmp_path) as opened:
        assert (opened.attempts, opened.notices) == ((attempt(0), attempt(1)), ())


def test_a_schema_1_line_stays_as_it_is_beside_new_ones(tmp_path: Path) -> None:
    """Old logs are read for ever, and are never written anew; what is merged has a sum."""
    log_with(tmp_path, lines([attempt(0)]))
    (tmp_path / "attempts (1).jsonl").write_bytes(lines([attempt(1, other={"mood": "calm"})]))
    with store(tmp_path) as opened:
        assert len(opened.attempts) == 2
    merged = checked([attempt(1, other={"mood": "calm"})])
    assert (tmp_path / LOG).read_bytes() == lines([attempt(0)]) + merged


def test_the_same_answer_in_either_schema_is_one(tmp_path: Path) -> None:
    """It counts once and does not clash."""
    log_with(tmp_path, lines([attempt(0)]), LINE)
    with store(tmp_path) as opened:
        assert (opened.attempts, opened.notices) == ((attempt(0),), ())


NO_SUM = json.dumps({"schema": 2, **attempt(5).to_json()}).encode() + b"\n"
ODD = [b'{"schema":9}\n', b'{"schema":9,"id":7,"at":"x"}\n', NO_SUM, newer(), b'{"schema":0}\n']


@pytest.mark.parametrize("odd", ODD)
def test_an_odd_line_in_the_middle_is_no_newer_log(tmp_path: Path, odd: bytes) -> None:
    """It is named by its number, stays in place and does not count; practice goes on."""
    log_with(tmp_path, LINE, odd, checked([attempt(1)]))
    with store(tmp_path) as opened:
        assert opened.attempts == (attempt(0), attempt(1))
        assert "is unreadable in line 2;" in opened.notices[0]
        assert "slantwise record --repair" in opened.notices[0]
        opened.keep(attempt(2))
    assert (tmp_path / LOG).read_bytes() == LINE + odd + checked([attempt(1), attempt(2)])


def test_newer_lines_at_the_end_make_a_newer_log(tmp_path: Path) -> None:
    """Garbage between and after them changes nothing in that: the last answers are newer."""
    path = log_with(tmp_path, LINE, newer("a"), b"garbage\n", newer("b"), b'{"schema":9}\n')
    before = path.read_bytes()
    with pytest.raises(StoreError, match="newer Slantwise"):
        store(tmp_path)
    with store(tmp_path, writable=False) as reader:
        assert reader.attempts == (attempt(0),)
        assert "is unreadable in lines 3, 5;" in reader.notices[0]
        assert "wrote lines 2, 4 of" in reader.notices[1]
    assert path.read_bytes() == before


@pytest.mark.parametrize("odd", [b"?\n", newer()])
def test_of_lines_that_are_no_answers_not_all_are_read(tmp_path: Path, odd: bytes) -> None:
    """Those of a newer program are counted in, so that the reading ends."""
    path = log_with(tmp_path, LINE, odd * 200_000)
    with pytest.raises(StoreError, match="more than 100,000 lines that are no answers"):
        store(tmp_path, writable=False)
    assert path.stat().st_size == len(LINE) + 200_000 * len(odd)


@pytest.mark.parametrize("sign", ["\U0001d7d8", "["])
def test_the_longest_texts_and_gaps_fit_into_a_line(sign: str) -> None:
    """Only fields of an unknown kind can make a line too long, which merging counts on."""
    wide = sign * 200
    names = ("id", "code", "kind", "form", "skill", "slip")
    counts = ("level", "marks", "misses", "false_alarms", "milliseconds", "inputs")
    fields: dict[str, Any] = {**dict.fromkeys(names, wide), **dict.fromkeys(counts, 10**9)}
    longest = attempt(**fields, gaps=(10**9,) * 40)
    assert len(checked([longest])) < LONGEST_LINE / 2


@pytest.mark.parametrize("fields", [[[]] * 600, [{"a": [0]}] * 300])
def test_lists_without_end_are_not_read(tmp_path: Path, fields: list[object]) -> None:
    """A log of such lines would take minutes and gigabytes; nor is one of them ever written."""
    line = lines([attempt(1, other={"more": fields})])
    log_with(tmp_path, LINE, line, lines([attempt(2, other={"more": "[" * 600})]))
    with store(tmp_path) as opened:
        assert [each.id for each in opened.attempts] == [attempt(0).id, attempt(2).id]
        assert "is unreadable in line 2;" in opened.notices[0]
        with pytest.raises(StoreError, match="too long for one line"):
            opened.keep(attempt(3, other={"more": fields}))
