"""Opening the app: at its first screen, in the warm-up, or with one drill."""

from __future__ import annotations

from argparse import Namespace, _SubParsersAction
from typing import TYPE_CHECKING

from trainer.cli.console import Console
from trainer.cli.data_folder import data_folder
from trainer.cli.ending import CommandError
from trainer.cli.parser import Parser, add_data

if TYPE_CHECKING:
    from trainer.start import Start

_NO_TERMINAL = "Slantwise needs a terminal; for plain text use: slantwise drill CODE --text"


def add_to(commands: _SubParsersAction[Parser]) -> None:
    """Add the command `warmup`."""
    words = "two minutes of what you know, then you fold"
    parser = commands.add_parser("warmup", help=words, description=f"The app, straight into {words}.")
    add_data(parser)
    parser.set_defaults(act=warm_up)


def warm_up(options: Namespace, console: Console) -> int:
    """Open the app in the warm-up."""
    return open_app(options, console, "warm-up")


def opening(options: Namespace, console: Console) -> int:
    """Open the app at its first screen."""
    return open_app(options, console, "opening")


def open_app(options: Namespace, console: Console, start: Start) -> int:
    """Run the app to its end and return its exit status; CommandError where there is no terminal."""
    if not console.is_terminal:
        raise CommandError(_NO_TERMINAL)
    folder = data_folder(options, console)
    from trainer.screens.launch import run_app

    return run_app(folder, console.clock, start)
