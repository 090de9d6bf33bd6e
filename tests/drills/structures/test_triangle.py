"""The arithmetic of Pythagorean triangles that a slanted stretch rests on."""

from __future__ import annotations

from fractions import Fraction
from math import gcd, isqrt, lcm

import pytest

from drills.geometry import Direction, Move, cross, direction_of, dot
from drills.structures import TRIANGLE_345, Triangle


def test_the_345_stretch_has_sides_three_one_and_one_two() -> None:
    """One pleat turns along (3, 1) and along (1, 2); the inside lines run along (4, 3)."""
    assert TRIANGLE_345.unit_sides == (Move(3, 1), Move(1, 2))
    assert direction_of(TRIANGLE_345.inside) == Direction(4, 3)


# a, b, c, m, n, tan A/2, tan B/2, inradius, area, interior and boundary points (own exact values).
ROWS = [
    (3, 4, 5, 2, 1, "1/3", "1/2", 1, 6, 3, 8),
    (5, 12, 13, 3, 2, "1/5", "2/3", 2, 30, 22, 18),
    (8, 15, 17, 4, 1, "1/4", "3/5", 3, 60, 49, 24),
    (7, 24, 25, 4, 3, "1/7", "3/4", 3, 84, 69, 32),
    (20, 21, 29, 5, 2, "2/5", "3/7", 6, 210, 190, 42),
    (12, 35, 37, 6, 1, "1/6", "5/7", 5, 210, 187, 48),
    (9, 40, 41, 5, 4, "1/9", "4/5", 4, 180, 156, 50),
    (28, 45, 53, 7, 2, "2/7", "5/9", 10, 630, 594, 74),
    (11, 60, 61, 6, 5, "1/11", "5/6", 5, 330, 295, 72),
    (33, 56, 65, 7, 4, "3/11", "4/7", 12, 924, 880, 90),
    (16, 63, 65, 8, 1, "1/8", "7/9", 7, 504, 465, 80),
    (48, 55, 73, 8, 3, "3/8", "5/11", 15, 1320, 1269, 104),
    (13, 84, 85, 7, 6, "1/13", "6/7", 6, 546, 498, 98),
    (36, 77, 85, 9, 2, "2/9", "7/11", 14, 1386, 1330, 114),
    (39, 80, 89, 8, 5, "3/13", "5/8", 15, 1560, 1501, 120),
    (65, 72, 97, 9, 4, "5/13", "4/9", 20, 2340, 2272, 138),
]
Row = tuple[int, int, int, int, int, str, str, int, int, int, int]


def triangle_of(row: Row) -> Triangle:
    """Return the triangle whose shallow and steep sides have the row's half-angle slopes."""
    half_a, half_b = Fraction(row[5]), Fraction(row[6])
    shallow = Direction(half_a.denominator, half_a.numerator)
    steep = Direction(half_b.numerator, half_b.denominator)
    width = lcm(half_a.numerator, half_b.numerator)
    return Triangle(f"{row[0]}-{row[1]}-{row[2]}", shallow, steep, width)


@pytest.mark.parametrize("row", ROWS)
def test_half_angles_of_each_triangle(row: Row) -> None:
    """tan(A/2) = a/(b+c) = (c-b)/a, the same for B; together they make 45 degrees."""
    a, b, c, m, n, half_a, half_b = row[:7]
    assert {a, b} == {m * m - n * n, 2 * m * n}
    assert a * a + b * b == c * c == (m * m + n * n) ** 2
    t, s = Fraction(half_a), Fraction(half_b)
    assert t == Fraction(a, b + c) == Fraction(c - b, a)
    assert s == Fraction(b, a + c) == Fraction(c - a, b)
    assert (t + s) / (1 - t * s) == 1


@pytest.mark.parametrize("row", ROWS)
def test_inradius_of_each_triangle(row: Row) -> None:
    """The inradius is (a + b - c)/2 = n(m - n), and so far is the centre (r, r) from the third side."""
    a, b, c, m, n = row[:5]
    radius = row[7]
    assert radius == (a + b - c) // 2 == n * (m - n)
    assert abs(b * radius + a * radius - a * b) == radius * c


@pytest.mark.parametrize("row", ROWS)
def test_grid_points_in_each_triangle(row: Row) -> None:
    """Area = I + B/2 - 1 (Pick 1899), with the points inside and on the edge counted one by one."""
    a, b = row[:2]
    area, inner, edge = row[8:]
    assert inner == sum(b * x + a * y < a * b for x in range(1, a) for y in range(1, b))
    assert edge == a + b + gcd(a, b)
    assert area == a * b // 2
    assert 2 * area == 2 * inner + edge - 2


@pytest.mark.parametrize("row", ROWS)
def test_the_sides_a_triangle_lends_a_stretch(row: Row) -> None:
    """They enclose 45 degrees, the inside lines run at twice the shallow one's angle along the triangle."""
    triangle = triangle_of(row)
    assert cross(triangle.shallow, triangle.steep) == dot(triangle.shallow, triangle.steep) > 0
    assert sorted(direction_of(triangle.inside)) == sorted(row[:2])
    assert cross(triangle.shallow, triangle.inside) * dot(Direction(1, 0), triangle.shallow) == (
        dot(triangle.shallow, triangle.inside) * cross(Direction(1, 0), triangle.shallow)
    )


@pytest.mark.parametrize("row", ROWS)
def test_one_pleat_turns_along_whole_sides_and_on_no_narrower_pleat(row: Row) -> None:
    """The unit sides rise and run one pleat, end on the grid, and would not with a narrower pleat."""
    triangle = triangle_of(row)
    shallow, steep = triangle.unit_sides
    assert (shallow.dy, steep.dx) == (triangle.width, triangle.width)
    assert direction_of(shallow) == triangle.shallow
    assert direction_of(steep) == triangle.steep
    for width in range(1, triangle.width + 1):
        long_side, steep_side = triangle._replace(width=width).unit_sides
        on_grid = long_side.dx.denominator == steep_side.dy.denominator == 1
        assert on_grid == (width == triangle.width)


@pytest.mark.parametrize(
    ("name", "pairs", "insides", "width"),
    [
        ("3-4-5", [((3, 1), (1, 2)), ((2, 1), (1, 3))], [(4, 3), (3, 4)], 1),
        ("5-12-13", [((5, 1), (2, 3)), ((3, 2), (1, 5))], [(12, 5), (5, 12)], 2),
        ("8-15-17", [((4, 1), (3, 5)), ((5, 3), (1, 4))], [(15, 8), (8, 15)], 3),
        ("7-24-25", [((7, 1), (3, 4)), ((4, 3), (1, 7))], [(24, 7), (7, 24)], 3),
        ("20-21-29", [((5, 2), (3, 7)), ((7, 3), (2, 5))], [(21, 20), (20, 21)], 6),
    ],
)
def test_directions_and_narrowest_pleats_of_the_five_triangles(
    name: str,
    pairs: list[tuple[tuple[int, int], tuple[int, int]]],
    insides: list[tuple[int, int]],
    width: int,
) -> None:
    """Each triangle and its mirror image; only 3-4-5 has pleats one square wide."""
    for (shallow, steep), inside in zip(pairs, insides, strict=True):
        triangle = Triangle(name, Direction(*shallow), Direction(*steep), width)
        assert direction_of(triangle.inside) == inside
        assert cross(triangle.shallow, triangle.steep) == dot(triangle.shallow, triangle.steep)
    (p, q), (r, s) = pairs[0]
    narrow = [w for w in range(1, 7) if p * w % q == 0 and s * w % r == 0]
    assert narrow[0] == width


@pytest.mark.parametrize(
    ("direction", "square"),
    [
        ((2, 1), (3, 4)),
        ((3, 1), (8, 6)),
        ((3, 2), (5, 12)),
        ((4, 1), (15, 8)),
        ((5, 1), (24, 10)),
        ((5, 3), (16, 30)),
        ((4, 3), (7, 24)),
        ((5, 2), (21, 20)),
    ],
)
def test_squaring_a_direction_doubles_its_angle(direction: tuple[int, int], square: tuple[int, int]) -> None:
    """(3 + i)(3 + i) = 8 + 6i = 2(4 + 3i), and so on: the inside lines' direction."""
    assert complex(*direction) ** 2 == complex(*square)
    triangle = Triangle("", Direction(*direction), Direction(1, 2), 1)
    assert direction_of(triangle.inside) == direction_of(Direction(*square))


def primitive_triples(below: int) -> list[tuple[int, int, int]]:
    """Return the primitive triples a < b < c with c below a bound, by Euclid's formula."""
    found = []
    for m in range(2, isqrt(below) + 1):
        for n in range(1 + m % 2, m, 2):
            if gcd(m, n) == 1 and m * m + n * n < below:
                a, b = sorted((m * m - n * n, 2 * m * n))
                found.append((a, b, m * m + n * n))
    return found


def test_how_many_triangles_there_are() -> None:
    """1, 16, 158, 1593 primitive triples with hypotenuse below 10, 100, 1000, 10000 (OEIS A101931)."""
    assert [len(primitive_triples(10**n)) for n in range(1, 5)] == [1, 16, 158, 1593]
    assert {row[:3] for row in ROWS} == set(primitive_triples(100))


def test_how_many_different_hypotenuses_there_are() -> None:
    """14 below 100, 65 and 85 twice (OEIS A008846), and 122 below 1000."""
    below_100 = sorted({c for _, _, c in primitive_triples(100)})
    assert below_100 == [5, 13, 17, 25, 29, 37, 41, 53, 61, 65, 73, 85, 89, 97]
    assert len({c for _, _, c in primitive_triples(1000)}) == 122


def test_how_many_triples_there_are_with_multiples() -> None:
    """1, 50, 878, 12467 triples with hypotenuse below 10, 100, 1000, 10000 (OEIS A101929)."""
    counts = [sum((10**n - 1) // c for _, _, c in primitive_triples(10**n)) for n in range(1, 5)]
    assert counts == [1, 50, 878, 12467]


def test_haga_cuts_an_edge_in_the_345_way() -> None:
    """Corner to the middle of an edge: legs 1/2 and 3/8, hypotenuse 5/8, the other edge cut at 2/3.

    K. Haga, Origamics (World Scientific 2008): y1 = (1 - x^2)/2, y2 = 2x/(1 + x) for corner to x.
    """

    def leg(x: Fraction) -> Fraction:
        return (1 - x * x) / 2

    def cut(x: Fraction) -> Fraction:
        return 2 * x / (1 + x)

    half = Fraction(1, 2)
    assert (leg(half), cut(half), half**2 + leg(half) ** 2) == (
        Fraction(3, 8),
        Fraction(2, 3),
        Fraction(5, 8) ** 2,
    )
    assert [cut(Fraction(x)) for x in ("1/4", "3/4", "1/3", "2/3")] == [
        Fraction(y) for y in ("2/5", "6/7", "1/2", "4/5")
    ]
