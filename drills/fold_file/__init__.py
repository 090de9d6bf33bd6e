"""FOLD files: anyone's crease pattern read, our own patterns written."""

from __future__ import annotations

from drills.fold_file.drawing import to_fold
from drills.fold_file.grid import LARGEST_DENOMINATOR, TOLERANCE, Grid
from drills.fold_file.imported import ImportedPattern, read_sheet
from drills.fold_file.read import MOST_MIB, FoldFileError

__all__ = [
    "LARGEST_DENOMINATOR",
    "MOST_MIB",
    "TOLERANCE",
    "FoldFileError",
    "Grid",
    "ImportedPattern",
    "read_sheet",
    "to_fold",
]
