"""The report on a crease pattern in words, each fault by its place, with the pattern drawn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from drills.flatfold import MOST_AT_A_POINT, Missing, Report, angle_fault_in_words, fault_in_words
from drills.fold_file import ImportedPattern
from drills.geometry import Exact, Point
from drills.pattern import (
    OTHER_LABEL,
    CreasePattern,
    Label,
    number_of,
    place,
    place_of,
    straight_runs_among,
)
from trainer.board import (
    RULER_COLUMNS,
    RULER_ROWS,
    Look,
    Marked,
    TooSmall,
    draw_board,
    points_at,
    scale_for,
    with_rulers,
)
from trainer.text.missing import missing_in_words, stretches_in_text

COLUMNS, ROWS = 78, 44
_UNITS_DRAWN = 16
ROOM = COLUMNS - RULER_COLUMNS, ROWS - RULER_ROWS
MOST_TOLD = 20
_AFTER = {
    True: "the sheet then folds flat",
    False: "but its layers still cross then",
    None: "its layers are not checked",
}
_LABELS: dict[Label, str] = {"M": "mountain", "V": "valley"}


def check_in_text(report: Report, sheet: ImportedPattern) -> Iterator[str]:
    """Yield the lines of a report: what was done to the file, the sheet, the faults, the labels to switch."""
    pattern = sheet.pattern
    creases = number_of(len(pattern.creases), "crease")
    yield f"{creases}, {number_of(len(pattern.interior), 'point')} inside the sheet."
    yield from sheet.notices
    yield from _drawn(report, pattern)
    yield from findings_in_text(report, pattern)


def findings_in_text(report: Report, pattern: CreasePattern) -> Iterator[str]:
    """Yield what was found: stretches, the faults by their places, layers, the labels to switch."""
    counted = "counted in squares" if pattern.has_grid else "told as parts of the way"
    yield f"Places are {counted} across and down from the top left corner."
    if report.exact:
        yield from stretches_in_text(pattern, report.missing)
    if "missing" in report.left_open:
        yield "Whether creases are missing was not found in the time given."
    yield from _few([angle_fault_in_words(pattern, at) for at in report.angles])
    yield from _few([_label_fault(pattern, vertex) for vertex in report.labels])
    yield from _few([_doubt(pattern, vertex) for vertex in sorted(report.doubtful)])
    yield from _few([_crowd(pattern, vertex) for vertex in sorted(report.crowded)])
    yield from _layers(report, pattern)
    yield from _switches(report, pattern)


def _drawn(report: Report, pattern: CreasePattern) -> Iterator[str]:
    pattern = drawable(pattern)
    scale = scale_for(pattern, *ROOM)
    if isinstance(scale, TooSmall):
        yield f"The sheet is too large to be drawn in {COLUMNS} columns."
        return
    look = look_at_faults(report, pattern)
    for line in with_rulers(draw_board(pattern, look, scale), shown=pattern.has_grid):
        yield "".join(span.text for span in line).rstrip()
    if look.fault_points or look.marked.edges:
        yield "! a point that cannot fold   * a label to switch, or one that clashes"


def place_in_text(report: Report, pattern: CreasePattern, across: Fraction, down: Fraction) -> Iterator[str]:
    """Yield what is wrong at a place, or that nothing is; ValueError where no point is there."""
    left, bottom, right, top = pattern.box
    wide, high = (1, 1) if pattern.has_grid else (right - left, top - bottom)
    aim = left + across * wide, top - down * high
    near = Fraction(1, 100) * (1 if pattern.has_grid else max(wide, high))

    def away(vertex: int) -> Exact:
        point = pattern.vertices[vertex]
        return max(abs(point.x - aim[0]), abs(point.y - aim[1]))

    vertex = min(range(len(pattern.vertices)), key=away)
    if away(vertex) > near:
        raise ValueError("no point")
    where = place_of(pattern, vertex)
    if vertex in report.angles:
        yield angle_fault_in_words(pattern, vertex)
        yield from (
            missing_in_words(pattern, gap) for gap in report.missing if _concerns(pattern, gap, vertex)
        )
    elif vertex in report.labels:
        yield _label_fault(pattern, vertex)
    elif vertex in report.doubtful:
        yield _doubt(pattern, vertex)
    elif vertex in report.crowded:
        yield _crowd(pattern, vertex)
    elif vertex not in pattern.interior:
        yield f"{where} is on the paper's edge, where anything folds."
    else:
        creases = number_of(len(pattern.around[vertex]), "crease")
        yield f"At {where} {creases} meet, and nothing is wrong with this point by itself."
    for edge in pattern.around[vertex]:
        if pattern.edges[edge].label != "B":
            yield f"  {_crease(pattern, edge)}"


def look_at_faults(report: Report, pattern: CreasePattern) -> Look:
    """Return how the board shows a report: points that cannot fold, labels to switch or that clash."""
    faults = points_at(pattern, (*report.angles, *report.labels))
    switched = report.repairs[0] if report.repairs else frozenset[int]()
    return Look(labels=True, fault_points=faults, marked=Marked(edges=switched | set(report.clash)))


def drawable(pattern: CreasePattern) -> CreasePattern:
    """Return a sheet that can be drawn: one without a grid in units of which so many make its longer side."""
    if pattern.has_grid:
        return pattern
    left, bottom, right, top = pattern.box
    larger = Fraction(_UNITS_DRAWN) / max(right - left, top - bottom)
    points = tuple(Point((x - left) * larger, (y - bottom) * larger) for x, y in pattern.vertices)
    return replace(pattern, vertices=points)


def _concerns(pattern: CreasePattern, gap: Missing, vertex: int) -> bool:
    return any(pattern.vertices[vertex] in way.mends for way in gap.ways)


def _few(sentences: list[str]) -> Iterator[str]:
    yield from sentences[:MOST_TOLD]
    if len(sentences) > MOST_TOLD:
        yield f"And {len(sentences) - MOST_TOLD} more such points."


def _label_fault(pattern: CreasePattern, vertex: int) -> str:
    if any(pattern.edges[edge].label == "U" for edge in pattern.around[vertex]):
        return f"At {place_of(pattern, vertex)} no choice for the open creases folds with the labels given."
    return fault_in_words(pattern, vertex)


def _doubt(pattern: CreasePattern, vertex: int) -> str:
    return f"At {place_of(pattern, vertex)} the angles are off by no more than the file rounds; not decided."


def _crowd(pattern: CreasePattern, vertex: int) -> str:
    creases = len(pattern.around[vertex])
    return (
        f"At {place_of(pattern, vertex)} {creases} creases meet; more than {MOST_AT_A_POINT} are not judged."
    )


def _layers(report: Report, pattern: CreasePattern) -> Iterator[str]:
    if report.ok:
        yield "Angles, labels and layers are right: the sheet folds flat."
        if report.solved:
            yield from _found(report, pattern)
    elif report.layers is False:
        yield "Every point folds by itself, but the sheet as a whole does not: its layers would cross."
        if report.clash:
            yield "These creases cannot all keep their labels:"
            yield from (f"  {_crease(pattern, edge)}" for edge in report.clash)
        if "clash" in report.left_open:
            yield "Which labels clash was not found in the time given."


def _found(report: Report, pattern: CreasePattern) -> Iterator[str]:
    """Yield which labels were found, and how, by straight lines."""
    solved = report.solved or {}
    how = "pleat and inside lines take turns" if report.in_turn else "searched; other ways may exist"
    yield f"Labels were found for {number_of(len(solved), 'open crease')} ({how}):"
    lines = [
        f"  from {place_of(pattern, run.vertices[0])} to {place_of(pattern, run.vertices[-1])}, {name}"
        for label, name in _LABELS.items()
        for run in straight_runs_among(pattern, (edge for edge in solved if solved[edge] == label))
    ]
    yield from lines[:MOST_TOLD]
    if len(lines) > MOST_TOLD:
        yield f"And {len(lines) - MOST_TOLD} more; check FILE --fill -o filled.fold writes them all."


def _switches(report: Report, pattern: CreasePattern) -> Iterator[str]:
    """Yield the first smallest repair and how many others there are."""
    if not report.labels:
        return
    if "repairs" in report.left_open:
        yield "The fewest labels to switch were not found in the time given."
        return
    if not report.repairs:
        yield "No repair with up to 4 labels at each fault was found."
        return
    first, folds = report.repairs[0], report.repairs_layers[0]
    others = len(report.repairs) - 1
    more = " or more" if report.more else ""
    yield f"Fewest labels to switch: {len(first)} ({_AFTER[folds]})."
    for edge in sorted(first):
        now = _LABELS[OTHER_LABEL[pattern.edges[edge].label]]
        yield f"  {_crease(pattern, edge)}: make it a {now}"
    if others:
        verb, noun = ("is", "repair") if others == 1 else ("are", "repairs")
        yield f"There {verb} {others}{more} other {noun} as small."


def _crease(pattern: CreasePattern, edge: int) -> str:
    start, end = (place(pattern, point) for point in pattern.ends(edge))
    label = _LABELS.get(pattern.edges[edge].label, "open")
    return f"from {start} to {end}, {label}"
