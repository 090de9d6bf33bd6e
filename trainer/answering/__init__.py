"""The answer in the making, an input for each way of asking."""

from __future__ import annotations

from trainer.answering.answer_input import AnswerInput, verdict_look
from trainer.answering.crossings import ARROW_MOVES, STRIDE, FindingInput, PlacingInput
from trainer.answering.marking import CreasesInput, JoiningInput, MarkingInput, PointsInput
from trainer.answering.numbers import LARGEST, NumbersInput
from trainer.answering.reading import ReadingInput

__all__ = [
    "ARROW_MOVES",
    "LARGEST",
    "STRIDE",
    "AnswerInput",
    "CreasesInput",
    "FindingInput",
    "JoiningInput",
    "MarkingInput",
    "NumbersInput",
    "PlacingInput",
    "PointsInput",
    "ReadingInput",
    "verdict_look",
]
