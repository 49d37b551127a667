"""Leftovers, and vessels over pots: against hand-worked cases and a general MILP solver."""

from __future__ import annotations

import itertools
import math
import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from wickbench.domain.errors import OutOfRange
from wickbench.domain.pot_filling import fullest_first, rounded_bound
from wickbench.domain.pot_split import (
    Groups,
    fewest_pots,
    first_fit,
    keep_sizes_together,
    lower_bound,
)
from wickbench.domain.pours import blend_leftover, split_into_pots

masses = st.lists(st.integers(1, 1000), min_size=1, max_size=14)


@pytest.mark.parametrize(
    ("batch", "new"),
    [
        ((1500, 8, 300, 6), (1098, 102)),
        ((1500, 8, 0, 0), (1380, 120)),
        ((1000, 8, 1000, 8), (0, 0)),
        ((1000, 6, 500, 100 * 6 / 106), (500 - 60 + 500 * 6 / 106, 60 - 500 * 6 / 106)),
    ],
)
def test_leftovers_worked_into_a_batch(
    batch: tuple[float, float, float, float], new: tuple[float, float]
) -> None:
    """Oil balance pM = q m + oil, worked out by hand."""
    assert blend_leftover(*batch) == pytest.approx(new)


@pytest.mark.parametrize(
    ("arguments", "key", "data"),
    [
        ((1000, 5, 800, 10), "pour.leftover-too-rich", {"over_g": 30, "most_g": 500}),
        ((1000, 8, 1200, 8), "pour.leftover-larger", {"leftover_g": 1200}),
        ((1000, 50, 900, 10), "pour.leftover-too-weak", {"short_g": 310}),
        ((-1, 8, 0, 0), "pour.mass", {}),
        ((1000, 100, 0, 0), "pour.percent-of-total", {}),
        ((1000, 8, 10, math.nan), "pour.percent-of-total", {}),
        ((math.inf, 8, 10, 8), "pour.mass", {}),
    ],
)
def test_leftovers_that_cannot_be_used(
    arguments: tuple[float, float, float, float], key: str, data: dict[str, float]
) -> None:
    with pytest.raises(OutOfRange) as refused:
        blend_leftover(*arguments)
    assert refused.value.key == key
    for name, value in data.items():
        assert refused.value.data[name] == pytest.approx(value)


@given(st.floats(1, 1e4), st.floats(0, 50), st.floats(0, 1), st.floats(0, 50))
def test_oil_and_mass_are_conserved(
    total_g: float, target: float, part: float, held: float
) -> None:
    leftover_g = total_g * part
    try:
        wax_g, oil_g = blend_leftover(total_g, target, leftover_g, held)
    except OutOfRange:
        oil_needed = target * total_g - held * leftover_g
        assert oil_needed < 0 or oil_needed / 100 > total_g - leftover_g
        return
    assert wax_g + oil_g + leftover_g == pytest.approx(total_g)
    assert oil_g + leftover_g * held / 100 == pytest.approx(target * total_g / 100, abs=1e-6)


@pytest.mark.parametrize(
    ("vessels", "pot_g", "loads"),
    [
        ([800, 800, *[600] * 4], 2000, [2000, 2000]),  # first fit decreasing takes three pots
        ([210] * 12 + [120] * 6, 2000, [1620, 1620]),
        ([210] * 8, 2000, [1680]),
        ([340] * 10, 2000, [1700, 1700]),
        ([700, 700, *[600] * 4, 200], 2000, [2000, 2000]),
        ([500] * 3 + [360] * 4 + [220] * 6, 2000, [1440, 1420, 1400]),
        ([], 2000, []),
        ([2000], 2000, [2000]),
        ([0.1] * 3, 0.3, [0.3]),
    ],
)
def test_fewest_pots_then_level(vessels: list[float], pot_g: float, loads: list[float]) -> None:
    pots = split_into_pots(vessels, pot_g)
    assert len(pots) == len(loads)
    assert max(map(sum, pots), default=0) == pytest.approx(max(loads, default=0))
    assert sorted(itertools.chain(*pots)) == sorted(vessels)


@pytest.mark.parametrize(
    ("vessels", "bound"),
    [
        ([60, 60, 60, 50, 50], 4),  # no 50 fits beside a 60
        ([70, 70, 40, 40], 3),
        ([66, 66, 66, 35], 4),  # 34 left beside each 66
        ([55, 55, 55, 45, 45, 45, 20], 4),
        ([100, 1], 2),
        ([], 0),
    ],
)
def test_no_packing_can_do_with_fewer(vessels: list[int], bound: int) -> None:
    assert lower_bound(Groups.of(vessels), 100) == bound


@given(masses, st.integers(0, 300))
def test_the_bound_is_a_bound(vessels: list[int], spare: int) -> None:
    pot = max(vessels) + spare
    groups = Groups.of(vessels)
    bound = max(lower_bound(groups, pot), rounded_bound(groups.sizes, groups.counts, pot))
    assert -(-sum(vessels) // pot) <= bound <= len(split_into_pots(vessels, pot))


def test_first_fit_alone_is_not_enough() -> None:
    groups = Groups.of([800, 800, 600, 600, 600, 600])
    assert len(first_fit(groups, 2000)) == 3
    assert lower_bound(groups, 2000) == 2


def _fewest_by_milp(vessels: list[int], pot: int) -> int:
    """Bin packing as an integer program, solved by HiGHS through scipy."""
    most = len(first_fit(Groups.of(vessels), pot))
    n = len(vessels)
    cost = np.concatenate([np.ones(most), np.zeros(n * most)])
    each_once = np.zeros((n, most + n * most))
    for i in range(n):
        each_once[i, most + i * most : most + (i + 1) * most] = 1
    held = np.zeros((most, most + n * most))
    for j in range(most):
        held[j, j] = -pot
        held[j, most + j :: most] = vessels
    found = milp(
        cost,
        constraints=[LinearConstraint(each_once, 1, 1), LinearConstraint(held, -np.inf, 0)],
        integrality=np.ones_like(cost),
        bounds=Bounds(0, 1),
    )
    assert found.success
    return round(found.fun)


def _lightest_by_milp(vessels: list[int], pots: int) -> int:
    """The lightest fullest pot for a number of pots, by HiGHS."""
    n = len(vessels)
    cost = np.concatenate([[1.0], np.zeros(n * pots)])
    each_once = np.zeros((n, 1 + n * pots))
    for i in range(n):
        each_once[i, 1 + i * pots : 1 + (i + 1) * pots] = 1
    held = np.zeros((pots, 1 + n * pots))
    held[:, 0] = -1
    for j in range(pots):
        held[j, 1 + j :: pots] = vessels
    found = milp(
        cost,
        constraints=[LinearConstraint(each_once, 1, 1), LinearConstraint(held, -np.inf, 0)],
        integrality=np.concatenate([[0], np.ones(n * pots)]),
        bounds=Bounds(0, np.concatenate([[sum(vessels)], np.ones(n * pots)])),
    )
    assert found.success
    return round(found.fun)


HARD = [
    [99, 94, 79, 64, 50, 46, 43, 37, 32, 19, 18, 7, 6, 3],
    [60, 60, 50, 50, 45, 45, 40, 40, 35, 35, 30, 30],
    [70, 55, 55, 45, 45, 30, 30, 30, 25, 25, 20],
]


@pytest.mark.parametrize("vessels", HARD)
def test_as_good_as_an_integer_program(vessels: list[int]) -> None:
    pots = split_into_pots(vessels, 100)
    assert len(pots) == _fewest_by_milp(vessels, 100)
    assert max(map(sum, pots)) == _lightest_by_milp(vessels, len(pots))


@settings(max_examples=25)
@given(st.lists(st.sampled_from([30, 34, 36, 41, 46, 51, 55]), min_size=1, max_size=9))
def test_as_few_as_an_integer_program(vessels: list[int]) -> None:
    assert len(split_into_pots(vessels, 110)) == _fewest_by_milp(vessels, 110)


@given(masses, st.integers(0, 500))
def test_no_pot_is_overfilled_and_no_vessel_lost(vessels: list[int], spare: int) -> None:
    pot_g = max(vessels) + spare
    pots = split_into_pots(vessels, pot_g)
    assert all(sum(pot) <= pot_g for pot in pots)
    assert sorted(itertools.chain(*pots)) == sorted(vessels)
    assert len(pots) >= math.ceil(sum(vessels) / pot_g)
    assert all(pots)


@given(masses, st.integers(0, 300), st.integers(0, 300))
def test_a_larger_pot_never_needs_more_pots(vessels: list[int], one: int, other: int) -> None:
    small, large = sorted((max(vessels) + one, max(vessels) + other))
    assert len(split_into_pots(vessels, large)) <= len(split_into_pots(vessels, small))


def test_two_hundred_vessels_of_ten_sizes_in_the_fewest_pots() -> None:
    lots = random.Random(7)  # noqa: S311 - lots, not secrets
    sizes = [lots.randint(800, 4200) / 10 for _ in range(10)]
    vessels = [lots.choice(sizes) for _ in range(200)]
    pots = split_into_pots(vessels, 3200)
    assert len(pots) == math.ceil(sum(vessels) / 3200)
    assert max(map(math.fsum, pots)) <= 3200 + 1e-6


def test_a_vessel_larger_than_the_pot_is_refused() -> None:
    with pytest.raises(OutOfRange) as refused:
        split_into_pots([100, 2001], 2000)
    assert refused.value.key == "pour.vessel-over-pot"
    assert refused.value.data == {"vessel_g": 2001, "pot_g": 2000}


@pytest.mark.parametrize("vessels", [[-1.0], [math.nan], [math.inf]])
def test_senseless_vessels_are_refused(vessels: list[float]) -> None:
    with pytest.raises(OutOfRange):
        split_into_pots(vessels, 2000)


@given(masses, st.integers(0, 500))
def test_keeping_sizes_together_costs_no_pot(vessels: list[int], spare: int) -> None:
    pot = max(vessels) + spare
    groups = Groups.of(vessels)
    kept = keep_sizes_together(groups, pot).pots
    assert len(kept) == len(split_into_pots(vessels, pot))
    assert all(groups.load(counts) <= pot for counts in kept)
    assert tuple(map(sum, zip(*kept, strict=True))) == groups.counts


def test_together_where_the_row_fills_the_pots_to_the_brim() -> None:
    assert set(keep_sizes_together(Groups.of([60, 60, 40, 40]), 100).pots) == {(1, 1)}
    assert set(keep_sizes_together(Groups.of([50, 50, 40, 40]), 100).pots) == {(2, 0), (0, 2)}


def test_candles_of_one_size_stay_together() -> None:
    """18 tumblers and 12 tins over two pots: one size is split, not both."""
    groups = Groups.of([2243] * 18 + [1810] * 12)
    assert set(keep_sizes_together(groups, 40_000).pots) == {(14, 0), (4, 12)}


@given(masses, st.integers(0, 300))
def test_pots_filled_as_full_as_can_be_hold_everything(vessels: list[int], spare: int) -> None:
    groups, pot = Groups.of(vessels), max(vessels) + spare
    pots = fullest_first(groups.sizes, groups.counts, pot)
    assert all(groups.load(counts) <= pot for counts in pots)
    assert tuple(map(sum, zip(*pots, strict=True))) == groups.counts


def test_the_rounded_bound_sees_what_weight_alone_does_not() -> None:
    """Ten vessels a little above a quarter of the pot: three to a pot, four pots, by hand."""
    groups = Groups.of([251] * 10)
    assert -(-groups.whole // 1000) == 3
    assert rounded_bound(groups.sizes, groups.counts, 1000) == 4
    assert len(fullest_first(groups.sizes, groups.counts, 1000)) == 4


@settings(max_examples=25)
@given(
    st.lists(st.sampled_from([30, 34, 36, 41, 46, 51, 55]), min_size=1, max_size=9),
    st.integers(0, 12),
)
def test_a_search_that_is_cut_short_says_by_how_much_it_may_miss(
    vessels: list[int], steps: int
) -> None:
    packing = fewest_pots(Groups.of(vessels), 110, steps)
    fewest = _fewest_by_milp(vessels, 110)
    assert len(packing.pots) - packing.over <= fewest <= len(packing.pots)


def unproven() -> list[int]:
    """Vessels of a quarter to two fifths of a pot of 1000: nobody knows in time how few do."""
    lots = random.Random(33)  # noqa: S311 - lots, not secrets
    return [lots.randint(250, 420) for _ in range(30)]


def test_pots_that_are_not_known_to_be_the_fewest_say_so() -> None:
    assert fewest_pots(Groups.of([70, 70, 40, 40]), 100).over == 0
    packing = fewest_pots(Groups.of(unproven()), 1000)
    assert (len(packing.pots), packing.over) == (12, 1)
    assert math.ceil(sum(unproven()) / 1000) <= 11


@given(st.lists(st.integers(200, 450), min_size=1, max_size=24))
def test_a_quick_packing_that_was_not_hurried_is_the_settled_one(vessels: list[int]) -> None:
    quick = keep_sizes_together(Groups.of(vessels), 1000, quick=True)
    settled = keep_sizes_together(Groups.of(vessels), 1000)
    assert not settled.hurried
    assert quick.hurried or quick == settled
    assert tuple(map(sum, zip(*quick.pots, strict=True))) == Groups.of(vessels).counts
    assert len(settled.pots) <= len(quick.pots) <= len(settled.pots) + quick.over
