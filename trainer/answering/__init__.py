"""The answer in the making, an input for each way of asking."""

from __future__ import annotations

from trainer.answering.answer_input import LARGEST, AnswerInput, ReadingInput, verdict_look
from trainer.answering.crossings import ARROW_MOVES, STRIDE, FindingInput, PlacingInput
from trainer.answering.marking import CreasesInput, JoiningInput, MarkingInput, PointsInput

__all__ = [
    "ARROW_MOVES",
    "LARGEST",
    "STRIDE",
    "AnswerInput",
    "CreasesInput",
    "FindingInput",
    "JoiningInput",
    "MarkingInput",
    "PlacingInput",
    "PointsInput",
    "ReadingInput",
    "verdict_look",
]
