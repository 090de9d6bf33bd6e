"""Sheets of a person's own: which were opened last, a copy of each, and how far its plan was gone through."""

from __future__ import annotations

from dataclasses import dataclass, replace
from hashlib import sha256
from os.path import commonprefix
from pathlib import Path
from typing import TYPE_CHECKING

from trainer.given import InputError, sheet_in_file
from trainer.strokes import known

if TYPE_CHECKING:
    from drills.flatfold import Limit
    from drills.fold_file import ImportedPattern
    from drills.structures import OwnSheet as DrilledSheet

NAME, COPIES = "own-sheets.json", "own-sheets"
HASH = 12
"""So many hexadecimal digits of a file's SHA-256 name it."""
_SCHEMA = 1
_MOST = 50


@dataclass(frozen=True)
class OwnSheet:
    """A file that was opened: its hash, where it was, instructions ticked off and ``of`` how many."""

    hash: str
    path: str
    ticked: int = 0
    of: int = 0

    @property
    def name(self) -> str:
        """The file's name alone."""
        return Path(self.path).name

    @property
    def standing(self) -> str:
        """How far its plan was gone through, in words; empty where it was not begun."""
        return f"plan: {self.ticked} of {self.of} done" if self.ticked else ""


class OwnSheets:
    """The list of them in a data folder, the one opened last first, and the copies beside it."""

    def __init__(self, folder: Path) -> None:
        from progress_store import JsonFile

        self.notices: list[str] = []
        self._folder = folder
        self._file: JsonFile = JsonFile(folder / NAME, _SCHEMA, self.notices.append, writable=True)
        self.sheets: tuple[OwnSheet, ...] = tuple(self._file.read(_sheets) or ())

    def open(self, path: str) -> tuple[OwnSheet, ImportedPattern]:
        """Return the sheet in a file, which is then the first, or in its copy where the file is gone.

        InputError says what is wrong with it.
        """
        path = str(Path(path).expanduser())
        before = next((sheet for sheet in self.sheets if sheet.path == path), None)
        if before and not Path(path).exists():
            return before, sheet_in_file(str(self._copy(before)), meaning=known(self._folder))
        imported = sheet_in_file(path, meaning=known(self._folder))
        sheet = self._taken_in(path)
        self.keep(sheet)
        return sheet, imported

    def by_hash(self, wanted: str) -> tuple[OwnSheet, ImportedPattern]:
        """Return the sheet that was opened before under a hash, from its copy; InputError where none was."""
        sheet = next((each for each in self.sheets if each.hash == wanted), None)
        if sheet is None:
            raise InputError("The sheet of this code was not opened here yet; give its file instead.")
        return sheet, sheet_in_file(str(self._copy(sheet)), meaning=known(self._folder))

    def _taken_in(self, path: str) -> OwnSheet:
        """Copy a file, and return it with how far its plan was gone through before."""
        try:
            content = Path(path).read_bytes()
            sheet = OwnSheet(sha256(content).hexdigest()[:HASH], str(Path(path).resolve()))
            copy = self._copy(sheet)
            copy.parent.mkdir(parents=True, exist_ok=True)
            if not copy.exists():
                copy.write_bytes(content)
        except OSError:
            raise InputError("The file could not be copied into the data folder; make room there.") from None
        before = next((other for other in self.sheets if other.hash == sheet.hash), sheet)
        return replace(sheet, ticked=before.ticked, of=before.of)

    def _copy(self, sheet: OwnSheet) -> Path:
        return self._folder / COPIES / f"{sheet.hash}{Path(sheet.path).suffix.lower()}"

    def keep(self, sheet: OwnSheet) -> None:
        """Remember a sheet as the one opened last; InputError where that cannot be written."""
        self.sheets = (sheet, *(other for other in self.sheets if other.hash != sheet.hash))[:_MOST]
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            self._file.write({"sheets": [vars(each) for each in self.sheets]})
        except OSError:
            raise InputError("What you opened cannot be remembered; make room in the data folder.") from None


def _sheets(fields: dict[str, object]) -> list[OwnSheet]:
    found = fields["sheets"]
    if not isinstance(found, list):
        raise ValueError("no list of sheets")
    return [_sheet(each) for each in found]


def _sheet(fields: dict[str, object]) -> OwnSheet:
    sheet = OwnSheet(**fields)  # type: ignore[arg-type]
    if not (isinstance(sheet.hash, str) and sheet.hash.isalnum() and isinstance(sheet.path, str)):
        raise ValueError("no hash or no path")
    if type(sheet.ticked) is not int or type(sheet.of) is not int or not 0 <= sheet.ticked <= sheet.of:
        raise ValueError("no count")
    return sheet


def to_practise(imported: ImportedPattern, limit: Limit) -> DrilledSheet:
    """Return a sheet as drills are made of it, open creases labelled; InputError where none can be made."""
    from drills.flatfold import check_pattern
    from drills.structures import OwnSheet as DrilledSheet

    if not imported.exact:
        raise InputError("No square grid fits these points, so there are no steps to be read on this sheet.")
    pattern = imported.pattern
    if "U" in pattern.labels():
        solved = check_pattern(pattern, True, limit).solved or {}
        pattern = pattern.with_labels(solved.get(e, edge.label) for e, edge in enumerate(pattern.edges))
        if "U" in pattern.labels():
            raise InputError("No labels were found for the open creases; slantwise check FILE says more.")
    return DrilledSheet.of(pattern)


def completed(typed: str) -> str:
    """Return a path as far as it is clear how it goes on; as it is where nothing begins so."""
    path = Path(typed).expanduser()
    folder, begun = (path, "") if typed.endswith(("/", "\\")) else (path.parent, path.name)
    try:
        names = sorted(each.name + "/" * each.is_dir() for each in folder.iterdir() if _offers(each, begun))
    except OSError:
        return typed
    shared = commonprefix(names)  # noqa: RUF071 - it is to compare sign by sign
    return f"{folder / shared}{'/' * shared.endswith('/')}" if names else typed


def _offers(path: Path, begun: str) -> bool:
    is_one = path.is_dir() or path.suffix.lower() in (".fold", ".svg", ".json")
    return is_one and path.name.startswith(begun) and (begun.startswith(".") or not path.name.startswith("."))
