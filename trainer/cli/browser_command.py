"""`slantwise browser`: the app on a page of a browser on the same machine."""

from __future__ import annotations

from argparse import Namespace
from functools import partial

from trainer.cli.parser import Console, Parser, data_folder, whole_number
from trainer.given import InputError

_LEAST_PORT, _MOST_PORT = 1024, 65535
_NEEDS = "The browser needs a further package; install it with: pip install 'slantwise[browser]'"


def add_arguments(parser: Parser) -> None:
    """Add the port."""
    parser.description = "The app in a browser on this machine; no other machine can reach it."
    number = partial(whole_number, "--port")
    parser.add_argument("--port", metavar="N", type=number, help="of the address; a free one if left out")


def run(options: Namespace, console: Console) -> int:
    """Serve the app until it is interrupted; InputError where the extra is missing or the port is no use."""
    if options.port is not None and not _LEAST_PORT <= options.port <= _MOST_PORT:
        raise InputError(f"--port is a whole number from {_LEAST_PORT} to {_MOST_PORT}.")
    try:
        from trainer.screens.browser import BrowserServer, free_port
    except ImportError:
        raise InputError(_NEEDS) from None
    folder = data_folder(options, console)
    server = BrowserServer(folder, options.port or free_port(), partial(_say, console))
    try:
        server.serve()
    except OSError:
        raise InputError(f"Port {options.port} is in use; leave --port out, or give another one.") from None
    return 0


def _say(console: Console, line: str) -> None:
    console.say(line)
    console.stdout.flush()
