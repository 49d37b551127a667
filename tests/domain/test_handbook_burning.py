"""Burning: rates, their doubt, the wax that burns and the heat it gives, against scipy and books.

Values are from named sources or scipy unless a comment says "common practice" or "from memory".
"""

from __future__ import annotations

import math
from statistics import fmean, stdev
from typing import TYPE_CHECKING

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from wickbench.app.texts import Texts
from wickbench.domain.burning import (
    FAT_MJ_PER_KG,
    PARAFFIN_MJ_PER_KG,
    STOP_IN_VESSEL_MM,
    burn_time,
    flame_power_w,
    full_pool_hours,
    usable_wax,
)
from wickbench.domain.burning_rates import (
    Difference,
    Rate,
    Weighed,
    compared,
    fitted_rate,
    interval_rates,
    mean_rate,
    overall_rate,
    rate_findings,
)
from wickbench.domain.errors import OutOfRange
from wickbench.domain.shapes import Profile, straight
from wickbench.domain.statistics import chance_beyond, student_t

if TYPE_CHECKING:
    from collections.abc import Callable

FOUR = (5.1, 4.8, 5.4, 5.0)
THREE = (4.6, 5.2, 4.9)
OTHER = (6.0, 5.7, 6.3)
HOURS = (0, 4, 8, 12, 16)
MASSES = (412, 391.5, 372.3, 352, 332.4)
LOG = tuple(Weighed(hour, mass) for hour, mass in zip(HOURS, MASSES, strict=True))

# Two-sided 95 % points of Student's t, four decimals (any table; scipy.stats.t.ppf agrees).
T_TABLE = {
    1: 12.7062, 2: 4.3027, 3: 3.1824, 4: 2.7764, 5: 2.5706, 6: 2.4469, 7: 2.3646, 8: 2.3060,
    9: 2.2622, 10: 2.2281,
}  # fmt: skip


@pytest.mark.parametrize(("degrees", "t"), T_TABLE.items())
def test_students_t_to_four_decimals(degrees: int, t: float) -> None:
    from scipy import stats

    assert student_t(0.975, degrees) == pytest.approx(t, abs=5.1e-5)
    assert student_t(0.975, degrees) == pytest.approx(stats.t.ppf(0.975, degrees), rel=1e-10)


@given(st.floats(-40, 40), st.floats(1, 500))
def test_chance_beyond_is_both_tails_of_scipy(t: float, degrees: float) -> None:
    from scipy import stats

    reference = 2 * float(stats.t.sf(abs(t), degrees))
    assert chance_beyond(t, degrees) == pytest.approx(reference, rel=1e-8)


def test_chance_beyond_of_endless_degrees_is_the_normal_curve() -> None:
    # Any table of the normal distribution: 5 % lie beyond 1.959964.
    assert chance_beyond(1.959964, math.inf) == pytest.approx(0.05, abs=1e-7)
    for t, degrees in ((math.nan, 4.0), (1.0, 0.5), (1.0, math.nan)):
        with pytest.raises(OutOfRange):
            chance_beyond(t, degrees)


# -- the mean of several candles -----------------------------------------------------------------
def test_four_candles() -> None:
    """Mean ± t·s/√n and t·s·√(1 + 1/n), worked out by hand with the table's t."""
    rate = mean_rate(FOUR)
    assert rate.mean_g_per_h == pytest.approx(5.0750)
    assert rate.deviation_g_per_h == pytest.approx(0.250000, abs=5e-7)
    assert rate.reach_g_per_h == pytest.approx(0.39781, abs=5e-6)
    assert rate.next_g_per_h == pytest.approx(0.88952, abs=5e-6)
    assert rate.reach_g_per_h is not None
    ends = (rate.mean_g_per_h - rate.reach_g_per_h, rate.mean_g_per_h + rate.reach_g_per_h)
    assert ends == pytest.approx((4.6772, 5.4728), abs=5e-5)


def test_two_hundred_grams_of_the_four() -> None:
    """200 g at 5.0750 g/h (4.6772 to 5.4728), by hand."""
    time = burn_time(200, mean_rate(FOUR))
    assert time.hours == pytest.approx(39.409, abs=5e-4)
    assert time.shortest_h == pytest.approx(36.544, abs=5e-4)
    assert time.longest_h == pytest.approx(42.761, abs=1e-3)


def test_three_candles_and_two() -> None:
    """{4.6, 5.2, 4.9} and {5.1, 4.7}, by hand: two tests tell almost nothing."""
    three, two = mean_rate(THREE), mean_rate((5.1, 4.7))
    assert (three.mean_g_per_h, three.deviation_g_per_h) == pytest.approx((4.9, 0.3))
    assert three.reach_g_per_h == pytest.approx(0.74524, abs=5e-6)
    assert two.reach_g_per_h == pytest.approx(2.54124, abs=5e-6)
    assert rate_findings(three) == ()
    (said,) = rate_findings(two)
    assert Texts().say(said).startswith("Two tests tell almost nothing")
    assert rate_findings(mean_rate((5.0,)))[0].key == "burning.one-test"


rates = st.lists(st.floats(0.5, 30), min_size=2, max_size=9)


@given(rates)
def test_the_interval_is_scipys(seen: list[float]) -> None:
    from scipy import stats

    assume(stdev(seen) > 1e-6)
    rate = mean_rate(seen)
    low, high = stats.t.interval(0.95, len(seen) - 1, fmean(seen), stats.sem(seen))
    assert rate.reach_g_per_h == pytest.approx((high - low) / 2)
    assert rate.next_g_per_h == pytest.approx((high - low) / 2 * math.sqrt(len(seen) + 1))


def test_one_candle_says_nothing_of_the_next() -> None:
    rate = mean_rate((5.2,))
    assert rate == Rate(5.2, None, 1)
    assert rate.reach_g_per_h is None
    assert rate.next_g_per_h is None
    time = burn_time(104, rate)
    assert (time.hours, time.shortest_h, time.longest_h) == (20, None, None)


def test_too_few_tests_give_no_longest_time() -> None:
    """{6, 2}: ± 25 g/h by hand, so the slowest mean could be nothing."""
    time = burn_time(100, mean_rate((6, 2)))
    assert time.hours == 25
    assert time.longest_h == math.inf
    assert time.shortest_h == pytest.approx(100 / (4 + 12.7062 * 2), abs=1e-3)


# -- two kinds against each other ----------------------------------------------------------------
def test_welch_of_two_times_three_candles() -> None:
    """{5.1, 4.8, 5.4, 5.0} against {6.0, 5.7, 6.3}: scipy's ``ttest_ind(equal_var=False)``."""
    from scipy import stats

    found = compared(mean_rate(FOUR), mean_rate(OTHER))
    assert found.t == pytest.approx(-4.33052, abs=5e-6)
    assert found.degrees == pytest.approx(3.9174, abs=5e-5)
    assert found.chance == pytest.approx(0.01292, abs=5e-6)
    assert found.told
    reference = stats.ttest_ind(FOUR, OTHER, equal_var=False)
    assert (found.t, found.degrees, found.chance) == pytest.approx(
        (reference.statistic, reference.df, reference.pvalue), rel=1e-10
    )


@given(rates, rates)
def test_welch_is_scipys(one: list[float], other: list[float]) -> None:
    from scipy import stats

    assume(min(stdev(one), stdev(other)) > 1e-3)
    found = compared(mean_rate(one), mean_rate(other))
    reference = stats.ttest_ind(one, other, equal_var=False)
    assert found.t == pytest.approx(reference.statistic, rel=1e-8, abs=1e-12)
    assert found.degrees == pytest.approx(reference.df, rel=1e-8)
    assert found.chance == pytest.approx(reference.pvalue, rel=1e-6)
    assert found.told == (reference.pvalue < 0.05)


def test_candles_that_do_not_scatter() -> None:
    same, faster = mean_rate((5, 5)), mean_rate((6, 6))
    assert compared(same, same) == Difference(0, 0, math.inf, 1)
    assert compared(same, faster).told
    assert not compared(same, mean_rate((4.2, 6.1))).told
    with pytest.raises(OutOfRange, match=r"burning\.one-candle"):
        compared(same, mean_rate((5,)))


# -- one candle over its hours -------------------------------------------------------------------
def test_a_line_through_the_weighings() -> None:
    """412, 391.5, 372.3, 352 and 332.4 g at 0 to 16 h: scipy's ``linregress``."""
    from scipy import stats

    fitted = fitted_rate(LOG)
    assert fitted.g_per_h == pytest.approx(4.96750)
    assert fitted.standard_error_g_per_h == pytest.approx(0.025941, abs=5e-7)
    assert fitted.reach_g_per_h == pytest.approx(0.08255, abs=1e-5)
    line = stats.linregress(HOURS, MASSES)
    assert (fitted.g_per_h, fitted.standard_error_g_per_h) == pytest.approx(
        (-line.slope, line.stderr), rel=1e-9
    )
    assert interval_rates(LOG) == pytest.approx((5.125, 4.800, 5.075, 4.900))
    assert overall_rate(LOG) == pytest.approx(79.6 / 16)


@given(st.lists(st.tuples(st.floats(0.1, 8), st.floats(0, 60)), min_size=1, max_size=8))
def test_rates_of_intervals_weighted_by_hours_are_the_whole(
    burns: list[tuple[float, float]],
) -> None:
    from scipy import stats

    log = [Weighed(0, 600)]
    for hours, grams in burns:
        log.append(Weighed(log[-1].hour + hours, log[-1].mass_g - grams))
    burnt = math.fsum(
        rate * hours for rate, (hours, _) in zip(interval_rates(log), burns, strict=True)
    )
    assert overall_rate(log) * log[-1].hour == pytest.approx(burnt, abs=1e-6)
    assert burnt == pytest.approx(math.fsum(grams for _, grams in burns), abs=1e-6)
    line = stats.linregress([one.hour for one in log], [one.mass_g for one in log])
    assert fitted_rate(log).g_per_h == pytest.approx(-line.slope, rel=1e-6, abs=1e-9)


def test_two_weighings_fix_the_line() -> None:
    fitted = fitted_rate(LOG[:2])
    assert fitted.g_per_h == pytest.approx(5.125)
    assert fitted.standard_error_g_per_h is None
    assert fitted.reach_g_per_h is None


# -- wax that burns ------------------------------------------------------------------------------
def test_usable_wax_of_a_straight_jar() -> None:
    """250 g in 70 mm, put out at 12 mm, 0.90 g/mL: π·7²/4·1.2·0.9 = 41.563 g stay, by hand."""
    found = usable_wax(250, straight(70, 80), 0.90, 12)
    assert found.stays_g == pytest.approx(41.563, abs=5e-4)
    assert found.usable_g == pytest.approx(208.437, abs=5e-4)
    # 12 mm (1/2 in) in vessels: common practice, no source.
    assert STOP_IN_VESSEL_MM == 12


@given(st.floats(0, 80), st.floats(50, 500), st.floats(0, 12), st.floats(0, 5))
def test_wax_is_burnt_or_stays(stop_mm: float, filled_g: float, fillet: float, up: float) -> None:
    jar = Profile(((0, 60), (90, 76)), base_fillet_mm=fillet, push_up_mm=up)
    if jar.volume_ml(stop_mm) * 0.9 > filled_g:
        with pytest.raises(OutOfRange, match=r"burning\.nothing-burns"):
            usable_wax(filled_g, jar, 0.9, stop_mm)
        return
    found = usable_wax(filled_g, jar, 0.9, stop_mm)
    assert found.usable_g + found.stays_g == pytest.approx(filled_g)
    assert jar.height_mm(found.stays_g / 0.9) == pytest.approx(stop_mm, abs=1e-4)


# -- heat of a flame -----------------------------------------------------------------------------
@pytest.mark.parametrize(("heat", "watts"), [(43, 59.72), (38, 52.78)])
def test_power_of_a_flame_of_five_grams_an_hour(heat: float, watts: float) -> None:
    """5 g/h ÷ 3600 · ΔHc, by hand."""
    assert flame_power_w(5, heat) == pytest.approx(watts, abs=5e-3)


def test_a_paraffin_flame_is_in_the_range_of_the_books() -> None:
    # About 0.09 to 0.11 g/min and 75 to 80 W for a paraffin candle: from memory.
    assert flame_power_w(0.09 * 60, PARAFFIN_MJ_PER_KG) > 60
    assert flame_power_w(0.11 * 60, PARAFFIN_MJ_PER_KG) < 80


def test_net_heat_of_a_fat_wax_is_gross_less_the_water_it_makes() -> None:
    """Stearic acid C18H36O2 (284.48 g/mol) 39.65 MJ/kg gross (CRC Handbook); 18 H2O each, whose
    heat of vaporisation at 25 °C is computed by CoolProp."""
    from CoolProp.CoolProp import PropsSI

    vapour, liquid = (PropsSI("H", "T", 298.15, "Q", quality, "Water") for quality in (1, 0))
    water = 18 * 18.015 / 284.48
    assert pytest.approx(39.65 - water * (vapour - liquid) / 1e6, abs=0.05) == FAT_MJ_PER_KG
    # Paraffin 42 MJ/kg net (general encyclopedias); fats give 10 to 20 % less.
    assert PARAFFIN_MJ_PER_KG == 42
    assert 0.8 < FAT_MJ_PER_KG / PARAFFIN_MJ_PER_KG < 0.9


# Gross heats of combustion, MJ/kg: n-C32 46.7, stearic acid 39.65, palmitic acid 38.91 (CRC
# Handbook enthalpies): fat waxes give about 15 % less than paraffin.
def test_fats_give_fifteen_percent_less_than_paraffin() -> None:
    for acid in (39.65, 38.91):
        assert flame_power_w(5, acid) / flame_power_w(5, 46.7) == pytest.approx(0.85, abs=0.02)


def test_a_full_pool_takes_an_hour_an_inch() -> None:
    # 1 h for each 25 mm, full by 3 to 4 h: common practice, no source.
    assert full_pool_hours(25) == 1
    assert 3 <= full_pool_hours(90) <= 4


# Chamber tests of five kinds of pillar: 4.4 to 7.3 g/h in the first hour, 4.7 to 7.1 g/h steady
# ("Emissions of ultrafine particles from five types of candles during steady burn conditions",
# Indoor Air 2021): measured rates that must be accepted, and what they come to.
@pytest.mark.parametrize("rate", [4.4, 7.3, 4.7, 7.1])
def test_rates_of_real_candles_are_believed(rate: float) -> None:
    assert mean_rate((rate,)).mean_g_per_h == rate
    assert 50 < flame_power_w(rate, PARAFFIN_MJ_PER_KG) < 86


@pytest.mark.parametrize(
    ("senseless", "key"),
    [
        (lambda: Weighed(-1, 200), "burning.hours"),
        (lambda: Weighed(math.nan, 200), "burning.hours"),
        (lambda: Weighed(0, -1), "burning.mass"),
        (lambda: Weighed(0, math.inf), "burning.mass"),
        (lambda: overall_rate(LOG[:1]), "burning.too-few-weighings"),
        (lambda: fitted_rate(LOG[::-1]), "burning.order"),
        (lambda: interval_rates((Weighed(0, 200), Weighed(4, 220))), "burning.gained"),
        (lambda: mean_rate(()), "burning.no-rates"),
        (lambda: mean_rate((5, -0.1)), "burning.rate"),
        (lambda: mean_rate((math.nan,)), "burning.rate"),
        (lambda: mean_rate((501,)), "burning.rate"),
        (lambda: burn_time(-1, mean_rate(FOUR)), "burning.filled"),
        (lambda: burn_time(200, mean_rate((0, 0))), "burning.does-not-burn"),
        (lambda: usable_wax(math.nan, straight(70, 80), 0.9), "burning.filled"),
        (lambda: usable_wax(250, straight(70, 80), 0.9, 81), "burning.stop-level"),
        (lambda: usable_wax(20, straight(70, 80), 0.9), "burning.nothing-burns"),
        (lambda: usable_wax(250, straight(70, 80), 900), "density.range"),
        (lambda: flame_power_w(5, 42_000), "burning.heat"),
        (lambda: flame_power_w(math.inf, 42), "burning.rate"),
        (lambda: full_pool_hours(0), "burning.diameter"),
    ],
)
def test_senseless_burning_is_refused_in_words(senseless: Callable[[], object], key: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        senseless()
    assert refused.value.key == key
    assert "{" not in Texts().say(refused.value)
