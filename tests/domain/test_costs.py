"""Sharing and stock valuation against published textbook examples."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.costs import (
    Layer,
    cost_of,
    fifo,
    moving_average,
    share_out,
    to_whole,
)
from wickbench.domain.errors import OutOfRange

weights = st.lists(st.floats(0, 1e6), min_size=1, max_size=12).filter(any)


@pytest.mark.parametrize(
    ("shared_by", "parts"),
    [
        ([10.0, 14.4, 1.1], [1118, 1609, 123]),
        ([62.00, 81.60, 44.40], [940, 1237, 673]),
        ([1, 48, 2], [56, 2682, 112]),
    ],
)
def test_freight_by_weight_value_and_quantity(shared_by: list[float], parts: list[int]) -> None:
    """Freight 28.50 over wax, jars and oil, largest remainder, worked out by hand."""
    assert list(share_out(2850, shared_by)) == parts


@given(st.integers(-(10**9), 10**9), weights)
def test_shares_sum_to_the_whole(amount: int, shared_by: list[float]) -> None:
    parts = share_out(amount, shared_by)
    assert sum(parts) == amount
    whole = sum(Fraction(weight) for weight in shared_by)
    for part, weight in zip(parts, shared_by, strict=True):
        assert abs(part - amount * Fraction(weight) / whole) < 1
        assert weight or not part
    assert share_out(-amount, shared_by) == tuple(-part for part in parts)


@given(st.integers(0, 10**6), weights, st.data())
def test_more_weight_never_gets_less(
    amount: int, shared_by: list[float], data: st.DataObject
) -> None:
    parts = share_out(amount, shared_by)
    one = data.draw(st.integers(0, len(parts) - 1))
    other = data.draw(st.integers(0, len(parts) - 1))
    if shared_by[one] > shared_by[other]:
        assert parts[one] >= parts[other]


@pytest.mark.parametrize(
    ("amount", "shared_by", "key"),
    [
        (10, [0, 0], "cost.no-weights"),
        (10, [], "cost.no-weights"),
        (10, [1, -1], "cost.weight"),
        (10, [float("nan")], "cost.weight"),
        (10, [float("inf")], "cost.weight"),
        (10.5, [1], "cost.amount"),
    ],
)
def test_what_cannot_be_shared_is_refused(amount: int, shared_by: list[float], key: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        share_out(amount, shared_by)
    assert refused.value.key == key


# Wild, Fundamental Accounting Principles: perpetual, FIFO.
WILD_LAYERS = [
    Layer.bought(n, n * price) for n, price in [(10, 91), (15, 106), (20, 115), (10, 119)]
]


def test_perpetual_first_in_first_out() -> None:
    first = fifo(WILD_LAYERS[:2], [20])
    assert (first.cost, first.left_cost) == (1970, 530)
    second = fifo([*first.left, *WILD_LAYERS[2:]], [23])
    assert (second.cost, second.left_cost, second.left_quantity) == (2600, 1420, 12)


def test_moving_average() -> None:
    """The same purchases at 100 and 114 each: 2000 + 2622, 1368 left."""
    issued = moving_average([*WILD_LAYERS[:2], 20, *WILD_LAYERS[2:], 23])
    assert issued.costs == (2000, 2622)
    assert (issued.left_cost, issued.left_quantity) == (1368, 12)


def test_periodic_first_in_first_out() -> None:
    """Accounting Principles: A Business Perspective (CC BY), exhibits 53-55: 690.00 in all."""
    bought = [(10, 80), (10, 85), (20, 168), (10, 90), (20, 176), (10, 91)]
    issued = fifo([Layer.bought(n, cost) for n, cost in bought], [60])
    assert (issued.cost, issued.left_cost) == (511, 179)
    assert [(layer.quantity, layer.cost) for layer in issued.left] == [(10, 88), (10, 91)]


def test_a_published_example_that_prints_the_wrong_sum() -> None:
    """70@21, 130@23, 90@25, 110@27, 300 sold: 6980 and 2700, for together they must be 9680."""
    layers = [Layer.bought(n, n * price) for n, price in [(70, 21), (130, 23), (90, 25), (110, 27)]]
    issued = fifo(layers, [300])
    assert (issued.cost, issued.left_cost) == (6980, 2700)
    average = moving_average([*layers, 300])
    assert (average.cost, average.left_cost) == (7260, 2420)


@given(
    st.lists(st.tuples(st.integers(1, 1000), st.integers(0, 10**6)), min_size=1, max_size=6),
    st.lists(st.integers(0, 400), max_size=6),
)
def test_cost_issued_and_left_are_what_was_paid(
    bought: list[tuple[int, int]], wanted: list[int]
) -> None:
    layers = [Layer.bought(n, cost) for n, cost in bought]
    there = sum(n for n, _ in bought)
    issues = []
    for issue in wanted:
        if issue <= there:
            issues.append(issue)
            there -= issue
    paid = sum(cost for _, cost in bought)
    for issued in (fifo(layers, issues), moving_average([*layers, *issues])):
        assert issued.cost + issued.left_cost == paid
        assert issued.left_quantity == there


def test_more_than_is_there_is_refused() -> None:
    with pytest.raises(OutOfRange) as refused:
        fifo([Layer.bought(5, 10)], [3, 3])
    assert refused.value.data == {"wanted": 3, "there": 2}
    with pytest.raises(OutOfRange):
        moving_average([Layer.bought(5, 10), 6])
    with pytest.raises(OutOfRange):
        fifo([Layer.bought(5, 10)], [-1])


def test_costs_are_exact() -> None:
    assert cost_of(1, 1, 3) == Fraction(1, 3)
    assert sum(cost_of(1, 1, 3) for _ in range(3)) == 1
    assert to_whole(Fraction(5, 2)) == 3
    assert to_whole(Fraction(-5, 2)) == -3
    assert to_whole(Fraction(7, 3)) == 2


@pytest.mark.parametrize(
    ("quantity", "paid", "per"), [(-1, 1, 1), (1, 1, 0), (float("nan"), 1, 1), (1, float("inf"), 1)]
)
def test_senseless_costs_are_refused(quantity: float, paid: float, per: float) -> None:
    with pytest.raises(OutOfRange):
        cost_of(quantity, paid, per)
    with pytest.raises(OutOfRange):
        Layer.bought(0, 1)
