"""Pages as one PDF, by a library that only this needs."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import Any

from trainer.paper.page import Drawn, Filled, Item, Page, Spot, Words

POINTS = 72 / 25.4
"""PDF's unit to a millimetre."""
FONT = "Helvetica"


class NoPdfError(Exception):
    """The library is not installed."""


def pages_to_pdf(pages: Sequence[Page]) -> bytes:
    """Return a PDF with these pages, equal bytes for equal pages; NoPdfError without the library."""
    try:
        from reportlab.pdfgen.canvas import Canvas  # type: ignore[import-untyped,unused-ignore]
    except ImportError:
        raise NoPdfError from None
    held = BytesIO()
    # without the time of writing and a chance number in it
    canvas = Canvas(held, invariant=1)
    canvas.setTitle(pages[0].title)
    canvas.setCreator("slantwise")
    for page in pages:
        canvas.setPageSize((page.width * POINTS, page.height * POINTS))
        # millimetres from the top left corner, as the pages have them
        canvas.translate(0, page.height * POINTS)
        canvas.scale(POINTS, POINTS)
        for item in page.items:
            _add(canvas, item)
        canvas.showPage()
    canvas.save()
    return held.getvalue()


def _add(canvas: Any, item: Item) -> None:
    match item:
        case Drawn(points, stroke):
            canvas.setStrokeGray(stroke.grey)
            canvas.setLineWidth(stroke.width)
            canvas.setDash(list(stroke.dashes), stroke.phase)
            _path(canvas, points, stroke=1, fill=0)
        case Filled(corners, grey):
            canvas.setFillGray(grey)
            _path(canvas, corners, stroke=0, fill=1)
        case Spot((x, y), radius):
            canvas.setFillGray(0)
            canvas.circle(x, -y, radius, stroke=0, fill=1)
        case Words((x, y), text, size, anchor):
            canvas.setFillGray(0)
            canvas.setFont(FONT, size)
            # the font that every reader has knows Western letters only
            known = text.encode("cp1252", "replace").decode("cp1252")
            draw = {
                "start": canvas.drawString,
                "middle": canvas.drawCentredString,
                "end": canvas.drawRightString,
            }
            draw[anchor](x, -y, known)


def _path(canvas: Any, points: Sequence[tuple[float, float]], stroke: int, fill: int) -> None:
    path = canvas.beginPath()
    (x, y), *others = points
    path.moveTo(x, -y)
    for x, y in others:
        path.lineTo(x, -y)
    canvas.drawPath(path, stroke=stroke, fill=fill)
