"""Where the program opens."""

from __future__ import annotations

from typing import Literal, TypeAlias

from drills.questions.code import Code

Start: TypeAlias = Literal["opening", "warm-up"] | Code
