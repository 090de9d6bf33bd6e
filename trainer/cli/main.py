"""The command `slantwise`: what it was asked, done or refused in one sentence."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from io import StringIO, TextIOWrapper
from typing import TextIO

from drills.questions import CodeError
from progress_store import StoreError, reason
from trainer.cli import app_command, check_command, drill_command, merge_command, plan_command, record_command
from trainer.cli.parser import COMMAND, Console, Parser, PrintAndExit, add_data
from trainer.clock import system_clock
from trainer.text.input_error import InputError

DONE, REFUSED, INTERRUPTED, PIPE_CLOSED = 0, 2, 130, 141
"""Exit statuses; the last two are those of the shell for SIGINT and SIGPIPE."""

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
        console.complain(f"It could not be read or written ({reason(error)}); try another place.")
        return REFUSED


def _answered(argv: Sequence[str], console: Console) -> int:
    try:
        options = _parser().parse_args(argv)
        status: int = _show_version() if options.version else options.act(options, console)
    except PrintAndExit as told:
        for line in str(told).splitlines():
            console.say(line)
        status = DONE
    except (InputError, CodeError, StoreError) as refusal:
        console.stdout.flush()
        console.complain(str(refusal))
        return REFUSED
    console.stdout.flush()
    return status


def _parser() -> Parser:
    parser = Parser(
        prog="slantwise",
        description="Practise reading slanted structures in box-pleated crease patterns.",
        epilog=_EXAMPLES,
    )
    parser.add_argument("--version", action="store_true", help="show the version and leave")
    add_data(parser)
    parser.set_defaults(act=app_command.opening)
    commands = parser.add_subparsers(metavar=COMMAND, title="commands", prog="slantwise")
    for command in (
        app_command,
        drill_command,
        check_command,
        plan_command,
        record_command,
        merge_command,
    ):
        command.add_to(commands)
    return parser


def _show_version() -> int:
    from importlib.metadata import version

    raise PrintAndExit(f"slantwise {version('slantwise')}")


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
