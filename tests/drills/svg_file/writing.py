"""A correct sheet written as SVG in the ways in which drawing programs and geometry libraries write one."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from drills.pattern import CreasePattern
from drills.structures import Stretch, draw

NAMESPACE = 'xmlns="http://www.w3.org/2000/svg"'


def stretch() -> CreasePattern:
    """Return a stretch of 18 by 16 squares."""
    return draw(Stretch((2, 2), pleats=5))


def svg(body: str, attributes: str = "") -> bytes:
    """Return an SVG with this inside."""
    return f'<?xml version="1.0" encoding="UTF-8"?>\n<svg {NAMESPACE} {attributes}>{body}</svg>'.encode()


def drawn(pattern: CreasePattern, label: str, scale: float = 1, places: int = 6) -> Iterable[tuple[str, ...]]:
    """Yield the ends x1, y1, x2, y2 of each crease of a label as they are written, y down from the top."""
    top = pattern.box[3]
    for number, edge in enumerate(pattern.edges):
        if edge.label == label:
            (x1, y1), (x2, y2) = pattern.ends(number)
            ends = (x1, top - y1, x2, top - y2)
            yield tuple(f"{round(float(value) * scale, places):g}" for value in ends)


def lines(pattern: CreasePattern, label: str, attributes: str = "", scale: float = 1) -> str:
    """Return the creases of a label as lines."""
    return "".join(
        f'<line x1="{a}" y1="{b}" x2="{c}" y2="{d}" {attributes}/>'
        for a, b, c, d in drawn(pattern, label, scale)
    )


def path(pattern: CreasePattern, label: str, scale: float = 1) -> str:
    """Return the creases of a label as one path."""
    return "".join(f"M{a},{b}L{c} {d}" for a, b, c, d in drawn(pattern, label, scale))


def coloured(pattern: CreasePattern) -> bytes:
    """Return lines with a colour each."""
    colours = {"B": "black", "M": "red", "V": "#00f"}
    return svg("".join(lines(pattern, label, f'stroke="{colour}"', 20) for label, colour in colours.items()))


def classes(pattern: CreasePattern) -> bytes:
    """Return paths told apart by class, which style rules give one colour and dashes."""
    rules = "path, .x > y {fill:none} .b{stroke:#222} .m {stroke:#222;stroke-dasharray:6,2,1,2}"
    rules += ".v{stroke:#222;stroke-dasharray:4 2}"
    body = "".join(f'<path class="{name}" d="{path(pattern, name.upper(), 7.5)}"/>' for name in "bmv")
    view = 'viewBox="0 0 135 120" width="35cm" height="31cm"'
    return svg(f"<style><![CDATA[{rules}]]></style>{body}", view)


def groups(pattern: CreasePattern) -> bytes:
    """Return groups with names, turned and scaled one in another, the colour inherited."""
    body = "".join(
        f'<g id="{name}" style="stroke:{colour};fill:none">{lines(pattern, label)}</g>'
        for label, name, colour in (
            ("M", "mountains", "#000"),
            ("V", "valleys", "#000"),
            ("B", "edge", "#000"),
        )
    )
    return svg(f'<g transform="translate(50 20) rotate(27)"><g transform="scale(12.5)">{body}</g></g>')


def used(pattern: CreasePattern) -> bytes:
    """Return creases as parts that are used, the paper as a rectangle."""
    parts = "".join(f'<path id="p{label}" d="{path(pattern, label, 10)}"/>' for label in ("M", "V"))
    body = (
        f'<defs>{parts}</defs><rect x="5" y="5" width="180" height="160" fill="#fff" stroke="#111"/>'
        '<use href="#pM" x="5" y="5" stroke="crimson"/>'
        '<use xlink:href="#pV" transform="translate(5,5)" stroke="rgb(0,0,200)"/>'
    )
    return svg(body, 'xmlns:xlink="http://www.w3.org/1999/xlink" version="1.1"')


def polylines(pattern: CreasePattern) -> bytes:
    """Return polylines with units of their own, the paper as a polygon, and a text and a circle beside."""
    body = '<polygon points="0,0 54,0 54,48 0,48" style="fill:none;stroke:#000"/><text x="1">Mine</text>'
    for label, colour in (("M", "#d22"), ("V", "#23d")):
        body += "".join(
            f'<polyline points="{a},{b},{c},{d}" stroke="{colour}"/>'
            for a, b, c, d in drawn(pattern, label, 3)
        )
    return svg(body + '<circle r="3" stroke="#000"/>', 'width="54mm" height="48mm" viewBox="0 0 54 48"')


def relative(pattern: CreasePattern) -> bytes:
    """Return paths of relative moves, level and upright ones among them, with three decimals."""
    body = ""
    for label, colour in (("B", "#000000"), ("M", "#ff0000"), ("V", "#0000ff")):
        data = ""
        for ends in drawn(pattern, label, 19.444, 3):
            a, b, c, d = map(float, ends)
            across, down = round(c - a, 3), round(d - b, 3)
            way = f"h{across:g}" if not down else f"v{down:g}" if not across else f"l{across:g}{down:+g}"
            data += f"M{a:g} {b:g}{way}"
        body += f'<path d="{data}" style="stroke:{colour}"/>'
    return svg(body, 'viewBox="-10 -10 400 400"')


def matrices(pattern: CreasePattern) -> bytes:
    """Return y up by a matrix, lines with lengths in millimetres."""
    body = "".join(
        f'<line x1="{a}mm" y1="{b}mm" x2="{c}mm" y2="{d}mm" stroke="{colour}"/>'
        for label, colour in (("B", "black"), ("M", "red"), ("V", "blue"))
        for a, b, c, d in drawn(pattern, label, 10)
    )
    return svg(f'<g transform="matrix(1 0 0 -1 0 700)"><g transform="scale(1,-1)">{body}</g></g>')


WRITERS: Mapping[str, Callable[[CreasePattern], bytes]] = {
    writer.__name__: writer for writer in (coloured, classes, groups, used, polylines, relative, matrices)
}
