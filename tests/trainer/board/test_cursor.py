from __future__ import annotations

from collections.abc import Iterator

from hypothesis import given, settings
from hypothesis import strategies as st

from drills.geometry import Direction, Point, cross, dot, move_between
from drills.pattern import CreasePattern, Line, Paper, build
from tests.trainer.board.sheets import edge_between, of_role, patterns, stretch, vertex_at
from trainer.board import Arrow, Cursor, Track, track_of
from trainer.board.cursor import BACK, DIRECTIONS

ARROWS: tuple[Arrow, ...] = ("right", "left", "up", "down")
arrows = st.sampled_from(ARROWS)


def everywhere(track: Track) -> Iterator[Cursor]:
    """Yield the cursor at every vertex of a track."""
    yield from (track.at(vertex) for vertex in sorted(track.vertices))


def reached(track: Track) -> frozenset[int]:
    """Return the vertices the matched arrows lead to from the first one, the first included."""
    seen = {min(track.vertices)}
    waiting = list(seen)
    while waiting:
        here = waiting.pop()
        found = {track.ways[here, arrow] for arrow in ARROWS if (here, arrow) in track.ways} - seen
        seen |= found
        waiting.extend(found)
    return frozenset(seen)


def outline_points(pattern: CreasePattern) -> frozenset[int]:
    """Return the vertices on the outline."""
    return frozenset(end for edge in of_role(pattern, "outline") for end in pattern.edges[edge][:2])


def test_right_then_left_returns_on_the_smallest_sheet() -> None:
    """From the lower left corner of the outline to its first turning point, and back to the same crease."""
    pattern = stretch()
    track = track_of(pattern)
    start = track.on(edge_between(pattern, (1, 1), (4, 1)), vertex_at(pattern, 1, 1))
    moved = track.moved(start, "right")
    assert moved.vertex == vertex_at(pattern, 4, 1)
    assert track.moved(moved, "left")[:2] == start[:2]


@settings(max_examples=60, deadline=None)
@given(patterns, st.booleans(), st.lists(arrows, max_size=6), st.lists(st.booleans(), max_size=3), arrows)
def test_any_arrow_and_then_its_opposite_returns(
    pattern: CreasePattern, restricted: bool, before: list[Arrow], turns: list[bool], arrow: Arrow
) -> None:
    """Wherever the cursor came from and however it was turned: to the same point and the same crease."""
    track = track_of(pattern, outline_points(pattern) if restricted else None)
    cursor = track.start()
    for earlier in before:
        cursor = track.moved(cursor, earlier)
    for clockwise in turns:
        cursor = track.turned(cursor, clockwise)
    moved = track.moved(cursor, arrow)
    if moved != cursor:
        assert moved.vertex != cursor.vertex
        assert track.moved(moved, BACK[arrow])[:2] == cursor[:2]


@settings(max_examples=60, deadline=None)
@given(patterns, st.booleans())
def test_arrows_alone_reach_every_point_and_turns_every_crease(
    pattern: CreasePattern, restricted: bool
) -> None:
    """Even the matched ways alone, which lead back alike; round each point every crease comes up."""
    track = track_of(pattern, outline_points(pattern) if restricted else None)
    assert reached(track) == track.vertices
    for cursor in everywhere(track):
        for clockwise in (True, False):
            seen, turned = set(), cursor
            for _ in track.creases_at(cursor.vertex):
                turned = track.turned(turned, clockwise)
                seen.add(turned.edge)
            assert seen == set(track.creases_at(cursor.vertex))
    if not restricted:
        found = {edge for vertex in track.vertices for edge in track.creases_at(vertex)}
        assert found == set(pattern.creases)


@settings(max_examples=40, deadline=None)
@given(patterns)
def test_an_arrow_never_leads_more_than_45_degrees_off(pattern: CreasePattern) -> None:
    """Right leads to the right, up leads up, and so on, wherever a point lies that way at all."""
    track = track_of(pattern)
    for cursor in everywhere(track):
        here = pattern.vertices[cursor.vertex]
        for arrow in ARROWS:
            way = DIRECTIONS[arrow]
            ahead = [
                vertex
                for vertex in track.vertices
                if vertex != cursor.vertex and _is_within_45(way, here, pattern.vertices[vertex])
            ]
            moved = track.moved(cursor, arrow).vertex
            assert moved in ahead if ahead else moved == cursor.vertex


def _is_within_45(way: Direction, here: Point, there: Point) -> bool:
    move = move_between(here, there)
    return dot(way, move) >= max(cross(way, move), -cross(way, move))


def test_clockwise_as_seen_on_the_screen() -> None:
    """From the crease to the right the next one clockwise leads down, or as near to it as there is one."""
    pattern = stretch()
    track = track_of(pattern)
    corner = vertex_at(pattern, 1, 1)
    start = track.on(edge_between(pattern, (1, 1), (4, 1)), corner)
    down = track.turned(start, clockwise=True)
    assert down.edge == edge_between(pattern, (0, 0), (1, 1))
    assert track.turned(down, clockwise=False).edge == start.edge


@settings(max_examples=20, deadline=None)
@given(patterns)
def test_reading_order_goes_through_every_point_once(pattern: CreasePattern) -> None:
    """Row by row from the top left, then from the start again; back is the other way round."""
    track = track_of(pattern)
    cursor = track.at(track.reading_order[0])
    seen = []
    for _ in track.vertices:
        seen.append(cursor.vertex)
        assert track.next_point(track.next_point(cursor), back=True).vertex == cursor.vertex
        cursor = track.next_point(cursor)
    assert tuple(seen) == track.reading_order
    assert cursor.vertex == seen[0]


def test_hidden_creases_are_never_under_the_cursor() -> None:
    """A point whose only creases are hidden is left out, or has none to show."""
    pattern = stretch()
    inside = of_role(pattern, "inside")
    track = track_of(pattern, hidden=inside)
    assert all(cursor.edge not in inside for cursor in everywhere(track))
    nothing = track_of(pattern, vertices=[vertex_at(pattern, 1, 1)], hidden=pattern.creases).start()
    assert nothing.edge is None


def test_the_papers_bare_corners_are_left_out() -> None:
    """A vertex where no crease meets has nothing to mark."""
    pattern = build([Line(Point(1, 0), Point(1, 2), "pleat", "M")], Paper(0, 0, 2, 2))
    ends = frozenset(vertex_at(pattern, 1, y) for y in (0, 2))
    assert track_of(pattern).vertices == ends
    assert all(cursor.edge == pattern.creases[0] for cursor in everywhere(track_of(pattern)))


def test_a_click_puts_the_cursor_on_the_crease() -> None:
    """At the end asked for, or at one the track allows."""
    pattern = stretch()
    edge = edge_between(pattern, (1, 1), (5, 4))
    near, far = vertex_at(pattern, 1, 1), vertex_at(pattern, 5, 4)
    assert track_of(pattern).on(edge, far)[:2] == (far, edge)
    assert track_of(pattern, vertices=[near]).on(edge, far)[:2] == (near, edge)
