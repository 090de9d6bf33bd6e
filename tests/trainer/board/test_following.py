from __future__ import annotations

from dataclasses import replace

from drills.geometry import Point
from drills.pattern import Line, Paper, build, faces
from drills.structures import Stretch, draw
from tests.trainer.board.sheets import of_role
from trainer.board import Look, Marked, Room, Window, brought_into_view, followed, opened
from trainer.board.telling import THICK_FROM
from trainer.board.window import asked, in_view

ROOM = Room(47, 20)
"""At 8 dots a square this shows 11 squares across and 10 down."""
PLEATS = build(
    [Line(Point(x, 0), Point(x, 20), "pleat", "M") for x in range(1, 64)]
    + [Line(Point(0, 10), Point(64, 10), "pleat", "V")],
    Paper(0, 0, 64, 20),
)


def vertex(x: int, y: int) -> int:
    """Return the vertex at a place."""
    return PLEATS.vertices.index(Point(x, y))


def edge(x: int) -> int:
    """Return the lower half of a pleat."""
    ends = {vertex(x, 0), vertex(x, 10)}
    return next(index for index, each in enumerate(PLEATS.edges) if {each.start, each.end} == ends)


def window(look: Look) -> Window:
    """Return the window as it opens on a look."""
    return opened(PLEATS, ROOM, look)


def at(x: int, y: int) -> Look:
    """Return a look with the cursor at a place."""
    return Look(cursor_at=Point(x, y))


def test_the_window_opens_on_the_cursor() -> None:
    """In its middle, or at the paper's edge; without anything asked on the middle of the sheet."""
    assert window(at(20, 10)).scale.cell(Point(20, 10)) == (23, 10)
    assert window(at(64, 0)).scale.shows(Point(64, 0))
    assert window(Look()).scale.shows(Point(32, 10))


def test_the_window_opens_on_the_asked_crease() -> None:
    """On both its ends where they fit, else on its start."""
    short = Look(arrow=(vertex(40, 10), vertex(44, 10)), points=frozenset([Point(40, 10)]))
    long = Look(arrow=(vertex(50, 10), vertex(10, 10)))
    assert all(window(short).scale.shows(Point(x, 10)) for x in (40, 44))
    assert window(long).scale.shows(Point(50, 10))
    assert window(long).scale.shows(Point(43, 10))
    assert asked(PLEATS, short)[0] == (Point(40, 10), Point(44, 10))


def test_the_window_opens_on_a_pencil_dot() -> None:
    """Where nothing else is asked."""
    assert window(Look(points=frozenset([Point(60, 3)]))).scale.shows(Point(60, 3))


def test_the_window_follows_the_cursor_square_by_square() -> None:
    """It keeps two squares from the rim, and rests as long as the cursor is inside that."""
    view, look = window(at(20, 10)), at(20, 10)
    shifts = []
    for x in range(21, 30):
        before, look = look, at(x, 10)
        view = followed(view, before, look)
        column, _ = view.scale.cell(Point(x, 10))
        assert column <= 47 - 1 - 8
        shifts.append(view.scale.shift.x)
    assert shifts[:3] == [shifts[0]] * 3
    assert shifts == sorted(shifts)
    assert shifts[-1] > shifts[0]


def test_a_cursor_that_leaps_comes_into_the_middle() -> None:
    """As Tab does at the end of a row."""
    view = followed(window(at(10, 10)), at(10, 10), at(50, 10))
    assert view.scale.cell(Point(50, 10)) == (23, 10)


def test_what_a_person_moved_stays_until_the_cursor_moves() -> None:
    """A mark or a hint changes the look but not the cursor."""
    look = at(20, 10)
    away = window(look).panned(100, 0)
    marked = replace(look, marked=Marked(frozenset([edge(20)])))
    assert followed(away, look, marked) is away
    assert followed(away, marked, at(21, 10)).scale.shows(Point(21, 10))
    turned = replace(look, cursor_edge=edge(20))
    assert followed(away, look, turned).scale.shows(Point(20, 10))
    seen = window(look).panned(6, 0)
    assert followed(seen, look, at(21, 10)) == seen


def test_a_verdict_out_of_view_is_brought_into_view() -> None:
    """What was missed comes first, then what was too many, then what is out of balance, then right."""
    look = at(5, 5)
    view = window(look)
    right, wrong, missed = (Marked(frozenset([edge(x)])) for x in (20, 40, 60))
    faults = frozenset([Point(30, 10)])
    verdict = Look(right=right, wrong=wrong, missed=missed, fault_points=faults)
    assert in_view(followed(view, look, verdict).scale, PLEATS.ends(edge(60)))
    verdict = replace(verdict, missed=Marked())
    assert in_view(followed(view, look, verdict).scale, PLEATS.ends(edge(40)))
    verdict = replace(verdict, wrong=Marked())
    assert followed(view, look, verdict).scale.shows(Point(30, 10))
    verdict = replace(verdict, fault_points=frozenset())
    assert in_view(followed(view, look, verdict).scale, PLEATS.ends(edge(20)))


def test_a_verdict_comes_into_view_whole() -> None:
    """All that was missed, if need be from farther away; with labels the first, as near as before."""
    look = at(20, 10)
    view = window(look)
    first, other = edge(20), edge(38)
    verdict = Look(missed=Marked(frozenset([first, other])))
    seen = followed(view, look, verdict)
    assert seen.scale.dots < view.scale.dots
    assert all(seen.scale.shows(end) for missed in (first, other) for end in PLEATS.ends(missed))
    labelled = followed(view, look, replace(verdict, labels=True))
    assert labelled.scale.dots == view.scale.dots
    assert in_view(labelled.scale, PLEATS.ends(first))


def test_a_verdict_in_view_moves_nothing() -> None:
    """And what a person then moves is kept."""
    look = at(20, 10)
    view = replace(window(look), dots=3)
    verdict = Look(missed=Marked(frozenset([edge(20)])))
    view = followed(view, look, verdict)
    assert followed(view, look, verdict) is view
    away = view.panned(100, 0)
    assert followed(away, verdict, verdict) is away


def test_the_cursor_is_brought_back() -> None:
    """And where it is in view already, nothing moves."""
    look = at(20, 10)
    view = window(look)
    assert brought_into_view(view, look) is view
    assert brought_into_view(view.panned(100, 10), look).scale.shows(Point(20, 10))


def test_both_ends_of_a_long_crease_are_shown_in_turn() -> None:
    """From the start to the arrow and back."""
    look = Look(arrow=(vertex(50, 10), vertex(10, 10)), points=frozenset([Point(50, 10)]))
    there = brought_into_view(window(look), look)
    assert there.scale.shows(Point(10, 10))
    assert brought_into_view(there, look).scale.shows(Point(50, 10))


def test_the_signs_of_a_verdict_are_gone_through() -> None:
    """In order along the sheet, and from the last to the first."""
    missed, right = (frozenset([edge(x)]) for x in (10, 50))
    look = Look(missed=Marked(missed), right=Marked(right), fault_points=frozenset([Point(30, 10)]))
    view, seen = window(at(32, 10)), []
    for _ in range(4):
        view = brought_into_view(view, look)
        seen.append([x for x in (10, 30, 50) if in_view(view.scale, (Point(x, 8), Point(x, 10)))])
    assert seen == [[50], [10], [30], [50]]


def test_parts_that_go_in_are_told_from_close_by() -> None:
    """On a small whole sheet their lines would be too thin; where they do not fit closer it stays whole."""
    sheet = draw(Stretch((1, 1), pleats=5))
    window = opened(sheet, Room(41, 18), Look())
    assert window.scale.is_whole
    assert window.scale.dots < THICK_FROM
    inside = frozenset(of_role(sheet, "inside"))
    verdict = Look(missed=Marked(inside), shaded=((tuple(faces(sheet)[0]),),), is_told=True)
    seen = followed(window, Look(), verdict)
    assert seen.scale.dots >= THICK_FROM
    assert all(seen.scale.shows(end) for edge in inside for end in sheet.ends(edge))
    far = replace(verdict, missed=Marked(frozenset(sheet.creases)))
    assert followed(window, Look(), far).scale.is_whole
