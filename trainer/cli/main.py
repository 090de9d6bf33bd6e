"""The command `slantwise`: what it was asked, done or refused in one sentence."""

from __future__ import annotations

import os
import sys
from argparse import ArgumentParser, Namespace, _SubParsersAction
from collections.abc import Mapping, Sequence
from contextlib import suppress
from importlib import import_module
from io import StringIO, TextIOWrapper
from typing import Any, TextIO

from trainer import VERSION
from trainer.cli.parser import COMMAND, Console, Parser, PrintAndExit, add_data, open_app
from trainer.given import InputError, system_clock

DONE, REFUSED, INTERRUPTED, PIPE_CLOSED = 0, 2, 130, 141
"""Exit statuses; the last two are those of the shell for SIGINT and SIGPIPE."""

COMMANDS: Mapping[str, str] = {
    "warmup": "two minutes of what you know, then you fold",
    "today": "today's round, in the app or as plain text",
    "browser": "the app on a page of a browser on this machine",
    "drill": "one drill in the app or as text, or drills as JSON",
    "make": "a stretch of your choice as a file, or a part of a pattern",
    "check": "the faults of a crease pattern, and the fewest labels to switch",
    "plan": "how to precrease a pattern, from blank paper on",
    "fold": "what a crease pattern becomes, from either side",
    "print": "sheets to scale: the pattern, bare sheets to fold from, the plan step by step",
    "set": "a numbered set of drills for a class",
    "record": "what your practice shows",
    "merge": "take in the log of another machine",
    "completion": "what your shell needs to complete these words",
}
"""The commands as the help lists them; each is a module, as in drill_command, with add_arguments and run."""

_EXAMPLES = """examples:
  slantwise                              practice in the app
  slantwise warmup                       two minutes, then you fold
  slantwise drill labels-3-41 --text     one drill as plain text
  slantwise record                       what your practice shows
"""


def main(argv: Sequence[str], console: Console) -> int:
    """Do what the arguments ask and return the exit status; no error leaves it as a traceback."""
    try:
        return _answered(argv, console)
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        return PIPE_CLOSED
    except OSError as error:
        reason = error.strerror or type(error).__name__
        console.complain(f"It could not be read or written ({reason}); try another place.")
        return REFUSED


def _answered(argv: Sequence[str], console: Console) -> int:
    parser = _parser()
    if "_ARGCOMPLETE" in console.environ:
        _complete(parser, console.environ.get("COMP_LINE", ""))
    try:
        options = parser.parse_args(argv)
        status: int = _show_version() if options.version else options.run(options, console)
    except PrintAndExit as told:
        for line in str(told).splitlines():
            console.say(line)
        status = DONE
    except InputError as refusal:
        return _refused(str(refusal), console)
    except _refusals_of_rooms() as refusal:
        return _refused(str(refusal), console)
    console.stdout.flush()
    return status


def _complete(parser: Parser, line: str) -> None:
    """Answer a shell that completes a line, and end the process."""
    from argcomplete import autocomplete

    # the library looks at the arguments before the line is parsed: the command must have its own by then
    for commands in parser._actions:
        if isinstance(commands, _LoadedWhenAsked):
            for word in line.split():
                commands.load(word)
    autocomplete(parser, always_complete_options="long")


def _refused(sentence: str, console: Console) -> int:
    console.stdout.flush()
    console.complain(sentence)
    return REFUSED


def _refusals_of_rooms() -> tuple[type[Exception], ...]:
    """Return the rooms' errors whose text is for the person; they are imported only once one is raised."""
    from drills.questions import CodeError, DrillError
    from progress_store import StoreError

    return CodeError, DrillError, StoreError


def _parser() -> Parser:
    parser = Parser(
        prog="slantwise",
        description="Practise reading slanted structures in box-pleated crease patterns.",
        epilog=_EXAMPLES,
    )
    parser.add_argument("--version", action="store_true", help="show the version and leave")
    add_data(parser)
    parser.set_defaults(run=_open_first_screen)
    commands = parser.add_subparsers(
        metavar=COMMAND, title="commands", prog="slantwise", action=_LoadedWhenAsked
    )
    for name, words in COMMANDS.items():
        commands.add_parser(name, help=words)
    return parser


class _LoadedWhenAsked(_SubParsersAction):  # type: ignore[type-arg]  # it takes none when the program runs
    """Imports a command's module only when it is asked for: help and version load no room."""

    def __call__(
        self,
        parser: ArgumentParser,
        namespace: Namespace,
        values: str | Sequence[Any] | None,
        option_string: str | None = None,
    ) -> None:
        self.load(values[0] if values else "")
        super().__call__(parser, namespace, values, option_string)

    def load(self, name: str) -> None:
        """Give a command its arguments, if there is such a command and it has none yet."""
        if name in COMMANDS and self.choices[name].get_default("run") is None:
            command = import_module(f"trainer.cli.{name}_command")
            command.add_arguments(self.choices[name])
            add_data(self.choices[name])
            self.choices[name].set_defaults(run=command.run)


def _open_first_screen(options: Namespace, console: Console) -> int:
    return open_app(options, console, "opening")


def _show_version() -> int:
    raise PrintAndExit(f"slantwise {VERSION}")


def run() -> int:
    """Run the command with the streams, arguments and clock of this process."""
    stdin, stdout, stderr = map(_safe, (sys.stdin, sys.stdout, sys.stderr))
    status = main(sys.argv[1:], Console(stdin, stdout, stderr, system_clock(), os.environ))
    _leave_no_output()
    return status


def _safe(stream: TextIO | None) -> TextIO:
    """Return the stream set to write a question mark for what it cannot encode; an empty one if closed."""
    if isinstance(stream, TextIOWrapper):
        stream.reconfigure(errors="replace")
    return stream or StringIO()


def _leave_no_output() -> None:
    """Drop what a closed pipe or a full disk did not take, which Python would try once more at exit."""
    for stream in (sys.stdout, sys.stderr):
        try:
            if stream:
                stream.flush()
        except OSError:
            with suppress(OSError):
                os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
