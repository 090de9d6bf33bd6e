"""The command as a whole: help, version, folders, refusals and early ends."""

from __future__ import annotations

import sys
from errno import ENOSPC
from importlib.metadata import version
from io import StringIO
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from drills.questions import read_code
from tests.trainer.cli.calling import Terminal, call, clock, is_one_sentence, log_of
from trainer.cli.main import main
from trainer.cli.parser import Console
from trainer.given import Clock
from trainer.practice.rounds import Target


def test_the_version_is_that_of_the_package(tmp_path: Path) -> None:
    """The version of the metadata, as in pyproject.toml."""
    assert call(tmp_path, "--version") == (0, f"slantwise {version('slantwise')}\n", "")


@pytest.mark.parametrize("words", ["--help", "-h", "drill --help", "record -h", "warmup -h"])
def test_help_is_text_with_status_0(tmp_path: Path, words: str) -> None:
    """Help goes to standard output, fits 80 columns and names the folder option."""
    status, out, err = call(tmp_path, *words.split())
    assert (status, err) == (0, "")
    assert out.startswith("usage: slantwise")
    assert "--data DIR" in out
    assert max(map(len, out.splitlines())) <= 80


def test_help_lists_the_commands_and_examples(tmp_path: Path) -> None:
    """Each command is named once with a few words, and there is something to copy."""
    _, out, _ = call(tmp_path, "--help")
    assert all(f"\n    {command} " in out for command in ("warmup", "drill", "record"))
    assert "slantwise drill labels-3-41 --text" in out


BAD = [
    ["no-such-command"],
    ["--no-such-option"],
    ["drill"],
    ["drill", "labels"],
    ["drill", "labels-3"],
    ["drill", "labels-3-41-nothing"],
    ["drill", "labels-9-41"],
    ["drill", "labels-0-41"],
    ["drill", "find-1-41"],
    ["drill", "labels-3-99999999999"],
    ["drill", "labels-3-4000000000"],
    ["drill", "labels-3-41.2"],
    ["drill", "roofs-3-41"],
    ["drill", "labels-3-41", "--kind", "labels"],
    ["drill", "labels-3-41", "--seed", "4"],
    ["drill", "labels-3-41", "--form", "mark"],
    ["drill", "labels-3-41", "sinks-1-1"],
    ["drill", "labels-3-41", "--text", "--json"],
    ["drill", "labels-3-41", "--text", "--count", "2"],
    ["drill", "labels-3-41", "--count", "2"],
    ["drill", "--kind", "labels"],
    ["drill", "--kind", "labels", "--level", "3"],
    ["drill", "--level", "3", "--seed", "1"],
    ["drill", "--kind", "roofs", "--level", "3", "--seed", "1", "--json"],
    ["drill", "--kind", "labels", "--level", "9", "--seed", "1", "--json"],
    ["drill", "--kind", "labels", "--level", "x", "--seed", "1", "--json"],
    ["drill", "--kind", "labels", "--level", "3", "--seed", "-1", "--json"],
    ["drill", "--kind", "labels", "--level", "3", "--seed", "1.5", "--json"],
    ["drill", "--kind", "labels", "--level", "3", "--seed", "\u0663", "--json"],
    ["drill", "--kind", "labels", "--level", "3", "--seed", "1000000001", "--json"],
    ["drill", "--kind", "labels", "--level", "3", "--seed", "1", "--form", "place", "--json"],
    ["drill", "--kind", "labels", "--level", "3", "--seed", "1", "--count", "0", "--json"],
    ["drill", "--kind", "labels", "--level", "3", "--seed", "1", "--count", "10001", "--json"],
    ["drill", "--kind", "labels", "--level", "3", "--seed", "1000000000", "--count", "2", "--json"],
    ["drill", "--kind"],
    ["drill", "--jsno", "labels-3-41"],
    ["drill", "--js", "labels-3-41"],
    ["record", "--json", "--csv"],
    ["record", "--now", "soon"],
    ["record", "--now", "2026-03-02T19:30:00"],
    ["record", "--now", "0001-01-01T00:00:00+00:00"],
    ["record", "--now", "9999-12-31T23:59:59-12:00"],
    ["record", "extra"],
    ["record", "--data"],
    ["record", "--data", ""],
    ["warmup", "no-such-file.fold"],
    ["warmup", "--level", "9"],
    ["warmup", "--triangle", "3-4-6"],
]


@pytest.mark.parametrize("argv", BAD, ids=" ".join)
def test_bad_input_is_refused_in_one_sentence(tmp_path: Path, argv: list[str]) -> None:
    """Exit status 2, nothing on standard output, no usage text and nothing in the log."""
    status, out, err = call(tmp_path, *argv, typed="1 2\n", terminal=True)
    assert (status, out) == (2, "")
    assert is_one_sentence(err)
    assert "usage" not in err
    assert log_of(tmp_path) == []


@pytest.mark.parametrize("place", range(8))
@pytest.mark.parametrize("nasty", ["\x1b[31mred", "[red]markup[/red]", "a\rb\nc", "\u202ereversed", "\udcff"])
def test_arguments_are_never_repeated_raw(tmp_path: Path, nasty: str, place: int) -> None:
    """Neither control characters nor markup of an argument come back, wherever it stands."""
    lines = [
        [nasty],
        ["--" + nasty],
        ["drill", nasty],
        ["drill", "--" + nasty],
        ["drill", "--kind", nasty, "--level", "1", "--seed", "1"],
        ["drill", "--kind", "steps", "--level", nasty, "--seed", "1"],
        ["drill", "--kind", "steps", "--level", "1", "--seed", "1", "--form", nasty],
        ["record", "--now", nasty],
    ]
    status, out, err = call(tmp_path, *lines[place])
    assert (status, out) == (2, "")
    assert is_one_sentence(err)
    assert not set("\x1b[]\u202e\udcff") & set(err)


def test_what_is_not_understood_is_named_if_it_is_an_option(tmp_path: Path) -> None:
    """A slip of the hand in an option is easier to find when it is repeated."""
    assert "--jsno" in call(tmp_path, "drill", "labels-3-41", "--jsno").err
    assert "--level" in call(tmp_path, "drill", "--level").err
    assert "no such command" in call(tmp_path, "dril").err


def test_missing_parts_are_named(tmp_path: Path) -> None:
    """A kind alone names no drill."""
    err = call(tmp_path, "drill", "--kind", "labels").err
    assert err == "Give --level and --seed too, or a code such as labels-3-41.\n"


@pytest.mark.parametrize("argv", [[], ["warmup"], ["drill", "labels-3-41"], ["--data", "x"]])
def test_the_app_needs_a_terminal(tmp_path: Path, argv: list[str]) -> None:
    """Without one it says what works without."""
    needs = "Slantwise needs a terminal; for plain text use: slantwise today --text\n"
    assert call(tmp_path, *argv) == (2, "", needs)


@pytest.fixture
def app(monkeypatch: pytest.MonkeyPatch) -> list[tuple[Any, ...]]:
    """Put a list that notes its starts in the place of the app."""
    starts: list[tuple[Any, ...]] = []
    fake = ModuleType("trainer.screens.app")

    def run_app(folder: Path, clock: Clock, start: object) -> int:
        starts.append((folder, start))
        return 7

    fake.__dict__["run_app"] = run_app
    monkeypatch.setitem(sys.modules, "trainer.screens.app", fake)
    return starts


@pytest.mark.parametrize(
    ("argv", "start"),
    [
        ([], "opening"),
        (["warmup"], Target()),
        (["warmup", "--level", "5"], Target(5)),
        (["warmup", "--triangle", "5-12-13"], Target(None, "5-12-13")),
        (["drill", "labels-3-41"], read_code("labels-3-41")),
        (["drill", "steps-1-4-place"], read_code("steps-1-4-place")),
        (["drill", "--kind", "labels", "--level", "3", "--seed", "41"], read_code("labels-3-41")),
    ],
)
def test_the_app_starts_where_it_was_asked_to(
    tmp_path: Path, app: list[tuple[Any, ...]], argv: list[str], start: object
) -> None:
    """At its first screen, in the warm-up, or with one drill; its status is the command's."""
    assert call(tmp_path, *argv, terminal=True) == (7, "", "")
    assert app == [(tmp_path, start)]


@pytest.mark.parametrize(
    ("argv", "folder"),
    [
        (["--data", "one"], "one"),
        (["--data", "one", "warmup"], "one"),
        (["warmup", "--data", "two"], "two"),
        (["--data", "one", "drill", "labels-3-41", "--data", "two"], "two"),
        (["--data=one", "drill", "labels-3-41"], "one"),
        (["warmup"], "from the environment"),
    ],
)
def test_the_folder_may_stand_before_or_after_the_command(
    tmp_path: Path, app: list[tuple[Any, ...]], argv: list[str], folder: str
) -> None:
    """The later one counts, and either counts before the environment."""
    environ = {"SLANTWISE_DATA": "from the environment"}
    assert call(tmp_path, *argv, terminal=True, environ=environ).status == 7
    assert app[0][0] == Path(folder)


def test_without_a_folder_the_platform_has_one(
    tmp_path: Path, app: list[tuple[Any, ...]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The user data folder of the platform, which an empty variable does not change."""
    import platformdirs

    monkeypatch.setattr(platformdirs, "user_data_path", lambda name, appauthor: tmp_path / name)
    for environ in ({}, {"SLANTWISE_DATA": ""}):
        call(tmp_path, terminal=True, environ=environ)
    assert [folder for folder, _ in app] == [tmp_path / "slantwise"] * 2


class Interrupted(StringIO):
    """An input at which the person presses the key to interrupt."""

    def readline(self, size: int = -1, /) -> str:  # type: ignore[override]
        """Raise what that key raises."""
        raise KeyboardInterrupt


class Failing(StringIO):
    """An output that cannot be written."""

    def __init__(self, error: OSError) -> None:
        super().__init__()
        self.error = error

    def write(self, text: str, /) -> int:
        """Raise the error."""
        raise self.error


def test_an_interrupt_is_quiet(tmp_path: Path) -> None:
    """Status 130, as shells have it, and nothing kept."""
    out, err = StringIO(), StringIO()
    environ = {"SLANTWISE_DATA": str(tmp_path)}
    console = Console(Interrupted(), out, err, clock(5), environ)
    assert main(["drill", "steps-1-3", "--text"], console) == 130
    assert err.getvalue() == ""
    assert log_of(tmp_path) == []


def test_a_closed_pipe_is_quiet(tmp_path: Path) -> None:
    """Status 141, as shells have it."""
    err = StringIO()
    console = Console(StringIO(), Failing(BrokenPipeError()), err, clock(5), {})
    assert main(["drill", "steps-1-3", "--json"], console) == 141
    assert err.getvalue() == ""


def test_a_full_disk_is_one_sentence(tmp_path: Path) -> None:
    """The system's reason, without a traceback."""
    err = StringIO()
    full = Failing(OSError(ENOSPC, "No space left on device"))
    assert main(["drill", "steps-1-3", "--json"], Console(StringIO(), full, err, clock(5), {})) == 2
    assert "No space left on device" in err.getvalue()
    assert is_one_sentence(err.getvalue())


class ClosedWhenAnswered(Terminal):
    """An output whose reader goes away once the question is put."""

    def write(self, text: str, /) -> int:
        """Take the question and refuse the verdict."""
        if text.startswith("You read"):
            raise BrokenPipeError
        return super().write(text)


def test_an_answer_is_kept_though_nobody_reads_the_verdict(tmp_path: Path) -> None:
    """Nothing a person did is lost."""
    console = Console(
        Terminal("4 3\n"), ClosedWhenAnswered(), StringIO(), clock(5), {"SLANTWISE_DATA": str(tmp_path)}
    )
    assert main(["drill", "steps-1-3", "--text"], console) == 141
    assert [line["right"] for line in log_of(tmp_path)] == [True]
