"""The answer in the making, one module a way of asking."""

from __future__ import annotations

from trainer.answering.answer_input import AnswerInput
from trainer.answering.inputs import hand_for
from trainer.answering.marking import CreasesHand, JoiningHand, MarkingHand, PointsHand
from trainer.answering.reading import LARGEST, ReadingHand
from trainer.answering.showing import hint, verdict_look
from trainer.answering.walking import STRIDE, WAYS, FindingHand, PlacingHand

__all__ = [
    "LARGEST",
    "STRIDE",
    "WAYS",
    "AnswerInput",
    "CreasesHand",
    "FindingHand",
    "JoiningHand",
    "MarkingHand",
    "PlacingHand",
    "PointsHand",
    "ReadingHand",
    "hand_for",
    "hint",
    "verdict_look",
]
