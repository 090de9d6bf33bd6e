"""Names and texts from outside: none steers a terminal, leaves the folder or ends in a traceback."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Final

from drills.fold_file import to_fold
from drills.questions import make, read_code
from tests.hardness.tally import Trials
from tests.progress_store.making import attempt
from tests.trainer.cli.calling import Called, call

TEXTS: Final = (
    "\x1b[31mred", "\x1b]0;title\x07", "\x9b31m", "\r\n", "a\tb", "a\0b", "\x7f", "[bold red]x[/]", "[/]",
    "[link=x]y", "\u202etxt.exe", "\u200f\u200e", "\u2028", "\ufeff", "e\u0301" * 40, "\U0001f9e8", "..",
    "../../../tmp/x", "-", "--data",
    "%s%n{0}", "$(reboot)", "`id`", " ", "", "con",
    "x" * 300, "\udcff", "\\u001b[31m", "&lt;b&gt;",
)  # fmt: skip


def files_and_folders(trials: Trials) -> None:
    """Give each text as the name of a sheet, of a data folder and of another machine's folder."""
    sheet = json.dumps(to_fold(make(read_code("labels-1-1")).truth)).encode()
    for name in TEXTS:
        if "\0" in name:  # no system gives a program such a word
            continue
        with trials.one(repr(name)[:30]) as folder:
            place = folder / "in" / "here"
            place.mkdir(parents=True)
            path = _made(place, name, sheet)
            for words in (("check", path), ("plan", path), ("merge", path), ("drill", name), ("check", name)):
                _expect_clean(call(folder / "data", *words))
            _expect_clean(
                call(folder / "data", "drill", "steps-1-3", "--text", "--data", path, typed="4 3\n")
            )
            outside = {each.name for each in folder.iterdir()} - {"in", "data"}
            if outside:
                raise RuntimeError(f"{outside} was made outside")


def _made(folder: Path, name: str, content: bytes) -> str:
    """Return the path of a file of this name, made where the system lets it be."""
    path = os.path.join(folder, name)
    if ".." not in name:
        try:
            with open(path, "wb") as file:
                file.write(content)
        except (OSError, ValueError):
            pass
    return path


def texts_in_files(trials: Trials) -> None:
    """Put each text into a FOLD file and into every text of an answer in the log."""
    for text in TEXTS:
        with trials.one(repr(text)[:30]) as folder:
            fold = to_fold(make(read_code("labels-1-1")).truth)
            keys = ("file_title", "file_author", "frame_title", "frame_description", text, "file_creator")
            path = folder / "sheet.fold"
            path.write_text(json.dumps({**fold, **dict.fromkeys(keys, text), "frame_classes": [text]}))
            for words in (("check", str(path)), ("check", str(path), "--json"), ("plan", str(path))):
                _expect_clean(call(folder / "data", *words))
            (folder / "data").mkdir()
            fields = {**attempt(0).to_json(), **dict.fromkeys(("skill", "kind", "form", "slip"), text)}
            line = json.dumps({"schema": 1, **fields, "note": text})
            (folder / "data" / "attempts.jsonl").write_text(f"{line}\n{json.dumps(attempt(1).to_json())}\n")
            _expect_clean(call(folder / "data", "record"))
            _expect_clean(
                call(folder / "data", "drill", "steps-1-3", "--text", typed=f"{text[:9].strip()}\n")
            )


def typed(trials: Trials) -> None:
    """Type each text as an answer."""
    for text in TEXTS:
        for code in ("steps-1-3", "labels-1-5", "find-2-3"):
            with trials.one(f"{code} {text!r}"[:40]) as folder:
                _expect_clean(call(folder, "drill", code, "--text", typed=f"{text}\n"))


def _expect_clean(called: Called) -> None:
    if called.status not in (0, 1, 2):
        raise RuntimeError(f"status {called.status}")
    for sign in called.out + called.err:
        if not sign.isprintable() and sign != "\n":
            raise RuntimeError(f"{sign!r} was printed")
