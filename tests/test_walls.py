"""The walls between the rooms, seen from a fresh interpreter and from the import lines themselves."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
ROOMS = ("drills", "progress_store", "trainer")
SCREENS = "trainer.screens"
BARRED = {
    "drills": {"progress_store", "trainer", "textual", "rich"},
    "progress_store": {"drills", "trainer", "textual", "rich"},
    "trainer": {"textual"},
}


def test_the_practised_and_the_remembered_know_nothing_of_each_other_nor_of_the_screen() -> None:
    """All modules of one room, loaded alone, bring in none of the other and nothing that draws."""
    assert loaded(modules("drills"), {"progress_store", "trainer", "textual", "rich", "fsrs"}) == []
    assert loaded(modules("progress_store"), {"drills", "trainer", "textual", "rich"}) == []


def modules(package: str) -> list[str]:
    """Return the modules of a package as they lie on the disk; none where there is no such package."""
    found = ROOT.joinpath(*package.split(".")).rglob("*.py")
    return sorted(name_of(path) for path in found if path.name != "__main__.py")


def name_of(path: Path) -> str:
    """Return the dotted name of a module's file."""
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def loaded(names: list[str], unwanted: set[str]) -> list[str]:
    """Return which of the unwanted packages a fresh interpreter holds after importing the modules."""
    assert names
    program = (
        "import importlib, sys\n"
        f"for name in {names!r}: importlib.import_module(name)\n"
        f"print(*sorted({unwanted!r} & {{name.split('.')[0] for name in sys.modules}}))"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True, timeout=60, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout.split()


def test_of_the_trainer_only_the_screens_know_textual() -> None:
    """Everything else of the trainer, found on the disk, starts without it and without numpy."""
    others = [name for name in modules("trainer") if not name.startswith(SCREENS)]
    assert {"trainer.practice.rounds", "trainer.board.drawing", "trainer.cli.main", "trainer.actions"} <= set(
        others
    )
    assert loaded(others, {"textual", "numpy"}) == []


def test_the_screens_do_know_textual() -> None:
    """The look at a fresh interpreter is not blind."""
    assert loaded(modules(SCREENS), {"textual"}) == ["textual"]


def test_opening_the_trainer_loads_nothing() -> None:
    """Its package is empty, so that the command line starts at once."""
    assert (ROOT / "trainer" / "__init__.py").read_text(encoding="utf-8") == ""


@pytest.mark.parametrize("room", ROOMS)
def test_import_lines_keep_to_the_walls(room: str) -> None:
    """What is imported inside a function counts as well."""
    for name in modules(room):
        barred = set() if name.startswith(SCREENS) else BARRED[room]
        assert not {each.split(".")[0] for each in imported(name, everywhere=True)} & barred, name


def test_no_modules_import_each_other_in_a_circle() -> None:
    """The imports at the head of our modules, without those for types only, have an order."""
    names = {name for room in ROOMS for name in modules(room)}
    graph = {name: {each for each in imported(name) if each in names} - {name} for name in names}
    order = list(TopologicalSorter(graph).static_order())
    assert set(order) == names
    assert order.index("drills.geometry.plane") < order.index("trainer.practice.rounds")


def imported(name: str, everywhere: bool = False) -> Iterator[str]:
    """Yield the modules that a module imports when it is loaded, or anywhere in it."""
    for node in nodes(file_of(name), everywhere):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name} has a relative import"
            assert node.module
            parts = [f"{node.module}.{alias.name}" for alias in node.names]
            yield from (part if file_of(part).exists() else node.module for part in parts)


def nodes(path: Path, everywhere: bool) -> Iterator[ast.AST]:
    """Yield the statements of a file that run when it is loaded, or all of them."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    waiting: list[ast.AST] = [tree]
    while waiting:
        node = waiting.pop()
        yield node
        if everywhere or not (is_later(node) or is_for_types(node)):
            waiting.extend(ast.iter_child_nodes(node))


def is_later(node: ast.AST) -> bool:
    """Whether what is inside runs only when it is called."""
    return isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda)


def is_for_types(node: ast.AST) -> bool:
    """Whether this is what only a type checker reads."""
    return isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING"


def file_of(name: str) -> Path:
    """Return the file of a module."""
    folder = ROOT.joinpath(*name.split("."))
    return folder / "__init__.py" if folder.is_dir() else folder.with_suffix(".py")
