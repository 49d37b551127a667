"""Every paper of a workshop on both pages: measured in the PDF by two other libraries."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pdfplumber
import pytest
from pypdf import PdfReader

from app.test_pouring import bench_with_plan
from wickbench.app import plans
from wickbench.app.papers import write_all_papers
from wickbench.storage import records

if TYPE_CHECKING:
    from pathlib import Path

    from wickbench.app.workspace import Workspace

MM = 72 / 25.4
A4, LETTER = (210.0, 297.0), (215.9, 279.4)  # ISO 216; ANSI/ASME Y14.1, 8.5 × 11 in
NEAREST_EDGE_MM = 4.0  # laser printers leave 4 to 5 mm: common practice, no source


@pytest.fixture(params=[("A4", A4), ("Letter", LETTER)], ids=["A4", "Letter"])
def papers(
    request: pytest.FixtureRequest, workshop: Workspace, tmp_path: Path
) -> tuple[list[Path], tuple[float, float]]:
    name, size = request.param
    workshop.set_setting("paper", name)
    both = (plan := bench_with_plan(workshop), plans.same_again(workshop, plan))
    with workshop.step("Name") as connection:
        for one in both:
            records.update(connection, "plan", one, {"name": "Fair", "pour_on": "2026-11-28"})
    return list(write_all_papers(workshop, tmp_path / "papers")), size


def test_every_paper_has_the_page_of_the_settings_and_stays_on_it(
    papers: tuple[list[Path], tuple[float, float]],
) -> None:
    written, size = papers
    for path in written:
        with pdfplumber.open(path) as pdf:
            for page in pdf.pages:
                found = (page.width / MM, page.height / MM)
                assert found == pytest.approx(size, abs=0.05), path.name
                for char in page.chars:
                    assert char["x0"] / MM >= NEAREST_EDGE_MM, path.name
                    assert char["x1"] / MM <= size[0] - NEAREST_EDGE_MM, path.name
                    assert char["top"] / MM >= NEAREST_EDGE_MM, path.name
                    assert char["bottom"] / MM <= size[1] - NEAREST_EDGE_MM, path.name


def test_every_paper_prints_at_its_size_with_its_own_typefaces(
    papers: tuple[list[Path], tuple[float, float]],
) -> None:
    """ISO 32000-1, table 150: PrintScaling None; 9.9: an embedded font has a font file."""
    for path in papers[0]:
        reader = PdfReader(path)
        root: Any = reader.trailer["/Root"]
        assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
        for page in reader.pages:
            resources: Any = page["/Resources"]
            for font in resources["/Font"].values():
                inner = font.get_object()["/DescendantFonts"][0].get_object()
                assert {"/FontFile2", "/FontFile3"} & set(inner["/FontDescriptor"].get_object())


def test_each_paper_has_a_clear_name_of_its_own(
    papers: tuple[list[Path], tuple[float, float]],
) -> None:
    """Two plans of one day and one name are two files."""
    names = [path.name for path in papers[0]]
    assert len(set(names)) == len(names)
    for kind in ("vessel-cards.pdf", "recipe-cards.pdf", "calibration-page.pdf"):
        assert kind in names
    sheets = [name for name in names if name.startswith("weigh-sheets-")]
    assert sheets == ["weigh-sheets-2026-11-28-fair.pdf", "weigh-sheets-2026-11-28-fair-2.pdf"]
    assert all(path.exists() for path in papers[0])


def test_the_bar_of_the_calibration_page_is_a_hundred_millimetres_long(
    papers: tuple[list[Path], tuple[float, float]],
) -> None:
    path = next(path for path in papers[0] if path.name == "calibration-page.pdf")
    with pdfplumber.open(path) as pdf:
        lengths = [line["x1"] - line["x0"] for line in pdf.pages[0].lines]
    assert max(lengths) / MM == pytest.approx(100.0, abs=0.01)
