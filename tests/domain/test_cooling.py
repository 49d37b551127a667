"""Cooling by Newton's law: against scipy's curve fit, its ODE solver and hand-worked cases."""

from __future__ import annotations

import math
from functools import partial
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import stats
from scipy.integrate import solve_ivp
from scipy.optimize import curve_fit

from wickbench.domain import cooling, cooling_fit
from wickbench.domain.cooling import Cooling, Reading
from wickbench.domain.cooling_fit import cooling_of, log_linear
from wickbench.domain.errors import OutOfRange
from wickbench.domain.heat import wax_of_class
from wickbench.domain.pouring_time import (
    holding_power_w,
    loss_w_per_c,
    plateau_minutes,
    pour_window,
    setting_time,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

SOY = wax_of_class("soy", melts_c=50.0)
TWO = (Reading(0, 82), Reading(10, 74))
SIX = tuple(
    Reading(5.0 * place, celsius)
    for place, celsius in enumerate((85, 80.6, 76.4, 72.7, 69.2, 66.1))
)


@pytest.fixture
def two() -> Cooling:
    return cooling_of(TWO, room_c=21, congeals_c=50)


@pytest.fixture
def six() -> Cooling:
    return cooling_of(SIX, room_c=22, congeals_c=48)


def newton(minutes: NDArray[np.float64], height: float, rate: float) -> NDArray[np.float64]:
    return np.asarray(height * np.exp(-rate * np.asarray(minutes)))


def ode(slope: Callable[[float, float], float], start_c: float, until_c: float) -> float:
    """Minute at which a temperature that changes by ``slope`` comes down to ``until_c``."""

    def reached(_: float, state: NDArray[np.float64]) -> float:
        return float(state[0]) - until_c

    vars(reached)["terminal"] = True
    done = solve_ivp(
        lambda t, y: [slope(t, float(y[0]))],
        (0, 2000),
        [start_c],
        events=reached,
        rtol=1e-9,
        atol=1e-9,
        max_step=0.5,
    )
    return float(done.t_events[0][0])


def test_two_readings_and_the_room(two: Cooling) -> None:
    """k = ln(61/53)/10 and t = ln(61/36)/k, by hand."""
    assert two.rate_per_min == pytest.approx(0.01405820, abs=5e-9)
    assert two.minute_of(57) == pytest.approx(37.5123, abs=5e-5)
    assert two.half_min == pytest.approx(49.306, abs=5e-4)
    assert two.at(10) == pytest.approx(74)


def test_two_readings_against_an_ode(two: Cooling) -> None:
    minute = ode(lambda _, celsius: -two.rate_per_min * (celsius - 21), 82, 57)
    assert two.minute_of(57) == pytest.approx(minute, abs=1e-5)


def test_six_readings_against_curve_fit(six: Cooling) -> None:
    """Least squares of temperatures; ``scipy.optimize.curve_fit`` gives the same."""
    minutes = [reading.minute for reading in SIX]
    above = [reading.celsius - 22 for reading in SIX]
    (height, rate), spread = curve_fit(newton, minutes, above, p0=(60, 0.01))
    assert six.start_c - 22 == pytest.approx(height, rel=1e-6)
    assert six.rate_per_min == pytest.approx(rate, rel=1e-6)
    assert six.rate_per_min == pytest.approx(0.014338, abs=5e-7)
    assert six.start_c - 22 == pytest.approx(62.9299, abs=5e-5)
    assert six.minute_of(60) == pytest.approx(35.182, abs=5e-4)
    assert six.spread[0] == pytest.approx(spread[0, 0], rel=1e-4)
    assert six.spread[1] == pytest.approx(spread[1, 1], rel=1e-4)
    assert six.spread[2] == pytest.approx(spread[0, 1], rel=1e-4)
    assert six.degrees == 4


def test_six_readings_on_a_line_of_logarithms() -> None:
    """``numpy.polyfit`` of the logarithms; where the search begins."""
    minutes = [reading.minute for reading in SIX]
    above = [reading.celsius - 22 for reading in SIX]
    height, rate = log_linear(minutes, above)
    slope, at_zero = np.polyfit(minutes, np.log(above), 1)
    assert rate == pytest.approx(-slope)
    assert height == pytest.approx(math.exp(at_zero))
    assert (rate, height) == pytest.approx((0.014302, 62.9040), rel=5e-5)
    assert math.log(height / 38) / rate == pytest.approx(35.242, abs=1e-3)


def test_doubt_of_the_minute_is_carried_by_its_slopes(six: Cooling) -> None:
    """Delta method on the curve fit's covariance, slopes taken numerically, t from scipy."""
    above = [reading.celsius - 22 for reading in SIX]
    fitted, spread = curve_fit(newton, [r.minute for r in SIX], above, p0=(60, 0.01))

    def minute(height: float, rate: float) -> float:
        return float(math.log(height / 38) / rate)

    at = minute(*fitted)
    steps = fitted * 1e-6
    slopes = np.array(
        [
            (minute(fitted[0] + steps[0], fitted[1]) - at) / steps[0],
            (minute(fitted[0], fitted[1] + steps[1]) - at) / steps[1],
        ]
    )
    doubt = stats.t.ppf(0.975, 4) * math.sqrt(slopes @ spread @ slopes)
    reached = six.reached(60)
    assert reached.minute - reached.earliest_min == pytest.approx(doubt, rel=1e-3)
    assert reached.latest_min - reached.minute == pytest.approx(doubt, rel=1e-3)


def test_doubt_of_two_readings_against_random_readings() -> None:
    """A thermometer that shows whole degrees: 100 000 pairs rounded at random, numpy."""
    fitted = cooling_of(TWO, room_c=21, congeals_c=50, thermometer_reads_to_c=1.0)
    reached = fitted.reached(57)
    random = np.random.default_rng(4)
    first = 82 - 21 + random.uniform(-0.5, 0.5, 100_000)
    second = 74 - 21 + random.uniform(-0.5, 0.5, 100_000)
    minutes = np.log(first / 36) / (np.log(first / second) / 10)
    deviation = (reached.latest_min - reached.minute) / stats.norm.ppf(0.975)
    assert deviation == pytest.approx(float(np.std(minutes)), rel=0.03)


def test_readings_too_close_say_no_latest_minute() -> None:
    near = cooling_of(
        (Reading(0, 80), Reading(1, 79.8)), room_c=21, congeals_c=50, thermometer_reads_to_c=1
    )
    assert near.reached(60).latest_min == math.inf


def test_the_room_must_be_given_because_readings_do_not_tell_it() -> None:
    """Ta = (T1 T3 − T2²)/(T1 + T3 − 2 T2) of three readings is ten degrees off, here and soon."""
    first, second, third = 85.0, 76.4, 69.2
    found = (first * third - second**2) / (first + third - 2 * second)
    assert found == pytest.approx(32.17, abs=0.005)
    assert found - 22 > 10
    with pytest.raises(TypeError):
        partial(cooling_of, TWO, congeals_c=50)()
    names = {*vars(cooling), *vars(cooling_fit)}
    assert not [name for name in names if name.startswith("room")]


def test_curve_ends_where_the_wax_sets(two: Cooling) -> None:
    points = two.curve(points=50)
    assert len(points) == 50
    assert points[0] == (0, 82)
    assert points[-1] == pytest.approx((two.ends_min, 50))
    assert two.curve(until_c=57)[-1] == pytest.approx((37.5123, 57), abs=1e-4)
    falls = [celsius for _, celsius in points]
    assert falls == sorted(falls, reverse=True)


def test_nothing_is_told_below_the_congealing_point(two: Cooling) -> None:
    for ask in (lambda: two.minute_of(49.9), lambda: two.at(60), lambda: two.reached(30)):
        with pytest.raises(OutOfRange) as refused:
            ask()
        assert refused.value.key == "cooling.sets"


def test_plateau_and_setting_against_an_enthalpy_ode(two: Cooling) -> None:
    """By hand 133.792 min on the plateau, 258.57 in all, not the naive 136.1."""
    assert plateau_minutes(two, SOY) == pytest.approx(133.792, abs=5e-4)
    setting = setting_time(two, SOY, 30)
    assert setting.total_min == pytest.approx(258.57, abs=5e-3)
    assert setting.estimate
    assert math.log(61 / 9) / two.rate_per_min == pytest.approx(136.1, abs=0.05)

    def celsius(content: float) -> float:
        """Temperature at a heat content in kJ/kg above solid wax at 0 °C."""
        solid, liquid = 1.9 * 50, 1.9 * 50 + 120
        if content > liquid:
            return 50 + (content - liquid) / 2.2
        return 50 if content > solid else content / 1.9

    lost = two.rate_per_min * 2.2
    start, end = 1.9 * 50 + 120 + 2.2 * 32, 1.9 * 30
    minute = ode(lambda _, content: -lost * (celsius(content) - 21), start, end)
    assert setting.total_min == pytest.approx(minute, abs=0.01)


def test_heat_lost_by_the_pot_and_power_that_holds_it(two: Cooling) -> None:
    """HA = k m c_l = 1.289 W/K for 2.5 kg, times 54 °C = 69.6 W, by hand."""
    assert loss_w_per_c(two, 2500, 2.2) == pytest.approx(1.289, abs=5e-4)
    assert holding_power_w(two, 2500, 2.2, 75) == pytest.approx(69.6, abs=0.05)
    assert holding_power_w(two, 2500, 2.2, 15) == 0


def test_vessels_before_the_pot_is_too_cold(two: Cooling) -> None:
    """By hand: 65 → 57 °C takes ln(44/36)/k = 14.27 min: 28 vessels of half a minute."""
    window = pour_window(two, 57, 65, seconds_per_vessel=30)
    assert window.opens_min == pytest.approx(math.log(61 / 44) / two.rate_per_min)
    assert window.closes_min == pytest.approx(37.5123, abs=5e-5)
    assert (window.sure, window.at_best) == (28, 28)
    assert not window.too_late


def test_a_pot_that_empties_cools_faster_against_an_ode(two: Cooling) -> None:
    """dT/dt = −k M0/M (T − Ta) with M = M0 − q t; scipy's solver."""
    window = pour_window(two, 57, 65, seconds_per_vessel=30, pot_g=4000, vessel_g=200)
    g_per_min = 400.0
    rate = two.rate_per_min
    minute = ode(lambda t, c: -rate * 4000 / (4000 - g_per_min * t) * (c - 21), 65, 57)
    assert window.sure == math.floor(minute / 0.5) == 15
    assert window.at_best == 20


def test_a_window_that_has_closed(two: Cooling) -> None:
    window = pour_window(two, 57, 65, seconds_per_vessel=30, from_min=40)
    assert window.too_late
    assert window.sure == window.at_best == 0


def test_the_wax_sets_before_the_window_closes(two: Cooling) -> None:
    assert pour_window(two, 45, 65, seconds_per_vessel=30).closes_min == two.ends_min


def test_a_room_warmer_than_the_window_never_closes_it() -> None:
    warm = cooling_of(TWO, room_c=40, congeals_c=30)
    window = pour_window(warm, 35, 60, seconds_per_vessel=30, pot_g=2000, vessel_g=200)
    assert window.closes_min == math.inf
    assert window.at_best == window.sure == 10


rooms = st.floats(5, 35)
rates = st.floats(0.002, 0.1)


@given(rooms, st.floats(70, 95), rates, st.floats(2, 30), st.floats(50, 69))
def test_minute_and_temperature_are_inverse(
    room_c: float, start_c: float, rate: float, apart: float, target_c: float
) -> None:
    second_c = room_c + (start_c - room_c) * math.exp(-rate * apart)
    assume(second_c > 45.1)
    readings = (Reading(3, start_c), Reading(3 + apart, second_c))
    fitted = cooling_of(readings, room_c=room_c, congeals_c=45)
    assert fitted.rate_per_min == pytest.approx(rate, rel=1e-6)
    assert fitted.at(fitted.minute_of(target_c)) == pytest.approx(target_c)


@given(rooms, st.floats(75, 95), st.floats(0.003, 0.02), st.integers(3, 12))
def test_many_exact_readings_give_back_their_curve(
    room_c: float, start_c: float, rate: float, count: int
) -> None:
    readings = tuple(
        Reading(2.0 * place, room_c + (start_c - room_c) * math.exp(-2 * rate * place))
        for place in range(count)
    )
    fitted = cooling_of(readings, room_c=room_c, congeals_c=38)
    assert fitted.rate_per_min == pytest.approx(rate, rel=1e-6)
    assert fitted.start_c == pytest.approx(start_c)


@given(st.floats(50.1, 60), st.floats(1, 15), st.floats(5, 120), st.floats(100, 400))
def test_an_emptying_pot_never_allows_more_vessels(
    low_c: float, wide_c: float, seconds: float, vessel_g: float
) -> None:
    curve = cooling_of(TWO, room_c=21, congeals_c=50)
    window = pour_window(
        curve, low_c, low_c + wide_c, seconds_per_vessel=seconds, pot_g=4000, vessel_g=vessel_g
    )
    assert 0 <= window.sure <= window.at_best <= 4000 / vessel_g + 1e-6
    slower = pour_window(
        curve, low_c, low_c + wide_c, seconds_per_vessel=seconds * 1.5, pot_g=4000,
        vessel_g=vessel_g,
    )  # fmt: skip
    assert slower.sure <= window.sure


read = partial(cooling_of, room_c=21, congeals_c=50)


@pytest.mark.parametrize(
    ("senseless", "key"),
    [
        (lambda: read(TWO[:1]), "cooling.too-few-readings"),
        (lambda: read(TWO[::-1]), "cooling.order"),
        (lambda: read((Reading(0, 74), Reading(10, 82))), "cooling.not-cooling"),
        (lambda: read((Reading(0, 74), Reading(10, 74))), "cooling.not-cooling"),
        (lambda: cooling_of(TWO, room_c=75, congeals_c=50), "cooling.room-not-colder"),
        (lambda: read((Reading(0, 60), Reading(10, 50))), "cooling.read-after-set"),
        (lambda: read(TWO).minute_of(math.nan), "heat.temperature"),
        (lambda: cooling_of(TWO, room_c=40, congeals_c=30).minute_of(38), "cooling.below-room"),
        (lambda: read(TWO, thermometer_reads_to_c=0), "cooling.thermometer"),
        (lambda: Reading(math.inf, 80), "cooling.minute"),
        (lambda: read(TWO).curve(points=1), "cooling.points"),
        (lambda: pour_window(read(TWO), 65, 57, seconds_per_vessel=30), "cooling.window"),
        (lambda: pour_window(read(TWO), 57, 65, seconds_per_vessel=0), "cooling.seconds"),
        (lambda: setting_time(read(TWO), SOY, 55), "cooling.not-set"),
        (lambda: setting_time(read(TWO), SOY, 20), "cooling.below-room"),
        (lambda: plateau_minutes(cooling_of(TWO, room_c=40, congeals_c=30), SOY),
         "cooling.room-too-warm-to-set"),
        (lambda: loss_w_per_c(read(TWO), 0, 2.2), "cooling.pot-mass"),
    ],
)  # fmt: skip
def test_senseless_cooling_is_refused(senseless: Callable[[], object], key: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        senseless()
    assert refused.value.key == key
