"""Asking which labels are wrong."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import ClassVar, Self

from drills.flatfold import Rule, balances, counts_at, faults, folds, solve_layers
from drills.pattern import LABELS, ROLES, CreasePattern, number_of, place_of, roles_in_words
from drills.questions.asking.label_reasons import Reason, points_out_of_balance, reason_for
from drills.questions.asking.marking import MarkQuestion
from drills.questions.asking.repairs import repairs_up_to
from drills.questions.question import MAY_BE_NONE, Count, Drill, Fields, Highlights, Marks, Switch, Verdict

COUNTING_UP_TO = 3
"""Up to this level counting mountains against valleys finds what is wrong."""

_ALL_WELL = (
    "At every point mountains and valleys differ by 2, an angle smaller than both its neighbours lies "
    "between one of each, and the layers do not cross."
)
_SAYS = ("Which labels are wrong?", "Mark as few as possible.", MAY_BE_NONE)
_BEYOND_COUNTING = (
    "Counts alone do not settle it: an angle smaller than both its neighbours lies between "
    "a mountain and a valley."
)


@dataclass(frozen=True)
class MarkWrongLabels(MarkQuestion):
    """Which labels are to be switched, as few as possible; ``by_counting`` where counts settle it."""

    ask: ClassVar[str] = "edges"
    marked: ClassVar[str] = "label"

    by_counting: bool

    @classmethod
    def of(cls, wrong: frozenset[int], level: int) -> Self:
        """Return the question of a level in its usual words."""
        by_counting = level <= COUNTING_UP_TO
        return cls(_SAYS if by_counting else (*_SAYS, _BEYOND_COUNTING), Marks(wrong), by_counting)

    def repaired(self, pattern: CreasePattern) -> CreasePattern:
        """Return the pattern with the wrong labels switched."""
        return pattern.switched(self.answer.items)

    def judge(self, drill: Drill, given: Marks) -> Verdict:
        """Return the verdict on labels marked as wrong.

        On a sheet with a fault another set that folds too, with one label more, is right, but slow.
        """
        needed = len(self.answer.items)
        if needed and len(given.items) == needed + 1 and folds_too(drill, given):
            return self._fewer_would_do(drill, given)
        return super().judge(drill, given)

    def taken_for(self, drill: Drill, given: Marks) -> str:
        """Return "nothing" where no label was marked, "one" where one was marked on a faultless sheet."""
        if not given.items:
            return "nothing"
        return "one" if len(given.items) == 1 and not self.answer.items else ""

    def _fewer_would_do(self, drill: Drill, given: Marks) -> Verdict:
        wrong = self.answer.items
        return Verdict(
            right=True,
            answered=f"You marked {number_of(len(given.items), 'label')}.",
            truth=f"Also folds; fewer would do: {number_of(len(wrong), 'label')}.",
            why=reason_for(drill.pattern, wrong, wrong).words,
            slip="more than needed",
            lit=self.highlights(drill, Marks(wrong)),
        )

    def truth_in_words(self, drill: Drill) -> str:
        """Return how many labels are wrong, and what they should be."""
        wrong = self.answer.items
        if not wrong:
            return "Nothing is wrong on this sheet."
        counts = Counter(LABELS[drill.truth.edges[edge].label] for edge in wrong)
        (first, number), *others = sorted(counts.items())
        if len(wrong) == 1:
            return f"1 label is wrong; it should be a {first}."
        if not others:
            whole = "both" if number == 2 else f"all {number}"
            return f"{number} labels are wrong; {whole} should be {first}s."
        shares = [number_of(count, label) for label, count in sorted(counts.items())]
        return f"{len(wrong)} labels are wrong; they should be {' and '.join(shares)}."

    def why(self, drill: Drill, given: Marks) -> str:
        """Return why a label is wrong, one that was missed if any was, and that those too many are right."""
        wrong, extra = self.answer.items, given.items - self.answer.items
        told = [] if extra and wrong <= given.items else [self._reason(drill, given).words]
        told += [_right_as_it_is(drill, extra, bool(wrong))] if extra else []
        return " ".join(told)

    def highlights(self, drill: Drill, given: Marks) -> Highlights:
        """Return what is right, missed and too many, counts out of balance, small angles told of."""
        true, pattern = self.answer.items, drill.pattern
        angles = self._reason(drill, given).angles
        return Highlights(
            right=true & given.items,
            missed=true - given.items,
            extra=given.items - true,
            switches=tuple(
                Switch(edge, pattern.edges[edge].label, drill.truth.edges[edge].label)
                for edge in sorted(true)
            ),
            counts=tuple(
                Count(vertex, *counts_at(pattern, pattern.labels(), vertex))
                for vertex in points_out_of_balance(pattern)
            ),
            angles=angles.creases if angles else (),
        )

    def _reason(self, drill: Drill, given: Marks) -> Reason:
        wrong = self.answer.items
        return reason_for(drill.pattern, wrong, wrong - given.items or wrong) if wrong else Reason(_ALL_WELL)

    def verify(self, pattern: CreasePattern) -> tuple[str, ...]:
        """Enumerate every repair as small: the answer must be the only one (by counting too)."""
        wrong = self.answer.items
        if any(pattern.edges[edge].label not in "MV" for edge in pattern.creases):
            return ("A crease has no label.",)
        rules: tuple[tuple[str, Rule], ...] = (("the full test", folds), ("counting", balances))
        faults_found = []
        for name, rule in rules[: 2 if self.by_counting else 1]:
            found = set(repairs_up_to(pattern, len(wrong), rule))
            if wrong not in found:
                faults_found.append(f"By {name} switching the answer mends nothing.")
            faults_found += [
                f"By {name} switching {sorted(other)} mends it as well." for other in found - {wrong}
            ]
        return tuple(faults_found)

    def hint(self, drill: Drill) -> str:
        """Return a point that is worth counting."""
        worth_counting = faults(drill.pattern) or drill.pattern.interior
        return f"Count mountains and valleys at {place_of(drill.pattern, worth_counting[0])}."

    @classmethod
    def from_json(cls, question: Fields, answer: Fields, level: int) -> Self:
        """Return the question of these fields."""
        return cls.of(frozenset(answer["edges"]), level)


def folds_too(drill: Drill, given: Marks) -> bool:
    """Whether switching the marked labels gives a sheet that folds flat, layers and all."""
    mended = drill.pattern.switched(given.items)
    return not faults(mended) and solve_layers(mended).folds is True


def _right_as_it_is(drill: Drill, extra: frozenset[int], has_faults: bool) -> str:
    """Return what the labels marked too many are, and that they are right."""
    edges = drill.pattern.edges
    balanced = "once the wrong ones are switched, " if has_faults else ""
    if len(extra) > 1:
        roles = roles_in_words(edges[edge].role for edge in extra)
        return f"{len(extra)} of your labels are right: {roles}; {balanced}every point on them balances."
    (edge,) = extra
    number = len(drill.pattern.interior_ends[edge])
    ends = ("it ends in no point where labels count", f"{balanced}its end inside the sheet balances")
    balance = ends[number] if number < len(ends) else f"{balanced}both its ends balance"
    return f"The label of the {ROLES[edges[edge].role]} you marked was correct: {balance}."
