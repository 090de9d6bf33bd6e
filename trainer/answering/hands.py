"""Which hand goes with which manner of asking."""

from __future__ import annotations

from collections.abc import Mapping

from drills.questions.drill import Ask, Drill
from trainer.answering.creases import CreasesHand
from trainer.answering.finding import FindingHand
from trainer.answering.hand import Hand
from trainer.answering.placing import PlacingHand
from trainer.answering.points import JoiningHand, PointsHand
from trainer.answering.reading import ReadingHand

_HANDS: Mapping[Ask, type[Hand]] = {
    "step": ReadingHand,
    "place": PlacingHand,
    "edges": CreasesHand,
    "vertices": PointsHand,
    "join": JoiningHand,
    "structures": FindingHand,
}


def hand_for(drill: Drill) -> Hand:
    """Return an empty hand for a drill."""
    return _HANDS[drill.question.ask](drill)
