"""The answer in the making, one module a way of asking."""

from __future__ import annotations

from trainer.answering.answer_input import AnswerInput
from trainer.answering.marking import CreasesInput, JoiningInput, MarkingInput, PointsInput
from trainer.answering.reading import LARGEST, ReadingInput
from trainer.answering.showing import verdict_look
from trainer.answering.walking import STRIDE, WAYS, FindingInput, PlacingInput

__all__ = [
    "INPUTS",
    "LARGEST",
    "STRIDE",
    "WAYS",
    "AnswerInput",
    "CreasesInput",
    "FindingInput",
    "JoiningInput",
    "MarkingInput",
    "PlacingInput",
    "PointsInput",
    "ReadingInput",
    "input_for",
    "verdict_look",
]
