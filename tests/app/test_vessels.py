"""Vessels in a real workshop file: small tables, pasted cells, results, drawing, recipe kept."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from wickbench.app import shelf_edit, vessel_parts, vessels
from wickbench.app.questions import Silent
from wickbench.app.settings import Settings
from wickbench.app.shelf import Shelf, load_shelf
from wickbench.app.texts import Texts
from wickbench.app.units import Units
from wickbench.app.vessel_results import box_line, capacity_lines, contents_lines, how_measured
from wickbench.app.vessel_tables import BRIM_WEIGHINGS, DIAMETERS, LINE_WEIGHINGS
from wickbench.app.vessel_texts import estimated_mass
from wickbench.app.workspace import Services, Workspace
from wickbench.domain.catalog import Vessel, WeighingRow
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from wickbench.app.vessels import VesselView

TEXTS = Texts("en")
SEA = Settings({})


class Clock:
    def now_ms(self) -> int:
        return 1_795_600_000_000

    def today(self) -> dt.date:
        return dt.date(2026, 11, 25)

    def monotonic(self) -> float:
        return 1.0


def services() -> Services:
    return Services(Clock(), Texts("en"), Silent())


@pytest.fixture
def workspace(tmp_path: Path) -> Iterator[Workspace]:
    made = Workspace.create(tmp_path / "w.wickbench", services())
    yield made
    made.close()


@pytest.fixture
def jar(workspace: Workspace) -> int:
    details = {"vessel_kind": "jar", "height_mm": 85.0, "fill_mm": 66.0, "nominal_ml": 300.0}
    return shelf_edit.new_item(workspace, "vessel", {"name": "Amber tumbler"}, details)


def recipe(workspace: Workspace, name: str = "Bramble") -> int:
    wax = shelf_edit.new_item(
        workspace,
        "wax",
        {"name": "Orchard wax"},
        {"liquid_g_per_ml": 0.87, "liquid_measured": 1, "set_g_per_ml": 0.9, "set_measured": 1},
    )
    made = shelf_edit.new_recipe(workspace, name)
    with workspace.step("Write") as connection:
        (first,) = records.fetch_all(connection, "recipe_version", {"recipe_id": made})
        values = {"version_id": first["id"], "role": "wax", "item_id": wax, "parts": 1.0}
        records.insert(connection, "recipe_part", values)
        records.update(connection, "recipe_version", int(str(first["id"])), {"pour_c": 70.0})
    return made


def readings(workspace: Workspace, jar: int) -> list[tuple[object, ...]]:
    rows = vessel_parts.part_rows(workspace, LINE_WEIGHINGS, jar)
    return [tuple(row.values[name] for name in LINE_WEIGHINGS.names) for row in rows]


# -- the small tables ------------------------------------------------------------------------------
def test_a_weighing_takes_number_and_water_from_the_one_before(
    workspace: Workspace, jar: int
) -> None:
    first = {"empty_g": "212,4", "filled_g": "465.8 g", "water_c": "72 °F"}
    vessel_parts.add_part(workspace, LINE_WEIGHINGS, jar, first)
    vessel_parts.add_part(workspace, LINE_WEIGHINGS, jar, {"empty_g": "209.8"})
    one, two = readings(workspace, jar)
    # 72 °F = (72 − 32) / 1.8 = 22.22 °C, exact by definition.
    assert one == (1, 212.4, 465.8, pytest.approx(22.2222, abs=1e-3))
    assert two == (2, 209.8, None, one[3])
    assert workspace.undo_label == "Add a weighing"


def test_nonsense_stays_in_its_cell_with_its_sentence(workspace: Workspace, jar: int) -> None:
    typed = {"empty_g": "two hundred", "filled_g": "465.8"}
    key = vessel_parts.add_part(workspace, LINE_WEIGHINGS, jar, typed)
    (row,) = vessel_parts.part_rows(workspace, LINE_WEIGHINGS, jar)
    assert row.values["filled_g"] == 465.8
    assert row.drafts["empty_g"][0] == "two hundred"
    assert "two" in row.drafts["empty_g"][1]
    vessel_parts.write_part(workspace, LINE_WEIGHINGS, key, "empty_g", "212.4")
    (mended,) = vessel_parts.part_rows(workspace, LINE_WEIGHINGS, jar)
    assert mended.drafts == {}
    assert mended.values["empty_g"] == 212.4


def test_nonsense_is_there_again_after_a_restart(tmp_path: Path) -> None:
    path = tmp_path / "again.wickbench"
    first = Workspace.create(path, services())
    jar = shelf_edit.new_item(first, "vessel", {"name": "Jar"})
    vessel_parts.add_part(first, DIAMETERS, jar, {"height_mm": "10", "diameter_mm": "wide"})
    first.close()
    second = Workspace.open(path, services())
    (row,) = vessel_parts.part_rows(second, DIAMETERS, jar)
    second.close()
    assert row.drafts["diameter_mm"][0] == "wide"
    assert row.values["height_mm"] == 10.0


PASTED = {
    "plain": "1\t212.4\t465.8\t22\n2\t209.8\t465\t22",
    "headings": "Jar\tEmpty\tWith water\tWater\n1\t212.4\t465.8\t22\n2\t209.8\t465\t22",
    "other order": "Water temp.\tFilled (g)\tDry (g)\tNo\n22\t465.8\t212.4\t1\n22\t465\t209.8\t2",
    "extra column": "Jar\tNote\tEmpty\tFull\tWater\n1\tx\t212.4\t465.8\t22\n2\t\t209.8\t465\t22",
    "decimal comma": "1\t212,4\t465,8\t22\n2\t209,8\t465\t22",
    "german": "Glas\tLeer\tVoll\tWasser\n1\t212,4 g\t465,8 g\t22 °C\n2\t209,8 g\t465 g\t22 °C",
}


@pytest.mark.parametrize("text", PASTED.values(), ids=PASTED)
def test_cells_of_a_spreadsheet(workspace: Workspace, jar: int, text: str) -> None:
    cells = [line.split("\t") for line in text.split("\n")]
    assert len(vessel_parts.paste_parts(workspace, LINE_WEIGHINGS, jar, cells)) == 2
    assert readings(workspace, jar) == [(1, 212.4, 465.8, 22.0), (2, 209.8, 465.0, 22.0)]
    workspace.undo()
    assert readings(workspace, jar) == []


def test_a_comma_before_three_digits_is_read_like_its_neighbours(
    workspace: Workspace, jar: int
) -> None:
    cells = [["1", "212,4", "1,065"], ["2", "1,065", "1212,4"]]
    vessel_parts.paste_parts(workspace, LINE_WEIGHINGS, jar, cells)
    assert [row[1] for row in readings(workspace, jar)] == [212.4, 1.065]
    vessel_parts.paste_parts(workspace, BRIM_WEIGHINGS, jar, [["1", "1,065", "2,100"]])
    (asked,) = vessel_parts.part_rows(workspace, BRIM_WEIGHINGS, jar)
    assert set(asked.drafts) == {"empty_g", "filled_g"}


def test_pasted_nonsense_keeps_the_rest(workspace: Workspace, jar: int) -> None:
    cells = [["1", "212.4", "465.8", "22"], ["2", "??", "465", "22"], ["", "", "", ""], ["", "211"]]
    vessel_parts.paste_parts(workspace, LINE_WEIGHINGS, jar, cells)
    rows = vessel_parts.part_rows(workspace, LINE_WEIGHINGS, jar)
    assert [row.values["empty_g"] for row in rows] == [212.4, None, 211.0]
    assert rows[1].drafts["empty_g"][0] == "??"


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(cells=st.lists(st.lists(st.text(max_size=12), max_size=6), max_size=5))
def test_whatever_is_pasted_is_kept_or_read(
    workspace: Workspace, jar: int, cells: list[list[str]]
) -> None:
    keys = vessel_parts.paste_parts(workspace, LINE_WEIGHINGS, jar, cells)
    rows = {row.id: row for row in vessel_parts.part_rows(workspace, LINE_WEIGHINGS, jar)}
    for key in keys:
        assert all(sentence for _, sentence in rows[key].drafts.values())
    assert vessels.vessel_rows(load_shelf(workspace), SEA, TEXTS)


def test_pasting_onto_rows_writes_over_them_and_mends_them(workspace: Workspace, jar: int) -> None:
    key = vessel_parts.add_part(workspace, DIAMETERS, jar, {"height_mm": "x", "diameter_mm": "60"})
    cells = [["0", "61"], ["85", "74"]]
    vessel_parts.paste_parts(workspace, DIAMETERS, jar, cells, onto=[key])
    rows = vessel_parts.part_rows(workspace, DIAMETERS, jar)
    found = [(row.id == key, row.values["height_mm"], row.values["diameter_mm"]) for row in rows]
    assert found == [(True, 0.0, 61.0), (False, 85.0, 74.0)]
    assert rows[0].drafts == {}


def test_nothing_on_the_clipboard_is_no_act(workspace: Workspace, jar: int) -> None:
    assert vessel_parts.paste_parts(workspace, DIAMETERS, jar, []) == ()
    assert vessel_parts.paste_parts(workspace, DIAMETERS, jar, [["At height", "Diameter"]]) == ()
    assert workspace.undo_label == "Add to the shelf"


def test_rows_removed_together_come_back_together(workspace: Workspace, jar: int) -> None:
    vessel_parts.paste_parts(workspace, DIAMETERS, jar, [["0", "60"], ["40", "67"], ["85", "74"]])
    rows = vessel_parts.part_rows(workspace, DIAMETERS, jar)
    vessel_parts.remove_parts(workspace, DIAMETERS, [row.id for row in rows[:2]])
    assert len(vessel_parts.part_rows(workspace, DIAMETERS, jar)) == 1
    workspace.undo()
    assert len(vessel_parts.part_rows(workspace, DIAMETERS, jar)) == 3


def test_one_scale_for_all_weighings(workspace: Workspace, jar: int) -> None:
    with workspace.step("Write") as connection:
        scale = records.insert(connection, "scale", {"name": "Bench scale", "step_g": 0.5})
    for table in (LINE_WEIGHINGS, BRIM_WEIGHINGS):
        vessel_parts.add_part(workspace, table, jar, {"empty_g": "200"})
    vessel_parts.set_scale(workspace, jar, scale)
    assert vessel_parts.scale_of(workspace, jar) == scale
    with workspace.read() as connection:
        kept = [row["scale_id"] for row in records.fetch_all(connection, "weighing")]
    assert kept == [scale, scale]


def test_masses_of_a_column_have_the_same_decimals(workspace: Workspace, jar: int) -> None:
    vessel_parts.paste_parts(workspace, LINE_WEIGHINGS, jar, [["1", "209.85"], ["2", "211"]])
    rows = vessel_parts.part_rows(workspace, LINE_WEIGHINGS, jar)
    spec = LINE_WEIGHINGS.spec("empty_g")
    texts = [vessel_parts.cell_text(workspace, spec, row, rows) for row in rows]
    assert list(texts) == ["209.85 g", "211.00 g"]


# -- one vessel worked out -------------------------------------------------------------------------
def view(workspace: Workspace, jar: int, **typed: object) -> VesselView:
    shelf = load_shelf(workspace)
    draft = vessels.drafted(shelf.vessels[jar], typed)
    version = vessels.remembered_version(workspace, shelf)
    return vessels.view_vessel(draft, shelf, workspace.settings, workspace.texts, version)


def test_what_it_holds_is_volume_times_the_density_of_the_liquid(
    workspace: Workspace, jar: int
) -> None:
    recipe(workspace)
    vessel_parts.add_part(workspace, DIAMETERS, jar, {"height_mm": "0", "diameter_mm": "70"})
    found = view(workspace, jar)
    assert found.contents is not None
    # Cylinder of 70 mm to the line at 66 mm: π/4 · 7.0² · 6.6 mL, times 0.870 g/mL.
    assert found.contents.mix_g == pytest.approx(math.pi / 4 * 49 * 6.6 * 0.870)
    first = contents_lines(found.contents, workspace.texts, workspace.settings)[0]
    # 220.98 g by hand; nobody weighed it, so it has no tenths.
    assert first.startswith("221 g of mix")


@pytest.mark.parametrize(
    ("units", "grams", "said"),
    [
        # 28.349523125 g to the ounce (NIST SP 811), worked by hand.
        (("g", "lb oz"), (200.3, 213.8), "200–214 g · 7.1–7.5 oz"),
        (("g", "lb oz"), (440.0, 470.0), "440–470 g · 15.5 oz – 1 lb 0.6 oz"),
        (("oz", "g"), (220.98, 220.98), "7.8 oz · 221 g"),
        (("g", ""), (1200.0, 1300.4), "1200–1300 g"),
    ],
)
def test_an_estimated_weight_is_a_range_without_tenths(
    units: tuple[str, str], grams: tuple[float, float], said: str
) -> None:
    texts = Texts(units=Units(shown={"mass": units}))
    found = estimated_mass(texts, *grams).replace("\N{NO-BREAK SPACE}", " ")
    assert found == said


def test_of_an_estimate_only_the_lower_end_may_be_printed(workspace: Workspace, jar: int) -> None:
    recipe(workspace)
    vessel_parts.add_part(workspace, DIAMETERS, jar, {"height_mm": "0", "diameter_mm": "70"})
    found = view(workspace, jar).contents
    assert found is not None
    # 7.76 oz × 28.349523125 g = 219.99 g is the last hundredth of an ounce below 220 g.
    sure = replace(found, low_g=220.0, estimate=True)
    lines = contents_lines(sure, TEXTS, Settings({"sold_in_us": 1}))
    assert lines[-1] == "Net weight at most: Net Wt 7.76 oz (220 g)"


def test_typing_is_worked_out_before_it_is_stored(workspace: Workspace, jar: int) -> None:
    vessel_parts.add_part(workspace, DIAMETERS, jar, {"height_mm": "0", "diameter_mm": "70"})
    stored, typed = view(workspace, jar), view(workspace, jar, fill_mm=33.0)
    assert typed.measures.line_ml == pytest.approx((stored.measures.line_ml or 0) / 2)
    assert view(workspace, jar).measures == stored.measures


def test_a_field_emptied_while_typing_counts_as_empty(workspace: Workspace, jar: int) -> None:
    found = view(workspace, jar, fill_mm=None, cells=None, candle_rated=0, name=None)
    assert found.measures.fill_mm is None
    assert found.measures.cells == 1
    assert found.vessel.name == ""


def test_the_box_and_the_water_side_by_side() -> None:
    def found(nominal: float | None, *rows: WeighingRow) -> str:
        made = Vessel(id=1, name="T", nominal_ml=nominal, weighings=rows)
        return box_line(vessels.view_vessel(made, Shelf(), SEA, TEXTS), TEXTS)

    def weighed(key: int, level: str, water: float) -> WeighingRow:
        return WeighingRow(id=key, level=level, empty_g=0.0, filled_g=water, water_c=22.0)

    # 311.0 g and 253.2 g of water at 22 °C, Z = 1.0033 mL/g (ISO 8655-6): 312 and 254 mL.
    brim, line = weighed(1, "brim", 311.0), weighed(2, "line", 253.2)
    both = "The box says 300 mL; it holds 312 mL to the brim, 254 mL to the line."
    assert found(300.0, brim, line) == both
    assert found(300.0, brim) == "The box says 300 mL; it holds 312 mL to the brim."
    assert found(300.0, line) == "The box says 300 mL; it holds 254 mL to the line."
    assert found(254.0, brim, line) == ""
    assert found(None, brim, line) == ""
    assert found(300.0) == ""


def test_capacity_says_its_doubt_and_the_next_jar() -> None:
    rows = tuple(
        WeighingRow(id=n, vessel_no=n, empty_g=200.0, filled_g=200.0 + g, water_c=22.0)
        for n, g in enumerate((253.4, 255.2, 252.8), 1)
    )
    made = Vessel(id=1, name="T", weighings=rows)
    found = vessels.view_vessel(made, Shelf(), SEA, TEXTS).measures
    first, second = capacity_lines(found.line, TEXTS)
    assert first.startswith("255 mL")
    assert "±" in first
    # t(0.975, 2) · s · √(4/3) = 4.3027 · 1.2532 mL · 1.1547 = 6.2 mL.
    assert second.endswith("within about 6 mL.")
    assert any("JCGM 100:2008" in step for step in how_measured(found.line, TEXTS, SEA))
    assert capacity_lines(None, TEXTS) == ()


def test_cells_are_told_one_by_one(workspace: Workspace) -> None:
    recipe(workspace)
    details = {"vessel_kind": "clamshell", "cells": 6, "fill_mm": 20.0}
    shell = shelf_edit.new_item(workspace, "vessel", {"name": "Clamshell"}, details)
    typed = {"empty_g": "11", "filled_g": "96", "water_c": "21"}
    vessel_parts.add_part(workspace, LINE_WEIGHINGS, shell, typed)
    found = view(workspace, shell)
    assert found.contents is not None
    assert found.contents.per_cell_g * 6 == pytest.approx(found.contents.mix_g)
    lines = contents_lines(found.contents, workspace.texts, workspace.settings)
    assert any(line.startswith("6 cells of") for line in lines)
    assert found.drawing is not None
    assert not found.drawing.of("wick")
    assert "one of 6 cells" in found.drawing.description


def test_the_list_sorts_as_people_do_and_tells_what_was_weighed(
    workspace: Workspace, jar: int
) -> None:
    shelf_edit.new_item(workspace, "vessel", {"name": "Zinc tin"}, {"nominal_ml": 200.0})
    shelf_edit.new_item(workspace, "vessel", {"name": "Äpfelglas"})
    typed = {"empty_g": "212.4", "filled_g": "465.8", "water_c": "22"}
    vessel_parts.add_part(workspace, LINE_WEIGHINGS, jar, typed)
    rows = vessels.vessel_rows(load_shelf(workspace), SEA, TEXTS)
    assert [row.name for row in rows] == ["Amber tumbler", "Äpfelglas", "Zinc tin"]
    assert [row.line_measured for row in rows] == [True, False, False]
    assert rows[2].brim_ml == 200.0
    assert rows[0].on_hand is None


def test_the_recipe_is_remembered(tmp_path: Path) -> None:
    path = tmp_path / "kept.wickbench"
    first = Workspace.create(path, services())
    recipe(first, "Alder")
    cedar = recipe(first, "Cedar")
    shelf = load_shelf(first)
    chosen = vessels.remembered_version(first, shelf)
    assert chosen is not None
    assert chosen.name == "Alder"
    vessels.remember_recipe(first, cedar)
    first.close()
    second = Workspace.open(path, services())
    kept = vessels.remembered_version(second, load_shelf(second))
    vessels.remember_recipe(second, None)
    none = vessels.remembered_version(second, load_shelf(second))
    second.close()
    assert kept is not None
    assert kept.name == "Cedar"
    assert none is None
