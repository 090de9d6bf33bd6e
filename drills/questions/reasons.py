"""Why a label is wrong, in words: the point where mountains and valleys do not balance."""

from __future__ import annotations

from drills.pattern.crease_pattern import CreasePattern
from drills.pattern.places import place
from drills.questions.words import number_of
from drills.vertex.crimping import smallest_run
from drills.vertex.kawasaki import turns_around
from drills.vertex.labels_at import balances, counts_at, failing, folds


def faults(pattern: CreasePattern) -> tuple[int, ...]:
    """Return the vertices that cannot fold as labelled, those where the counts are off first."""
    labels = pattern.labels()
    broken = failing(pattern, labels, folds)
    return tuple(sorted(broken, key=lambda vertex: balances(pattern, labels, vertex)))


def fault_in_words(pattern: CreasePattern, vertex: int) -> str:
    """Return what is wrong at a vertex that cannot fold, with its place and its counts or smallest angle."""
    labels = pattern.labels()
    where = place(pattern, vertex)
    if not balances(pattern, labels, vertex):
        mountains, valleys = counts_at(pattern, labels, vertex)
        counts = f"{number_of(mountains, 'mountain')} and {number_of(valleys, 'valley')}"
        return f"At {where} there are {counts}; they must differ by 2."
    return f"At {where} the counts are right, but {_smallest_angle(pattern, vertex)}."


def _beside(pattern: CreasePattern, vertex: int, angle: int) -> tuple[int, int]:
    """Return the creases before and after an angle of a vertex."""
    around = pattern.around[vertex]
    return around[angle], around[(angle + 1) % len(around)]


def _smallest_angle(pattern: CreasePattern, vertex: int) -> str:
    """Return what the smallest angle of a vertex asks for, as the end of a sentence."""
    run = smallest_run(turns_around(pattern.directions[vertex]))
    if run and run.length == 1:
        labels = {pattern.edges[edge].label for edge in _beside(pattern, vertex, run.start)}
        if len(labels) == 1:
            both = "mountains" if labels == {"M"} else "valleys"
            return f"two {both} stand beside the smallest angle; they must be one of each"
    return "neighbouring small angles cannot fold over each other with these labels"
