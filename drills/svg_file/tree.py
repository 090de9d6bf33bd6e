"""The elements of an SVG file, parsed safely: no entities, nothing from elsewhere, so many and so deep."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from typing import TYPE_CHECKING, Final

from drills.fold_file import MOST_MIB, FoldFileError

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

MOST_ELEMENTS: Final = 200_000
_DEEPEST: Final = 100
_ANOTHER: Final = "save the crease pattern alone as plain SVG"


def root_of(text: bytes) -> Element:
    """Return the root element; FoldFileError says what is wrong, or that the extra is not installed."""
    try:
        from defusedxml import DefusedXmlException
        from defusedxml.ElementTree import ParseError, iterparse
    except ImportError:
        raise FoldFileError(
            'The file is an SVG; to read it, install two more packages with pip install "slantwise[svg]".'
        ) from None
    if len(text) > MOST_MIB * 1024 * 1024:
        raise FoldFileError(f"The SVG is larger than {MOST_MIB} MiB; {_ANOTHER}.")
    try:
        events = iterparse(BytesIO(text), events=("start", "end"))
        root = _bounded(events)
    except DefusedXmlException:
        raise FoldFileError(f"The SVG defines entities or takes them from elsewhere; {_ANOTHER}.") from None
    except (ParseError, LookupError, ValueError) as fault:
        if isinstance(fault, FoldFileError):
            raise
        raise FoldFileError(f"The SVG is not well-formed XML; {_ANOTHER}.") from None
    if root is None or name_of(root) != "svg":
        raise FoldFileError("The file is XML but no SVG; save the crease pattern as FOLD or SVG.")
    return root


def _bounded(events: Iterator[tuple[str, Element]]) -> Element | None:
    root, depth, count = None, 0, 0
    for event, element in events:
        if event == "end":
            depth -= 1
            continue
        root = element if root is None else root
        depth, count = depth + 1, count + 1
        if depth > _DEEPEST or count > MOST_ELEMENTS:
            raise FoldFileError(f"The SVG has too many elements, or nests them too deeply; {_ANOTHER}.")
    return root


def name_of(element: Element) -> str:
    """Return an element's name without its namespace; empty for comments and the like."""
    return element.tag.rpartition("}")[2] if isinstance(element.tag, str) else ""


def reference_of(element: Element) -> str:
    """Return what the element refers to, by either spelling of the attribute."""
    return element.get("href") or element.get("{http://www.w3.org/1999/xlink}href") or ""
