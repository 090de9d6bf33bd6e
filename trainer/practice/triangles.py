"""Drills of one triangle: at which levels they are, and their codes."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count

from drills.questions import ALONE, SINGLE_STRETCHES, Code, checked, newest, spec
from drills.structures import TRIANGLE_345, Stretch


def levels_with(triangle: str) -> list[int]:
    """Return the levels at which a stretch of a triangle fills a sheet alone."""
    if triangle == TRIANGLE_345.name:
        return list(range(1, ALONE + 1))
    return [
        level
        for level, singles in SINGLE_STRETCHES.items()
        if any(single.triangle.name == triangle for single in singles)
    ]


def has_triangle(code: Code, triangle: str) -> bool:
    """Whether a code's sheet is a lone stretch of this triangle."""
    sheet = spec(code).sheet
    return isinstance(sheet, Stretch) and sheet.triangle.name == triangle


def codes_with(triangle: str, kind: str, form: str, level: int, seed: int) -> Iterator[Code]:
    """Yield codes from a seed on whose sheet is a lone stretch of a triangle, at a level that has it."""
    codes = (newest(checked(Code(kind, level, seed + by, form=form))) for by in count())
    yield from (code for code in codes if has_triangle(code, triangle))
