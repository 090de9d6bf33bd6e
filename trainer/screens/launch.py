"""Starting the program on the screen."""

from __future__ import annotations

from pathlib import Path

from progress_store import open_store
from trainer.clock import Clock
from trainer.practice.attempts import floors, levels
from trainer.screens.app import Slantwise, Start


def run_app(folder: Path, clock: Clock, start: Start) -> int:
    """Run the program until it is left and return its exit status; StoreError if the folder is no use."""
    with open_store(folder, clock.now, floors(), levels()) as store:
        app = Slantwise(store, clock, start)
        app.run()
    return app.return_code or 0
