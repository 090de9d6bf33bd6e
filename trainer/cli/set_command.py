"""`slantwise set`: a numbered set of drills for a class, the same for everybody."""

from __future__ import annotations

from argparse import Namespace
from functools import partial
from pathlib import Path

from drills.pattern import number_of
from drills.questions import read_code
from trainer.class_set import codes_drawn, kinds_named, read_set, write_set
from trainer.cli.parser import Console, Parser, open_app, whole_number
from trainer.given import InputError

LEVEL, COUNT, SEED = 3, 12, 1
"""Where nothing is said."""
LONGEST_NAME = 60
_EXAMPLES = """examples:
  slantwise set new monday.json --kinds steps,labels --level 3 --count 24 --seed 7
  slantwise set new tuesday.json labels-3-41 sinks-2-7 steps-2-7-place
  slantwise set do monday.json --name Ada
  slantwise print --set monday.json -o sheets.pdf --answers answers.pdf
"""


def add_arguments(parser: Parser) -> None:
    """Add the arguments of `set`."""
    parser.description = "A set of drills: written, of kinds in turn or by their codes; or gone through."
    parser.epilog = _EXAMPLES
    parser.add_argument("what", choices=("new", "do"), help="new: write a set; do: go through it")
    parser.add_argument("file", metavar="FILE", help="the file of the set, such as monday.json")
    parser.add_argument("codes", metavar="CODE", nargs="*", help="codes of drills, in their order")
    parser.add_argument("--kinds", metavar="KINDS", help="kinds with commas between, met in turn")
    parser.add_argument("--name", metavar="NAME", default="", help="with do: the name in the results")
    for option, usual in (("level", LEVEL), ("count", COUNT), ("seed", SEED)):
        read = partial(whole_number, f"--{option}")
        parser.add_argument(f"--{option}", metavar="N", type=read, help=f"{usual} if nothing is said")


def run(options: Namespace, console: Console) -> int:
    """Write the set that is asked for, or go through one; InputError where that cannot be done."""
    path = Path(options.file)
    if options.what == "do":
        return _do(path, options, console)
    if options.name:
        raise InputError("--name goes with set do; leave it out.")
    if path.exists():
        raise InputError("There is a file of that name; give another name, or remove it first.")
    numbers = options.level, options.count, options.seed
    if options.codes and (options.kinds or any(number is not None for number in numbers)):
        raise InputError("Give codes, or --kinds with level, count and seed, not both.")
    if options.codes:
        codes = [read_code(code) for code in options.codes]
    elif options.kinds:
        level, count, seed = (
            usual if number is None else number
            for number, usual in zip(numbers, (LEVEL, COUNT, SEED), strict=True)
        )
        codes = list(codes_drawn(kinds_named(options.kinds), level, min(count, 1000), seed))
    else:
        raise InputError("Say which drills: --kinds steps,labels, or codes such as labels-3-41.")
    write_set(path, codes)
    console.say(f"Written: {path}, {number_of(len(codes), 'drill')}")
    return 0


def _do(path: Path, options: Namespace, console: Console) -> int:
    """Go through a set in the app and tell where the results are."""
    from trainer.practice.class_round import ClassTask, results_beside

    given = options.codes or options.kinds or options.level or options.count or options.seed
    if given or len(options.name) > LONGEST_NAME or not (options.name or " ").isprintable():
        raise InputError(
            f"Give set do the file of a set, and a --name of at most {LONGEST_NAME} letters, nothing else."
        )
    results = results_beside(path)
    status = open_app(options, console, ClassTask(read_set(path), results, options.name))
    if results.exists():
        console.say(f"Written: {results}")
    return status
