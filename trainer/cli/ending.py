"""Why a command ends early: it cannot do what was asked, or only a text was asked for."""

from __future__ import annotations


class CommandError(Exception):
    """One sentence that tells the person what to do; exit status 2."""


class Told(Exception):  # noqa: N818 - it ends a command that went well
    """A text that was asked for and ends the command, such as the help; exit status 0."""
