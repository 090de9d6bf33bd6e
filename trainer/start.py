"""Where the program opens."""

from __future__ import annotations

from typing import Literal, TypeAlias

from drills.questions.code import Code
from trainer.practice.warm_up import Target

Start: TypeAlias = Literal["opening"] | Target | Code
"""The opening, a warm-up that rises to a target, or one drill."""
