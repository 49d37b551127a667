"""Scales, pots and what rounding to a scale does to the load."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.equipment import (
    Pot,
    Scale,
    is_too_coarse,
    load_reach,
    to_reading_mg,
    which_scale,
)
from wickbench.domain.errors import OutOfRange

KITCHEN = Scale("kitchen", 5000, 1)
FINE = Scale("fine", 200, 0.1)
POCKET = Scale("pocket", 100, 0.01)
OUNCE_G = 28.349523125  # NIST SP 811, appendix B.8


@pytest.mark.parametrize(
    ("mass_g", "pot_g", "scale"),
    [
        (3, 0, POCKET),
        (100, 0, POCKET),
        (100.01, 0, FINE),
        (163.4, 0, FINE),
        (163.4, 40, KITCHEN),
        (4000, 900, KITCHEN),
        (4000, 1000, KITCHEN),
        (4000, 1001, None),
        (0, 6000, None),
    ],
)
def test_the_finest_scale_that_carries_it(mass_g: float, pot_g: float, scale: Scale | None) -> None:
    assert which_scale([KITCHEN, POCKET, FINE], mass_g, pot_g) is scale


def test_equally_fine_scales() -> None:
    small = Scale("small", 1000, 1)
    assert which_scale([KITCHEN, small], 500) is small
    assert which_scale([], 1) is None


@pytest.mark.parametrize("mass_g", [-1.0, math.nan, math.inf])
def test_senseless_masses_are_refused(mass_g: float) -> None:
    with pytest.raises(OutOfRange):
        which_scale([KITCHEN], mass_g)


@given(st.floats(0, 6000), st.floats(0, 2000))
def test_a_heavier_load_never_gets_a_finer_scale(mass_g: float, more_g: float) -> None:
    scales = [KITCHEN, FINE, POCKET]
    one, other = which_scale(scales, mass_g), which_scale(scales, mass_g + more_g)
    assert other is None or (one is not None and one.reads_to_g <= other.reads_to_g)


@pytest.mark.parametrize(
    ("mass_g", "scale", "milligrams"),
    [
        (15.7407, KITCHEN, 16_000),
        (15.7407, FINE, 15_700),
        (2.5, KITCHEN, 3_000),
        (0.285, POCKET, 290),
        (7.5, Scale("spring", 1000, 5), 10_000),
    ],
)
def test_readings_are_whole_steps_half_up(mass_g: float, scale: Scale, milligrams: int) -> None:
    assert to_reading_mg(mass_g, scale) == milligrams


# Wax, oil, step of both; u = L sqrt((u_F/F)^2 + (u_W/W)^2) with u = d/sqrt(6), worst case
# (F+d)/(W-d) - L, percentage points of wax: worked out by hand.
REACHES = [
    (500, 40, 1, 0.08191, 0.21643, 0.21557),
    (500, 40, 0.1, 0.00819, 0.02160, 0.02160),
    (500, 40, 0.01, 0.00082, 0.00216, 0.00216),
    (16 * OUNCE_G, OUNCE_G, 0.1 * OUNCE_G, 0.25565, 0.66824, 0.65994),
    (2000, 160, 1, 0.02048, 0.05403, 0.05397),
    (2000, 160, 5, 0.10239, 0.27068, 0.26933),
]


@pytest.mark.parametrize("row", REACHES)
def test_how_far_a_load_may_be_off(row: tuple[float, ...]) -> None:
    wax_g, oil_g, step_g, u, above, below = row
    reach = load_reach(wax_g, oil_g, step_g, step_g)
    assert reach.standard_uncertainty_percent == pytest.approx(u, abs=6e-6)
    assert reach.above_percent == pytest.approx(above, abs=6e-6)
    assert reach.below_percent == pytest.approx(below, abs=6e-6)


def test_how_far_a_load_may_be_off_by_drawing_lots() -> None:
    """JCGM 101:2008: propagate the distributions themselves; tare and reading each ± d/2."""
    lots = random.Random(20)  # noqa: S311 - lots, not secrets

    def reading(true_g: float) -> float:
        return true_g + lots.uniform(-0.5, 0.5) - lots.uniform(-0.5, 0.5)

    loads = [100 * reading(40) / reading(500) for _ in range(40_000)]
    mean = math.fsum(loads) / len(loads)
    spread = math.sqrt(math.fsum((load - mean) ** 2 for load in loads) / (len(loads) - 1))
    reach = load_reach(500, 40, 1, 1)
    assert reach.standard_uncertainty_percent == pytest.approx(spread, rel=0.02)
    assert max(loads) < 8 + reach.above_percent
    assert min(loads) > 8 - reach.below_percent


def test_three_grams_of_dye_on_a_kitchen_scale() -> None:
    assert is_too_coarse(KITCHEN, 3)
    assert is_too_coarse(KITCHEN, 33.2)
    assert not is_too_coarse(KITCHEN, 33.4)
    assert not is_too_coarse(POCKET, 3)


@pytest.mark.parametrize(
    ("make", "key"),
    [
        (lambda: Scale("s", 0, 1), "equipment.scale-maximum"),
        (lambda: Scale("s", math.nan, 1), "equipment.scale-maximum"),
        (lambda: Scale("s", 100, 0), "equipment.scale-step"),
        (lambda: Scale("s", 1, 100), "equipment.scale-step-above-maximum"),
        (lambda: Pot("p", 0), "equipment.pot-brim"),
        (lambda: Pot("p", 1000, -1), "equipment.pot-empty"),
        (lambda: Pot("p", 1000, 0, 101), "equipment.pot-safe-fill"),
        (lambda: Pot("p", 1000, 0, 0), "equipment.pot-safe-fill"),
    ],
)
def test_equipment_that_cannot_be_is_refused(make: object, key: str) -> None:
    assert callable(make)
    with pytest.raises(OutOfRange) as refused:
        make()
    assert refused.value.key == key


def test_a_pot_holds_its_safe_part() -> None:
    assert Pot("pitcher", 5000).safe_ml == 4000
    assert Pot("pitcher", 4000, safe_fill_percent=75).safe_ml == 3000
