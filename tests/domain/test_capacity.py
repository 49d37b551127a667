"""Capacity from water and a scale, with its doubt, against the GUM and scipy."""

from __future__ import annotations

import math
import random
from statistics import fmean, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.capacity import spread_of
from wickbench.domain.capacity_advice import capacity_advice
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Rank
from wickbench.domain.vessels import Weighing, measured_capacity
from wickbench.domain.water import z_factor

READINGS_G = (254.1, 254.6, 253.8, 254.4, 254.2)


def of_one_jar(*masses_g: float, water_c: float = 22.0) -> list[Weighing]:
    return [Weighing(310.0, 310.0 + mass_g, water_c) for mass_g in masses_g]


def of_jars(*masses_g: float, water_c: float = 22.0) -> list[Weighing]:
    return [Weighing(310.0, 310.0 + m, water_c, number) for number, m in enumerate(masses_g, 1)]


def gum_example() -> dict[str, float]:
    """The same measurement by the uncertainties library, its partial derivatives its own."""
    import uncertainties.umath as um
    from uncertainties import ufloat

    root3 = math.sqrt(3)
    mass = ufloat(fmean(READINGS_G), stdev(READINGS_G) / math.sqrt(5), "repeats")
    mass += ufloat(0, 0.1 / math.sqrt(6), "reading") + ufloat(0, 0.2 / root3, "scale")
    t, p = ufloat(22, 1 / root3, "temperature"), ufloat(1013.25, 20 / root3, "pressure")
    water = 999.97495 * (1 - (t - 3.983035) ** 2 * (t + 301.797) / (522528.9 * (t + 69.34881)))
    air = (0.34848 * p - 0.009 * 50 * um.exp(0.061 * t)) / (273.15 + t)
    volume = mass * 1000 * (1 - air / 8000) / (water - air)
    volume += math.pi / 4 * 70**2 / 1000 * ufloat(0, 0.3 / root3, "line")
    parts = {variable.tag: abs(u) for variable, u in volume.error_components().items()}
    return {"volume": volume.nominal_value, "standard": volume.std_dev, **parts}


def test_the_doubt_agrees_with_the_uncertainties_library() -> None:
    reference = gum_example()
    capacity = measured_capacity(of_one_jar(*READINGS_G), mouth_mm=70)
    assert capacity.volume_ml == pytest.approx(reference.pop("volume"), rel=1e-9)
    assert capacity.standard_uncertainty_ml == pytest.approx(reference.pop("standard"), rel=1e-6)
    assert dict(capacity.contributions) == pytest.approx(reference, rel=1e-5)


def test_the_worked_example_by_the_gum() -> None:
    # JCGM 100:2008 worked by hand for these five readings: d 0.1 g, scale ± 0.2 g, 22 ± 1 °C,
    # 1013.25 ± 20 hPa, line ± 0.3 mm over 70 mm.
    capacity = measured_capacity(of_one_jar(*READINGS_G), mouth_mm=70, scale_error_g=0.2)
    assert capacity.volume_ml == pytest.approx(255.0538, abs=5e-5)
    assert capacity.standard_uncertainty_ml == pytest.approx(0.69212, abs=5e-6)
    assert capacity.effective_degrees == pytest.approx(2676, abs=0.5)
    assert capacity.coverage_factor == pytest.approx(1.961, abs=5e-4)
    assert capacity.expanded_uncertainty_ml == pytest.approx(1.357, abs=5e-4)
    assert capacity.biggest_doubt[0] == "line"


def test_repeats_alone_are_student_s_interval() -> None:
    from scipy import stats

    capacity = measured_capacity(
        of_one_jar(*READINGS_G), scale_reads_to_g=0.0001, water_c_error=0, hectopascal_error=0
    )
    volumes = [mass * z_factor(22) for mass in READINGS_G]
    low, high = stats.t.interval(0.95, 4, fmean(volumes), stats.sem(volumes))
    # ± 0.378 mL: the scale's step of 0.1 mg adds nothing that shows.
    assert capacity.expanded_uncertainty_ml == pytest.approx((high - low) / 2, rel=1e-5)


def test_glass_is_brought_back_to_twenty_degrees() -> None:
    # ISO 4787: V20 = m·Z·[1 - γ(t - 20)]; 212.40 g, Z 1.0033 (ISO 8655-6), γ 27·10⁻⁶: 213.089.
    capacity = measured_capacity(of_one_jar(212.40), hectopascal=1013, glass_expansion_per_c=27e-6)
    assert capacity.volume_ml == pytest.approx(213.089, abs=0.01)
    assert capacity.volume_ml / measured_capacity(
        of_one_jar(212.40), hectopascal=1013
    ).volume_ml == pytest.approx(1 - 27e-6 * 2, rel=1e-9)


def test_the_next_jar_is_a_prediction_interval() -> None:
    # t(0.975, 3)·s·√(1 + 1/4) with t 3.1824 (GUM, table G.2): 0.88952 for these four.
    capacity = measured_capacity(of_jars(205.1, 204.8, 205.4, 205.0, water_c=20))
    assert capacity.next_vessel_ml == pytest.approx(0.88952 * z_factor(20), rel=2e-5)
    assert capacity.n_vessels == 4
    assert capacity.spread_within_ml is None


def test_a_prediction_interval_holds_the_next_jar_in_95_of_100_cases() -> None:
    # Monte Carlo with a fixed seed; 3 standard errors of the share are 1.5 %.
    chance = random.Random(4)  # noqa: S311 - a fixed seed, no secrets
    held = 0
    for _ in range(2000):
        *seen, following = (chance.gauss(250, 3) for _ in range(6))
        capacity = measured_capacity(of_jars(*seen, water_c=20))
        assert capacity.next_vessel_ml is not None
        held += abs(following * z_factor(20) - capacity.volume_ml) <= capacity.next_vessel_ml
    assert held / 2000 == pytest.approx(0.95, abs=0.015)


# JCGM 100:2008, table H.9: daily means and standard deviations of 5 repeats, V = 10 V + µV.
GUM_DAYS = [
    (172, 60), (116, 77), (13, 111), (144, 101), (106, 67),
    (31, 93), (60, 80), (125, 73), (163, 88), (41, 86),
]  # fmt: skip


def test_repeats_and_differences_are_kept_apart_as_in_the_gum() -> None:
    # Five values with the printed mean and standard deviation stand for each day.
    shape = (-1.2649110640673518, -0.6324555320336759, 0.0, 0.6324555320336759, 1.2649110640673518)
    days = {n: [mean + s * x for x in shape] for n, (mean, s) in enumerate(GUM_DAYS)}
    spread = spread_of(days)
    assert spread.mean == pytest.approx(97.1)
    assert spread.of_means == pytest.approx(57, abs=0.6)  # s of the daily means
    assert spread.within == pytest.approx(85, abs=0.6)  # pooled within days
    assert spread.between == pytest.approx(43, abs=0.6)  # between days
    assert math.hypot(spread.u_repeats, spread.u_vessels) == pytest.approx(18, abs=0.3)
    assert spread.degrees == 9


def test_each_jar_counts_once() -> None:
    weighings = [*of_one_jar(200, 200, 200, 200), Weighing(310, 514, 22, 2)]
    assert measured_capacity(weighings).volume_ml == pytest.approx(202 * z_factor(22))


def test_jars_that_differ_no_more_than_repeats_leave_no_difference() -> None:
    weighings = [Weighing(0, m, 20, n) for n in (1, 2, 3) for m in (249, 250, 251)]
    capacity = measured_capacity(weighings)
    assert capacity.spread_between_ml == 0
    assert capacity.spread_within_ml == pytest.approx(z_factor(20))
    assert dict(capacity.contributions)["repeats"] == pytest.approx(z_factor(20) / 3)


def test_one_reading_works_and_says_how_little_it_tells() -> None:
    capacity = measured_capacity(of_one_jar(254.2))
    assert capacity.volume_ml == pytest.approx(255.0337, abs=1e-3)
    assert capacity.next_vessel_ml is None
    assert capacity.effective_degrees == math.inf
    assert capacity_advice(capacity)[0].key == "vessel.one-weighing"


def test_one_jar_many_times_is_advised_against() -> None:
    found = capacity_advice(measured_capacity(of_one_jar(*READINGS_G), mouth_mm=70))
    assert [finding.key for finding in found] == ["vessel.one-vessel", "vessel.doubt-line"]
    assert found[0].data["weighings"] == 5


def test_two_jars_say_little() -> None:
    found = capacity_advice(measured_capacity(of_jars(254.0, 255.0)))
    assert "vessel.two-vessels" in {finding.key for finding in found}


def test_several_jars_once_are_fine() -> None:
    found = capacity_advice(measured_capacity(of_jars(253, 255, 254.4, 254)))
    assert [finding.key for finding in found] == ["vessel.doubt-vessels"]


def test_a_misread_jar_is_named() -> None:
    capacity = measured_capacity(of_jars(253, 255, 254.4, 354, 254))
    assert capacity.outlier_index == 3
    odd = capacity_advice(capacity)[0]
    assert (odd.rank, odd.key, odd.data["weighing_no"]) == (Rank.WATCH, "vessel.odd-weighing", 4)


def test_a_misread_repeat_is_named_among_other_jars() -> None:
    weighings = [*of_jars(253.0), *of_one_jar(253.2, 245.0, 253.1, 253.3), Weighing(0, 255, 22, 2)]
    assert measured_capacity(weighings).outlier_index == 2


@pytest.mark.parametrize(
    ("weighing", "key"),
    [
        (Weighing(310, 310, 22), "vessel.not-heavier"),
        (Weighing(565, 310, 22), "vessel.not-heavier"),
        (Weighing(-1, 310, 22), "vessel.empty-mass"),
        (Weighing(math.nan, 310, 22), "vessel.empty-mass"),
        (Weighing(310, math.inf, 22), "vessel.filled-mass"),
        (Weighing(310, 565, 120), "vessel.water-temperature"),
        (Weighing(310, 565, math.nan), "vessel.water-temperature"),
        (Weighing(310, 565, 22, 0), "vessel.number"),
    ],
)
def test_a_reading_that_cannot_be_is_named(weighing: Weighing, key: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        measured_capacity([*of_one_jar(254.2, 254.3), weighing])
    assert caught.value.key == key
    assert caught.value.data["weighing_no"] == 3


def test_no_weighings_are_refused() -> None:
    with pytest.raises(OutOfRange) as caught:
        measured_capacity([])
    assert caught.value.key == "vessel.no-weighings"


@pytest.mark.parametrize(
    "conditions",
    [
        {"scale_reads_to_g": 0.0},
        {"scale_error_g": -1.0},
        {"mouth_mm": 0.0},
        {"mouth_mm": math.nan},
        {"hectopascal": 10.0},
        {"humidity_percent": 120.0},
        {"water_c_error": -1.0},
        {"hectopascal_error": math.inf},
        {"line_error_mm": -0.1},
        {"glass_expansion_per_c": 1.0},
    ],
)
def test_conditions_that_cannot_be_are_refused(conditions: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        measured_capacity(of_one_jar(254.2), **conditions)


masses = st.lists(st.floats(50, 500), min_size=2, max_size=7)


@given(masses, st.floats(5, 35), st.randoms(use_true_random=False))
def test_the_order_of_weighings_does_not_matter(
    masses_g: list[float], water_c: float, chance: random.Random
) -> None:
    weighings = [Weighing(0, m, water_c, n // 2 + 1) for n, m in enumerate(masses_g)]
    shuffled = weighings.copy()
    chance.shuffle(shuffled)
    one, other = measured_capacity(weighings), measured_capacity(shuffled)
    assert one.volume_ml == pytest.approx(other.volume_ml)
    assert one.standard_uncertainty_ml == pytest.approx(other.standard_uncertainty_ml)
    assert one.next_vessel_ml == pytest.approx(other.next_vessel_ml)


@given(masses, st.floats(5, 35))
def test_the_doubt_is_the_root_of_the_squares(masses_g: list[float], water_c: float) -> None:
    capacity = measured_capacity(of_jars(*masses_g, water_c=water_c), mouth_mm=60)
    root = math.hypot(*(u for _, u in capacity.contributions))
    assert capacity.standard_uncertainty_ml == pytest.approx(root)
    assert capacity.coverage_factor >= 1.9599


@given(st.floats(0, 400), st.floats(20, 500))
def test_a_tared_scale_measures_the_same(empty_g: float, water_g: float) -> None:
    tared = measured_capacity([Weighing(0, water_g, 20)])
    untared = measured_capacity([Weighing(empty_g, empty_g + water_g, 20)])
    assert tared.volume_ml == pytest.approx(untared.volume_ml)
