"""The record as one page of HTML: its charts as SVG, then every figure in words; no scripts."""

from __future__ import annotations

from datetime import date
from html import escape
from itertools import chain
from typing import Final

from progress_store import Record
from trainer.board import Chart
from trainer.paper.chart import chart_page
from trainer.paper.svg import svg_of
from trainer.text.glance import glance
from trainer.text.record import record_in_text

STYLE: Final = (
    "body{font-family:Helvetica,Arial,sans-serif;max-width:60em;margin:2em auto;padding:0 1em}"
    "section{display:flex;flex-wrap:wrap;gap:1em}figure{margin:0}figcaption{max-width:90mm}"
    "pre{white-space:pre-wrap}"
)
_HEAD: Final = (
    '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
    '<meta http-equiv="Content-Security-Policy" '
    "content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
    f"<title>Slantwise: the record</title>\n<style>{STYLE}</style>\n</head>\n<body>"
)


def record_to_html(record: Record, today: date) -> str:
    """Return the record as it stands on a practice day as the text of a file."""
    charts = (_figure(chart) for chart in glance(record, today))
    # what a log holds came from files: names of skills and kinds are not trusted
    words = escape(_plain("\n".join(record_in_text(record, today))))
    return "\n".join(
        (
            _HEAD,
            "<h1>Record</h1>",
            *chain(["<section>"], charts, ["</section>"]),
            f"<pre>{words}</pre>",
            "</body>\n</html>\n",
        )
    )


def _figure(chart: Chart) -> str:
    says = escape(_plain(chart.says))
    return f"<figure>\n{svg_of(chart_page(chart))}\n<figcaption>{says}</figcaption>\n</figure>"


def _plain(text: str) -> str:
    """Return text with what no page can hold as question marks."""
    return "".join(sign if sign.isprintable() or sign == "\n" else "?" for sign in text)
