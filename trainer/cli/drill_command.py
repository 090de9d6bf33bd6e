"""`slantwise drill`: one drill in the app or as plain text, or drills as JSON."""

from __future__ import annotations

from argparse import Namespace
from functools import partial

from drills.questions import KINDS, LARGEST_SEED, Code, checked, make, newest, read_code, top_level
from trainer.cli.parser import Console, Parser, data_folder, open_app, whole_number
from trainer.text.input_error import InputError

MOST = 10_000
_PARTS = ("kind", "level", "seed")
_EXAMPLES = """examples:
  slantwise drill labels-3-41              in the app
  slantwise drill labels-3-41 --text       as plain text, answered by one line
  slantwise drill --kind sinks --form points --level 2 --seed 7 --text
  slantwise drill --kind labels --level 3 --seed 41 --count 20 --json

With --text the exit status is 0 for a right answer, 1 for a wrong one.
"""


def add_arguments(parser: Parser) -> None:
    """Add the arguments of `drill`."""
    parser.description = "One drill, by its code or by kind, level and seed."
    parser.epilog = _EXAMPLES
    parser.add_argument("code", nargs="?", metavar="CODE", help="kind, level and seed, such as labels-3-41")
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


def run(options: Namespace, console: Console) -> int:
    """Show the drill that the options name, in the manner they ask for."""
    first = _code(options)
    if options.json:
        return _print_lines(first, _count(options, first), console)
    if options.count is not None:
        raise InputError("--count goes with --json; leave it out for one drill.")
    if options.text:
        from trainer.cli.drill_in_text import ask_in_text

        return ask_in_text(make(first), data_folder(options, console), console)
    return open_app(options, console, first)


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


def _print_lines(first: Code, count: int, console: Console) -> int:
    for seed in range(first.seed, first.seed + count):
        console.say(make(first._replace(seed=seed)).to_line())
    return 0
