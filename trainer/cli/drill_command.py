"""`slantwise drill`: one drill in the app or as plain text, or drills as JSON."""

from __future__ import annotations

from argparse import Namespace
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from drills.flatfold import Limit
from drills.questions import (
    KINDS,
    LARGEST_SEED,
    Code,
    Drill,
    OwnCode,
    Verdict,
    checked,
    checked_own,
    make,
    make_own,
    newest,
    parse_own_code,
    read_code,
    top_level,
)
from trainer.cli.parser import Console, Parser, data_folder, open_app, whole_number
from trainer.given import InputError

if TYPE_CHECKING:
    from trainer.practice.attempts import Measured
    from trainer.practice.own_round import OwnTask

MOST = 10_000
RIGHT, WRONG = 0, 1
SECONDS_FOR_LABELS = 5.0
SECONDS_FOR_THE_LOCK = 2
"""Other commands hold the lock of the data folder for a moment each."""
_PARTS = ("kind", "level", "seed")
_EXAMPLES = """examples:
  slantwise drill labels-3-41              in the app
  slantwise drill labels-3-41 --text       as plain text, answered by one line
  slantwise drill --kind sinks --form points --level 2 --seed 7 --text
  slantwise drill --kind labels --level 3 --seed 41 --count 20 --json
  slantwise drill mine.fold --kind sinks   on a sheet of your own

With --text the exit status is 0 for a right answer, 1 for a wrong one.
"""


def add_arguments(parser: Parser) -> None:
    """Add the arguments of `drill`."""
    parser.description = "One drill, by its code or by kind, level and seed."
    parser.epilog = _EXAMPLES
    parser.add_argument(
        "code", nargs="?", metavar="CODE|FILE", help="a code such as labels-3-41, or a sheet of your own"
    )
    parser.add_argument("--kind", metavar="KIND", help=f"one of {', '.join(KINDS)}")
    parser.add_argument("--form", metavar="FORM", help="a form of the kind, such as points of sinks")
    for option, words in (
        ("level", f"1 to {top_level()}"),
        ("seed", "any whole number; the same one gives the same drill"),
        ("count", f"with --json: so many drills, at most {MOST}, by seeds that follow"),
    ):
        parser.add_argument(f"--{option}", metavar="N", type=partial(whole_number, f"--{option}"), help=words)
    manner = parser.add_mutually_exclusive_group()
    manner.add_argument("--text", action="store_true", help="as plain text, answered by one line")
    manner.add_argument("--json", action="store_true", help="as JSON, one drill a line, with its answer")
    parser.add_argument("--no-answers", action="store_true", help="with --json: leave the answers out")
    parser.add_argument("--no-record", action="store_true", help="with --text: keep nothing of the answer")


def run(options: Namespace, console: Console) -> int:
    """Show the drill that the options name, in the manner they ask for."""
    if options.code is not None and (own := _own(options, console)):
        return _show_own(own, options, console)
    first = _code(options)
    if options.json:
        return _print_lines(first, _count(options, first), not options.no_answers, console)
    if options.no_answers:
        raise InputError("--no-answers goes with --json; leave it out.")
    if options.count is not None:
        raise InputError("--count goes with --json; leave it out for one drill.")
    if options.no_record and not options.text:
        raise InputError("--no-record goes with --text; leave it out.")
    if options.text:
        folder = None if options.no_record else data_folder(options, console)
        return _ask_in_text(make(first), folder, console)
    return open_app(options, console, first)


def _own(options: Namespace, console: Console) -> OwnTask | None:
    """Return what is to be asked of a sheet of the person's own; None where a usual code is given."""
    code = parse_own_code(options.code)
    if code is None and not Path(options.code).is_file():
        return None
    from trainer.own_sheets import OwnSheets, to_practise
    from trainer.practice.own_round import OwnTask

    if options.level is not None:
        raise InputError("A sheet of your own has no level; leave out --level.")
    sheets = OwnSheets(data_folder(options, console))
    if code is None:
        if options.kind is None:
            raise InputError(f"Say with --kind what to ask of the sheet: {', '.join(KINDS)}.")
        own, imported = sheets.open(options.code)
        seed = 1 if options.seed is None else options.seed
        code = OwnCode(options.kind, own.hash, seed, options.form or "")
    else:
        own, imported = sheets.by_hash(code.hash)
    limit = Limit(SECONDS_FOR_LABELS, console.clock.ticks)
    return OwnTask(to_practise(imported, limit), checked_own(code), own.name)


def _show_own(task: OwnTask, options: Namespace, console: Console) -> int:
    """Show drills on a sheet of the person's own; nothing of an answer is kept."""
    if options.json:
        for number in range(1 if options.count is None else min(options.count, MOST)):
            code = task.code._replace(seed=task.code.seed + number)
            console.say(make_own(task.sheet, checked_own(code)).to_line(not options.no_answers))
        return RIGHT
    if options.text:
        return _ask_in_text(make_own(task.sheet, task.code), None, console)
    return open_app(options, console, task)


def _code(options: Namespace) -> Code:
    """Return the code given, or that of kind, form, level and seed."""
    given = [part for part in (*_PARTS, "form") if getattr(options, part) is not None]
    if options.code is not None:
        if given:
            raise InputError(f"A code says everything; leave out --{given[0]} or the code.")
        return read_code(options.code)
    if missing := [f"--{part}" for part in _PARTS if part not in given]:
        if not given:
            raise InputError("Say which drill: a code such as labels-3-41, or --kind, --level and --seed.")
        raise InputError(f"Give {' and '.join(missing)} too, or a code such as labels-3-41.")
    return newest(checked(Code(options.kind, options.level, options.seed, form=options.form or "")))


def _count(options: Namespace, first: Code) -> int:
    count: int = 1 if options.count is None else options.count
    if not 1 <= count <= MOST:
        raise InputError(f"--count is a whole number from 1 to {MOST}.")
    if first.seed + count - 1 > LARGEST_SEED:
        raise InputError(f"Seeds go up to {LARGEST_SEED}; choose a smaller --seed or --count.")
    return count


def _print_lines(first: Code, count: int, answers: bool, console: Console) -> int:
    for seed in range(first.seed, first.seed + count):
        console.say(make(first._replace(seed=seed)).to_line(answers))
    return 0


def _ask_in_text(drill: Drill, folder: Path | None, console: Console) -> int:
    """Put the drill, judge the line typed and keep the attempt; return 0 where it was right, else 1."""
    from trainer.text.asked import tags_of
    from trainer.text.drill import answer_from, sheet_in_text, verdict_in_text

    tags = tags_of(drill)
    if folder and (refusal := _kept(None, folder, console)):
        console.complain(f"This answer cannot be kept: {refusal}")
    for line in sheet_in_text(drill, tags):
        console.say(line)
    console.say(f"Type one line: {drill.question.how_to_answer()}.")
    text, measured, now = _answered(console)
    given = answer_from(text, drill, tags)
    verdict = drill.judge(given)
    # kept before it is told: a reader that has gone away must not cost the person an answer
    refused = _kept(Answered(drill, verdict, measured, now), folder, console) if folder else ""
    for line in verdict_in_text(drill, given, verdict, tags):
        console.say(line)
    if folder:
        console.say("Not kept." if refused else "Kept.")
    return RIGHT if verdict.right else WRONG


def _answered(console: Console) -> tuple[str, Measured, datetime]:
    """Return the line typed, how long it took and when; the time of a line that nobody typed is none."""
    from trainer.practice.attempts import Watch

    console.stdout.flush()
    watch = Watch(console.clock.ticks)
    text = console.line()
    watch.saw("text")
    if not console.is_typed:
        watch.left()
    return text, watch.read(), console.clock.now()


class Answered(NamedTuple):
    """What is kept of an answer."""

    drill: Drill
    verdict: Verdict
    measured: Measured
    at: datetime


def _kept(answered: Answered | None, folder: Path, console: Console) -> str:
    """Keep an answer, or see whether one could be kept; return why not, empty where it could.

    What the person should know of the files is told before the answer.
    """
    from progress_store import StoreError, open_store
    from trainer.practice.attempts import Occasion, attempt_of, floors, levels

    try:
        with open_store(
            folder, console.clock.now, floors(), levels(), wait_seconds=SECONDS_FOR_THE_LOCK
        ) as store:
            if answered:
                drill, verdict, measured, at = answered
                store.keep(attempt_of(drill, verdict, measured, at, Occasion("picked")))
            else:
                for notice in store.notices:
                    console.complain(notice)
    except StoreError as error:
        return str(error)
    return ""
