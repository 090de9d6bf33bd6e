"""The command `slantwise`, which `python -m trainer` is too."""

from __future__ import annotations

import sys

from trainer import VERSION


def run() -> int:
    """Run the command with the streams, arguments and clock of this process; return its exit status."""
    # alone, the version is told before anything is loaded: that is most of the time such a call takes
    if sys.argv[1:] == ["--version"] and _told(f"slantwise {VERSION}\n"):
        return 0
    from trainer.cli.main import run as run_command

    return run_command()


def _told(text: str) -> bool:
    """Write to standard output; False where it is closed, which the whole command knows how to say."""
    try:
        sys.stdout.write(text)
        sys.stdout.flush()
    except (AttributeError, OSError, ValueError):
        return False
    return True


if __name__ == "__main__":
    sys.exit(run())
