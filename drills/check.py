"""Angles, labels, layers and the fewest labels to switch, of any flat crease pattern, in one report."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from drills.labels.clusters import whole_repairs
from drills.layers.contradiction import contradiction
from drills.layers.verdict import layers
from drills.pattern.crease_pattern import CreasePattern, Label
from drills.vertex.kawasaki import check_angles
from drills.vertex.labels_at import Rule, can_fold, failing
from drills.vertex.rounded import can_fold_rounded, check_angles_rounded

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


def check(pattern: CreasePattern, exact: bool = True) -> Report:
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
        settled = [layers(pattern.switched(repair)).folds for repair in repairs[:proven]]
        settled += [None] * (len(repairs) - len(settled))
        return Report(exact, angles, broken, None, tuple(repairs), tuple(settled), more)
    if angles or not exact:
        return Report(exact, angles)
    return _layered(pattern)


def _layered(pattern: CreasePattern) -> Report:
    """Return the report on a pattern that is right at every point."""
    if _faces(pattern) > MOST_FACES:
        return Report(True)
    found = layers(pattern)
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
