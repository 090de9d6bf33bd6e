"""What a file is that is no FOLD file, told by its first bytes."""

from __future__ import annotations

from typing import Final

_SAVE: Final = "save the crease pattern itself as FOLD or SVG"
_BEGINNINGS: Final = (
    (b"%PDF", "a PDF"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"GIF8", "a picture"),
    (b"RIFF", "a picture"),
    (b"BM", "a picture"),
    (b"II*\x00", "a picture"),
    (b"MM\x00*", "a picture"),
    (b"PK\x03\x04", "a packed file"),
    (b"\x1f\x8b", "a packed file"),
)
_LOOKED_THROUGH: Final = 4096


def is_svg(text: bytes) -> bool:
    """Whether the file calls itself an SVG near its beginning."""
    start = text[:_LOOKED_THROUGH].lstrip(b"\xef\xbb\xbf \t\r\n")
    return start.startswith(b"<") and (b"<svg" in start or b":svg" in start)


def why_other(text: bytes) -> str:
    """Return what the file is instead of JSON, and what to do; empty where it may be JSON."""
    for beginning, name in _BEGINNINGS:
        if text.startswith(beginning):
            first = "unpack it first" if name == "a packed file" else _SAVE
            return f"The file is {name}, not a crease pattern; {first}."
    if text.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"<"):
        return f"The file is XML or a web page, not FOLD or SVG; {_SAVE}."
    return ""
