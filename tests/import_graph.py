"""Our modules and what they import, read from their source."""

from __future__ import annotations

import ast
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[1]
ROOMS = ("drills", "progress_store", "trainer")


def modules(package: str, root: Path = ROOT) -> list[str]:
    """Return the modules of a package as they lie on the disk; none where there is no such package."""
    found = root.joinpath(*package.split(".")).rglob("*.py")
    return sorted(_name_of(path.relative_to(root)) for path in found if path.name != "__main__.py")


def _name_of(path: Path) -> str:
    """Return the dotted name of a module's file."""
    parts = path.with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def file_of(name: str, root: Path = ROOT) -> Path:
    """Return the file of a module."""
    folder = root.joinpath(*name.split("."))
    return folder / "__init__.py" if folder.is_dir() else folder.with_suffix(".py")


def imported(name: str, root: Path = ROOT) -> Iterator[str]:
    """Yield what a module imports anywhere in it: at its head, inside functions, for type checking only."""
    for node in ast.walk(ast.parse(file_of(name, root).read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name} has a relative import"
            assert node.module
            offered = offers(node.module, root)
            for alias in node.names:
                part = f"{node.module}.{alias.name}"
                # a door may offer a function of the same name as a module behind it
                is_module = alias.name not in offered and file_of(part, root).exists()
                yield part if is_module else node.module


@cache
def offers(package: str, root: Path = ROOT) -> frozenset[str]:
    """Return the names that a package offers at its door; none where it has no door or is not ours."""
    file = file_of(package, root)
    if file.name != "__init__.py" or not file.exists():
        return frozenset()
    for node in ast.parse(file.read_text(encoding="utf-8")).body:
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "__all__":
            return frozenset(ast.literal_eval(node.value))
    return frozenset()


def graph_of(root: Path = ROOT) -> dict[str, set[str]]:
    """Return for each of our modules which of our modules it imports."""
    names = {name for room in ROOMS for name in modules(room, root)}
    return {name: set(imported(name, root)) & names - {name} for name in names}


def in_circles(graph: Mapping[str, set[str]]) -> set[str]:
    """Return the modules from which imports lead back to themselves."""
    return {name for name in graph if name in _reached(graph, name)}


def _reached(graph: Mapping[str, set[str]], start: str) -> set[str]:
    reached: set[str] = set()
    waiting = [*graph[start]]
    while waiting:
        name = waiting.pop()
        if name not in reached:
            reached.add(name)
            waiting.extend(graph[name])
    return reached
