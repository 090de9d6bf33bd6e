"""The README's table of kinds and its block of commands, against what there is."""

from __future__ import annotations

import re

from drills.questions import KINDS
from tests.no_row import ROOT
from trainer.cli.main import COMMANDS

TEXT = (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_table_of_what_it_asks_has_every_kind() -> None:
    """By its title and by its name in codes, in the registry's order."""
    _, _, after = TEXT.partition("| Kind | It asks | In codes |\n|---|---|---|\n")
    table, _, _ = after.partition("\n\n")
    rows = [[cell.strip() for cell in line.split("|")[1:-1]] for line in table.splitlines()]
    assert [(title, name) for title, _, name in rows] == [(row.title, name) for name, row in KINDS.items()]


def test_the_block_of_commands_has_every_command() -> None:
    """And none that there is not, in the order of the help."""
    _, _, after = TEXT.partition("## Command line\n\n```\n")
    block, _, _ = after.partition("```")
    shown = re.findall(r"^slantwise ([a-z]+)", block, re.MULTILINE)
    assert list(dict.fromkeys(shown)) == list(COMMANDS)
