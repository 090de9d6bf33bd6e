"""A sheet of a person's own, read from a file: its roles follow from where its creases run."""

from __future__ import annotations

from dataclasses import dataclass

from drills.geometry import Move, move_between
from drills.pattern import CreasePattern, Edge, Role, to_origin
from drills.structures.block import Outline
from drills.structures.finder import find_stretches
from drills.structures.sheets import SheetDesign


@dataclass(frozen=True)
class OwnSheet(SheetDesign):
    """A pattern on a grid, lower left paper corner at (0, 0), of which nothing else is known."""

    pattern: CreasePattern
    exchanged: bool = False

    @classmethod
    def of(cls, pattern: CreasePattern) -> OwnSheet:
        """Return the sheet of a pattern, which keeps the order of its points and edges where it can."""
        at_home = to_origin(pattern)
        stretches = find_stretches(at_home)
        outline = {edge for found in stretches for edge in found.outline}
        inside = {edge for found in stretches for edge in found.inside}

        def role(number: int, edge: Edge) -> Role:
            if edge.label == "B":
                return "border"
            if number in outline:
                return "outline"
            return "inside" if number in inside else _role(move_between(*at_home.ends(number)))

        edges = tuple(edge._replace(role=role(e, edge)) for e, edge in enumerate(at_home.edges))
        return cls(CreasePattern(at_home.vertices, edges))

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the paper in squares, a last part of one left out."""
        _, _, right, top = self.pattern.box
        return int(right), int(top)

    def drawn(self) -> CreasePattern:
        """Return the pattern."""
        return self.pattern

    def outlines(self) -> tuple[Outline, ...]:
        """Return S, A, T, B of each slanted stretch that is whole on the sheet."""
        whole = (found.corners for found in find_stretches(self.pattern))
        return tuple((s, a, t, b) for s, a, t, b in whole if s and a and t and b)


def _role(way: Move) -> Role:
    """Return what a crease off every stretch is; a hinge runs like the pleat lines, and is called one."""
    if way.dx and way.dy:
        return "ridge" if abs(way.dx) == abs(way.dy) else "other"
    return "pleat"
