"""`slantwise warmup`: the app, straight into two minutes."""

from __future__ import annotations

from argparse import Namespace
from functools import partial

from drills.questions import top_level
from drills.structures import TRIANGLES
from trainer.cli.parser import Console, Parser, data_folder, open_app, whole_number
from trainer.given import InputError, sheet_in_file
from trainer.practice.rounds import Target, target_of
from trainer.strokes import known

_TRIANGLES = [triangle.name for triangle in TRIANGLES]


def add_arguments(parser: Parser) -> None:
    """Add what the warm-up rises to."""
    parser.description = "The app, straight into two minutes of what you know, then you fold."
    parser.add_argument("file", nargs="?", metavar="FILE", help="what you will fold: rise to that")
    number = partial(whole_number, "--level")
    parser.add_argument("--level", metavar="N", type=number, help="rise to this level")
    parser.add_argument("--triangle", metavar="T", help=f"rise to one of {', '.join(_TRIANGLES)}")


def run(options: Namespace, console: Console) -> int:
    """Open the app in the warm-up."""
    return open_app(options, console, _target(options, console))


def _target(options: Namespace, console: Console) -> Target:
    """Return what the warm-up rises to; InputError where there is no such level, triangle or file."""
    if options.file is not None:
        try:
            return target_of(
                sheet_in_file(options.file, meaning=known(data_folder(options, console))).pattern
            )
        except ValueError as error:
            raise InputError(str(error)) from None
    if options.level is not None and not 1 <= options.level <= top_level():
        raise InputError(f"--level is a whole number from 1 to {top_level()}.")
    if options.triangle is not None and options.triangle not in _TRIANGLES:
        raise InputError(f"--triangle is one of {', '.join(_TRIANGLES)}.")
    return Target(options.level, options.triangle or "")
