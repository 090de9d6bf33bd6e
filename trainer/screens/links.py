"""Words that can be clicked."""

from __future__ import annotations

from textual.content import Content
from textual.style import Style


def link(words: str, action: str, bold: bool = False) -> Content:
    """Return words that run an action of the screen when they are clicked."""
    return Content.styled(words, Style.from_meta({"@click": f"screen.{action}"}) + Style(bold=bold or None))
