from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from drills.flatfold import check_angles, failing, folds
from drills.geometry import HALF_TURN, SYMMETRIES, Symmetry
from drills.pattern import CreasePattern, Label, figure, shifted, to_origin, turned
from drills.structures import Stretch, draw
from tests.drills.sheets import small_stretches


def test_a_figure_does_not_depend_on_where_it_stands() -> None:
    """A shifted pattern is the same figure and comes back to the origin as it was."""
    pattern = draw(Stretch((2, 1)))
    away = shifted(pattern, Fraction(5, 3), -2)
    assert away != pattern
    assert figure(away) == figure(pattern)
    assert to_origin(away) == pattern


def test_a_figure_has_roles_and_labels() -> None:
    """Patterns that differ in one label, or in having labels, are two figures."""
    pattern = draw(Stretch((1, 1)))
    others = [pattern.switched(pattern.creases[:1]), pattern.unlabelled()]
    assert len({figure(other) for other in [pattern, *others]}) == 3


symmetries = st.sampled_from(SYMMETRIES)


@given(small_stretches(), symmetries, symmetries)
def test_symmetries_of_a_pattern_follow_one_another(stretch: Stretch, one: Symmetry, two: Symmetry) -> None:
    """Turning twice is turning by the map put together; a half turn undoes itself; the image is in order."""
    pattern = draw(stretch)
    image = turned(pattern, one)
    assert turned(image, two) == turned(pattern, one.then(two))
    assert image.box[:2] == (0, 0)
    assert (list(image.vertices), list(image.edges)) == (sorted(image.vertices), sorted(image.edges))
    assert turned(turned(pattern, HALF_TURN), HALF_TURN) == pattern


def exchanged(pattern: CreasePattern) -> CreasePattern:
    """Return the pattern with every mountain a valley and every valley a mountain."""
    return pattern.switched(range(len(pattern.edges)))


def counts(pattern: CreasePattern) -> dict[Label, int]:
    """Return how many edges carry each label."""
    return {label: pattern.labels().count(label) for label in pattern.labels()}


@given(small_stretches(), symmetries)
def test_symmetries_and_exchanging_all_labels_keep_a_sheet_folding(
    stretch: Stretch, symmetry: Symmetry
) -> None:
    """The angles and the labels of the image pass at every point, as those of the pattern do."""
    pattern = draw(stretch)
    image = turned(pattern, symmetry)
    assert counts(image) == counts(pattern)
    for sheet in (pattern, image, exchanged(pattern), exchanged(image)):
        assert check_angles(sheet) == ()
        assert failing(sheet, sheet.labels(), folds) == ()
