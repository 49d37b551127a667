"""Heating a pot: against hand-worked balances, an ODE solver and Student's t of scipy."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from scipy.integrate import solve_ivp

from wickbench.domain.catalog import Wax
from wickbench.domain.errors import OutOfRange
from wickbench.domain.heat import (
    ALUMINIUM,
    OIL,
    STEEL,
    WATER,
    Portion,
    Substance,
    energy_kj,
    mixed,
    warm_before,
    wax_of_class,
)
from wickbench.domain.heat_learned import LoggedHeating, heating_time, learn
from wickbench.domain.heat_of_waxes import congeals_c, melting_range_c, pot_portions, wax_substance
from wickbench.domain.heating import Heating, heating_minutes
from wickbench.domain.wax_classes import WAX_CLASSES

SOY = wax_of_class("soy", melts_c=50.0)
PARAFFIN = wax_of_class("paraffin", melts_c=56.0)

temperatures = st.floats(-10, 120)
substances = st.builds(
    Substance,
    kj_per_kg_c=st.floats(1.5, 4.5),
    solid_kj_per_kg_c=st.none() | st.floats(1.5, 2.5),
    latent_kj_per_kg=st.floats(20, 250),
    melts_c=st.none() | st.integers(30, 75).map(float),
)
portions = st.builds(Portion, substances, st.floats(1, 5000), temperatures)
pots = st.lists(portions, min_size=1, max_size=5)


@pytest.mark.parametrize(
    ("wax", "kj", "plate_min", "melter_min"),
    [(SOY, 618.50, 13.744, 24.255), (PARAFFIN, 813.50, 18.078, 31.902)],
)
def test_two_and_a_half_kilograms_from_20_to_82(
    wax: Substance, kj: float, plate_min: float, melter_min: float
) -> None:
    """E = m [c_s (Tm - T0) + L + c_l (T - Tm)], t = E / (η P), worked out by hand."""
    heat_kj = energy_kj([Portion(wax, 2500, 20)], 82)
    assert heat_kj == pytest.approx(kj, abs=0.005)
    assert heating_minutes(heat_kj, 1500, 0.5) == pytest.approx(plate_min, abs=0.001)
    assert heating_minutes(heat_kj, 500, 0.85) == pytest.approx(melter_min, abs=0.001)


def test_water_bath_and_steel_pot() -> None:
    """Worked out by hand; the steel is 90 °C in the end, between the bath and the wax."""
    job = Heating(
        waxes=(Portion(SOY, 2500, 20),),
        to_c=82,
        water_g=1500,
        water_to_c=95,
        metal_g=1200,
        metal_to_c=90,
    )
    assert job.water_kj == pytest.approx(470.925)
    assert job.metal_kj == pytest.approx(42.0)
    assert job.energy_kj == pytest.approx(1131.425)
    assert heating_minutes(job.energy_kj, 1500, 0.6) == pytest.approx(20.952, abs=0.001)


def test_specific_heats_of_bath_and_pots() -> None:
    """Handbook values at 20 °C: water 4.18, steel 0.5, aluminium 0.9 kJ/(kg K)."""
    heats = [what.kj_per_kg_c for what in (WATER, STEEL, ALUMINIUM)]
    assert heats == pytest.approx([4.186, 0.50, 0.90])


def test_heating_time_against_an_ode_in_which_melting_is_smeared_over_two_degrees() -> None:
    power_kj_per_min, mass_kg, melts_c, half_c = 1500 * 0.5 * 60 / 1000, 2.5, 50.0, 1.0

    def warming(_: float, state: np.ndarray) -> list[float]:
        celsius = float(state[0])
        bump = 120 / (2 * half_c) if abs(celsius - melts_c) < half_c else 0.0
        capacity = (1.9 if celsius < melts_c else 2.2) + bump
        return [power_kj_per_min / (mass_kg * capacity)]

    def hot(_: float, state: np.ndarray) -> float:
        return float(state[0]) - 82.0

    vars(hot)["terminal"] = True
    done = solve_ivp(warming, (0, 60), [20.0], events=hot, max_step=0.01, rtol=1e-8)
    heat_kj = energy_kj([Portion(SOY, 2500, 20)], 82)
    assert heating_minutes(heat_kj, 1500, 0.5) == pytest.approx(done.t_events[0][0], abs=0.01)


def test_terms_that_do_not_apply_fall_away() -> None:
    assert energy_kj([Portion(SOY, 1000, 60)], 80) == pytest.approx(2.2 * 20)
    assert energy_kj([Portion(SOY, 1000, 20)], 40) == pytest.approx(1.9 * 20)
    assert energy_kj([Portion(SOY, 1000, 80)], 60) == pytest.approx(-2.2 * 20)


@pytest.mark.parametrize("name", WAX_CLASSES)
def test_every_class_of_wax_has_heats_and_calls_them_estimates(name: str) -> None:
    wax = wax_of_class(name)
    low, high = WAX_CLASSES[name].melts_c
    assert wax.estimate
    assert wax.melts_c is not None
    assert low < wax.melts_c < high
    per_kg = energy_kj([Portion(wax, 1000, 20)], 100)
    assert WAX_CLASSES[name].latent_heat_kj_per_kg < per_kg < 450


def test_cold_oil_and_cold_flakes() -> None:
    """T = Σ m c T / Σ m c by hand; flakes take their latent heat as well."""
    with_oil = mixed([Portion(SOY, 1000, 85), Portion(OIL, 80, 20)])
    assert with_oil.celsius == pytest.approx(80.593, abs=0.001)
    assert not with_oil.solid_below
    with_flakes = mixed([Portion(SOY, 2000, 85), Portion(SOY, 500, 20)])
    assert with_flakes.celsius == pytest.approx(61.909, abs=0.001)
    assert with_flakes.unmelted_g == 0


def test_too_many_flakes_stay_partly_solid_at_the_melting_point() -> None:
    """By hand: 2.2·35 = 77 kJ against 1.9·30 = 57 to warm them; 20 kJ melt 166.67 of 1000 g."""
    mush = mixed([Portion(SOY, 1000, 85), Portion(SOY, 1000, 20)])
    assert mush.celsius == 50
    assert mush.unmelted_g == pytest.approx(1000 - 20 / 120 * 1000)
    assert mush.solid_below


def test_mixing_below_every_melting_point() -> None:
    assert mixed([Portion(SOY, 500, 10), Portion(SOY, 500, 30)]).celsius == pytest.approx(20)


def test_how_hot_before_the_oil_goes_in() -> None:
    """By hand: 80 g · 2.0 · (75 - 20) = 8.8 kJ; 1 kg · 2.2 → 4 °C."""
    cold = [Portion(OIL, 80, 20)]
    assert warm_before(75, Portion(SOY, 1000, 0), cold) == pytest.approx(79.0)


def test_a_wax_of_the_shelf_melts_as_entered_or_as_its_class() -> None:
    """Soy 46 to 54 °C: common practice, no source."""
    assert melting_range_c(Wax(wax_class="soy")) == (46.0, 54.0)
    assert melting_range_c(Wax(wax_class="soy", melts_from_c=48, melts_to_c=52)) == (48, 52)
    assert melting_range_c(Wax(wax_class="soy", melts_to_c=51)) == (51, 51)
    assert melting_range_c(Wax(wax_class="none such")) == WAX_CLASSES["other"].melts_c
    assert wax_substance(Wax(wax_class="soy", melts_from_c=48, melts_to_c=52)) == SOY
    with pytest.raises(OutOfRange, match=r"heat\.melts-upside-down"):
        melting_range_c(Wax(melts_from_c=60, melts_to_c=50))


def test_a_blend_begins_to_set_no_hotter_than_its_hardest_wax() -> None:
    blend = [Wax(wax_class="soy"), Wax(wax_class="beeswax"), Wax(wax_class="coconut")]
    assert congeals_c(blend) == 65.0
    with pytest.raises(OutOfRange, match=r"heat\.nothing-to-heat"):
        congeals_c([])


def test_a_blend_takes_the_heat_of_its_parts() -> None:
    """By hand, 20 → 82 °C: 2 kg soy (melting at 50) 494.8 kJ, 1 kg paraffin (at 56) 325.4 kJ.

    3 g of dye as wax of no class, melting at 55: 3·(2.0·35 + 150 + 2.2·27)/1000 = 0.8382 kJ.
    """
    waxes = {
        "soy": Wax(wax_class="soy", melts_to_c=50),
        "paraffin": Wax(wax_class="paraffin", melts_to_c=56),
    }
    pot = pot_portions({"soy": 2000, "paraffin": 1000, "dye": 0}, waxes, 20)
    assert len(pot) == 2
    assert energy_kj(pot, 82) == pytest.approx(494.8 + 325.4)
    with_dye = pot_portions({"soy": 2000, "paraffin": 1000, "dye": 3}, waxes, 20)
    assert energy_kj(with_dye, 82) - energy_kj(pot, 82) == pytest.approx(0.8382)


@given(pots)
def test_mixing_keeps_the_heat(pot: list[Portion]) -> None:
    after = mixed(pot)
    assert min(part.celsius for part in pot) - 1e-9 <= after.celsius
    assert after.celsius <= max(part.celsius for part in pot) + 1e-9
    before = math.fsum(part.content_kj() for part in pot)
    melting = {part.substance.latent_kj_per_kg for part in pot if melts_at(part, after.celsius)}
    scale = max(1.0, math.fsum(abs(part.content_kj()) for part in pot))
    if not melting:
        kept = math.fsum(part.content_kj(after.celsius) for part in pot)
        assert kept == pytest.approx(before, abs=1e-9 * scale)
    elif len(melting) == 1:
        kept = math.fsum(part.content_kj(after.celsius) for part in pot)
        kept -= after.unmelted_g / 1000 * melting.pop()
        assert kept == pytest.approx(before, abs=1e-8 * scale)


def melts_at(part: Portion, celsius: float) -> bool:
    return part.substance.melts_c is not None and abs(part.substance.melts_c - celsius) < 1e-7


@given(st.floats(55, 95), st.floats(100, 5000), st.floats(1, 600), st.floats(0, 40))
def test_warming_before_is_the_inverse_of_mixing(
    wanted_c: float, wax_g: float, oil_g: float, oil_c: float
) -> None:
    cold = Portion(OIL, min(oil_g, wax_g / 8), oil_c)
    before_c = warm_before(wanted_c, Portion(SOY, wax_g, 0), [cold])
    assert mixed([Portion(SOY, wax_g, before_c), cold]).celsius == pytest.approx(wanted_c)


@given(pots, temperatures, temperatures)
def test_energy_grows_with_temperature_and_adds_up(pot: list[Portion], a: float, b: float) -> None:
    low, high = sorted((a, b))
    assert energy_kj(pot, low) <= energy_kj(pot, high) + 1e-9
    alone = math.fsum(energy_kj([part], high) for part in pot)
    assert energy_kj(pot, high) == pytest.approx(alone, abs=1e-6)


def log(efficiency: float, minutes: float = 40.0) -> LoggedHeating:
    return LoggedHeating(efficiency * 1.5 * minutes * 60, 1500, minutes)


def test_a_logged_heating_gives_back_its_efficiency() -> None:
    heat_kj = energy_kj([Portion(SOY, 2500, 20)], 82)
    minutes = heating_minutes(heat_kj, 1500, 0.43)
    assert LoggedHeating(heat_kj, 1500, minutes).efficiency == pytest.approx(0.43)


def test_learned_range_is_students_for_one_more_value() -> None:
    """Prediction interval m ± t s sqrt(1 + 1/n) on logarithms, t from scipy."""
    seen = [0.42, 0.45, 0.44, 0.47, 0.43]
    learned = learn([log(one) for one in seen])
    logs = np.log(seen)
    reach = stats.t.ppf(0.975, 4) * logs.std(ddof=1) * math.sqrt(1 + 1 / 5)
    assert learned.efficiency == pytest.approx(0.44)
    assert learned.high / learned.efficiency == pytest.approx(math.exp(reach))
    assert learned.efficiency / learned.low == pytest.approx(math.exp(reach))
    assert learned.sure == "well"
    assert learned.pours == 5


def test_two_pours_teach_little_and_say_so() -> None:
    learned = learn([log(0.40), log(0.48)])
    assert learned.efficiency == pytest.approx(math.sqrt(0.40 * 0.48))
    assert learned.sure == "hardly"
    assert learned.low < 0.2


def test_equal_times_are_only_as_sure_as_the_clock_is_read() -> None:
    """Half a minute in 40 as a rectangle: u = 0.5/√3/40 (JCGM 100:2008, 4.3.7)."""
    learned = learn([log(0.5)] * 4)
    reach = stats.t.ppf(0.975, 3) * 0.5 / math.sqrt(3) / 40 * math.sqrt(1.25)
    assert learned.high / 0.5 == pytest.approx(math.exp(reach))


def test_a_forgotten_pot_is_left_out() -> None:
    learned = learn([log(0.44), log(0.45), log(0.12), log(0.46), log(0.45)])
    assert learned.left_out == (2,)
    assert learned.efficiency == pytest.approx(0.45)


def test_more_heat_than_drawn_is_told() -> None:
    assert learn([log(1.1), log(1.12)]).too_good
    assert not learn([log(0.9), log(0.85)]).too_good


def test_at_best_and_what_is_to_be_expected() -> None:
    """Hot plate under a bath 0.4 to 0.6: common practice, no source; at best t = E / P."""
    guess = heating_time(618.5, 1500)
    assert guess.at_best_min == pytest.approx(618.5 / 1.5 / 60, abs=1e-9)
    assert guess.low_min == pytest.approx(618.5 / 0.9 / 60, abs=1e-9)
    assert guess.high_min == pytest.approx(618.5 / 0.6 / 60, abs=1e-9)
    assert guess.likely_min is None
    learned = heating_time(618.5, 1500, learned=learn([log(0.3), log(0.31), log(0.32)]))
    assert learned.learned
    assert learned.likely_min is not None
    assert learned.likely_min == pytest.approx(618.5 / (0.31 * 1.5) / 60)
    assert learned.at_best_min <= learned.low_min <= learned.likely_min <= learned.high_min


@given(st.lists(st.floats(0.1, 1.2), min_size=2, max_size=8))
def test_times_stand_in_their_order(seen: list[float]) -> None:
    time = heating_time(500, 1500, learned=learn([log(one) for one in seen]))
    assert time.likely_min is not None
    assert time.at_best_min <= time.low_min + 1e-9 <= time.likely_min + 2e-9
    assert time.likely_min <= time.high_min + 1e-9


@pytest.mark.parametrize(
    ("senseless", "key"),
    [
        (lambda: Heating(waxes=(Portion(SOY, 1, 20),), to_c=80, water_g=1, water_to_c=120),
         "heat.water-boils"),
        (lambda: Heating(waxes=(Portion(SOY, 1, 20),), to_c=80, water_g=1, water_to_c=75),
         "heat.bath-too-cold"),
        (lambda: Heating(waxes=(), to_c=80), "heat.nothing-to-heat"),
        (lambda: Heating(waxes=(Portion(SOY, 1, 90),), to_c=80), "heat.already-warm"),
        (lambda: Portion(SOY, -1, 20), "heat.mass"),
        (lambda: Portion(SOY, 1, math.nan), "heat.temperature"),
        (lambda: Substance(kj_per_kg_c=0), "heat.specific"),
        (lambda: Substance(kj_per_kg_c=2, latent_kj_per_kg=-1), "heat.latent"),
        (lambda: heating_minutes(100, 0, 0.5), "heat.power"),
        (lambda: heating_minutes(100, 1500, 0), "heat.efficiency"),
        (lambda: heating_minutes(math.inf, 1500, 0.5), "heat.energy"),
        (lambda: heating_time(100, 1500, heater="campfire"), "heat.heater"),
        (lambda: wax_of_class("butter"), "heat.wax-class"),
        (lambda: mixed([]), "heat.nothing-to-heat"),
        (lambda: learn([log(0.5)]), "heat.too-few-pours"),
        (lambda: learn([log(0.5), log(3)]), "heat.log-impossible"),
        (lambda: LoggedHeating(1, 1, 0), "heat.minutes"),
    ],
)  # fmt: skip
def test_senseless_heat_is_refused(senseless: object, key: str) -> None:
    assert callable(senseless)
    with pytest.raises(OutOfRange) as refused:
        senseless()
    assert refused.value.key == key
