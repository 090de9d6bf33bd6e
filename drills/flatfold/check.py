"""Angles, labels, layers and the fewest labels to switch, of any flat crease pattern, in one report."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import degrees
from typing import Literal, TypeAlias

from drills.flatfold.labels import whole_repairs
from drills.flatfold.limit import UNLIMITED, Limit, OutOfTimeError
from drills.flatfold.missing import Missing, find_missing
from drills.flatfold.ranks import solve_by_rank, takes_turns
from drills.flatfold.rounded import angles_around, is_kawasaki_rounded, noise_of, rule_of_rounded
from drills.flatfold.solve import LayerSolution, contradiction, solve_layers
from drills.flatfold.turns import solve_in_turns
from drills.flatfold.vertex import (
    Rule,
    balances,
    counts_at,
    failing,
    folds,
    is_kawasaki,
    smallest_run,
    turns_around,
)
from drills.geometry import Exact
from drills.pattern import CreasePattern, Label, number_of, place_of

MOST_FACES = 2000
"""Sheets with more faces are not searched for layers: that verdict is left open."""

FACES_OF_TWO_PROVEN = 500
"""Sheets with so many faces have two of their repairs proven by layers, smaller ones more."""


MOST_AT_A_POINT = 200
"""A point where more creases meet is not judged: no folded paper has one."""

Open: TypeAlias = Literal["points", "missing", "repairs", "layers", "clash"]


@dataclass(frozen=True)
class Report:
    """What is wrong with a pattern, by vertices and edges; ``layers`` is None where it is not decided.

    ``in_turn`` says, where labels were found, whether pleat and inside lines take turns with them.
    ``clash`` are creases whose labels have no layer order together, where that is what is wrong.
    ``crowded`` are points with too many creases to be judged, ``doubtful`` those whose angles may be
    wrong only because the file rounds, ``missing`` creases that would mend angles, ``left_open`` what the
    time did not suffice for.
    """

    exact: bool
    angles: tuple[int, ...] = ()
    labels: tuple[int, ...] = ()
    layers: bool | None = None
    repairs: tuple[frozenset[int], ...] = ()
    repairs_layers: tuple[bool | None, ...] = ()
    more: bool = False
    solved: Mapping[int, Label] | None = None
    in_turn: bool | None = None
    clash: tuple[int, ...] = ()
    crowded: frozenset[int] = frozenset()
    doubtful: frozenset[int] = frozenset()
    missing: tuple[Missing, ...] = ()
    left_open: tuple[Open, ...] = ()

    @property
    def ok(self) -> bool:
        """Whether angles, labels and layers are all right."""
        return not self.angles and not self.labels and self.layers is True

    @property
    def is_decided(self) -> bool:
        """Whether it is known if the pattern folds."""
        return bool(self.angles or self.labels) or self.layers is not None


def check_pattern(
    pattern: CreasePattern, exact: bool = True, limit: Limit = UNLIMITED, off: Exact = 0
) -> Report:
    """Return the report on a pattern of folded creases; labels U are free to be chosen.

    Where ``exact`` is false the points are only nearly right: angles and labels are judged in floats
    and the layers are left open. ``off`` is how far from where it was meant a point may lie: what that
    explains is no fault. What the limit cuts short is left open too.
    """
    crowded = frozenset(v for v in pattern.interior if len(pattern.around[v]) > MOST_AT_A_POINT)
    try:
        noise = float(off) if exact or not off else noise_of(pattern, float(off))
        rule: Rule = folds if exact else rule_of_rounded(noise)
        wrong = _wrong_angles(pattern, exact, crowded, noise, limit)
        doubtful = frozenset(v for v in wrong if exact and noise and is_kawasaki_rounded(pattern, v, noise))
        angles = tuple(vertex for vertex in wrong if vertex not in doubtful)
        # at a point whose angles are wrong no labels can be right, so that they are not judged there
        unjudged = crowded.union(wrong)

        def sound(at: CreasePattern, given: Sequence[Label], vertex: int) -> bool:
            limit.check()
            return vertex in unjudged or rule(at, given, vertex)

        broken = failing(pattern, pattern.labels(), sound)
    except OutOfTimeError:
        return Report(exact, crowded=crowded, left_open=("points", "layers"))
    report = Report(exact, angles, broken, crowded=crowded, doubtful=doubtful)
    if exact and angles:
        report = _with_missing(pattern, report, limit)
    if broken:
        return _repaired(pattern, report, sound, limit)
    if wrong or crowded or not exact:
        return report
    return _layered(pattern, limit)


def _wrong_angles(
    pattern: CreasePattern, exact: bool, crowded: frozenset[int], noise: float, limit: Limit
) -> tuple[int, ...]:
    """Return the points whose angles do not fold flat."""

    def is_right(vertex: int) -> bool:
        limit.check()
        if exact:
            return is_kawasaki(pattern.directions[vertex])
        return is_kawasaki_rounded(pattern, vertex, noise)

    return tuple(vertex for vertex in pattern.interior if vertex not in crowded and not is_right(vertex))


def _with_missing(pattern: CreasePattern, report: Report, limit: Limit) -> Report:
    """Return the report with the creases that would mend its angles."""
    try:
        return replace(report, missing=find_missing(pattern, report.angles, limit))
    except OutOfTimeError:
        return replace(report, left_open=("missing",))


def _repaired(pattern: CreasePattern, report: Report, rule: Rule, limit: Limit) -> Report:
    """Return the report with the smallest repairs of the labels, and whether the sheet then folds."""
    try:
        repairs, more = whole_repairs(pattern, pattern.labels(), rule, limit)
    except OutOfTimeError:
        return replace(report, left_open=(*report.left_open, "repairs"))
    is_sound = report.exact and not (report.angles or report.crowded or report.doubtful)
    proven = _most_proven(pattern) if is_sound else 0
    settled: list[bool | None] = [None] * len(repairs)
    try:
        for place, repair in enumerate(repairs[:proven]):
            settled[place] = solve_layers(pattern.switched(repair), limit=limit).folds
    except OutOfTimeError:
        report = replace(report, left_open=(*report.left_open, "layers"))
    return replace(report, repairs=tuple(repairs), repairs_layers=tuple(settled), more=more)


def _layered(pattern: CreasePattern, limit: Limit) -> Report:
    """Return the report on a pattern that is right at every point."""
    if _faces(pattern) > MOST_FACES:
        return Report(True)
    try:
        found = _solved(pattern, limit)
    except OutOfTimeError:
        return Report(True, left_open=("layers",))
    if found.folds:
        given = pattern.labels()
        solved = {edge: label for edge, label in enumerate(found.labels) if given[edge] == "U"}
        in_turn = takes_turns(pattern, found.labels) if solved else None
        return Report(True, layers=True, solved=solved, in_turn=in_turn)
    if found.folds is None:
        return Report(True)
    try:
        return Report(True, layers=False, clash=contradiction(pattern, limit=limit))
    except OutOfTimeError:
        return Report(True, layers=False, left_open=("clash",))


def _solved(pattern: CreasePattern, limit: Limit) -> LayerSolution:
    """Return an order of the layers, open labels by rank where that folds, else as a search finds them."""
    if "U" in pattern.labels():
        found = solve_by_rank(pattern, limit)
        if found.folds:
            return found
    found = solve_layers(pattern, limit=limit)
    return solve_in_turns(pattern, limit) if found.folds is None else found


def _most_proven(pattern: CreasePattern) -> int:
    """Return for how many repairs the layers are searched: all of them on small sheets, few on large ones."""
    faces = _faces(pattern)
    return max(1, 2 * FACES_OF_TWO_PROVEN**2 // faces**2) if faces <= MOST_FACES else 0


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


def angle_fault_in_words(pattern: CreasePattern, vertex: int) -> str:
    """Return what is wrong with the angles of a vertex: their number, or what every second one adds to."""
    where, creases = place_of(pattern, vertex), len(pattern.around[vertex])
    if creases == 1:
        return f"At {where} one crease ends alone; it must run on, or meet others."
    if creases % 2:
        return f"At {where} {creases} creases meet; an odd number cannot fold flat."
    total = degrees(sum(angle.size for angle in angles_around(pattern, vertex)[::2]))
    return f"At {where} every second angle adds to {total:.1f} degrees; it must be 180."


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
