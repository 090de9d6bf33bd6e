"""What the trainer has for each way of asking: its answer input, and what it says and reads as text.

A new way of asking needs one row here and nothing else in the screens or on the command line.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from drills.questions import (
    AnyQuestion,
    Drill,
    FindStretches,
    JoinPoints,
    MarkInsideLines,
    MarkTurningPoints,
    MarkWrongLabels,
    PlaceStep,
    ReadStep,
)
from trainer.answering import (
    AnswerInput,
    CreasesInput,
    FindingInput,
    JoiningInput,
    PlacingInput,
    PointsInput,
    ReadingInput,
)
from trainer.text import asked
from trainer.text.asked import TextManner


class WayOfAsking(NamedTuple):
    """The answer input of a way of asking, and its manner as text."""

    input: type[AnswerInput[Any]]
    text: TextManner


_MARKS = TextManner(asked.put_as_said, asked.read_marks, asked.tell_marks)
_OF_OUTLINE = TextManner(asked.put_of_outline, asked.read_marks, asked.tell_marks)

WAYS: dict[type[AnyQuestion], WayOfAsking] = {
    ReadStep: WayOfAsking(ReadingInput, TextManner(asked.put_lit_crease, asked.read_step, asked.tell_truth)),
    PlaceStep: WayOfAsking(PlacingInput, TextManner(asked.put_step, asked.read_place, asked.tell_truth)),
    MarkInsideLines: WayOfAsking(CreasesInput, _OF_OUTLINE),
    MarkWrongLabels: WayOfAsking(CreasesInput, _MARKS),
    MarkTurningPoints: WayOfAsking(PointsInput, _OF_OUTLINE),
    JoinPoints: WayOfAsking(
        JoiningInput, TextManner(asked.put_lit_point, asked.read_one_mark, asked.tell_one_mark)
    ),
    FindStretches: WayOfAsking(
        FindingInput, TextManner(asked.put_outlines, asked.read_outlines, asked.tell_outlines)
    ),
}


def way_of(drill: Drill) -> WayOfAsking:
    """Return what there is for the way in which a drill asks, or for the one that its way is derived from."""
    return next(WAYS[asking] for asking in type(drill.question).__mro__ if asking in WAYS)


def input_for(drill: Drill) -> AnswerInput[Any]:
    """Return an empty answer input for a drill."""
    return way_of(drill).input(drill, drill.question)
