"""Skill, structure and form of a code are known without building anything, and skills lead back to codes."""

from __future__ import annotations

import sys
from itertools import islice
from typing import NoReturn

import pytest

from drills.questions import KINDS, Code, codes_for, kind_of, make, skill_names, skill_of, skills_at, spec
from tests.drills.questions.codes import LARGER, LEVELS, PLACES, SMALL, every_code, levels_of

BUILDERS = ("build", "draw", "draw", "draw", "compose", "clipped", "turned", "block_of")


def test_no_geometry_is_built_for_a_spec(monkeypatch: pytest.MonkeyPatch) -> None:
    """With every builder of patterns made to fail, ten codes of each place still say what they are."""

    def refuse(*_: object) -> NoReturn:
        raise AssertionError("a pattern was built")

    for name, module in list(sys.modules.items()):
        if name.startswith("drills."):
            for builder in BUILDERS:
                if hasattr(module, builder):
                    monkeypatch.setattr(module, builder, refuse)
    make.cache_clear()
    spec.cache_clear()
    codes = list(every_code(range(900, 910)))
    specs = [spec(code) for code in codes]
    assert len(specs) == 10 * len(PLACES)
    with pytest.raises(AssertionError, match="a pattern was built"):
        make(codes[0])


def test_the_spec_names_the_skill_of_the_drill() -> None:
    """Code, skill, form and structure are the drill's, and the skill is one that has a name."""
    for code in (*every_code(range(8), SMALL), *every_code(range(1), LARGER)):
        drill = make(code)
        assert drill.spec == spec(code)
        assert drill.skill == skill_of(code)
        assert drill.skill in skill_names()
        assert kind_of(drill.skill) == (code.kind, drill.form)


@pytest.mark.parametrize("skill", skill_names())
def test_every_skill_leads_to_codes_at_every_level(skill: str) -> None:
    """Codes of a skill train it, are of its kind and form, begin at the seed and are all different."""
    for level in levels_of(kind_of(skill)[0]):
        found = list(islice(codes_for(skill, level, 5000), 4))
        assert [skill_of(code) for code in found] == [skill] * 4
        assert {(code.kind, code.form or KINDS[code.kind].first_form) for code in found} == {kind_of(skill)}
        assert [code.seed for code in found] == sorted({code.seed for code in found})
        assert found[0].seed >= 5000


@pytest.mark.parametrize("skill", skill_names())
def test_codes_are_of_the_nearest_level_that_trains_the_skill(skill: str) -> None:
    """At the level asked for where it trains the skill, else no other training level is nearer."""
    training = [level for level in levels_of(kind_of(skill)[0]) if skill in skills_at(*kind_of(skill), level)]
    for level in LEVELS:
        found = next(codes_for(skill, level, 1)).level
        assert found in training
        assert abs(found - level) == min(abs(other - level) for other in training)


def test_a_skill_is_named_in_plain_words() -> None:
    """Names are different from each other, as are skills, and say neither kind nor code."""
    assert len(skill_names()) == len(set(skill_names().values())) == 31
    assert skill_names()["steps read 1:2"] == "reading a step of 1 and 2"


@pytest.mark.parametrize(
    ("skill", "levels"),
    [
        ("steps read 1:2", [1, 2, 3, 4, 5, 6, 7]),
        ("steps read 1:4", [5, 7]),
        ("steps place 2:3", [5, 7]),
        ("sinks mark several", [6, 7]),
        ("sinks join several", [6, 7]),
        ("labels line", [4, 5, 6, 7]),
        ("find pleats", [2, 3, 4, 5, 6, 7]),
        ("find roof", [2, 3, 4, 5, 6, 7]),
        ("find diamond", [2, 3, 4, 5, 6, 7]),
    ],
)
def test_later_skills_begin_at_later_levels(skill: str, levels: list[int]) -> None:
    """Steps of other triangles from level 5 on, several structures from level 6, finding from level 2."""
    kind, form = kind_of(skill)
    assert [level for level in levels_of(kind) if skill in skills_at(kind, form, level)] == levels


def test_forms_draw_of_their_own_accord() -> None:
    """Two forms of one seed are not bound to one structure."""
    pairs = [
        (spec(Code("sinks", 4, seed)), spec(Code("sinks", 4, seed, form="points"))) for seed in range(20)
    ]
    assert any(one.sheet != other.sheet for one, other in pairs)
