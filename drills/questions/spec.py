"""What a code stands for before any geometry is built: structure, form, facing and skill."""

from __future__ import annotations

from dataclasses import dataclass

from drills.questions.code import Code
from drills.structures.stretch import Stretch


@dataclass(frozen=True)
class Spec:
    """The drawn plan of a drill; ``detail`` is the ratio or the mistake that it turns on."""

    code: Code
    form: str
    skill: str
    stretch: Stretch
    detail: str
