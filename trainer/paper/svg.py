"""A page as SVG 1.1, its user unit one millimetre."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from xml.sax.saxutils import escape

from trainer.paper.page import At, Drawn, Filled, Item, Page, Spot, Stroke, Words

FONT = "Helvetica, Arial, sans-serif"


def page_to_svg(page: Page) -> str:
    """Return the page as the text of an SVG file that prints at its true size."""
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{svg_of(page)}\n'


def svg_of(page: Page) -> str:
    """Return the page as an SVG element, for a file of its own or within a page of HTML."""
    width, height = _number(page.width), _number(page.height)
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}">',
        f"<title>{_text(page.title)}</title>",
        f'<rect width="{width}" height="{height}" fill="#ffffff"/>',
        *map(_item, page.items),
        "</svg>",
    ]
    return "\n".join(lines)


def _item(item: Item) -> str:
    match item:
        case Drawn(points, stroke):
            return f'<polyline points="{_points(points)}" fill="none" {" ".join(_stroked(stroke))}/>'
        case Filled(corners, grey):
            return f'<polygon points="{_points(corners)}" fill="{_colour(grey)}"/>'
        case Spot((x, y), radius):
            return f'<circle cx="{_number(x)}" cy="{_number(y)}" r="{_number(radius)}"/>'
        case Words((x, y), text, size, anchor):
            place = f'x="{_number(x)}" y="{_number(y)}" text-anchor="{anchor}"'
            return f'<text {place} font-family="{FONT}" font-size="{_number(size)}">{_text(text)}</text>'


def _stroked(stroke: Stroke) -> Iterator[str]:
    yield f'stroke="{_colour(stroke.grey)}" stroke-width="{_number(stroke.width)}" stroke-linecap="butt"'
    if stroke.dashes:
        yield f'stroke-dasharray="{" ".join(map(_number, stroke.dashes))}"'
    if stroke.phase:
        yield f'stroke-dashoffset="{_number(stroke.phase)}"'


def _points(points: Iterable[At]) -> str:
    return " ".join(f"{_number(x)},{_number(y)}" for x, y in points)


def _number(value: float) -> str:
    """Return a length in millimetres to the micrometre, without zeros at its end."""
    return f"{value:.3f}".rstrip("0").rstrip(".")


def _colour(grey: float) -> str:
    return f"#{round(grey * 255):02x}" + f"{round(grey * 255):02x}" * 2


def _text(text: str) -> str:
    """Return the words with what XML cannot hold as question marks."""
    return escape("".join(sign if sign.isprintable() else "?" for sign in text))
