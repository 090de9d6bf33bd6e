"""`slantwise merge`: take in the log of another machine."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from progress_store import MergeResult, open_store
from trainer.cli.parser import Console, Parser, data_folder
from trainer.practice.attempts import floors, levels


def add_arguments(parser: Parser) -> None:
    """Add the arguments of `merge`."""
    parser.description = "Adds what another data folder has and yours has not; the other stays as it is."
    parser.epilog = "examples:\n  slantwise merge /media/stick/slantwise\n"
    parser.add_argument("folder", metavar="DIR", type=Path, help="the data folder of the other machine")


def run(options: Namespace, console: Console) -> int:
    """Take in the other folder and say how many answers came; StoreError where it cannot be done."""
    with open_store(data_folder(options, console), console.clock.now, floors(), levels()) as store:
        console.say(_told(store.take_in(options.folder)))
        console.stdout.flush()
        for notice in store.notices:
            console.complain(notice)
    return 0


def _told(taken: MergeResult) -> str:
    answers = "answer" if taken.new == 1 else "answers"
    here = taken.found - taken.new
    were = "was" if here == 1 else "were"
    return f"Took in {taken.new} {answers} of {taken.found} ({here} {were} here already)."
