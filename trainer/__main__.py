"""`python -m trainer` is the same as the command `slantwise`."""

from __future__ import annotations

import sys

from trainer.cli.main import run

if __name__ == "__main__":
    sys.exit(run())
