"""`slantwise record`: what one can believe about progress, as text, JSON or a table of attempts."""

from __future__ import annotations

import csv
import json
from argparse import Namespace
from datetime import datetime
from pathlib import Path

from progress_store import Store, attempt_rows, open_store, record_to_json
from trainer.cli.parser import Console, Parser, data_folder
from trainer.given import InputError
from trainer.practice.attempts import floors, levels
from trainer.text.record import name_of, record_in_text, repair_in_text

_FIRST_YEAR, _LAST_YEAR = 1971, 2998


def add_arguments(parser: Parser) -> None:
    """Add the arguments of `record`."""
    parser.description = "What your practice shows, with the number of drills and the days they are from."
    parser.epilog = (
        "examples:\n  slantwise record\n  slantwise record --csv > drills.csv\n"
        "  slantwise record --html record.html\n  slantwise record --repair\n"
    )
    manner = parser.add_mutually_exclusive_group()
    manner.add_argument("--json", action="store_true", help="the whole record as JSON")
    manner.add_argument("--csv", action="store_true", help="every answered drill as a row of a table")
    manner.add_argument("--html", metavar="FILE", help="write the record as a page with its charts")
    manner.add_argument("--repair", action="store_true", help="put unreadable lines of the log into a file")
    parser.add_argument("--now", metavar="TIME", type=_time, help="set the clock, for tests")


def run(options: Namespace, console: Console) -> int:
    """Print the record of the data folder, an empty one where there is none yet, or repair its log."""
    given: datetime | None = options.now
    now = console.clock.now if given is None else lambda: given
    folder, writable = data_folder(options, console), options.repair
    with open_store(folder, now, floors(), levels(), writable=writable) as store:
        if options.repair:
            for line in repair_in_text(store.repair()):
                console.say(line)
            _finish(store, console)
            return 0
        if options.json:
            console.say(json.dumps(record_to_json(store.record(), name_of)))
        elif options.csv:
            csv.writer(console.stdout, lineterminator="\n").writerows(attempt_rows(store.judged()))
        elif options.html is not None:
            _write(Path(options.html), store, console)
        else:
            for line in record_in_text(store.record(), store.today):
                console.say(line)
        _finish(store, console)
    return 0


def _write(path: Path, store: Store, console: Console) -> None:
    from trainer.text.record_page import record_to_html

    if path.suffix.lower() not in (".html", ".htm"):
        raise InputError("The record is written as a page; give a name that ends in .html.")
    path.write_text(record_to_html(store.record(), store.today), encoding="utf-8")
    console.say(f"Written: {path}")


def _finish(store: Store, console: Console) -> None:
    console.stdout.flush()
    for notice in store.notices:
        console.complain(notice)


def _time(text: str) -> datetime:
    try:
        now = datetime.fromisoformat(text)
    except ValueError:
        now = datetime.min
    if now.tzinfo is None or not _FIRST_YEAR <= now.year <= _LAST_YEAR:
        raise InputError("--now takes a time with its offset, such as 2026-03-01T12:00:00+01:00.")
    return now
