"""Levels and volumes before and after wax sets, against worked values and mass conservation."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.densities import mix_density
from wickbench.domain.errors import OutOfRange
from wickbench.domain.shapes import Profile, straight
from wickbench.domain.shrinkage import (
    hot_level_mm,
    hot_volume_ml,
    set_level_mm,
    set_level_range_mm,
    set_volume_ml,
    top_up_ml,
)
from wickbench.domain.wax_classes import WAX_CLASSES

CONE = Profile(((0, 60), (90, 76)))
SOY, PARAFFIN = (0.870, 0.900), (0.770, 0.900)
HOT_MIX = mix_density([(0.870, 0.92), (0.955, 0.08)])
SET_MIX = mix_density([(0.900, 0.92), (0.970, 0.08)])


@pytest.mark.parametrize(("densities", "level_mm"), [(SOY, 67.6667), (PARAFFIN, 59.8889)])
def test_a_straight_jar_drops_by_the_ratio(densities: tuple[float, float], level_mm: float) -> None:
    # Δh = h(1 - ρ_hot/ρ_set), 70 mm hot: drops of 2.3333 and 10.1111 mm.
    assert set_level_mm(straight(70, 90), 70, *densities) == pytest.approx(level_mm, abs=5e-5)


def test_a_tapered_jar_drops_less() -> None:
    # Worked with the cube root formula: 241.809 mL hot, set 68.0351 mm, room 8.060 mL = 7.254 g.
    assert CONE.volume_ml(70) == pytest.approx(241.809, abs=5e-4)
    assert set_level_mm(CONE, 70, *SOY) == pytest.approx(68.0351, abs=5e-5)
    assert top_up_ml(CONE, 70, *SOY) == pytest.approx(8.060, abs=5e-4)
    assert top_up_ml(CONE, 70, *SOY) * SOY[1] == pytest.approx(7.254, abs=5e-4)


def test_filling_hot_to_a_line() -> None:
    # 270 mL brim, 88 % = 237.60 mL hot, 8 % oil of total: 208.194 g, set 229.992 mL.
    assert pytest.approx(208.194, abs=5e-4) == 237.60 * HOT_MIX
    assert set_volume_ml(237.60, HOT_MIX, SET_MIX) == pytest.approx(229.992, abs=5e-4)


def test_filling_so_that_the_set_level_is_the_line() -> None:
    # 215.082 g, hot 245.460 mL = 90.91 % of the brim.
    hot_ml = hot_volume_ml(237.60, HOT_MIX, SET_MIX)
    assert pytest.approx(215.082, abs=5e-4) == 237.60 * SET_MIX
    assert hot_ml == pytest.approx(245.460, abs=5e-4)
    assert hot_ml / 270 == pytest.approx(0.9091, abs=5e-5)


def test_fluid_ounces_are_not_ounces() -> None:
    # 8 US fl oz = 236.588 mL (NIST SP 811); of liquid mix at 0.87 g/mL 205.83 g = 7.2605 oz.
    assert pytest.approx(7.2605, abs=5e-5) == 236.588 * 0.87 / 28.349523125
    assert set_volume_ml(8 * 29.5735295625, *SOY) == pytest.approx(228.702, abs=5e-4)


densities = st.tuples(st.floats(0.7, 1.0), st.floats(0, 0.3)).map(lambda d: (d[0], d[0] + d[1]))


@given(densities, st.floats(0, 1))
def test_mass_stays(pair: tuple[float, float], share: float) -> None:
    fill_mm = share * CONE.top_mm
    set_mm = set_level_mm(CONE, fill_mm, *pair)
    hot_g = CONE.volume_ml(fill_mm) * pair[0]
    assert CONE.volume_ml(set_mm) * pair[1] == pytest.approx(hot_g, rel=1e-9, abs=1e-9)
    assert set_mm <= fill_mm + 1e-9


@given(densities, st.floats(0, 0.7))
def test_the_hot_level_sets_at_the_line(pair: tuple[float, float], share: float) -> None:
    line_mm = share * 90
    if CONE.volume_ml(line_mm) * pair[1] / pair[0] < CONE.brim_ml:
        hot_mm = hot_level_mm(CONE, line_mm, *pair)
        assert set_level_mm(CONE, hot_mm, *pair) == pytest.approx(line_mm, abs=1e-6)
    else:
        with pytest.raises(OutOfRange):
            hot_level_mm(CONE, line_mm, *pair)


def test_more_than_the_brim_is_refused() -> None:
    with pytest.raises(OutOfRange) as caught:
        hot_level_mm(straight(70, 80), 79, *PARAFFIN)
    assert caught.value.key == "shrinkage.passes-brim"


def test_an_estimate_is_a_range_of_whole_millimetres() -> None:
    # Paraffin 0.75-0.79 liquid, 0.88-0.92 set: 70·0.75/0.92 = 57.07, 70·0.79/0.88 = 62.84 mm.
    levels = set_level_range_mm(straight(70, 90), 70, (0.75, 0.79), (0.88, 0.92))
    assert levels == (57, 63)


def test_an_exact_estimate_is_not_widened() -> None:
    levels = set_level_range_mm(straight(70, 90), 72, (0.75, 0.75), (0.90, 0.90))
    assert levels == (60, 60)


def test_overlapping_ranges_end_at_the_line() -> None:
    levels = set_level_range_mm(straight(70, 90), 70, (0.855, 0.91), (0.89, 0.97))
    assert levels == (61, 70)


@given(st.floats(10, 90), st.floats(0, 1), st.floats(0, 1), st.sampled_from(sorted(WAX_CLASSES)))
def test_the_range_holds_every_wax_of_the_class(
    fill_mm: float, hot_share: float, set_share: float, name: str
) -> None:
    wax = WAX_CLASSES[name]
    hot_low, hot_high = wax.liquid_range_g_per_ml
    set_low, set_high = wax.set_range_g_per_ml
    hot = hot_low + hot_share * (hot_high - hot_low)
    cold = max(hot, set_low + set_share * (set_high - set_low))
    low, high = set_level_range_mm(CONE, fill_mm, wax.liquid_range_g_per_ml, wax.set_range_g_per_ml)
    assert low - 1e-6 <= set_level_mm(CONE, fill_mm, hot, cold) <= high + 1e-6


@pytest.mark.parametrize(
    "ranges",
    [((0.79, 0.75), (0.88, 0.92)), ((0.75, 0.79), (0.92, 0.88)), ((0.9, 0.95), (0.8, 0.85))],
)
def test_ranges_that_cannot_be_are_refused(
    ranges: tuple[tuple[float, float], tuple[float, float]],
) -> None:
    with pytest.raises(OutOfRange):
        set_level_range_mm(CONE, 70, *ranges)


def test_set_wax_lighter_than_liquid_is_refused() -> None:
    with pytest.raises(OutOfRange) as caught:
        set_volume_ml(100, 0.90, 0.87)
    assert caught.value.key == "shrinkage.set-lighter"
    for ask in (set_level_mm, hot_level_mm, top_up_ml):
        with pytest.raises(OutOfRange):
            ask(CONE, 50, 0.90, 0.87)


@pytest.mark.parametrize("volume_ml", [-1, math.nan, math.inf])
def test_volumes_that_cannot_be_are_refused(volume_ml: float) -> None:
    for ask in (set_volume_ml, hot_volume_ml):
        with pytest.raises(OutOfRange) as caught:
            ask(volume_ml, *SOY)
        assert caught.value.key == "shrinkage.volume"


# Estimates of each class as percent of the hot volume lost; common practice, no source.
SHRINK = {
    "soy": 3.3, "paraffin": 14.4, "beeswax": 12.5, "coconut": 3.3, "coconut_soy": 3.3,
    "palm": 4.6, "stearin": 10.2, "rapeseed": 3.8, "paraffin_soy": 9.2,
}  # fmt: skip


@pytest.mark.parametrize(("name", "percent"), SHRINK.items())
def test_classes_shrink_as_estimated(name: str, percent: float) -> None:
    assert WAX_CLASSES[name].shrink_percent == pytest.approx(percent, abs=0.06)


def test_every_class_is_there() -> None:
    assert set(WAX_CLASSES) == {*SHRINK, "other"}


@pytest.mark.parametrize("name", sorted(WAX_CLASSES))
def test_a_class_makes_sense(name: str) -> None:
    wax = WAX_CLASSES[name]
    low, high = wax.liquid_range_g_per_ml
    assert low <= wax.liquid_g_per_ml <= high
    low, high = wax.set_range_g_per_ml
    assert low <= wax.set_g_per_ml <= high
    for low, high in (wax.melts_c, wax.add_oil_c, wax.pour_c, wax.cure_days):
        assert low <= high
    # Oil goes into melted wax, and that is never hotter than it was heated.
    assert wax.melts_c[1] <= wax.add_oil_c[1] <= wax.heat_to_c
    assert wax.pour_c[0] >= wax.melts_c[0]
    assert wax.flash_c is None or wax.flash_c > wax.heat_to_c + 50


def test_handbook_densities_lie_in_the_ranges() -> None:
    # CRC Handbook: palmitic acid 0.8527 at 62 °C, behenic 0.8223 at 90, stearic (solid) 0.9408;
    # tripalmitin 0.8752 at 70 °C. Encyclopedias: soy wax set 0.90, paraffin about 0.90.
    low, high = WAX_CLASSES["stearin"].liquid_range_g_per_ml
    assert low <= 0.8527 - 0.00066 * 8 <= high
    assert WAX_CLASSES["stearin"].set_g_per_ml == pytest.approx(0.9408, abs=5e-4)
    low, high = WAX_CLASSES["palm"].liquid_range_g_per_ml
    assert low <= 0.8752 <= high
    # Beeswax 0.958 to 0.970 at 15 °C, melting 62 to 65 °C (FAO).
    assert WAX_CLASSES["beeswax"].set_range_g_per_ml == (0.958, 0.970)
    assert WAX_CLASSES["beeswax"].melts_c == (62, 65)
