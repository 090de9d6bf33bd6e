"""The plan of a sheet as JSON values; numbers that are not whole are fractions in text."""

from __future__ import annotations

from collections.abc import Container

from drills.geometry import Exact
from drills.pattern import Run
from drills.plan import Crease, Dot, Fold, GridPlan, Marks, RepeatedStep, SheetPlan, StretchPlan
from trainer.given import PatternSource
from trainer.text.plan import CAUTION


def plan_to_json(sheet: SheetPlan, source: PatternSource, found: Container[int]) -> dict[str, object]:
    """Return a sheet's plan; ``found`` are the edges whose labels were not given but found."""
    planned = {edge for fold in sheet.folds for edge in fold.edges}
    return {
        "grid": _grid(sheet.grid),
        "stretches": [_stretch(each, source) for each in sheet.stretches],
        "moves": [_move(move, source) for move in sheet.moves],
        "switches": [_fold(fold, source) for fold in sheet.switches],
        "found": sorted(source.edges[edge] for edge in planned if edge in found),
        "caution": " ".join(CAUTION),
        "pieces": {str(piece): whole for piece, whole in source.pieces.items()},
        "notices": list(source.notices),
    }


def _grid(grid: GridPlan) -> dict[str, object]:
    reference = grid.reference
    return {
        "size": [_number(grid.across), _number(grid.down)],
        "squares": grid.squares,
        "parts": grid.parts,
        "halved": grid.halved,
        "reference": reference
        and {
            "name": "Haga",
            "corner": _number(reference.corner),
            "mark": _number(reference.mark),
            "error": 0,
            "gain": _number(reference.gain),
        },
    }


def _move(move: Marks | Fold, source: PatternSource) -> dict[str, object]:
    if isinstance(move, Fold):
        return _fold(move, source)
    return {"mark": [_dot(dot, source) for dot in move.dots], "stretch": move.stretch}


def _fold(fold: Fold, source: PatternSource) -> dict[str, object]:
    pieces = [_piece(piece, source) for piece in fold.pieces]
    return {"fold": fold.kind, "stretch": fold.stretch, "pieces": pieces}


def _piece(piece: Run, source: PatternSource) -> dict[str, object]:
    return {
        "from": source.vertices[piece.vertices[0]],
        "to": source.vertices[piece.vertices[-1]],
        "edges": [source.edges[edge] for edge in piece.edges],
    }


def _stretch(planned: StretchPlan, source: PatternSource) -> dict[str, object]:
    corners = planned.corners
    return {
        "triangle": planned.triangle.name,
        "corners": [None if corner is None else source.vertices[corner] for corner in corners],
        "sides": [None if side is None else _way(side) for side in planned.sides],
        "equal": planned.is_equal,
        "dots": [_dot(dot, source) for dot in planned.dots],
        "outline": [_crease_to_json(crease, source) for crease in planned.outline],
        "inside": [_crease_to_json(crease, source) for crease in planned.inside],
        "middle": planned.has_middle,
    }


def _dot(dot: Dot, source: PatternSource) -> dict[str, object]:
    return {
        "vertex": source.vertices[dot.vertex],
        "kind": dot.kind,
        "at": [_number(dot.across), _number(dot.down)],
        "grid": dot.grid,
    }


def _crease_to_json(crease: Crease, source: PatternSource) -> dict[str, object]:
    return {
        "from": source.vertices[crease.vertices[0]],
        "to": source.vertices[crease.vertices[-1]],
        **_way(crease.step),
        "edges": [source.edges[edge] for edge in crease.edges],
        "labels": list(crease.labels),
    }


def _way(way: RepeatedStep) -> dict[str, object]:
    return {"across": way.across, "down": way.down, "times": _number(way.times)}


def _number(number: Exact) -> int | str:
    return int(number) if number.denominator == 1 else str(number)
