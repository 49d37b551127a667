"""What physics does not allow is refused in words wherever a person can type it.

Limits are those of the trade and of physics: water is liquid from 0 to 100 °C and the formula for
its density holds up to 40 °C (Tanaka et al. 2001); wax and oil float on or near water.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from importlib import import_module
from pkgutil import iter_modules
from typing import TYPE_CHECKING

import pytest

import wickbench.app
from wickbench.app import edit
from wickbench.app.equipment import view_equipment
from wickbench.app.fields import FieldSpec
from wickbench.app.material_fields import fields_of
from wickbench.app.material_findings import material_findings
from wickbench.app.measures import measure
from wickbench.app.recipe_fields import VERSION_FIELDS
from wickbench.app.recipe_view import Wanted, view_recipe
from wickbench.app.settings import Settings
from wickbench.app.shelf import Equipment, Shelf
from wickbench.app.texts import Texts, all_sentences
from wickbench.app.vessel_fields import VESSEL_FIELDS
from wickbench.app.vessel_tables import DIAMETERS, LINE_WEIGHINGS
from wickbench.app.vessels import view_vessel
from wickbench.domain.catalog import (
    Fragrance,
    Material,
    RecipePart,
    RecipeVersion,
    Vessel,
    Wax,
    WeighingRow,
)
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.recipes import Load

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wickbench.app.workspace import Workspace

TEXTS = Texts()
SEA = Settings({})
WAX = {spec.name: spec for spec in fields_of("wax")}
OIL = {spec.name: spec for spec in fields_of("fragrance")}
VERSION = {spec.name: spec for spec in VERSION_FIELDS}
VESSEL = {spec.name: spec for spec in VESSEL_FIELDS}


def refused(workshop: Workspace, spec: FieldSpec, typed: str) -> str:
    """The sentence that a field says about typed text."""
    with pytest.raises(DomainError) as error:
        edit.read_field(workshop, spec, typed)
    assert error.value.key in all_sentences()
    return TEXTS.say(error.value).replace("\N{NO-BREAK SPACE}", " ")


# -- typed into a field ----------------------------------------------------------------------------
SENSELESS: list[tuple[FieldSpec, str, str]] = [
    # A density from a data sheet without its unit: which one was meant is asked.
    (WAX["liquid_g_per_ml"], "870", "Did you mean 0.870 g/mL? Then write it so, or as 870 kg/m³."),
    (WAX["set_g_per_ml"], "900", "Did you mean 0.900 g/mL?"),
    (WAX["liquid_g_per_ml"], "7.2", "Did you mean 0.863 g/mL? Then write it so, or as 7.2 lb/gal."),
    (OIL["density_g_per_ml"], "955", "Did you mean 0.955 g/mL?"),
    # An oil heavier than 2 g/mL, a wax that sinks like stone, one lighter than air balloons.
    (OIL["density_g_per_ml"], "2.1", "1.400 g/mL at most"),
    (WAX["set_g_per_ml"], "2.5", "1.200 g/mL at most"),
    (WAX["liquid_g_per_ml"], "0.01", "0.600 g/mL at least"),
    # Water at 120 °C and as ice.
    (LINE_WEIGHINGS.spec("water_c"), "120", "40 °C · 104 °F at most"),
    (LINE_WEIGHINGS.spec("water_c"), "-3", "0 °C · 32 °F at least"),
    (LINE_WEIGHINGS.spec("water_c"), "212 F", "40 °C · 104 °F at most"),
    # Eleven years of curing, a load of more than half, wax at red heat or frozen.
    (WAX["cure_days"], "4000", "365 d at most"),
    (VERSION["cure_days"], "4000", "365 d at most"),
    (VERSION["load_percent"], "60", "50 % at most"),
    (WAX["max_load_percent"], "60 %", "30 % at most"),
    (WAX["heat_to_c"], "500", "150 °C · 302 °F at most"),
    (VERSION["pour_c"], "-10 C", "25 °C · 77 °F at least"),
    (OIL["ifra_12_percent"], "101", "100 % at most"),
    (VESSEL["fill_mm"], "3 m", "1000 mm"),
    (DIAMETERS.spec("diameter_mm"), "0", "1 mm"),
]


def test_a_field_says_what_it_can_take(workshop: Workspace) -> None:
    for spec, typed, said in SENSELESS:
        assert said in refused(workshop, spec, typed), (spec.name, typed)


def test_a_density_with_its_unit_is_taken(workshop: Workspace) -> None:
    for typed in ("870 kg/m³", "0.870", "0.87 g/cm3"):
        assert edit.read_field(workshop, WAX["liquid_g_per_ml"], typed) == pytest.approx(0.87)
    # 7.26 lb to the US gallon of 3.785411784 L (NIST SP 811).
    by_gallon = 7.26 * 453.59237 / 3785.411784
    assert edit.read_field(workshop, WAX["liquid_g_per_ml"], "7.26 lb/gal") == pytest.approx(
        by_gallon
    )


def specs_in(thing: object) -> Iterator[FieldSpec]:
    if isinstance(thing, FieldSpec):
        yield thing
    elif isinstance(thing, (tuple, list)):
        for one in thing:
            yield from specs_in(one)
    elif isinstance(thing, Mapping):
        yield from specs_in(tuple(thing.values()))


def all_quantities() -> list[FieldSpec]:
    """Every field of the program in which a quantity is typed."""
    found: dict[tuple[str, str], FieldSpec] = {}
    for module in iter_modules(wickbench.app.__path__):
        for thing in vars(import_module(f"wickbench.app.{module.name}")).values():
            for spec in specs_in(thing):
                if spec.is_quantity:
                    found[spec.table, spec.name] = spec
    return list(found.values())


QUANTITIES = all_quantities()
# A label's parts may lie over the edge of the sticker, on either side.
ANYWHERE = {("label_element", "x_mm"), ("label_element", "y_mm")}


def test_every_quantity_has_limits() -> None:
    assert len(QUANTITIES) > 90
    boundless = {
        (spec.table, spec.name) for spec in QUANTITIES if spec.low is None or spec.high is None
    }
    assert boundless <= ANYWHERE


def test_no_quantity_takes_what_is_no_number_or_cannot_be(workshop: Workspace) -> None:
    for spec in QUANTITIES:
        for typed in ("nan", "inf", "-inf", "1e400", "∞", "--5", "9" * 40):
            refused(workshop, spec, typed)
        if spec.low is not None and spec.low >= 0:
            refused(workshop, spec, "-1")


def test_a_quantity_takes_its_limits_and_nothing_beyond(workshop: Workspace) -> None:
    for spec in QUANTITIES:
        if spec.low is None or spec.high is None:
            continue
        assert spec.low < spec.high, spec
        beyond = max(1.0, abs(spec.high)) * 1e-6
        for value in (spec.low, spec.high, (spec.low + spec.high) / 2):
            edit.check_range(workshop, spec, value)
        for value in (spec.low - beyond, spec.high + beyond, math.inf, -math.inf, math.nan):
            with pytest.raises(DomainError):
                edit.check_range(workshop, spec, value)


# -- values that do not go together ----------------------------------------------------------------
def told(findings: Iterable[Finding], key: str) -> str:
    """The sentence of a finding that must be there, with at least the rank of a warning."""
    one = next(finding for finding in findings if finding.key == key)
    assert one.rank >= Rank.WATCH
    said = TEXTS.say(one).replace("\N{NO-BREAK SPACE}", " ")
    assert "{" not in said
    return said


SOY: dict[str, object] = {"wax_class": "soy", "max_load_percent": 10.0, "max_load_basis": "wax"}


@pytest.mark.parametrize(
    ("values", "key", "said"),
    [
        ({"liquid_g_per_ml": 0.90, "set_g_per_ml": 0.87}, "wax-set-lighter", "swapped"),
        ({"melts_to_c": 140.0, "flash_c": 130.0}, "wax-melts-above-flash", "safety data sheet"),
        ({"melts_from_c": 60.0, "melts_to_c": 50.0}, "wax-melts-backwards", "Swap the two"),
        ({"heat_to_c": 140.0, "flash_c": 130.0}, "wax-heat-above-flash", "Heat it less"),
        ({"pour_c": 95.0, "heat_to_c": 85.0}, "wax-pour-above-heat", "Check the two"),
        ({"add_oil_c": 95.0, "heat_to_c": 85.0}, "wax-oil-above-heat", "Check the two"),
        ({"heat_to_c": 45.0}, "wax-heat-below-melting", "not all melted"),
        ({"pour_c": 30.0}, "wax-pour-below-melting", "Pour it hotter"),
        ({"add_oil_c": 40.0}, "wax-oil-below-melting", "Add it hotter"),
        ({"max_load_basis": None}, "wax-load-without-basis", "Choose"),
    ],
)
def test_a_wax_that_cannot_be_is_told(values: dict[str, object], key: str, said: str) -> None:
    assert said in told(material_findings("wax", SOY | values), f"material.{key}")
    assert f"material.{key}" not in {one.key for one in material_findings("wax", SOY)}


def a_shelf(wax: Wax, **more: object) -> Shelf:
    oil = Fragrance(density_g_per_ml=0.97, flash_c=93.0, ifra_12_percent=12.0)
    things = (
        Material(id=1, kind="wax", name="Orchard wax", details=wax),
        Material(id=2, kind="fragrance", name="Bramble oil", details=oil),
    )
    return Shelf(materials={one.id: one for one in things}, **more)  # type: ignore[arg-type]


def a_version(**values: object) -> RecipeVersion:
    parts = (
        RecipePart(id=1, role="wax", item_id=1, parts=1.0),
        RecipePart(id=2, role="fragrance", item_id=2, parts=1.0),
    )
    known: dict[str, object] = {"load": Load(8.0, "wax"), "parts": parts} | values
    return RecipeVersion(id=1, recipe_id=1, name="Bramble", **known)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("wax", "values", "key", "said"),
    [
        (Wax(wax_class="soy", flash_c=130.0), {"heat_to_c": 140.0}, "recipe.heat-over-wax-flash",
         "130 °C"),
        (Wax(wax_class="soy"), {"pour_c": 95.0, "heat_to_c": 85.0}, "recipe.heat-below-pour",
         "85 °C"),
        (Wax(wax_class="soy"), {"add_oil_c": 95.0, "heat_to_c": 85.0}, "recipe.add-above-heat",
         "85 °C"),
        (Wax(wax_class="soy"), {"pour_c": 30.0}, "recipe-dock.pour-below-melting",
         "set below 46 °C"),
        (Wax(wax_class="soy", liquid_g_per_ml=0.95, set_g_per_ml=0.86), {},
         "shrinkage.set-lighter", "swapped"),
        (Wax(wax_class="soy", max_load=Load(10, "wax")), {"load": Load(49, "wax")},
         "recipe.over-wax-limit-of-wax", "10 %"),
    ],
)  # fmt: skip
def test_a_recipe_that_cannot_be_is_told(
    wax: Wax, values: dict[str, object], key: str, said: str
) -> None:
    view = view_recipe(a_version(**values), a_shelf(wax), Wanted(), 0.1)
    assert said in told(view.findings, key)


JAR = Vessel(
    id=1, name="Tumbler", vessel_kind="jar", height_mm=90.0, fill_mm=70.0,
    diameters=((0.0, 60.0), (90.0, 76.0)),
)  # fmt: skip


def test_set_wax_lighter_than_liquid_is_told_at_the_vessel_instead_of_a_level() -> None:
    shelf = a_shelf(Wax(wax_class="soy", liquid_g_per_ml=0.95, set_g_per_ml=0.86))
    view = view_vessel(JAR, shelf, SEA, TEXTS, a_version())
    assert view.levels is None
    assert "swapped" in told(view.findings, "shrinkage.set-lighter")


@pytest.mark.parametrize(
    ("change", "key", "said"),
    [
        ({"fill_mm": 95.0}, "vessel.fill-over-brim", "90 mm"),
        ({"diameters": ((0.0, 60.0), (50.0, 70.0), (50.0, 40.0))}, "vessel.same-height", "50 mm"),
        ({"diameters": ((0.0, 60.0), (120.0, 70.0))}, "vessel.diameter-above-brim", "90 mm"),
        ({"outer_top_mm": 60.0}, "vessel.outside-too-small", ""),
        ({"straight_from_mm": 60.0, "straight_to_mm": 20.0}, "vessel.zone-upside-down", "60 mm"),
    ],
)
def test_a_vessel_that_cannot_be_is_told(change: dict[str, object], key: str, said: str) -> None:
    view = view_vessel(replace(JAR, **change), Shelf(), SEA, TEXTS)  # type: ignore[arg-type]
    assert said in told(view.findings, key)


def weighed(level: str, empty_g: float, filled_g: float, water_c: float = 22.0) -> WeighingRow:
    return WeighingRow(
        id=1, level=level, vessel_no=1, empty_g=empty_g, filled_g=filled_g, water_c=water_c
    )


def test_weighings_that_cannot_be_are_told() -> None:
    for empty_g, filled_g, key in ((310.0, 250.0, "vessel.not-heavier"),):
        jar = replace(JAR, weighings=(weighed("line", empty_g, filled_g),))
        said = told(measure(jar, Shelf(), SEA).findings, key)
        assert "swapped" in said
    over = (weighed("line", 310.0, 610.0), replace(weighed("brim", 310.0, 600.0), id=2))
    assert told(measure(replace(JAR, weighings=over), Shelf(), SEA).findings,
                "vessel.line-over-brim")  # fmt: skip


def test_equipment_that_cannot_be_is_told() -> None:
    scale = {"id": 1, "name": "Kitchen", "maximum_g": 100.0, "step_g": 500.0}
    pot = {"id": 2, "name": "Pitcher", "brim_ml": 2000.0, "empty_g": 6000.0}
    plain = {"id": 3, "name": "Bench", "maximum_g": 5000.0, "step_g": 1.0}
    found = view_equipment(Equipment(scales=(scale, plain), pots=(pot,))).findings
    keys = {one.key: TEXTS.say(one) for one in found if one.rank >= Rank.WATCH}
    assert any("step" in key for key in keys), keys
    assert all("{" not in said for said in keys.values())
