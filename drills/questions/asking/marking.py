"""Asking for marks: the base of every way of asking that is answered by marking creases or points."""

from __future__ import annotations

from abc import abstractmethod
from dataclasses import dataclass
from typing import ClassVar

from drills.questions.question import Drill, Highlights, Marks, Question, Verdict


@dataclass(frozen=True)
class MarkQuestion(Question[Marks, Marks]):
    """Creases or points are to be marked, exactly those of the answer; ``marked`` is what one is called."""

    takes: ClassVar[type] = Marks
    marked: ClassVar[str]

    @property
    def marks(self) -> int:
        """How many marks the right answer takes; one where there is nothing to mark."""
        return max(1, len(self.answer.items))

    def judge(self, drill: Drill, given: Marks) -> Verdict:
        """Return the verdict on marks; misses and false alarms are told apart."""
        missed, extra = self.answer.items - given.items, given.items - self.answer.items
        return Verdict(
            right=not missed and not extra,
            answered=self.answered(drill, given),
            truth=self.truth_in_words(drill),
            why=self.why(drill, given),
            misses=len(missed),
            false_alarms=len(extra),
            lit=self.highlights(drill, given),
        )

    def answered(self, drill: Drill, given: Marks) -> str:
        """Return what was marked, with how many right, missed and too many."""
        return given.counted_against(self.answer, self.marked)

    @abstractmethod
    def truth_in_words(self, drill: Drill) -> str:
        """Return what is true, in one sentence."""

    @abstractmethod
    def why(self, drill: Drill, given: Marks) -> str:
        """Return why it is so, in one sentence."""

    def highlights(self, drill: Drill, given: Marks) -> Highlights:
        """Return what is right, missed and too many, as points or as creases."""
        true, going_in = self.answer.items, drill.parts_going_in()
        edges = drill.truth.edges
        sides = frozenset(edge for edge in drill.truth.creases if edges[edge].role == "outline")
        right, missed, extra = true & given.items, true - given.items, given.items - true
        if not self.marks_points:
            return Highlights(right=right, missed=missed, extra=extra, sides=sides, going_in=going_in)
        points = drill.pattern.vertices
        return Highlights(
            right_points=frozenset(points[vertex] for vertex in right),
            missed_points=frozenset(points[vertex] for vertex in missed),
            extra_points=frozenset(points[vertex] for vertex in extra),
            sides=sides,
            going_in=going_in,
        )

    def right_answer(self, drill: Drill) -> Marks:
        """Return the marks."""
        return self.answer

    def how_to_answer(self) -> str:
        """Return what typed marks look like."""
        return 'answer with tags, as in "aa ac", or "none"'

    def to_json(self) -> dict[str, object]:
        """Return the way of asking."""
        return {"ask": self.ask}

    def answer_to_json(self) -> dict[str, object]:
        """Return what is to be marked, by index."""
        return {self.ask: sorted(self.answer.items)}
