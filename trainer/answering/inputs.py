"""Which hand goes with which manner of asking."""

from __future__ import annotations

from collections.abc import Mapping

from drills.questions.drill import Ask, Drill
from trainer.answering.answer_input import AnswerInput
from trainer.answering.marking import CreasesHand, JoiningHand, PointsHand
from trainer.answering.reading import ReadingHand
from trainer.answering.walking import FindingHand, PlacingHand

_HANDS: Mapping[Ask, type[AnswerInput]] = {
    "step": ReadingHand,
    "place": PlacingHand,
    "edges": CreasesHand,
    "vertices": PointsHand,
    "join": JoiningHand,
    "structures": FindingHand,
}


def hand_for(drill: Drill) -> AnswerInput:
    """Return an empty hand for a drill."""
    return _HANDS[drill.question.ask](drill)
