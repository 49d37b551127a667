"""The demo workshop holds what a visitor wants to look at, and its papers can be written."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pdfplumber
import pytest

from wickbench.app.candle_state import state_of
from wickbench.app.measures import measure
from wickbench.app.papers import write_all_papers
from wickbench.app.plan_view import view_plan
from wickbench.app.plans import load_plans
from wickbench.domain.findings import Rank

if TYPE_CHECKING:
    from pathlib import Path

    from demo_papers import DemoPapers
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace


@pytest.fixture(scope="module")
def workshop(demo_papers: DemoPapers) -> Workspace:
    return demo_papers.workspace


@pytest.fixture(scope="module")
def shelf(demo_papers: DemoPapers) -> Shelf:
    return demo_papers.shelf


PAPERS = ("weigh-sheets", "labels", "vessel-cards", "recipe-cards", "calibration")


def test_the_shelf_is_worth_opening(shelf: Shelf) -> None:
    assert len(shelf.of_kind("wax")) >= 4
    assert len(shelf.of_kind("fragrance")) >= 8
    assert len(shelf.of_kind("sheet")) >= 3
    assert len(shelf.vessels) >= 6
    assert len(shelf.newest_versions()) >= 6
    assert len(shelf.candles) >= 8
    wicks = [len(candle.wick_ids) for candle in shelf.candles.values()]
    assert 0 in wicks
    assert 2 in wicks
    states = {state_of(candle, shelf).state for candle in shelf.candles.values()}
    assert states == {"untested", "in_test", "passed", "test_again"}


def test_weighings_are_believable(workshop: Workspace, shelf: Shelf) -> None:
    # capacities within a case differ by 1 to 3 percent: common practice, no source
    for vessel in shelf.vessels.values():
        found = measure(vessel, shelf, workshop.settings)
        assert found.line is not None
        assert found.line.n_vessels >= 2
        assert not [one for one in found.findings if one.rank is Rank.STOPS]
        volumes = [volume for _, volume in found.line.vessels_ml]
        assert 0 < (max(volumes) - min(volumes)) / found.line.volume_ml < 0.06


def test_the_plan_pours_thirty_six_candles_over_three_pots(
    workshop: Workspace, shelf: Shelf
) -> None:
    (plan,) = (one for one in load_plans(workshop) if one.state == "planned")
    view = view_plan(plan, shelf, workshop.settings, workshop.texts, today=workshop.clock.today())
    assert view.result.candles == 36
    assert len(view.pots) == 3
    for pot in view.result.pots:
        weighed = sum(round(line.weigh_g * 1000) for line in pot.weigh)
        filled = sum(round(fill.each_g * 1000) * fill.count for fill in pot.fills)
        assert weighed == filled + round(pot.leftover_g * 1000)


def test_every_paper_is_written_with_its_fonts(workshop: Workspace, tmp_path: Path) -> None:
    papers = list(write_all_papers(workshop, tmp_path))
    assert not workshop.ask.told  # type: ignore[attr-defined]  # the silent one keeps what was told
    names = " ".join(paper.name for paper in papers)
    assert all(kind in names for kind in PAPERS)
    for paper in papers:
        with pdfplumber.open(paper) as pdf:
            assert pdf.pages
            assert all(page.chars for page in pdf.pages)
            fonts = {char["fontname"] for page in pdf.pages for char in page.chars}
            assert all("+" in font for font in fonts), "only embedded subsets"
