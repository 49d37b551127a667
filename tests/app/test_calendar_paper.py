"""The calendar of a plan on paper, read back from its PDF by another library."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pdfplumber
import pytest

from app.test_pouring import bench_with_plan
from wickbench.app.calendar_paper import write_calendar
from wickbench.app.papers import write_all_papers
from wickbench.domain.errors import DomainError
from wickbench.storage import records

if TYPE_CHECKING:
    from pathlib import Path

    from wickbench.app.workspace import Workspace

MM = 72 / 25.4  # points to the millimetre: ISO 32000-1, 8.3.2.3
MARGIN_MM, WIDTH_MM = 12.0, 210.0 - 2 * 12.0  # the margins of every paper here, on A4


@pytest.fixture
def plan(workshop: Workspace) -> int:
    made = bench_with_plan(workshop)
    workshop.set_setting("paper", "A4")
    with workshop.step("set") as connection:
        wax = records.fetch_all(connection, "wax")[0]["item_id"]
        records.update(connection, "wax", int(str(wax)), {"cure_days": 10})
        records.update(connection, "plan", made, {"needed_on": "2026-12-19", "name": "The fair"})
    return made


def test_each_step_stands_with_its_day_and_reason(
    workshop: Workspace, plan: int, tmp_path: Path
) -> None:
    path = write_calendar(workshop, plan, tmp_path / "calendar.pdf")
    with pdfplumber.open(path) as pdf:
        (page,) = pdf.pages
        words = page.extract_text()
    assert words.startswith("Needed by Saturday 19 December 2026\nThe fair")
    at = [words.index(one) for one in (
        "Tuesday 8 December 2026 Pour all of it",
        "Days of cure: 10, so that labels can go on on Friday 18 December 2026.",
        "Friday 18 December 2026 Label all of it",
        "Saturday 19 December 2026 Needed",
    )]  # fmt: skip
    assert at == sorted(at)


def test_the_strip_is_to_scale(workshop: Workspace, plan: int, tmp_path: Path) -> None:
    """By hand: 25 days from 25 November to 19 December; the cure fills the 14th to the 24th."""
    path = write_calendar(workshop, plan, tmp_path / "calendar.pdf")
    with pdfplumber.open(path) as pdf:
        page = pdf.pages[0]
        wide = max((one for one in (*page.rects, *page.curves)), key=lambda one: one["width"])
    assert wide["x0"] / MM == pytest.approx(MARGIN_MM + WIDTH_MM * 13 / 25, abs=0.02)
    assert wide["x1"] / MM == pytest.approx(MARGIN_MM + WIDTH_MM * 24 / 25, abs=0.02)


def test_a_plan_without_a_day_has_no_calendar(
    workshop: Workspace, plan: int, tmp_path: Path
) -> None:
    names = [one.name for one in write_all_papers(workshop, tmp_path / "with")]
    assert any(name.startswith("calendar-2026-12-19") for name in names)
    with workshop.step("set") as connection:
        records.update(connection, "plan", plan, {"needed_on": None})
    names = [one.name for one in write_all_papers(workshop, tmp_path / "without")]
    assert not any(name.startswith("calendar") for name in names)
    with pytest.raises(DomainError) as refused:
        write_calendar(workshop, plan, tmp_path / "calendar.pdf")
    assert refused.value.key == "calendar.no-day"
