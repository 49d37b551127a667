"""Weigh sheets of a plan: read back from the PDF by another library."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from pypdf import PdfReader

from app.test_plans import candle_of, write
from app.test_pouring import bench_with_plan, seen, weigh_all
from wickbench.app import plans, pouring
from wickbench.app.paper_sizes import paper_size
from wickbench.app.weigh_sheets import CAUTIONS, write_weigh_sheets
from wickbench.domain.bench import next_place, target_g
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from pathlib import Path

    from wickbench.app.workspace import Workspace

POINTS_PER_MM = 72 / 25.4
A4, LETTER = (210.0, 297.0), (215.9, 279.4)  # ISO 216; ANSI/ASME Y14.1, 8.5 × 11 in


def words_of(path: Path) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(path).pages).split())


@pytest.mark.parametrize(("region", "size"), [("US", LETTER), ("EU", A4), ("UK", A4)])
def test_the_page_is_that_of_the_region(
    workshop: Workspace, tmp_path: Path, region: str, size: tuple[float, float]
) -> None:
    """A4 by ISO 216, Letter by ANSI/ASME Y14.1 size A."""
    plan = bench_with_plan(workshop)
    for one in ("us", "eu", "uk"):
        workshop.set_setting(f"sold_in_{one}", one == region.lower())
    path = write_weigh_sheets(workshop, plan, tmp_path / "sheets.pdf")
    box = PdfReader(path).pages[0].mediabox
    found = (float(box.width) / POINTS_PER_MM, float(box.height) / POINTS_PER_MM)
    assert found == pytest.approx(size, abs=0.05)
    assert paper_size(workshop.settings) == pytest.approx(size, abs=0.05)


@pytest.mark.parametrize(("paper", "size"), [("Letter", LETTER), ("A4", A4)])
def test_the_paper_of_the_settings_comes_before_that_of_the_region(
    workshop: Workspace, tmp_path: Path, paper: str, size: tuple[float, float]
) -> None:
    plan = bench_with_plan(workshop)
    workshop.set_settings({"sold_in_us": paper != "Letter", "sold_in_eu": True, "paper": paper})
    box = PdfReader(write_weigh_sheets(workshop, plan, tmp_path / "sheets.pdf")).pages[0].mediabox
    found = (float(box.width) / POINTS_PER_MM, float(box.height) / POINTS_PER_MM)
    assert found == pytest.approx(size, abs=0.05)


def test_a_pour_that_was_begun_shows_what_was_really_weighed_beside_the_plan(
    workshop: Workspace, tmp_path: Path
) -> None:
    plan = bench_with_plan(workshop)
    planned = [line.amount for card in seen(workshop, plan).pots for line in card.weigh]
    session = pouring.start_pour(workshop, plan)
    first = next_place(session.state)
    assert first is not None
    over = target_g(session.state, first) + 60.0
    session = pouring.weigh(workshop, session, first, over)
    said = words_of(write_weigh_sheets(workshop, plan, tmp_path / "sheets.pdf"))
    assert f"{over:.0f} g" in said
    assert planned[0].replace("\u00a0", " ") in said
    # the oil follows the wax, and the sheet says what it was: 8 % of 60 g is 4.8 g more
    assert f"was {planned[1]} in the plan".replace("\u00a0", " ") in said
    oil = target_g(session.state, next_place(session.state) or first)
    assert f"{oil:.1f} g" in said
    assert "at the bench" in said
    session = pouring.finish_pot(workshop, weigh_all(workshop, session, 0), 0)
    pouring.set_note(workshop, session, 0, "cold room")
    said = words_of(write_weigh_sheets(workshop, plan, tmp_path / "sheets.pdf"))
    assert "Pot · poured" in said
    assert "planned 8 % of wax" in said
    assert "Note: cold room" in said


def test_the_foot_says_whose_which_day_and_which_page(workshop: Workspace, tmp_path: Path) -> None:
    plan = bench_with_plan(workshop)
    workshop.set_setting("business_name", "Hollow Lane Candles")
    pages = PdfReader(write_weigh_sheets(workshop, plan, tmp_path / "sheets.pdf")).pages
    for number, page in enumerate(pages, start=1):
        said = " ".join(page.extract_text().split())
        assert "Hollow Lane Candles · Weigh sheet" in said
        assert f"page {number} of {len(pages)}" in said


def test_every_pot_says_what_to_weigh_where_and_what_it_fills(
    workshop: Workspace, tmp_path: Path
) -> None:
    plan = bench_with_plan(workshop)
    view = seen(workshop, plan)
    said = words_of(write_weigh_sheets(workshop, plan, tmp_path / "sheets.pdf"))
    for card in view.pots:
        assert card.lot_code in said
        for line in card.weigh:
            for words in (line.name, line.amount, line.scale):
                assert words.replace("\u00a0", " ") in said
        for fill in card.fills:
            assert fill.replace("\u00a0", " ") in said
    for caution in CAUTIONS:
        assert caution in said
    assert "estimate" in said  # the recipe says no temperatures
    # soy takes its oil at 74 to 85 °C and is poured at 49 to 63 °C: common practice, no source
    assert "usual for such a wax 74 °C · 165 °F to 85 °C · 185 °F" in said
    assert "usual for such a wax 49 °C · 120 °F to 63 °C · 145 °F" in said


def test_what_did_not_pass_its_test_is_marked(workshop: Workspace, tmp_path: Path) -> None:
    plan = bench_with_plan(workshop)
    write(workshop, plan, 0, "what", f"c{candle_of(workshop, plan)}")
    said = words_of(write_weigh_sheets(workshop, plan, tmp_path / "sheets.pdf"))
    assert "For testing, not for sale: Garden jar" in said


def test_a_plan_that_was_begun_keeps_its_lot_codes_on_paper(
    workshop: Workspace, tmp_path: Path
) -> None:
    plan = bench_with_plan(workshop)
    session = pouring.start_pour(workshop, plan)
    said = words_of(write_weigh_sheets(workshop, plan, tmp_path / "sheets.pdf"))
    for pot in session.pots:
        assert pot.lot_code in said


def test_an_empty_plan_and_a_folder_that_is_not_there_get_a_sentence(
    workshop: Workspace, tmp_path: Path
) -> None:
    empty = plans.new_plan(workshop)
    with pytest.raises(DomainError, match=r"weigh\.nothing"):
        write_weigh_sheets(workshop, empty, tmp_path / "sheets.pdf")
    plan = bench_with_plan(workshop)
    with pytest.raises(DomainError) as refused:
        write_weigh_sheets(workshop, plan, tmp_path / "nowhere" / "sheets.pdf")
    assert refused.value.key not in workshop.texts.say(refused.value)
    assert not list(tmp_path.iterdir()) or all(p.suffix != ".pdf" for p in tmp_path.iterdir())
