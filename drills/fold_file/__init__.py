"""FOLD files: anyone's crease pattern read, our own patterns written."""

from __future__ import annotations

from drills.fold_file.drawing import Drawing, to_fold
from drills.fold_file.grid import LARGEST_DENOMINATOR, TOLERANCE, Grid
from drills.fold_file.imported import ImportedPattern, read_sheet, sheet_drawn
from drills.fold_file.other_files import is_svg
from drills.fold_file.read import MOST_EDGES, MOST_MIB, FoldFileError, counted

__all__ = [
    "LARGEST_DENOMINATOR",
    "MOST_EDGES",
    "MOST_MIB",
    "TOLERANCE",
    "Drawing",
    "FoldFileError",
    "Grid",
    "ImportedPattern",
    "counted",
    "is_svg",
    "read_sheet",
    "sheet_drawn",
    "to_fold",
]
