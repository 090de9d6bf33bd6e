"""Two creases that open to one side: what is told of their layers, against every order of four faces."""

from __future__ import annotations

from itertools import combinations, permutations, product

from drills.flatfold import Conditions, CrossingError, Order

PAIRS = tuple(combinations(range(4), 2))
ORDERS = [
    frozenset((a, b) if heights[a] > heights[b] else (b, a) for a, b in PAIRS)
    for heights in permutations(range(4))
    # the faces of the one crease are 0 and 1, those of the other 2 and 3: none may be caught between alone
    if (min(heights[:2]) < heights[2] < max(heights[:2]))
    == (min(heights[:2]) < heights[3] < max(heights[:2]))
]


def test_all_that_follows_from_some_pairs_is_told_and_no_more() -> None:
    """From each of the 729 sets of known pairs follows what all orders that nest and have them share."""
    conditions = Conditions(4, (0b1111,), (), (((0, 1), (2, 3)),))
    assert len(ORDERS) == 16
    crossing = 0
    for ways in product((None, False, True), repeat=len(PAIRS)):
        told = [pair if way else pair[::-1] for pair, way in zip(PAIRS, ways, strict=True) if way is not None]
        fitting = [order for order in ORDERS if order.issuperset(told)]
        order = Order(conditions)
        try:
            order.put(told)
        except CrossingError:
            assert not fitting
            crossing += 1
        else:
            assert following(order) == frozenset.intersection(*fitting)
    assert 0 < crossing < 729


def following(order: Order) -> frozenset[tuple[int, int]]:
    """Return the pairs that an order knows, the upper face first."""
    return frozenset((a, b) for a, b in permutations(range(4), 2) if order.below[a] >> b & 1)


def test_what_is_taken_out_can_be_put_in_again() -> None:
    """After a crossing and without one, the same follows as in an order that never had the pairs."""
    conditions = Conditions(6, (0b111111,), (), (((0, 1), (2, 3), (4, 5)),))
    order = Order(conditions)
    order.put([(0, 1)])
    for one, two in permutations(PAIRS, 2):
        fresh, known = Order(conditions), len(order.put_in)
        outcomes = []
        for each in (order, fresh):
            try:
                each.put([(0, 1), one, two])
                outcomes.append([*each.below, *each.above])
            except CrossingError:
                outcomes.append([])
        assert outcomes[0] == outcomes[1]
        order.take_out(known)
        assert order.below == [0b10, 0, 0, 0, 0, 0]
