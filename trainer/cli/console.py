"""What a command talks to: three streams, a clock and the environment, all given from outside."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TextIO

from trainer.cli.ending import CommandError
from trainer.practice.clock import Clock

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
        """Return the next line of standard input, empty at its end; CommandError where it is too long."""
        line = self.stdin.readline(LONGEST_LINE)
        if len(line) == LONGEST_LINE:
            raise CommandError(f"A line has less than {LONGEST_LINE} signs; type a shorter one.")
        return line.strip()

    @property
    def is_typed(self) -> bool:
        """Whether a person types the input, rather than another program."""
        return self.stdin.isatty()

    @property
    def is_terminal(self) -> bool:
        """Whether input and output are a terminal, as the app needs it."""
        return self.stdin.isatty() and self.stdout.isatty()


def printable(text: str) -> str:
    """Return the text with each control character as a question mark."""
    return "".join(sign if sign.isprintable() else "?" for sign in text)
