"""The parser of the command line: it never ends the program, and refuses in one sentence."""

from __future__ import annotations

import argparse
import re
from collections.abc import Sequence
from typing import Any, NoReturn

from trainer.cli.ending import CommandError, Told

_OPTION = re.compile(r"--[a-z]{1,20}(?:-[a-z]{1,20})?\b")
_NUMBER = re.compile(r"[0-9]{1,10}")
COMMAND = "COMMAND"


class Parser(argparse.ArgumentParser):
    """A parser that raises: Told for the help, CommandError for what it does not understand.

    Of what was typed only the names of options are repeated, never a value.
    """

    def __init__(self, **more: Any) -> None:
        layout = argparse.RawDescriptionHelpFormatter
        super().__init__(add_help=False, allow_abbrev=False, formatter_class=layout, **more)
        self.color = False  # later versions of argparse would colour the help
        self.add_argument("-h", "--help", action=_ShowHelp, nargs=0, help="show this and leave")

    def error(self, message: str) -> NoReturn:
        """Raise the refusal of a line that does not parse."""
        if message.startswith(f"argument {COMMAND}:"):
            raise CommandError(f'There is no such command; "{self.prog} --help" lists them.')
        option = _OPTION.search(message)
        near = f" at {option[0]}" if option else ""
        raise CommandError(f'That is not understood{near}; "{self.prog} --help" shows how it is written.')


class _ShowHelp(argparse.Action):
    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: str | Sequence[Any] | None,
        option_string: str | None = None,
    ) -> None:
        raise Told(parser.format_help())


def add_data(parser: argparse.ArgumentParser) -> None:
    """Add --data, which may stand before or after the command; the later one counts."""
    parser.add_argument(
        "--data", metavar="DIR", default=argparse.SUPPRESS, help="where the log of your drills is kept"
    )


def whole_number(option: str, text: str) -> int:
    """Return the value of an option as a whole number; CommandError where it is none."""
    if not _NUMBER.fullmatch(text):
        raise CommandError(f"{option} takes a whole number of at most ten digits.")
    return int(text)
