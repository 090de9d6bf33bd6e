"""FOLD files: anyone's crease pattern read, our own patterns written."""

from __future__ import annotations

from drills.fold_file.border import is_convex, is_simple, lines_of, neighbours, reached, walk_round
from drills.fold_file.drawing import MOST_MIB
from drills.fold_file.fold_in import LARGEST_MIB, from_fold, read_fold
from drills.fold_file.grid import LARGEST_DENOMINATOR, TOLERANCE, Grid
from drills.fold_file.imported import ImportedPattern, read_sheet
from drills.fold_file.numbers import Ends, Spot
from drills.fold_file.refusals import FoldFileError
from drills.fold_file.write import to_fold

__all__ = [
    "LARGEST_DENOMINATOR",
    "LARGEST_MIB",
    "MOST_MIB",
    "TOLERANCE",
    "Ends",
    "FoldFileError",
    "Grid",
    "ImportedPattern",
    "Spot",
    "from_fold",
    "is_convex",
    "is_simple",
    "lines_of",
    "neighbours",
    "reached",
    "read_fold",
    "read_sheet",
    "to_fold",
    "walk_round",
]
