"""What is corrected on a printer, said in words; measured long ago, or for another tray only."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from wickbench.app import calibrations
from wickbench.app.calibration_words import OLD_DAYS, calibration_findings, correction_text
from wickbench.documents.calibration import crosshairs
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

PAGE = (210.0, 297.0)


def _measure(workshop: Workspace, tray: str, right_mm: float, down_mm: float) -> None:
    points = [(x + right_mm, y + down_mm) for x, y in crosshairs(*PAGE)]
    calibrations.keep_calibration(workshop, "laser", tray, PAGE, points)


def test_shift_and_day_are_said(workshop: Workspace) -> None:
    assert correction_text(workshop, "laser", "1") == ""
    _measure(workshop, "1", 0.8, -0.5)
    said = correction_text(workshop, "laser", "1")
    assert "0.8 mm too far right, 0.5 mm too high" in said
    assert workshop.texts.day(workshop.clock.today().isoformat()) in said
    _measure(workshop, "1", 0.0, 0.0)
    assert "where they belong" in correction_text(workshop, "laser", "1")


def test_size_and_turn_are_said(workshop: Workspace) -> None:
    # A half percent large about the corner; worked by hand: 0.005 of 105 and 148.5 mm.
    points = [(x * 1.005, y * 1.005) for x, y in crosshairs(*PAGE)]
    calibrations.keep_calibration(workshop, "laser", "1", PAGE, points)
    said = correction_text(workshop, "laser", "1")
    assert "0.5 mm too far right, 0.7 mm too low, 0.5 % too large" in said
    # 0.3 mm lower over 170 mm between the crosshairs: atan(0.3 / 170) is 0.10 degrees.
    points = [(x, y + (0.3 if x > 100 else 0.0)) for x, y in crosshairs(*PAGE)]
    calibrations.keep_calibration(workshop, "laser", "1", PAGE, points)
    assert "turned by 0.10° to the right" in correction_text(workshop, "laser", "1")


def test_half_a_year_and_another_tray_are_told(workshop: Workspace) -> None:
    _measure(workshop, "1", 0.8, 0.0)
    assert calibration_findings(workshop, "laser", "1") == ()
    assert [one.key for one in calibration_findings(workshop, "laser", "2")] == [
        "calibration.other-tray"
    ]
    assert calibration_findings(workshop, "inkjet", "2") == ()
    kept = calibrations.kept_calibration(workshop, "laser", "1")
    assert kept is not None
    for days, told in ((OLD_DAYS, False), (OLD_DAYS + 1, True)):
        day = workshop.clock.today() - dt.timedelta(days=days)
        with workshop.step("Measure") as connection:
            records.update(connection, "calibration", kept.id, {"measured_on": day})
        found = calibration_findings(workshop, "laser", "1")
        assert bool(found) is told
    assert workshop.texts.say(found[0]).startswith("Where this printer puts things was measured")
