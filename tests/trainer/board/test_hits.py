from __future__ import annotations

from drills.geometry import Point
from tests.trainer.board.sheets import edge_between, fitted, stretch, vertex_at
from trainer.board import creases_near, points_near
from trainer.board.scale import after


def test_the_crease_pointed_at_comes_first() -> None:
    """A position on a crease, away from its ends, finds that crease, at any scale that fits."""
    pattern = stretch(2)
    for room in ((44, 19), (80, 35)):
        scale = fitted(pattern, *room)
        for edge in pattern.creases:
            start, end = (scale.dot(point) for point in pattern.ends(edge))
            x, y = (start.x + end.x + 1) / 4, (start.y + end.y + 1) / 8
            assert creases_near(pattern, scale, x, y)[0] == edge


def test_the_papers_edge_is_no_crease() -> None:
    """On the paper's edge, away from every crease, nothing is near."""
    pattern = stretch()
    scale = fitted(pattern, 44, 19)
    assert creases_near(pattern, scale, scale.columns / 2, 0.1) == ()


def test_where_creases_meet_a_second_click_takes_the_next_one() -> None:
    """All creases at the turning point are candidates, each taken once before the first comes again."""
    pattern = stretch()
    scale = fitted(pattern, 44, 19)
    corner = vertex_at(pattern, 1, 1)
    dot = scale.dot(Point(1, 1))
    found = creases_near(pattern, scale, (dot.x + 0.5) / 2, (dot.y + 0.5) / 4)
    assert set(pattern.around[corner]) <= set(found)
    taken: list[int] = []
    last = None
    for _ in found:
        last = after(found, last)
        assert last is not None
        taken.append(last)
    assert tuple(taken) == found
    assert after(found, last) == found[0]


def test_nothing_near_gives_nothing() -> None:
    """A click far from everything chooses nothing."""
    assert after((), None) is None
    assert after((), 3) is None
    assert after((4, 5), 9) == 4


def test_the_nearest_vertex_comes_first() -> None:
    """The dot of each vertex finds that vertex first."""
    pattern = stretch(2)
    scale = fitted(pattern, 44, 19)
    for vertex, point in enumerate(pattern.vertices):
        dot = scale.dot(point)
        assert points_near(pattern, scale, (dot.x + 0.5) / 2, (dot.y + 0.5) / 4)[0] == vertex


def test_a_short_crease_is_told_from_its_neighbour() -> None:
    """Either side of a vertex the crease on that side is nearer."""
    pattern = stretch()
    scale = fitted(pattern, 44, 19)
    inner, outer = edge_between(pattern, (4, 1), (4, 2)), edge_between(pattern, (4, 0), (4, 1))
    dot = scale.dot(Point(4, 1))
    assert creases_near(pattern, scale, (dot.x + 0.5) / 2, (dot.y - 4.5) / 4)[0] == inner
    assert creases_near(pattern, scale, (dot.x + 0.5) / 2, (dot.y + 5.5) / 4)[0] == outer
