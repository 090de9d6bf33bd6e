"""`slantwise set`: a numbered set of drills for a class, the same for everybody."""

from __future__ import annotations

from argparse import Namespace
from functools import partial
from pathlib import Path

from drills.pattern import number_of
from drills.questions import read_code
from trainer.class_set import codes_drawn, kinds_named, write_set
from trainer.cli.parser import Console, Parser, whole_number
from trainer.given import InputError

LEVEL, COUNT, SEED = 3, 12, 1
"""Where nothing is said."""
_EXAMPLES = """examples:
  slantwise set new monday.json --kinds steps,labels --level 3 --count 24 --seed 7
  slantwise set new tuesday.json labels-3-41 sinks-2-7 steps-2-7-place
  slantwise print --set monday.json -o sheets.pdf --answers answers.pdf
"""


def add_arguments(parser: Parser) -> None:
    """Add the arguments of `set`."""
    parser.description = "Writes a set of drills, of kinds in turn or by their codes."
    parser.epilog = _EXAMPLES
    parser.add_argument("what", choices=("new",), help="new: write a set")
    parser.add_argument("file", metavar="FILE", help="the file of the set, such as monday.json")
    parser.add_argument("codes", metavar="CODE", nargs="*", help="codes of drills, in their order")
    parser.add_argument("--kinds", metavar="KINDS", help="kinds with commas between, met in turn")
    for option, usual in (("level", LEVEL), ("count", COUNT), ("seed", SEED)):
        read = partial(whole_number, f"--{option}")
        parser.add_argument(f"--{option}", metavar="N", type=read, help=f"{usual} if nothing is said")


def run(options: Namespace, console: Console) -> int:
    """Write the set that is asked for; InputError where it cannot be made."""
    path = Path(options.file)
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
