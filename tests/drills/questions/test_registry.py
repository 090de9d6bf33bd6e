"""The registry: complete rows; what a code stands for without building it; skills, and codes for them."""

from __future__ import annotations

import sys
from itertools import islice
from typing import NoReturn

import pytest

from drills.questions import (
    ALONE,
    KINDS,
    NO_FEATURES,
    Code,
    codes_for,
    kind_of,
    make,
    partners_of,
    read_code,
    skill_names,
    skill_of,
    skills_at,
    spec,
)
from tests.drills.questions.codes import (
    LEVELS,
    PLACES,
    SMALL,
    codes,
    every_code,
    levels_of,
    made_once,
)

VERSIONED = [(kind, *place) for kind, row in KINDS.items() for place in row.versions]


@pytest.mark.parametrize("kind", KINDS)
def test_a_row_says_all_that_is_shown_of_a_kind(kind: str) -> None:
    """Every word of it is there, levels go up from 1 at the lowest, and a goal has a floor."""
    row = KINDS[kind]
    assert all(
        (row.title, row.missed_words, *row.skills.values(), *(form.words for form in row.forms.values()))
    )
    assert 1 <= row.lowest <= row.highest
    assert row.pace_floor.milliseconds > 0


@pytest.mark.parametrize(("kind", "form", "level"), PLACES)
def test_every_place_has_codes_and_skills(kind: str, form: str, level: int) -> None:
    """Its codes can be typed, and train skills of the row that lead back to the kind and the form."""
    (code,) = codes(kind, form, level, [7])
    assert read_code(str(code)) == code
    assert skills_at(kind, form, level)
    for skill in skills_at(kind, form, level):
        assert skill.split(" ")[0] == kind
        assert skill in KINDS[kind].skills
        assert kind_of(skill) == (kind, form)


@pytest.mark.parametrize("skill", skill_names())
def test_every_skill_is_trained_at_some_level(skill: str) -> None:
    """At one level at least of the form that it belongs to."""
    kind, form = kind_of(skill)
    assert any(skill in skills_at(kind, form, level) for level in levels_of(kind))


@pytest.mark.parametrize("kind", KINDS)
def test_partners_are_two_skills_that_know_each_other(kind: str) -> None:
    """Each of a pair names the other one, and is a skill of some kind."""
    for pair in KINDS[kind].partners:
        assert len(set(pair)) == 2
        assert set(pair) <= skill_names().keys()
        for one, other in (pair, pair[::-1]):
            assert other in partners_of(one)


@pytest.mark.parametrize(("kind", "form", "level"), VERSIONED)
def test_versions_are_of_a_place_that_exists(kind: str, form: str, level: int) -> None:
    """No two of them have the same features, and with none named there is one version without any."""
    assert (kind, form, level) in PLACES
    versions = KINDS[kind].features(form, level)
    assert len(set(versions)) == len(versions) > 1
    unnamed = next(place for place in PLACES if place not in VERSIONED)
    assert KINDS[unnamed[0]].features(*unnamed[1:]) == (NO_FEATURES,)


@pytest.mark.parametrize(("kind", "form", "level"), VERSIONED)
def test_every_feature_changes_what_is_planned(kind: str, form: str, level: int) -> None:
    """With it left out some of a few hundred codes stand for something else."""
    row = KINDS[kind]
    for features in row.features(form, level):
        for feature in features:
            assert any(
                row.plan(code, form, features, code.chance.branch("plan"))
                != row.plan(code, form, features - {feature}, code.chance.branch("plan"))
                for code in codes(kind, form, level, range(400))
            ), feature


BUILDERS = ("build", "draw", "compose", "clipped", "turned", "block_of")


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
    tried = list(every_code(range(900, 910)))
    assert {(spec(code).kind, spec(code).form, spec(code).level) for code in tried} == set(PLACES)
    with pytest.raises(AssertionError, match="a pattern was built"):
        make(tried[0])


def test_the_spec_names_the_skill_of_the_drill() -> None:
    """Code, skill, form and structure are the drill's, and the skill is one that has a name."""
    for code in (*every_code(range(1, 4), SMALL), *every_code(range(1, 2), [ALONE])):
        drill = made_once(code)
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
    """Names are different from each other, and none is the skill itself."""
    assert len(skill_names()) == len(set(skill_names().values()))
    assert not set(skill_names()) & set(skill_names().values())
    assert skill_names()["steps read 1:2"] == "reading a 1 by 2 slant"


@pytest.mark.parametrize(
    ("skill", "levels"),
    [
        ("steps read 1:2", [1, 2, 3, 4, 5, 6, 7, 8]),
        ("steps read 1:4", [5, 7, 8]),
        ("steps place 2:3", [5, 7, 8]),
        ("sinks mark several", [6, 7, 8]),
        ("sinks join several", [6, 7, 8]),
        ("labels line", [4, 5, 6, 7, 8]),
        ("find pleats", [2, 3, 4, 5, 7]),
        ("find roof", [2, 3, 4, 5, 6, 7, 8]),
        ("find diamond", [2, 3, 4, 5, 6, 7, 8]),
        ("find tips", [3, 4, 5, 6, 7, 8]),
        ("find band", [3, 4, 5, 6, 7]),
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
