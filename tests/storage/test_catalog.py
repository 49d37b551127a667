"""Rows become the frozen values of the catalog."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from wickbench.domain.catalog import (
    MATERIAL_KINDS,
    Fragrance,
    Price,
    SheetMeasures,
    Wax,
    WeighingRow,
)
from wickbench.domain.recipes import Load
from wickbench.storage import catalog, records
from wickbench.storage.refusals import Gone
from wickbench.storage.tables_catalog import ITEM_KINDS

if TYPE_CHECKING:
    from wickbench.storage.workshop_file import Connection, WorkshopFile


def add(c: Connection, kind: str, item: dict[str, Any], details: dict[str, Any]) -> int:
    key = records.insert(c, "item", {"kind": kind, **item})
    records.insert(c, kind, {"item_id": key, **details})
    return key


def test_the_kinds_are_the_same_in_file_and_domain() -> None:
    assert {*MATERIAL_KINDS, "vessel"} == set(ITEM_KINDS)


def test_a_wax_with_all_it_says(workshop: WorkshopFile) -> None:
    details = {
        "wax_class": "soy", "liquid_g_per_ml": 0.86, "liquid_measured": True, "pour_c": 60.5,
        "max_load_percent": 10.0, "max_load_basis": "total", "cure_days": 14,
    }  # fmt: skip
    with workshop.step("Wax") as c:
        key = add(c, "wax", {"name": "Larch", "supplier": "Anna", "archived": True}, details)
        wax = catalog.material(c, key)
        assert catalog.materials(c) == []
        assert catalog.materials(c, "wax", archived=True) == [wax]
    assert (wax.kind, wax.name, wax.supplier, wax.archived) == ("wax", "Larch", "Anna", True)
    assert wax.weighed
    assert wax.details == Wax(
        wax_class="soy", liquid_g_per_ml=0.86, liquid_measured=True, pour_c=60.5,
        max_load=Load(10.0, "total"), cure_days=14,
    )  # fmt: skip


@pytest.mark.parametrize("kind", MATERIAL_KINDS)
def test_every_kind_reads_back_empty_and_never_fails(workshop: WorkshopFile, kind: str) -> None:
    with workshop.step("New") as c:
        key = add(c, kind, {}, {})
        bare = records.insert(c, "item", {"kind": kind})
        material = catalog.material(c, key)
        assert catalog.material(c, bare).details == material.details
        assert [each.id for each in catalog.materials(c, kind)] == [key, bare]
    assert material.details == type(material.details)()


@pytest.mark.parametrize(
    ("percent", "basis", "load"),
    [
        (None, "wax", None),
        (6.0, None, None),
        (6.25, "wax", Load(6.25, "wax")),
        (100.0, "total", None),  # cannot be mixed; must still be shown, so that it can be mended
    ],
)
def test_a_load_needs_its_basis(percent: float | None, basis: str | None, load: object) -> None:
    assert catalog.load_of(percent, basis) == load


def test_an_oil_and_a_sheet_are_told_in_percent_and_millimetres(workshop: WorkshopFile) -> None:
    with workshop.step("New") as c:
        oil = add(c, "fragrance", {}, {"ifra_12_percent": 12.5, "vanillin_percent": 0.0})
        sheet = add(c, "sheet", {}, {"page": "A4", "pitch_x_mm": 63.55, "columns": 3})
        assert catalog.material(c, oil).details == Fragrance(
            ifra_12_percent=12.5, vanillin_percent=0.0
        )
        assert catalog.material(c, sheet).details == SheetMeasures(
            page="A4", pitch_x_mm=63.55, columns=3
        )


def test_a_vessel_with_its_diameters_and_weighings(workshop: WorkshopFile) -> None:
    with workshop.step("Vessel") as c:
        jar = add(c, "vessel", {"name": "Jar"}, {"height_mm": 88.5, "candle_rated": True})
        for height, diameter in ((80.0, 74.5), (0.0, 70.0), (40.0, None)):
            values = {"vessel_id": jar, "height_mm": height, "diameter_mm": diameter}
            records.insert(c, "vessel_diameter", values)
        first = records.insert(c, "weighing", {"vessel_id": jar, "level": "brim", "empty_g": 210.4})
        tin = add(c, "vessel", {"name": "Tin"}, {"cells": 6})
        vessel = catalog.vessel(c, jar)
        assert catalog.vessels(c) == [vessel, catalog.vessel(c, tin)]
        assert catalog.vessel(c, tin).cells == 6
        with pytest.raises(Gone):
            catalog.vessel(c, 99)
        with pytest.raises(Gone):
            catalog.material(c, jar)
    assert (vessel.id, vessel.name, vessel.height_mm, vessel.candle_rated) == (
        jar,
        "Jar",
        88.5,
        True,
    )
    assert vessel.diameters == ((0.0, 70.0), (80.0, 74.5))
    assert vessel.weighings == (WeighingRow(id=first, level="brim", empty_g=210.4),)


def test_recipe_versions_with_their_parts_in_order(workshop: WorkshopFile) -> None:
    with workshop.step("Recipe") as c:
        wax, oil = add(c, "wax", {}, {}), add(c, "fragrance", {}, {})
        recipe = records.insert(c, "recipe", {"name": "Winter"})
        values = {"recipe_id": recipe, "load_percent": 6.25, "load_basis": "wax", "frozen": True}
        first = records.insert(c, "recipe_version", values)
        records.insert(c, "recipe_version", {"recipe_id": recipe, "number": 2, "state": "testing"})
        for position, item, parts in ((1, oil, 1.0), (0, wax, 2.5)):
            part = {"version_id": first, "item_id": item, "parts": parts, "position": position}
            records.insert(c, "recipe_part", part)
        versions = catalog.recipe_versions(c, recipe)
        assert catalog.recipe_versions(c) == versions
        assert catalog.recipe_version(c, first) == versions[0]
        assert catalog.recipe_versions(c, 99) == []
    assert [(each.name, each.number, each.state) for each in versions] == [
        ("Winter", 1, "idea"), ("Winter", 2, "testing"),
    ]  # fmt: skip
    assert versions[0].frozen
    assert versions[0].load == Load(6.25, "wax")
    assert [(part.item_id, part.parts) for part in versions[0].parts] == [(wax, 2.5), (oil, 1.0)]


def test_candles_with_wicks_extras_and_verdicts(workshop: WorkshopFile) -> None:
    with workshop.step("Candle") as c:
        wick, dust = add(c, "wick", {}, {}), add(c, "packaging", {}, {})
        values = {"name": "Winter", "declared_net_g": 200.0, "price_money": 24.9}
        key = records.insert(c, "candle", values)
        for position in (0, 1):
            records.insert(
                c, "candle_wick", {"candle_id": key, "item_id": wick, "position": position}
            )
        records.insert(c, "candle_extra", {"candle_id": key, "item_id": dust, "count": 2})
        for at_ms, state in ((2, "passed"), (1, "in_test")):
            verdict = {"candle_id": key, "state": state, "at_ms": at_ms, "made_of": {"wick": wick}}
            records.insert(c, "test_record", verdict)
        candle = catalog.candle(c, key)
        assert catalog.candles(c) == [candle]
        records.update(c, "candle", key, {"archived": True})
        assert catalog.candles(c) == []
        assert len(catalog.candles(c, archived=True)) == 1
    assert (candle.declared_net_g, candle.price_money) == (200.0, 24.9)
    assert (candle.wick_ids, candle.extras) == ((wick, wick), ((dust, 2),))
    assert [each.state for each in candle.tests] == ["in_test", "passed"]
    assert candle.tests[0].made_of == {"wick": wick}


def test_equipment_in_presented_names(workshop: WorkshopFile) -> None:
    with workshop.step("Scale") as c:
        records.insert(c, "scale", {"name": "Bench", "maximum_g": 5000.0, "step_g": 0.1})
        found = catalog.equipment(c)
    assert found.scales[0]["step_g"] == 0.1
    assert found.pots == ()


def test_what_is_on_hand_is_the_sum_of_the_moves(workshop: WorkshopFile) -> None:
    with workshop.step("Stock") as c:
        wax, wick, never = add(c, "wax", {}, {}), add(c, "wick", {}, {}), add(c, "dye", {}, {})
        for item, quantity in ((wax, 5_000_000), (wax, -1_000_500), (wick, 100), (wick, -100)):
            records.insert(c, "stock_move", {"item_id": item, "quantity": quantity})
        assert catalog.on_hand(c) == {wax: 3999.5, wick: 0.0, never: None}


def test_the_price_is_that_of_the_latest_lot_with_freight(workshop: WorkshopFile) -> None:
    with workshop.step("Buy") as c:
        wax, oil, dye = add(c, "wax", {}, {}), add(c, "fragrance", {}, {}), add(c, "dye", {}, {})
        for item, day, paid, freight, quantity in (
            (wax, "2026-03-02", 50.0, 8.5, 5_000_000),
            (wax, "2026-03-01", 99.0, None, 1_000_000),
            (wax, "2026-03-09", None, None, 1_000_000),
            (oil, None, 10.0, None, 500_000),
            (oil, None, 12.0, None, 500_000),
            (dye, "2026-03-01", 5.0, None, 0),
        ):
            lot = {
                "item_id": item, "bought_on": day, "paid_money": paid, "freight_money": freight,
                "quantity": quantity,
            }  # fmt: skip
            records.insert(c, "material_lot", lot)
        assert catalog.prices(c) == {
            wax: Price(585_000, 5_000_000), oil: Price(120_000, 500_000),
        }  # fmt: skip
