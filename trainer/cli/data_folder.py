"""Where the log is kept."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from trainer.cli.console import Console
from trainer.cli.ending import CommandError

VARIABLE = "SLANTWISE_DATA"


def data_folder(options: Namespace, console: Console) -> Path:
    """Return the folder of --data, else of SLANTWISE_DATA, else the platform's folder for user data."""
    given: str | None = getattr(options, "data", None)
    if given == "":
        raise CommandError("Give a folder after --data, or leave it out.")
    if named := given or console.environ.get(VARIABLE):
        return Path(named)
    from platformdirs import user_data_path

    return user_data_path("slantwise", appauthor=False)
