"""From an SVG to its straight lines on the page: groups, parts used again, views and transforms followed.

Nothing is fetched: a reference that leads out of the file is refused.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, hypot, log10
from typing import TYPE_CHECKING, Final, NamedTuple

from drills.fold_file import MOST_EDGES, Drawing, FoldFileError, counted
from drills.pattern import Label
from drills.svg_file.numbers import Matrix, decimals_in, length_in, matrix_of, numbers_in
from drills.svg_file.shapes import GEOMETRY, Place, pieces_of
from drills.svg_file.strokes import Stroke
from drills.svg_file.style import Rule, Style, colour_of, dash_of, is_drawn, rules_in, style_of
from drills.svg_file.tree import MOST_ELEMENTS, name_of, reference_of, root_of

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_NOT_DRAWN: Final = frozenset(
    {"defs", "symbol", "clipPath", "mask", "marker", "pattern", "linearGradient", "radialGradient"}
    | {"filter", "foreignObject", "metadata", "title", "desc", "style", "script"}
)
_DEEPEST_USE: Final = 16
_FINE: Final = 15


class SvgDrawing(NamedTuple):
    """Lines on the page, y up, each with the number of its stroke, in the order of the file.

    ``rounding`` is how far apart the numbers are that the file can hold, on the page.
    """

    lines: tuple[tuple[Place, Place], ...]
    stroke_of: tuple[int, ...]
    strokes: tuple[Stroke, ...]
    rounding: float
    notices: tuple[str, ...]


def read_svg(text: bytes) -> SvgDrawing:
    """Return what an SVG draws; FoldFileError says in one sentence what is wrong."""
    walk = _Walk(root_of(text))
    for _ in walk.lines_drawn():
        if len(walk.lines) > MOST_EDGES:
            raise FoldFileError(
                f"The SVG has more than {MOST_EDGES} lines; save a smaller part of the pattern."
            )
    if not walk.lines:
        raise FoldFileError("The SVG draws no straight line; save the crease pattern as lines with a stroke.")
    left_out = (("curved line", walk.curves), ("text or picture", walk.others))
    return SvgDrawing(
        tuple(walk.lines),
        tuple(walk.stroke_of),
        tuple(walk.strokes),
        walk.rounding(),
        tuple(f"Left out: {counted(number, thing)}." for thing, number in left_out if number),
    )


def drawing_of(svg: SvgDrawing, labels: Sequence[Label]) -> Drawing:
    """Return the drawing with a label for each of the strokes."""
    places = max(0, min(_FINE, 2 + ceil(-log10(svg.rounding))))
    one = 10**places
    xs = tuple(round(x * one) for ends in svg.lines for x, _ in ends)
    ys = tuple(round(y * one) for ends in svg.lines for _, y in ends)
    return Drawing(
        xs,
        ys,
        places,
        None,
        tuple((2 * line, 2 * line + 1) for line in range(len(svg.lines))),
        tuple(labels[stroke] for stroke in svg.stroke_of),
        svg.notices,
        max(1, ceil(svg.rounding * one)),
    )


class _Here(NamedTuple):
    """An element and what it is drawn in: matrix, style, the group's name, view, parts used on the way."""

    element: Element
    matrix: Matrix
    style: Style
    name: str
    view: tuple[float, float]
    used: int


class _Walk:
    """The lines found so far, and what was passed over."""

    def __init__(self, root: Element) -> None:
        self.root = root
        self.rules: list[Rule] = rules_in(root)
        self.by_id = {name: element for element in root.iter() if (name := element.get("id"))}
        self.lines: list[tuple[Place, Place]] = []
        self.stroke_of: list[int] = []
        self.strokes: dict[Stroke, int] = {}
        self.curves = self.others = 0
        self.decimals = self.decimals_of_matrices = 0
        self.scale = 0.0

    def lines_drawn(self) -> Iterator[None]:
        """Go through the file, with a stop after each line."""
        waiting, count = [_Here(self.root, Matrix(), {}, "", (100.0, 100.0), 0)], 0
        while waiting:
            here, count = waiting.pop(), count + 1
            if count > MOST_ELEMENTS:
                raise FoldFileError(
                    "The SVG uses its parts too often; save the crease pattern as plain lines."
                )
            style = style_of(here.element, self.rules, here.style)
            if style.get("display") == "none":
                continue
            here = self._placed(here._replace(style=style))
            match name_of(here.element):
                case "svg" | "g" | "a" | "switch" | "symbol":
                    children = [child for child in here.element if name_of(child) not in _NOT_DRAWN]
                    waiting += [here._replace(element=child) for child in reversed(children)]
                case "use":
                    waiting.append(self._used(here))
                case "text" | "image":
                    self.others += 1
                case name if name and is_drawn(style):
                    yield from self._shape(here)

    def _placed(self, here: _Here) -> _Here:
        """Return an element in its own coordinates, groups with their name."""
        element, name = here.element, name_of(here.element)
        transform = element.get("transform")
        matrix = here.matrix
        if transform:
            matrix = matrix.after(matrix_of(transform))
            if "matrix" in transform or "scale" in transform:
                self.decimals_of_matrices = max(self.decimals_of_matrices, decimals_in(transform))
        own = " ".join((element.get("class") or "").split())
        if name in ("g", "svg", "symbol", "use"):
            own = own or (element.get("id") or "" if name == "g" else "")
        here = here._replace(matrix=matrix, name=own or here.name)
        return self._viewed(here) if name in ("svg", "symbol") else here

    def _viewed(self, here: _Here) -> _Here:
        """Return a view in the coordinates of its viewBox (SVG 1.1, section 7.7)."""
        element = here.element
        wide, high = (
            length_in(element.get(key) or "100%", whole)
            for key, whole in zip(("width", "height"), here.view, strict=True)
        )
        inner = here.element is not self.root
        matrix = here.matrix.after(
            Matrix(
                e=length_in(element.get("x"), here.view[0]) if inner else 0.0,
                f=length_in(element.get("y"), here.view[1]) if inner else 0.0,
            )
        )
        box = numbers_in(element.get("viewBox") or "")
        if len(box) != 4 or min(box[2:]) <= 0 or min(wide, high) <= 0:
            return here._replace(matrix=matrix, view=(wide, high))
        if not inner and not element.get("width"):
            wide, high = box[2:]
        x, y = wide / box[2], high / box[3]
        if element.get("preserveAspectRatio", "").strip() != "none":
            x = y = min(x, y)
        into = matrix.after(Matrix(x, 0.0, 0.0, y, -box[0] * x, -box[1] * y))
        return here._replace(matrix=into, view=(box[2], box[3]))

    def _used(self, here: _Here) -> _Here:
        """Return the part that is used, where it is used."""
        reference = reference_of(here.element)
        if not reference.startswith("#"):
            raise FoldFileError(
                "The SVG takes a part from another file; save the crease pattern in one file."
            )
        part = self.by_id.get(reference[1:])
        if part is None:
            raise FoldFileError("The SVG uses a part that it does not have; save the crease pattern anew.")
        if here.used >= _DEEPEST_USE:
            raise FoldFileError(
                "The SVG uses its parts inside themselves; save the crease pattern as plain lines."
            )
        x, y = (length_in(here.element.get(key), whole) for key, whole in zip("xy", here.view, strict=True))
        return here._replace(element=part, matrix=here.matrix.after(Matrix(e=x, f=y)), used=here.used + 1)

    def _shape(self, here: _Here) -> Iterator[None]:
        """Take the lines of a shape."""
        stroke = Stroke(colour_of(here.style), dash_of(here.style), here.name)
        number = self.strokes.setdefault(stroke, len(self.strokes))
        self.scale = max(self.scale, here.matrix.scale)
        for key in GEOMETRY:
            if text := here.element.get(key):
                self.decimals = max(self.decimals, decimals_in(text))
        for (ends,) in pieces_of(here.element, *here.view):
            if ends is None:
                self.curves += 1
                continue
            (x1, y1), (x2, y2) = (here.matrix.of(*end) for end in ends)
            self.lines.append(((x1, -y1), (x2, -y2)))
            self.stroke_of.append(number)
            yield

    def rounding(self) -> float:
        """Return how far apart the numbers are that the file can hold, on the page."""
        xs, ys = ([place[axis] for ends in self.lines for place in ends] for axis in (0, 1))
        size = hypot(max(xs) - min(xs), max(ys) - min(ys)) or 1.0
        rounding = self.scale * 10.0**-self.decimals
        if self.decimals_of_matrices:
            rounding += size * 10.0**-self.decimals_of_matrices
        return max(rounding, size * 1e-12)
