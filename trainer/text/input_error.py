"""Why something that was typed or named cannot be used."""

from __future__ import annotations


class InputError(Exception):  # no ValueError: argparse would put a sentence of its own in its place
    """One sentence that tells the person what to do instead."""
