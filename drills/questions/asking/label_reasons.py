"""Why labels are wrong, in a sentence that says the reason and not a place, and what it lights."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

from drills.flatfold import Crowded, balances, crowded, failing, folds, is_settled_by_counting
from drills.pattern import CreasePattern, Label
from drills.questions.asking.repairs import repairs_up_to

MOST_RIVALS = 2
"""Other repairs by counting are looked for up to so many labels: more take too long on a large sheet."""

_KINDS: dict[Label, str] = {"M": "mountains", "V": "valleys"}


class Reason(NamedTuple):
    """A sentence, and the small angles that it speaks of, if any."""

    words: str
    angles: Crowded | None = None


@lru_cache(maxsize=4)
def reason_for(pattern: CreasePattern, wrong: frozenset[int], told: frozenset[int]) -> Reason:
    """Return why the wrong labels, those told of above all, are wrong on the sheet as it is labelled.

    Counts give the reason where they leave one smallest repair; else small angles do. Remembered: what
    is told and what is lit ask for the same one.
    """
    if not is_settled_by_counting(pattern, wrong):
        by_angle = _by_angle(pattern, wrong, told) or _against_another(pattern, wrong)
        if by_angle:
            return by_angle
    return Reason(_by_counts(pattern, wrong, _hanging_together(pattern, wrong, min(told))))


def points_out_of_balance(pattern: CreasePattern) -> tuple[int, ...]:
    """Return the points at which mountains and valleys do not differ by 2."""
    return failing(pattern, pattern.labels(), balances)


def _by_angle(pattern: CreasePattern, wrong: frozenset[int], told: frozenset[int]) -> Reason | None:
    """Return the reason where small angles cannot fold beside a wrong label, one told of if there is."""
    labels = pattern.labels()
    found = list(crowded(pattern, labels, failing(pattern, labels, folds)))
    for creases in (told, wrong):
        for angles in found:
            if creases & set(angles.creases):
                return Reason(_small_angles(pattern, angles), angles)
    return None


def _small_angles(pattern: CreasePattern, angles: Crowded) -> str:
    number = len(angles.creases)
    labels = [pattern.edges[crease].label for crease in angles.creases]
    kind: Label = "M" if 2 * labels.count("M") > number else "V"
    if number == 2:
        return (
            f"The lit angle is smaller than both its neighbours, so its two creases must differ; "
            f"both are {_KINDS[kind]}."
        )
    return (
        f"The lit angles are equal and smaller than their neighbours: of their {number} creases "
        f"{'half' if number % 2 == 0 else f'at most {number // 2 + 1}'} may be {_KINDS[kind]}; "
        f"{'all' if labels.count(kind) == number else labels.count(kind)} are."
    )


def _against_another(pattern: CreasePattern, wrong: frozenset[int]) -> Reason | None:
    """Return the reason where counts allow another repair, but small angles do not."""
    if len(wrong) > MOST_RIVALS:
        return None
    for other in sorted(set(repairs_up_to(pattern, len(wrong), balances)) - {wrong}, key=sorted):
        labels = pattern.switched(other).labels()
        touched = {vertex for edge in other for vertex in pattern.interior_ends[edge]}
        for angles in crowded(pattern, labels, sorted(touched)):
            if len(angles.creases) == 2:
                kind = _KINDS[labels[angles.creases[0]]]
                words = (
                    f"Counts allow another repair, but it puts two {kind} beside the lit angle, "
                    "which is smaller than both its neighbours."
                )
                return Reason(words, angles)
    return None


def _by_counts(pattern: CreasePattern, wrong: frozenset[int], row: frozenset[int]) -> str:
    """Return what counting says of wrong labels that hang together."""
    off = set(points_out_of_balance(pattern))
    if len(row) == 1:
        (edge,) = row
        return _of_one(len(off & set(pattern.interior_ends[edge])), len(pattern.interior_ends[edge]), wrong)
    number = len(row)
    each = "both" if number == 2 else f"all {number}"
    ends = [vertex for edge in row for vertex in pattern.interior_ends[edge]]
    off_here = off & set(ends)
    whole = f"These {number}" if row == wrong else f"{number} of the wrong labels"
    if any(ends.count(vertex) > 1 for vertex in off_here):
        return (
            f"{whole} meet {_points(len(off_here))} out of balance; switching {each} mends {_all(off_here)}."
        )
    outer = "both outer ends are" if len(off_here) == 2 else f"{len(off_here)} outer ends are"
    outer = "the outer end is" if len(off_here) == 1 else outer
    return (
        f"{whole} meet where counts are right; {outer} out of balance, and switching {each} "
        f"mends {_all(off_here)}."
    )


def _of_one(off: int, inner: int, wrong: frozenset[int]) -> str:
    if inner == 1:
        return "Its end inside the sheet is out of balance; switching this one mends it."
    if len(wrong) == 1:
        return "Both ends are out of balance; switching this one mends both."
    return "Both its ends are out of balance; switching it mends both."


def _points(number: int) -> str:
    return "one point" if number == 1 else f"{number} points"


def _all(points: Iterable[int]) -> str:
    return {1: "it", 2: "both ends"}.get(len(list(points)), "them all")


def _hanging_together(pattern: CreasePattern, wrong: frozenset[int], first: int) -> frozenset[int]:
    """Return the wrong creases that hang together with one of them by points inside the sheet."""
    found, waiting = {first}, [first]
    while waiting:
        ends = set(pattern.interior_ends[waiting.pop()])
        near = {edge for edge in wrong - found if ends & set(pattern.interior_ends[edge])}
        found |= near
        waiting += near
    return frozenset(found)
