"""`slantwise drill --json`: the drills of the codes, a line each."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from drills.questions import KINDS, LARGEST_SEED, Code, checked, make, newest, read_code
from tests.trainer.cli.calling import FORMS, call, log_of

LABELS = ("drill", "--kind", "labels", "--level", "3", "--seed", "41")


def test_twenty_drills_have_the_seeds_that_follow(tmp_path: Path) -> None:
    """Seeds 41 to 60, one drill a line, each the drill of its code, and no data folder is made."""
    status, out, err = call(tmp_path / "none", *LABELS, "--count", "20", "--json")
    lines = out.splitlines()
    assert (status, err) == (0, "")
    assert [json.loads(line)["code"] for line in lines] == [f"labels-3-{seed}" for seed in range(41, 61)]
    assert lines == [make(read_code(f"labels-3-{seed}")).to_line() for seed in range(41, 61)]
    assert not (tmp_path / "none").exists()


def test_a_code_gives_the_line_of_its_parts(tmp_path: Path) -> None:
    """A code, or kind, level and seed, with a count of one or none, are the same drill."""
    by_code = call(tmp_path, "drill", "labels-3-41", "--json")
    assert by_code == call(tmp_path, *LABELS, "--json") == call(tmp_path, *LABELS, "--count", "1", "--json")
    assert len(by_code.out.splitlines()) == 1


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_every_form_can_be_asked_for(tmp_path: Path, kind: str, form: str) -> None:
    """A form is named in the line and, unless it is the kind's first, in the code."""
    argv = ("drill", "--kind", kind, "--level", "2", "--seed", "7", "--form", form, "--json")
    fields = json.loads(call(tmp_path, *argv).out)
    code = newest(checked(Code(kind, 2, 7, form=form)))
    assert (fields["kind"], fields["form"], fields["code"]) == (kind, form, str(code))
    assert str(code).endswith(f"-{form}") is (form != KINDS[kind].first_form)


def test_outlines_are_lists_of_edges(tmp_path: Path) -> None:
    """Each of a find drill's structures is a list of edges that are slanted, each edge in one of them."""
    out = call(tmp_path, "drill", "find-4-1", "--count", "6", "--json").out
    for fields in map(json.loads, out.splitlines()):
        assert fields["question"] == {"ask": "structures"}
        told = [edge for outline in fields["answer"]["structures"] for edge in outline]
        assert len(told) == len(set(told))
        assert all(fields["pattern"]["slantwise:edges_role"][edge] == "outline" for edge in told)


def test_the_largest_seed_has_a_drill(tmp_path: Path) -> None:
    """The bound itself is within it."""
    out = call(tmp_path, "drill", f"steps-1-{LARGEST_SEED}", "--json").out
    assert json.loads(out)["seed"] == LARGEST_SEED


def test_nothing_is_kept(tmp_path: Path) -> None:
    """Printing drills is no practice."""
    call(tmp_path, *LABELS, "--json", typed="none\n")
    assert log_of(tmp_path) == []
