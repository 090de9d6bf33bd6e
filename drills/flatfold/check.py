"""Angles, labels, layers and the fewest labels to switch, of any flat crease pattern, in one report."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from drills.flatfold.labels import whole_repairs
from drills.flatfold.solve import contradiction, solve_layers
from drills.flatfold.vertex import (
    Rule,
    balances,
    can_fold,
    can_fold_rounded,
    check_angles,
    check_angles_rounded,
    counts_at,
    failing,
    folds,
    smallest_run,
    turns_around,
)
from drills.pattern import CreasePattern, Label, number_of, place_of

MOST_FACES = 500
"""Sheets with more faces are not searched for layers: that verdict is left open."""


@dataclass(frozen=True)
class Report:
    """What is wrong with a pattern, by vertices and edges; ``layers`` is None where it is not decided.

    ``clash`` are creases whose labels have no layer order together, where that is what is wrong.
    """

    exact: bool
    angles: tuple[int, ...] = ()
    labels: tuple[int, ...] = ()
    layers: bool | None = None
    repairs: tuple[frozenset[int], ...] = ()
    repairs_layers: tuple[bool | None, ...] = ()
    more: bool = False
    solved: Mapping[int, Label] | None = None
    clash: tuple[int, ...] = ()

    @property
    def ok(self) -> bool:
        """Whether angles, labels and layers are all right."""
        return not self.angles and not self.labels and self.layers is True

    @property
    def is_decided(self) -> bool:
        """Whether it is known if the pattern folds."""
        return bool(self.angles or self.labels) or self.layers is not None


def check_pattern(pattern: CreasePattern, exact: bool = True) -> Report:
    """Return the report on a pattern of folded creases; labels U are free to be chosen.

    Where ``exact`` is false the points are only nearly right: angles and labels are judged in floats
    and the layers are left open.
    """
    labels = pattern.labels()
    rule: Rule = can_fold if exact else can_fold_rounded
    angles = check_angles(pattern) if exact else check_angles_rounded(pattern)
    # at a point whose angles are wrong no labels can be right, so that they are not judged there
    wrong_angles = frozenset(angles)

    def sound(at: CreasePattern, given: Sequence[Label], vertex: int) -> bool:
        return vertex in wrong_angles or rule(at, given, vertex)

    broken = failing(pattern, labels, sound)
    if broken:
        repairs, more = whole_repairs(pattern, labels, sound)
        proven = 0 if angles or not exact else _most_proven(pattern)
        settled = [solve_layers(pattern.switched(repair)).folds for repair in repairs[:proven]]
        settled += [None] * (len(repairs) - len(settled))
        return Report(exact, angles, broken, None, tuple(repairs), tuple(settled), more)
    if angles or not exact:
        return Report(exact, angles)
    return _layered(pattern)


def _layered(pattern: CreasePattern) -> Report:
    """Return the report on a pattern that is right at every point."""
    if _faces(pattern) > MOST_FACES:
        return Report(True)
    found = solve_layers(pattern)
    if found.folds:
        given = pattern.labels()
        solved = {edge: label for edge, label in enumerate(found.labels) if given[edge] == "U"}
        return Report(True, layers=True, solved=solved)
    return Report(True, layers=found.folds, clash=contradiction(pattern) if found.folds is False else ())


def _most_proven(pattern: CreasePattern) -> int:
    """Return for how many repairs the layers are searched: all of them on small sheets, few on large ones."""
    faces = _faces(pattern)
    return 2 * MOST_FACES**2 // faces**2 if faces <= MOST_FACES else 0


def _faces(pattern: CreasePattern) -> int:
    """Return the number of faces, by Euler's formula."""
    return len(pattern.edges) - len(pattern.vertices) + 1


def faults(pattern: CreasePattern) -> tuple[int, ...]:
    """Return the vertices that cannot fold as labelled, those where the counts are off first."""
    labels = pattern.labels()
    broken = failing(pattern, labels, folds)
    return tuple(sorted(broken, key=lambda vertex: balances(pattern, labels, vertex)))


def fault_in_words(pattern: CreasePattern, vertex: int) -> str:
    """Return what is wrong at a vertex that cannot fold, with its place and its counts or smallest angle."""
    labels = pattern.labels()
    where = place_of(pattern, vertex)
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
