"""Proof that a drawn stretch folds flat, layers and all, made once for each figure and remembered."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from drills.layers.verdict import layers
from drills.structures.stretch import Stretch, draw


def is_proven(stretch: Stretch) -> bool:
    """Whether the sheet as drawn has a layer order.

    A part of a sheet that folds flat folds flat too, and turning it or exchanging all labels changes
    nothing: so the whole sheet, unexchanged and in one facing, stands for all of those.
    """
    return _has_layers(replace(stretch, facing=0, exchanged=False, crop=(0, 0, 0, 0)))


@lru_cache(maxsize=256)
def _has_layers(stretch: Stretch) -> bool:
    return layers(draw(stretch)).folds is True
