"""Calls that others write against keep their names, order of arguments and units."""

from __future__ import annotations

import pytest

from wickbench.domain.costs import Layer, fifo, moving_average, share_out
from wickbench.domain.densities import liquid_density, mix_density
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.domain.pours import blend_leftover, split_into_pots
from wickbench.domain.quantities import parse
from wickbench.domain.recipes import Load, Recipe, mix_amounts
from wickbench.domain.shapes import Profile, wrap_development
from wickbench.domain.sheets import StickerSheet
from wickbench.domain.vessels import Weighing, measured_capacity
from wickbench.domain.water import air_density, water_density, z_factor


def test_water_air_and_z_take_celsius_hectopascal_and_percent() -> None:
    # Tanaka et al., Metrologia 38 (2001) 301; OIML simplified air density; ISO 8655-6 table of Z.
    assert water_density(20.0) == pytest.approx(998.2067, abs=2e-4)
    assert air_density(20.0, 1013.25, 50.0) == pytest.approx(1.1993, abs=1e-4)
    assert z_factor(22.0, 1013.25, 50.0) == pytest.approx(1.0033, abs=1e-4)


def test_capacity_is_told_with_its_doubts() -> None:
    # 253.4 g of water at 22 °C: 254.231 mL by Z of ISO 8655-6.
    capacity = measured_capacity([Weighing(200.0, 453.4, 22.0)], scale_reads_to_g=0.1, mouth_mm=70)
    assert capacity.volume_ml == pytest.approx(254.231, abs=0.002)
    assert 0 < capacity.standard_uncertainty_ml < capacity.expanded_uncertainty_ml
    assert capacity.next_vessel_ml is None


def test_shapes_speak_of_heights_first() -> None:
    profile = Profile(points=((0.0, 60.0), (90.0, 76.0)))
    # frustum of a cone, handbook formula pi h (D1² + D1 D2 + D2²) / 12
    assert profile.volume_ml(90.0) == pytest.approx(328.3593, abs=1e-3)
    assert profile.height_mm(200.0) == pytest.approx(59.5935, abs=1e-3)
    sector = wrap_development(60.0, 76.0, 90.0)
    # development of a cone: slant s, R = s r1 / (r2 - r1), angle 360 (r2 - r1) / s
    assert sector.inner_radius_mm == pytest.approx(338.8307, abs=1e-3)
    assert sector.outer_radius_mm == pytest.approx(429.1856, abs=1e-3)
    assert sector.angle_deg == pytest.approx(31.8743, abs=1e-3)


def test_recipes_take_loads_of_either_basis() -> None:
    # w = p / (1 - p): one ounce to the pound is 6.25 % of wax and 5.8824 % of total.
    assert Load(6.25, "wax").of_total == pytest.approx(5.8824, abs=1e-4)
    assert Load(8.0, "total").of_wax == pytest.approx(8.6957, abs=1e-4)
    amounts = mix_amounts(Recipe(wax={"w": 1}, fragrance={"o": 1}, load=Load(8, "total")), 2000.0)
    assert amounts == pytest.approx({"w": 1840.0, "o": 160.0})


def test_densities_pours_and_costs() -> None:
    # ideal volume additivity: 100 g at 0.90 with 10 g at 0.95 is 110 / (100/0.90 + 10/0.95)
    assert mix_density({0.90: 100.0, 0.95: 10.0}) == pytest.approx(0.9043269, abs=1e-7)
    assert liquid_density(0.87, 80.0) == pytest.approx(0.8634)
    wax_g, oil_g = blend_leftover(1500.0, 8.0, 300.0, 6.0)
    assert (wax_g, oil_g) == pytest.approx((1098.0, 102.0))
    assert len(split_into_pots([800.0, 800.0, 600.0, 600.0, 600.0, 600.0], 2000.0)) == 2
    assert sum(share_out(2850, [10.0, 14.4, 1.1])) == 2850
    # Wild, Fundamental Accounting Principles: 10 at 91 and 15 at 106, 20 sold.
    layers = [Layer.bought(10, 910), Layer.bought(15, 1590)]
    assert fifo(layers, [20]).cost == 1970
    assert moving_average([*layers, 20]).cost == 2000


def test_sheets_number_their_stickers_row_by_row_from_the_top_left() -> None:
    sheet = StickerSheet(210, 297, 9, 12.5, 3, 7, 65, 39.5, 62, 36, "rounded")
    first, fifth = sheet.sticker(0), sheet.sticker(4)
    assert (first.x_mm, first.y_mm) == (9, 12.5)
    assert (fifth.x_mm, fifth.y_mm) == (74, 52)


def test_typed_quantities_come_out_in_the_unit_of_their_kind() -> None:
    # NIST Handbook 44, Appendix C: lb 453.592 37 g, US fl oz 29.573 529 562 5 mL, in 25.4 mm
    assert parse("2 lb 4 oz", "mass") == pytest.approx(1020.58283, abs=1e-5)
    assert parse("9 fl oz", "volume") == pytest.approx(266.16177, abs=1e-5)
    assert parse("2-5/8 in", "length") == pytest.approx(66.675)
    assert parse("180 F", "temperature") == pytest.approx(82.2222, abs=1e-4)
    assert parse("1 oz/lb", "load") == pytest.approx(6.25)


@pytest.mark.parametrize(
    "senseless",
    [
        lambda: water_density(120.0),
        lambda: z_factor(120.0),
        lambda: measured_capacity([]),
        lambda: measured_capacity([Weighing(300.0, 200.0, 20.0)]),
        lambda: Profile(points=((10.0, 60.0), (5.0, 60.0))),
        lambda: Load(-1.0, "wax"),
        lambda: Load(100.0, "total"),
        lambda: mix_density({-1.0: 10.0}),
        lambda: blend_leftover(1000.0, 5.0, 800.0, 10.0),
        lambda: split_into_pots([3000.0], 2000.0),
        lambda: StickerSheet(-210, 297, 9, 12.5, 3, 7, 65, 39.5, 62, 36, "rounded"),
        lambda: share_out(100, [0.0, 0.0]),
    ],
)
def test_senseless_input_is_out_of_range(senseless: object) -> None:
    assert issubclass(OutOfRange, DomainError)
    with pytest.raises(OutOfRange):
        senseless()  # type: ignore[operator]  # a lambda of the table above
