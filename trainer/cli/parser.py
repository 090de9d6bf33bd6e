"""What every command is given: a parser that raises, the streams and the clock, the data folder, the app."""

from __future__ import annotations

import argparse
import re
from argparse import Namespace
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn, TextIO

from trainer.given import Clock, InputError

if TYPE_CHECKING:
    from fractions import Fraction

    from trainer.screens.app import Start


class PrintAndExit(Exception):  # noqa: N818 - it ends a command that went well
    """A text that was asked for and ends the command, such as the help; exit status 0."""


_OPTION = re.compile(r"--[a-z]{1,20}(?:-[a-z]{1,20})?\b")
_NUMBER = re.compile(r"[0-9]{1,10}")
COMMAND = "COMMAND"


class Parser(argparse.ArgumentParser):
    """A parser that raises: PrintAndExit for the help, InputError for what it does not understand.

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
            raise InputError(f'There is no such command; "{self.prog} --help" lists them.')
        option = _OPTION.search(message)
        near = f" at {option[0]}" if option else ""
        raise InputError(f'That is not understood{near}; "{self.prog} --help" shows how it is written.')


class _ShowHelp(argparse.Action):
    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: str | Sequence[Any] | None,
        option_string: str | None = None,
    ) -> None:
        raise PrintAndExit(parser.format_help())


def add_data(parser: argparse.ArgumentParser) -> None:
    """Add --data, which may stand before or after the command; the later one counts."""
    parser.add_argument(
        "--data", metavar="DIR", default=argparse.SUPPRESS, help="where the log of your drills is kept"
    )


def whole_number(option: str, text: str) -> int:
    """Return the value of an option as a whole number; InputError where it is none."""
    if not _NUMBER.fullmatch(text):
        raise InputError(f"{option} takes a whole number of at most ten digits.")
    return int(text)


SHORTEST, LONGEST = 20, 2000
_LENGTH = re.compile(r"([0-9]{1,5}(?:\.[0-9]{1,3})?)(mm|cm)?")


def millimetres(option: str, text: str) -> Fraction:
    """Return the value of an option as a length, in millimetres where no unit is given, else InputError."""
    from fractions import Fraction

    found = _LENGTH.fullmatch(text)
    length = Fraction(found[1]) * (10 if found[2] == "cm" else 1) if found else Fraction(0)
    if not SHORTEST <= length <= LONGEST:
        raise InputError(f"{option} takes a length from {SHORTEST}mm to {LONGEST}mm, as in 150mm or 15cm.")
    return length


LONGEST_LINE = 1_000


@dataclass(frozen=True)
class Console:
    """The streams, the clock and the environment variables of one run of the command."""

    stdin: TextIO
    stdout: TextIO
    stderr: TextIO
    clock: Clock
    environ: Mapping[str, str]

    def say(self, line: str) -> None:
        """Write a line to standard output, without control characters."""
        print(printable(line), file=self.stdout)

    def complain(self, sentence: str) -> None:
        """Write a line to standard error, without control characters."""
        print(printable(sentence), file=self.stderr, flush=True)

    def line(self) -> str:
        """Return the next line of standard input, empty at its end; InputError where it is too long."""
        return self.next_line() or ""

    def next_line(self) -> str | None:
        """Return the next line of standard input, None at its end; InputError where it is too long."""
        line = self.stdin.readline(LONGEST_LINE)
        if len(line) == LONGEST_LINE:
            raise InputError(f"A line has fewer than {LONGEST_LINE} characters; type a shorter one.")
        return line.strip() if line else None

    @property
    def is_typed(self) -> bool:
        """Whether a person types the input, rather than another program."""
        return self.stdin.isatty()

    @property
    def is_terminal(self) -> bool:
        """Whether input and output are a terminal, as the app needs it, or a page that stands for one."""
        return "TEXTUAL_DRIVER" in self.environ or (self.stdin.isatty() and self.stdout.isatty())


def printable(text: str) -> str:
    """Return the text with each control character as a question mark."""
    return "".join(sign if sign.isprintable() else "?" for sign in text)


VARIABLE = "SLANTWISE_DATA"


def data_folder(options: Namespace, console: Console) -> Path:
    """Return the folder of --data, else of SLANTWISE_DATA, else the platform's folder for user data."""
    given: str | None = getattr(options, "data", None)
    if given == "":
        raise InputError("Give a folder after --data, or leave it out.")
    if named := given or console.environ.get(VARIABLE):
        return Path(named)
    from platformdirs import user_data_path

    return user_data_path("slantwise", appauthor=False)


_NO_TERMINAL = "Slantwise needs a terminal; for plain text use: slantwise today --text"


def open_app(options: Namespace, console: Console, start: Start) -> int:
    """Run the app to its end and return its exit status; InputError where there is no terminal."""
    if not console.is_terminal:
        raise InputError(_NO_TERMINAL)
    folder = data_folder(options, console)
    from trainer.screens.app import run_app

    return run_app(folder, console.clock, start)
