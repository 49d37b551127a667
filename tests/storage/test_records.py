"""Rows by table name in presented names: units, rounding, what is refused, what is in use."""

from __future__ import annotations

import datetime as dt
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app.sentences.files import SENTENCES
from wickbench.domain.errors import OutOfRange
from wickbench.storage import presented, records
from wickbench.storage.refusals import Gone, InUse
from wickbench.storage.tables import METADATA

if TYPE_CHECKING:
    from wickbench.storage.workshop_file import WorkshopFile


@pytest.mark.parametrize(
    ("table", "name", "value", "column", "stored"),
    [
        ("pour_amount", "weighed_g", 3070.0, "weighed_mg", 3_070_000),
        ("pour_amount", "weighed_g", 0.0005, "weighed_mg", 1),
        ("pour_amount", "weighed_g", 1.0005, "weighed_mg", 1001),
        ("vessel", "nominal_ml", 236.588, "nominal_ul", 236_588),
        ("vessel", "height_mm", 88.95, "height_um", 88_950),
        ("wax", "max_load_percent", 6.25, "max_load_ppm", 62_500),
        ("material_lot", "paid_money", 52.005, "paid_e4", 520_050),
        ("recipe_part", "parts", 1.5, "parts_milli", 1500),
        ("label_element", "turn_deg", -90.0, "turn_mdeg", -90_000),
        ("wax", "flash_c", 290, "flash_c", 290.0),
        ("plan", "pour_on", dt.date(2026, 3, 14), "pour_on", "2026-03-14"),
        ("item", "archived", True, "archived", 1),
        ("vessel", "cells", 6.0, "cells", 6),
        ("plan", "recorded", {"a": ["ö", 1.5]}, "recorded_json", '{"a":["ö",1.5]}'),
        ("wax", "pour_c", None, "pour_c", None),
    ],
)
def test_presented_values_are_stored_in_whole_units(
    table: str, name: str, value: object, column: str, stored: object
) -> None:
    assert presented.to_stored(table, {name: value}) == {column: stored}


@given(st.floats(min_value=-1e9, max_value=1e9))
def test_grams_become_milligrams_half_up(grams: float) -> None:
    meant = Decimal(f"{grams:.15g}") * 1000
    expected = int(meant.to_integral_value(ROUND_HALF_UP))
    assert presented.to_stored("pour_amount", {"weighed_g": grams}) == {"weighed_mg": expected}


@given(st.integers(min_value=0, max_value=10**14))
def test_what_was_stored_is_stored_again_the_same(stored: int) -> None:
    column = presented.column_for("pour_amount", "weighed_g")
    assert presented.stored_value(column, stored / 1000) == stored


@pytest.mark.parametrize("table", sorted(METADATA.tables))
def test_each_column_has_one_presented_name(table: str) -> None:
    columns = presented.columns_of(table)
    assert {each.stored for each in columns.values()} == set(METADATA.tables[table].columns.keys())
    assert len(columns) == len(METADATA.tables[table].columns)


@pytest.mark.parametrize(
    ("table", "name", "value", "key"),
    [
        ("item", "name", "a\0b", "storage.nul"),
        ("item", "name", "\udc80", "storage.nul"),
        ("plan", "recorded", {"deep": [{"er": "a\0"}]}, "storage.nul"),
        ("plan", "recorded", {"a\0": 1}, "storage.nul"),
        ("plan", "recorded", [float("nan")], "storage.not-finite"),
        ("wax", "pour_c", float("inf"), "storage.not-finite"),
        ("pour_amount", "weighed_g", float("nan"), "storage.not-finite"),
        ("pour_amount", "weighed_g", 1e17, "storage.too-large"),
        ("vessel", "cells", 1.5, "storage.not-whole"),
        ("vessel", "cells", float("inf"), "storage.not-finite"),
        ("plan", "pour_on", "2026-02-30", "storage.not-a-date"),
        ("plan", "pour_on", "14.3.2026", "storage.not-a-date"),
    ],
)
def test_values_that_cannot_be_kept_are_refused(
    table: str, name: str, value: object, key: str
) -> None:
    with pytest.raises(OutOfRange) as caught:
        presented.to_stored(table, {name: value})
    assert caught.value.key == key
    assert caught.value.data["field"] == name
    assert key in SENTENCES


def test_a_wrong_type_is_our_mistake() -> None:
    for table, name, value in (("item", "name", 5), ("wax", "pour_c", "60")):
        with pytest.raises(TypeError):
            presented.to_stored(table, {name: value})


def test_unknown_names_are_our_mistake(workshop: WorkshopFile) -> None:
    with workshop.read() as connection:
        for act in (
            lambda: records.fetch_all(connection, "nonsense"),
            lambda: records.fetch_all(connection, "item", {"nonsense": 1}),
            lambda: records.fetch_all(connection, "item", order=("nonsense",)),
            lambda: records.insert(connection, "item", {"weighed_mg": 1}),
            lambda: records.update(connection, "wax", 1, {"max_load_ppm": 1}),
            lambda: records.fetch(connection, "setting", 1),
            lambda: records.fetch(connection, "draft", 1),
        ):
            with pytest.raises(ValueError, match="no "):
                act()


def test_rows_come_in_order(workshop: WorkshopFile) -> None:
    with workshop.step("Plan") as connection:
        plan = records.insert(connection, "plan", {})
        for position, count in ((2, 5), (1, 5), (1, 7)):
            values = {"plan_id": plan, "position": position, "count": count}
            records.insert(connection, "plan_line", values)

        def ids(*order: str) -> list[object]:
            rows = records.fetch_all(connection, "plan_line", {"plan_id": plan}, order)
            return [row["id"] for row in rows]

        assert ids() == [2, 3, 1]
        assert ids("id") == [1, 2, 3]
        assert ids("-count") == [3, 2, 1]
        assert records.fetch_all(connection, "plan_line", {"net_g": None, "count": 7})[0]["id"] == 3
        assert records.fetch_all(connection, "plan_line", {"net_g": 5.0}) == []


def test_what_is_not_there_any_more_has_a_sentence(workshop: WorkshopFile) -> None:
    with workshop.step("x") as connection:
        for act in (
            lambda: records.fetch(connection, "item", 99),
            lambda: records.update(connection, "item", 99, {"name": "x"}),
            lambda: records.update(connection, "item", 99, {}),
            lambda: records.delete(connection, "item", 99),
        ):
            with pytest.raises(Gone) as caught:
                act()
            assert caught.value.key == "storage.gone"


def test_what_is_in_use_stays_and_says_by_whom(workshop: WorkshopFile) -> None:
    with workshop.step("Candle") as connection:
        wax = records.insert(connection, "item", {"kind": "wax"})
        recipe = records.insert(connection, "recipe", {})
        version = records.insert(connection, "recipe_version", {"recipe_id": recipe})
        records.insert(connection, "recipe_part", {"version_id": version, "item_id": wax})
        candle = records.insert(connection, "candle", {"version_id": version})
    with workshop.step("Remove") as connection:
        with pytest.raises(InUse) as caught:
            records.delete(connection, "item", wax)
        assert caught.value.key == "storage.in-use"
        assert caught.value.data["by"] == ("recipe_part",)
        with pytest.raises(InUse) as caught:
            records.delete(connection, "recipe", recipe)
        assert caught.value.data["by"] == ("candle",)
        records.delete(connection, "candle", candle)
        records.delete(connection, "recipe", recipe)
        records.delete(connection, "item", wax)


def test_less_than_nothing_has_a_sentence(workshop: WorkshopFile) -> None:
    with pytest.raises(OutOfRange) as caught, workshop.step("x") as connection:
        records.insert(connection, "pot", {"brim_ml": -1.0})
    assert caught.value.key == "storage.negative"
    assert "ck_pot_brim_ul_not_negative" in str(caught.value.data["field"])
