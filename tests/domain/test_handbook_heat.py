"""Heating and cooling against CoolProp, scipy's solvers and hand-worked cases."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.optimize import curve_fit

from wickbench.domain.cooling import Reading
from wickbench.domain.cooling_fit import cooling_of
from wickbench.domain.heat import (
    ALUMINIUM,
    OIL,
    STEEL,
    WATER,
    Portion,
    energy_kj,
    mixed,
    wax_of_class,
)
from wickbench.domain.heating import Heating, heating_minutes
from wickbench.domain.pouring_time import holding_power_w, loss_w_per_c, plateau_minutes

if TYPE_CHECKING:
    from numpy.typing import NDArray

SOY = wax_of_class("soy", melts_c=50.0)
PARAFFIN = wax_of_class("paraffin", melts_c=56.0)


def test_a_bath_takes_the_heat_that_coolprop_says() -> None:
    """1.5 kg of water from 20 to 95 °C: 470.93 kJ with 4.186 kJ/kg/K; the true enthalpies of
    water at 101 325 Pa by CoolProp."""
    from CoolProp.CoolProp import PropsSI

    cold, hot = (PropsSI("H", "T", 273.15 + at, "P", 101325, "Water") / 1000 for at in (20, 95))
    ours = energy_kj([Portion(WATER, 1500, 20)], 95)
    assert ours == pytest.approx(470.93, abs=6e-3)
    assert ours == pytest.approx(1.5 * (hot - cold), rel=3e-3)


def test_metals_are_those_of_any_handbook() -> None:
    # Steel 0.50 (stainless), aluminium 0.90 kJ/kg/K; steel 1.2 kg from 20 to 90 °C: 42.00 kJ.
    assert (STEEL.kj_per_kg_c, ALUMINIUM.kj_per_kg_c) == (0.50, 0.90)
    assert energy_kj([Portion(STEEL, 1200, 20)], 90) == pytest.approx(42.00)


@pytest.mark.parametrize(
    ("wax", "kj_per_kg", "plate", "melter"),
    [(SOY, 247.40, 13.744, 24.255), (PARAFFIN, 325.40, 18.078, 31.902)],
)
def test_a_kilogram_from_room_to_pouring(
    wax: object, kj_per_kg: float, plate: float, melter: float
) -> None:
    """2.5 kg from 20 to 82 °C, by hand: 1500 W at 50 % and 500 W at 85 %."""
    heat = energy_kj([Portion(wax, 2500, 20)], 82)  # type: ignore[arg-type]
    assert heat / 2.5 == pytest.approx(kj_per_kg, abs=5e-3)
    assert heating_minutes(heat, 1500, 0.5) == pytest.approx(plate, abs=1e-3)
    assert heating_minutes(heat, 500, 0.85) == pytest.approx(melter, abs=1e-3)


def test_with_bath_and_pot() -> None:
    """1131.42 kJ and 20.952 min at 1500 W and 60 %, by hand."""
    job = Heating(waxes=(Portion(SOY, 2500, 20),), to_c=82, water_g=1500, metal_g=1200,
                  metal_to_c=90)  # fmt: skip
    assert job.energy_kj == pytest.approx(1131.42, abs=6e-3)
    assert heating_minutes(job.energy_kj, 1500, 0.6) == pytest.approx(20.952, abs=1e-3)


@given(
    st.floats(200, 5000), st.floats(10, 30), st.floats(60, 95), st.floats(300, 2500),
    st.floats(0.3, 0.95),
)  # fmt: skip
@settings(max_examples=12)
def test_heating_by_an_ode_of_the_heat_content(
    mass_g: float, from_c: float, to_c: float, power_w: float, share: float
) -> None:
    """Heat content grows by η·P; temperature read from it; scipy's ``solve_ivp`` with an event."""
    solid_kj, liquid_kj = 1.9 * 50, 1.9 * 50 + 120
    wanted = liquid_kj + 2.2 * (to_c - 50)

    def there(_: float, content: NDArray[np.float64]) -> float:
        return float(content[0]) - wanted

    vars(there)["terminal"] = True
    rate = power_w * share * 60 / 1000 / (mass_g / 1000)
    done = solve_ivp(lambda *_: [rate], (0, 1e4), [1.9 * from_c], events=there)
    heat = energy_kj([Portion(SOY, mass_g, from_c)], to_c)
    assert from_c * 1.9 < solid_kj
    minutes = heating_minutes(heat, power_w, share)
    assert minutes == pytest.approx(float(done.t_events[0][0]), rel=1e-6)


def test_cold_things_in_the_pot() -> None:
    """1000 g wax at 85 °C and 80 g oil at 20 °C: 80.593 °C, 4 to 5 °C cooler; 500 g of flakes in
    2000 g: 61.909 °C. By hand."""
    with_oil = mixed([Portion(SOY, 1000, 85), Portion(OIL, 80, 20)]).celsius
    assert with_oil == pytest.approx(80.593, abs=5e-4)
    assert 4 < 85 - with_oil < 5
    flakes = mixed([Portion(SOY, 2000, 85), Portion(SOY, 500, 20)]).celsius
    assert flakes == pytest.approx(61.909, abs=5e-4)


def test_newton_from_two_readings() -> None:
    """82 → 74 °C in 10 min, room 21 °C: k 0.01405820/min, 57 °C after 37.5123 min, half time
    49.306 min. By hand."""
    cooling = cooling_of((Reading(0, 82), Reading(10, 74)), room_c=21, congeals_c=50)
    assert cooling.rate_per_min == pytest.approx(0.01405820, abs=5e-9)
    assert cooling.minute_of(57) == pytest.approx(37.5123, abs=5e-5)
    assert cooling.half_min == pytest.approx(49.306, abs=5e-4)
    assert plateau_minutes(cooling, SOY) == pytest.approx(133.792, abs=5e-4)
    loss = loss_w_per_c(cooling, 2500, 2.2)
    assert loss == pytest.approx(1.289, abs=5e-4)
    assert holding_power_w(cooling, 2500, 2.2, 75) == pytest.approx(loss * (75 - 21))


noisy = st.lists(st.floats(-0.4, 0.4), min_size=4, max_size=8)


@given(noisy, st.floats(0.006, 0.03), st.floats(15, 26))
@settings(max_examples=25)
def test_any_readings_against_curve_fit(off: list[float], rate: float, room_c: float) -> None:
    minutes = [4.0 * place for place in range(len(off))]
    read = [
        room_c + 62 * math.exp(-rate * minute) + error
        for minute, error in zip(minutes, off, strict=True)
    ]

    def newton(at: NDArray[np.float64], height: float, fall: float) -> NDArray[np.float64]:
        return np.asarray(height * np.exp(-fall * np.asarray(at)))

    above = [celsius - room_c for celsius in read]
    (height, fall), _ = curve_fit(newton, minutes, above, p0=(62, rate))
    readings = [Reading(minute, celsius) for minute, celsius in zip(minutes, read, strict=True)]
    found = cooling_of(readings, room_c=room_c, congeals_c=27)
    assert found.rate_per_min == pytest.approx(fall, rel=1e-5)
    assert found.start_c - room_c == pytest.approx(height, rel=1e-6)
    # The inverse: the minute of a temperature has that temperature.
    for celsius in (found.start_c - 5, found.start_c - 15):
        assert found.at(found.minute_of(celsius)) == pytest.approx(celsius)
