"""Readings kept with a sheet: compared with what is entered, and what they say of the last row."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from uncertainties import ufloat

from app.label_workshop import fill_workshop
from documents.scans import Look, scan_of
from wickbench.app import shelf_edit
from wickbench.app.print_run_view import sheet_values
from wickbench.app.sheet_measuring_words import measured_line
from wickbench.app.sheet_readings import (
    kept_readings,
    last_doubts,
    measured_sheet,
    take_measures,
)
from wickbench.app.sheet_scans import find_in_scan, kept_scan
from wickbench.app.sheet_twins import twin_of
from wickbench.app.shelf import load_shelf
from wickbench.app.sticker_sheets import sheet_findings, sheet_of
from wickbench.domain.errors import DomainError
from wickbench.domain.sheet_measuring import READING_MM, SideReadings

if TYPE_CHECKING:
    from pathlib import Path

    from wickbench.app.workspace import Workspace

ACROSS = SideReadings(first_near_mm=9.0, last_near_mm=140.0, size_mm=62.0)
DOWN = SideReadings(first_near_mm=12.5, last_far_mm=286.0, size_mm=36.0)


def _measured(workshop: Workspace) -> tuple[int, dict[str, object]]:
    key = fill_workshop(workshop).three_by_seven
    readings = {"across": ACROSS, "down": DOWN}
    found = measured_sheet(sheet_values(workshop, key), readings)
    take_measures(workshop, key, found.values, ruler=readings)
    return key, sheet_values(workshop, key)


def test_measures_are_compared_with_those_entered(workshop: Workspace) -> None:
    key = fill_workshop(workshop).three_by_seven
    found = measured_sheet(sheet_values(workshop, key), {"across": ACROSS, "down": DOWN})
    pitch = next(one for one in found.compared if one.name == "pitch_x_mm")
    # (140 - 9) / 2 = 65.5, each reading within half a millimetre; entered is 65.
    doubt = (ufloat(140, READING_MM) - ufloat(9, READING_MM)) / 2
    assert pitch.measured.value_mm == 65.5
    assert pitch.measured.doubt_mm == pytest.approx(doubt.std_dev)
    assert pitch.differs
    said = measured_line(workshop.texts, pitch).replace("\N{NO-BREAK SPACE}", " ")
    assert said.endswith("65.5 mm, give or take 0.4 mm · entered is 65 mm")
    size = next(one for one in found.compared if one.name == "sticker_w_mm")
    assert not size.differs


def test_readings_stay_with_the_sheet_and_say_how_sure_the_last_row_is(
    workshop: Workspace,
) -> None:
    key, values = _measured(workshop)
    assert kept_readings(values) == {"across": ACROSS, "down": DOWN}
    across, down = last_doubts(values)
    # Read itself, the last column is as sure as one reading; the last row hangs on two.
    last_row = ufloat(286, READING_MM) - ufloat(36, READING_MM)
    assert (across, down) == pytest.approx((READING_MM, last_row.std_dev))
    workshop.undo()
    assert last_doubts(sheet_values(workshop, key)) == (None, None)


def test_readings_of_a_ruler_that_leave_the_last_row_unsure_are_told(workshop: Workspace) -> None:
    _, values = _measured(workshop)
    assert not [one for one in sheet_findings(values) if "unsure" in one.key]
    bad = {"down": {"first_near_mm": 12.5, "last_far_mm": 286.0, "size_mm": 36.0}}
    values["readings"] = {"scan": {"down": {"last_doubt_mm": 1.9}}, "ruler": {}}
    assert [one.key for one in sheet_findings(values) if "unsure" in one.key] == [
        "sheet.last-unsure-down"
    ]
    values["readings"] = {"scan": {"down": {"last_doubt_mm": 1.9}}, "ruler": bad}
    assert not [one for one in sheet_findings(values) if "unsure" in one.key]


@pytest.mark.parametrize(
    "stored", [None, "x", {"ruler": {"across": {"size_mm": -4}}}, {"scan": {}}]
)
def test_readings_that_cannot_be_are_left_alone(workshop: Workspace, stored: object) -> None:
    values = {**sheet_values(workshop, fill_workshop(workshop).circles), "readings": stored}
    assert last_doubts(values) == (None, None)
    assert kept_readings(values)["across"] == SideReadings()


def test_a_scan_gives_the_fields_of_the_sheet(workshop: Workspace, tmp_path: Path) -> None:
    key = fill_workshop(workshop).circles
    stored = sheet_values(workshop, key)
    path = tmp_path / "rounds.png"
    path.write_bytes(scan_of(sheet_of(stored), Look(dpi=90)))
    found = find_in_scan(path, {**stored, "shape": "rectangle"})
    assert (found.values["columns"], found.values["rows"], found.values["shape"]) == (
        4,
        6,
        "circle",
    )
    assert found.values["sticker_w_mm"] == found.values["sticker_h_mm"]
    assert found.values["sticker_w_mm"] == pytest.approx(42, abs=0.25)
    take_measures(workshop, key, found.values, scan=kept_scan(found.scanned, path.name))
    assert max(one or 9.0 for one in last_doubts(sheet_values(workshop, key))) < 0.3
    with pytest.raises(DomainError, match=r"scan\.unreadable"):
        find_in_scan(tmp_path / "gone.png", stored)
    with pytest.raises(DomainError, match=r"scan\.no-page-size"):
        find_in_scan(path, {})


def test_a_sheet_entered_again_is_known_by_its_measures(workshop: Workspace) -> None:
    key = fill_workshop(workshop).three_by_seven
    again = {**sheet_values(workshop, key), "left_mm": 9.2, "pitch_y_mm": 39.4}
    details = {name: value for name, value in again.items() if name not in {"item_id", "name"}}
    copy = shelf_edit.new_item(workshop, "sheet", {"name": "Found in a box"}, details)
    twin = twin_of(load_shelf(workshop), copy, sheet_values(workshop, copy))
    assert twin is not None
    assert twin.id == key
    assert twin_of(load_shelf(workshop), copy, {**again, "left_mm": 8.0}) is None
