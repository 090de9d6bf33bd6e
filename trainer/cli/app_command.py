"""Opening the app: at its first screen, in the warm-up, or with one drill."""

from __future__ import annotations

from argparse import Namespace, _SubParsersAction
from functools import partial
from typing import TYPE_CHECKING

from drills.questions import top_level
from drills.structures import TRIANGLES
from trainer.cli.parser import Console, Parser, add_data, data_folder, whole_number
from trainer.practice.warm_up import Target, target_of
from trainer.text.input_error import InputError
from trainer.text.pattern_source import sheet_in_file

if TYPE_CHECKING:
    from trainer.screens.app import Start


_TRIANGLES = [triangle.name for triangle in TRIANGLES]
_NO_TERMINAL = "Slantwise needs a terminal; for plain text use: slantwise drill CODE --text"


def add_to(commands: _SubParsersAction[Parser]) -> None:
    """Add the command `warmup`."""
    words = "two minutes of what you know, then you fold"
    parser = commands.add_parser("warmup", help=words, description=f"The app, straight into {words}.")
    parser.add_argument("file", nargs="?", metavar="FILE", help="what you will fold: rise to that")
    number = partial(whole_number, "--level")
    parser.add_argument("--level", metavar="N", type=number, help="rise to this level")
    parser.add_argument("--triangle", metavar="T", help=f"rise to one of {', '.join(_TRIANGLES)}")
    add_data(parser)
    parser.set_defaults(act=warm_up)


def warm_up(options: Namespace, console: Console) -> int:
    """Open the app in the warm-up."""
    return open_app(options, console, _target(options))


def _target(options: Namespace) -> Target:
    """Return what the warm-up rises to; InputError where there is no such level, triangle or file."""
    if options.file is not None:
        try:
            return target_of(sheet_in_file(options.file).pattern)
        except ValueError as error:
            raise InputError(str(error)) from None
    if options.level is not None and not 1 <= options.level <= top_level():
        raise InputError(f"--level is a whole number from 1 to {top_level()}.")
    if options.triangle is not None and options.triangle not in _TRIANGLES:
        raise InputError(f"--triangle is one of {', '.join(_TRIANGLES)}.")
    return Target(options.level, options.triangle or "")


def opening(options: Namespace, console: Console) -> int:
    """Open the app at its first screen."""
    return open_app(options, console, "opening")


def open_app(options: Namespace, console: Console, start: Start) -> int:
    """Run the app to its end and return its exit status; InputError where there is no terminal."""
    if not console.is_terminal:
        raise InputError(_NO_TERMINAL)
    folder = data_folder(options, console)
    from trainer.screens.launch import run_app

    return run_app(folder, console.clock, start)
