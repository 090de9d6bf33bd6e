"""Asking which labels are wrong; and every repair of so many labels, enumerated by a second route."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Self

from drills.flatfold import Rule, balances, fault_in_words, faults, folds, solve_layers
from drills.pattern import OTHER_LABEL, CreasePattern, number_of, place_of
from drills.questions.asking.marking import MarkQuestion
from drills.questions.question import Drill, Fields, Highlights, Marks, Verdict

COUNTING_UP_TO = 3
"""Up to this level counting mountains against valleys finds what is wrong."""

_LABELS = {"M": "mountain", "V": "valley"}
_ALL_WELL = (
    "At every point mountains and valleys differ by 2, an angle smaller than both its neighbours lies "
    "between one of each, and the layers do not cross."
)
_SAYS = ("Which labels are wrong?", "Mark as few as possible.", "There may be none.")
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

    def _fewer_would_do(self, drill: Drill, given: Marks) -> Verdict:
        broken = faults(drill.pattern)
        return Verdict(
            right=True,
            answered=f"You marked {number_of(len(given.items), 'label')}.",
            truth=f"Also folds; fewer would do: {number_of(len(self.answer.items), 'label')}.",
            why=fault_in_words(drill.pattern, broken[0]) if broken else _ALL_WELL,
            slip="more than needed",
            lit=Highlights(right=self.answer.items, faults=frozenset(broken)),
        )

    def truth_in_words(self, drill: Drill) -> str:
        """Return how many labels are wrong, and what they should be."""
        wrong = self.answer.items
        if not wrong:
            return "Nothing is wrong on this sheet."
        counts = Counter(_LABELS[drill.truth.edges[edge].label] for edge in wrong)
        (first, number), *others = sorted(counts.items())
        if len(wrong) == 1:
            return f"1 label is wrong; it should be a {first}."
        if not others:
            whole = "both" if number == 2 else f"all {number}"
            return f"{number} labels are wrong; {whole} should be {first}s."
        shares = [number_of(count, label) for label, count in sorted(counts.items())]
        return f"{len(wrong)} labels are wrong; they should be {' and '.join(shares)}."

    def why(self, drill: Drill, given: Marks) -> str:
        """Return what is wrong at a point."""
        return self._fault(drill, given)[0]

    def highlights(self, drill: Drill, given: Marks) -> Highlights:
        """Return what is right, missed and too many, and the points out of balance."""
        true = self.answer.items
        return Highlights(
            right=true & given.items,
            missed=true - given.items,
            extra=given.items - true,
            faults=self._fault(drill, given)[1],
        )

    def _fault(self, drill: Drill, given: Marks) -> tuple[str, frozenset[int]]:
        """Return what is wrong at a point, and all such points: at a missed label's end, if there is one.

        Where none was missed but some are too many it is told what is wrong once those are switched too.
        """
        missed = self.answer.items - given.items
        mended = drill.pattern.switched(given.items)
        left = faults(mended)
        if given.items and left and not missed:
            fault = fault_in_words(mended, left[0])
            return f"With yours switched, {fault[0].lower()}{fault[1:]}", frozenset(left)
        broken = faults(drill.pattern)
        if not broken:
            return _ALL_WELL, frozenset()
        ends = {end for edge in missed for end in drill.pattern.edges[edge][:2]}
        told = next((vertex for vertex in broken if vertex in ends), broken[0])
        return fault_in_words(drill.pattern, told), frozenset(broken)

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


def repairs_up_to(pattern: CreasePattern, most: int, rule: Rule) -> Iterator[frozenset[int]]:
    """Yield every smallest repair of at most so many labels, whatever search chose the labels.

    Creases that are switched hang together in groups by the points they meet at. A group that meets no
    failing point could be left out, so in a smallest repair each meets one, and each failing point is
    met: such sets are few, and each is tried whole.
    """
    labels = pattern.labels()
    failing = [vertex for vertex in pattern.interior if not rule(pattern, labels, vertex)]
    for switched in _meeting_all(pattern, failing, most):
        after = list(labels)
        for edge in switched:
            after[edge] = OTHER_LABEL[after[edge]]
        touched = {vertex for edge in switched for vertex in pattern.interior_ends[edge]}
        if all(rule(pattern, after, vertex) for vertex in touched):
            yield switched


def _meeting_all(pattern: CreasePattern, failing: list[int], most: int) -> Iterator[frozenset[int]]:
    """Yield each set of at most so many creases that meets all failing points and hangs on them."""
    seen: set[frozenset[int]] = set()
    waiting = [frozenset[int]()]
    while waiting:
        chosen = waiting.pop()
        if chosen in seen:
            continue
        seen.add(chosen)
        touched = {vertex for edge in chosen for vertex in pattern.interior_ends[edge]}
        unmet = next((vertex for vertex in failing if vertex not in touched), None)
        if unmet is None:
            yield chosen
        if len(chosen) < most:
            near = [unmet] if unmet is not None else touched
            edges = {edge for vertex in near for edge in pattern.around[vertex]} - chosen
            waiting += [chosen | {edge} for edge in edges]
