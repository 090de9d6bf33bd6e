"""The walls between the rooms, seen from a fresh interpreter and from the import lines themselves."""

from __future__ import annotations

import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest

from tests.import_graph import ROOMS, ROOT, graph_of, imported, in_circles, modules, offers

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
    """Its package holds the version and imports nothing, so that the command line starts at once."""
    assert loaded(["trainer"], {"argparse", "drills", "progress_store"}) == []


@pytest.mark.parametrize("room", ROOMS)
def test_import_lines_keep_to_the_walls(room: str) -> None:
    """What is imported inside a function or for type checking counts as well."""
    for name in modules(room):
        barred = set() if name.startswith(SCREENS) else BARRED[room]
        assert not {each.split(".")[0] for each in imported(name)} & barred, name


@pytest.mark.parametrize("room", ROOMS)
def test_a_door_has_all_that_it_names(room: str) -> None:
    """A name in `__all__` that is not there fails only for whoever asks for it."""
    for name in modules(room):
        package = import_module(name)
        assert [each for each in getattr(package, "__all__", ()) if not hasattr(package, each)] == [], name


NOT_ABOVE = {
    "trainer.board": {"progress_store", "trainer"},
    "trainer.answering": {"progress_store", "trainer.practice", "trainer.text", "trainer.cli", SCREENS},
    "trainer.paper": {"progress_store", "trainer.practice", "trainer.text", "trainer.cli", SCREENS},
    "trainer.text": {"trainer.practice", "trainer.cli", SCREENS},
    "trainer.practice": {"trainer.text", "trainer.cli", SCREENS},
    SCREENS: {"trainer.cli"},
}
"""What the packages of the trainer do not import, beside themselves: nothing that stands on them."""


@pytest.mark.parametrize("package", NOT_ABOVE)
def test_inside_the_trainer_imports_go_one_way(package: str) -> None:
    """Drawing knows no practice, words know no command, the screens know no command line."""
    names = modules(package)
    assert names
    for name in names:
        outside = {each for each in imported(name) if not is_in(each, package)}
        assert not [each for each in outside for barred in NOT_ABOVE[package] if is_in(each, barred)], name


def test_no_modules_import_each_other_in_a_circle() -> None:
    """Imports inside functions and for type checking count."""
    assert in_circles(graph_of()) == set()


def test_circles_are_seen_wherever_the_import_stands(tmp_path: Path) -> None:
    """One module imports at its head, one for type checking, one inside a function."""
    room = tmp_path / "drills"
    room.mkdir()
    (room / "__init__.py").write_text("")
    (room / "a.py").write_text("from drills.b import x\n")
    (room / "b.py").write_text("if TYPE_CHECKING:\n    import drills.c\n")
    (room / "c.py").write_text("def f():\n    from drills import a\n")
    (room / "d.py").write_text("from drills import a\n")
    assert in_circles(graph_of(tmp_path)) == {"drills.a", "drills.b", "drills.c"}


DOORS = [package for room in ROOMS for package in modules(room) if offers(package)]


PAST_THE_DOORS = ("tests.measure.drills", "tests.measure.bases")
"""The table of how long a drill takes empties the caches behind the doors; that of bases draws them."""


def test_packages_are_entered_by_their_doors() -> None:
    """From outside a package with a door nobody imports a module behind it, but a test of its own room."""
    assert {"drills.geometry", "drills.questions", "progress_store", "trainer.board"} <= set(DOORS)
    names = [name for room in (*ROOMS, "tests") for name in modules(room)]
    past = [
        (name, each)
        for name in names
        if name not in PAST_THE_DOORS
        for each in imported(name)
        for door in DOORS
        if is_in(each, door) and each != door and not is_in(name, door)
        if not is_in(name, f"tests.{door.split('.')[0]}")
    ]
    assert past == []


def is_in(name: str, package: str) -> bool:
    """Whether a module is a package or one of its modules."""
    return name == package or name.startswith(f"{package}.")
