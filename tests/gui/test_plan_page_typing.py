"""What a key pressed in a plan of many pots sets going: counted, not timed."""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QObject
from PySide6.QtWidgets import QApplication, QLineEdit
from typing_extensions import override

from app.test_pouring import bench_with_plan
from gui.test_plan_page import open_cell, shown
from wickbench.app import edit, plans
from wickbench.app.plan_fields import LINE_FIELDS
from wickbench.app.plan_view import PlanView, view_plan
from wickbench.app.shelf import load_shelf
from wickbench.gui.plan.plan_page import PlanPage
from wickbench.gui.plan.pot_card import PotCardView

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from gui.conftest import Answers
    from wickbench.app.plans import PlanRow
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace

FIRST, NEXT = "300", "301"
SETTLED = 60


class Layouts(QObject):
    """Counts layout requests by the class of the widget that is laid out."""

    def __init__(self) -> None:
        super().__init__()
        self.count: Counter[str] = Counter()

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest:
            self.count[watched.objectName() or type(watched).__name__] += 1
        return False


@pytest.fixture
def page(workspace: Workspace, ask: Answers, qtbot: QtBot) -> PlanPage:
    plan = bench_with_plan(workspace)
    row = plans.load_plan(workspace, plan).lines[0]
    count = next(spec for spec in LINE_FIELDS if spec.name == "count")
    edit.store_field(workspace, count, row.id, int(FIRST))
    return shown(workspace, ask, qtbot)


def cards(page: PlanPage) -> list[PotCardView]:
    return [card for card in page.cards if not card.isHidden()]


def settle() -> None:
    for _ in range(SETTLED):
        QApplication.processEvents()


def test_a_key_shows_only_what_is_in_sight_and_the_rest_follows(
    page: PlanPage, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    editor = open_cell(page, 0, "count")
    assert isinstance(editor, QLineEdit)
    settle()
    assert len(cards(page)) > 10
    at_once: list[PotCardView] = []
    bare = PotCardView.show_card
    monkeypatch.setattr(
        PotCardView, "show_card", lambda card, what: (at_once.append(card), bare(card, what))
    )
    editor.setText(FIRST[:-1])
    qtbot.keyClicks(editor, NEXT[-1])
    in_sight = [card for card in cards(page) if not card.visibleRegion().isEmpty()]
    assert set(at_once) == set(in_sight)
    assert len(at_once) < 5
    settle()
    assert set(at_once) >= set(cards(page))


def test_a_key_that_changes_no_height_lays_nothing_of_the_page_out(
    page: PlanPage, qtbot: QtBot, qapp: QApplication
) -> None:
    editor = open_cell(page, 0, "count")
    assert isinstance(editor, QLineEdit)
    settle()
    pots = len(cards(page))
    seen = Layouts()
    qapp.installEventFilter(seen)
    editor.setText(FIRST[:-1])
    qtbot.keyClicks(editor, NEXT[-1])
    QCoreApplication.sendPostedEvents()
    qapp.removeEventFilter(seen)
    assert len(cards(page)) == pots
    assert {name for name in seen.count if name in {"pots", "main_column"}} == set()
    assert sum(seen.count.values()) <= 12, seen.count


@pytest.fixture
def hard(workspace: Workspace, ask: Answers, qtbot: QtBot) -> PlanPage:
    """Thirty jars of as many weights, of which fewer pots hold all when there is time to look."""
    plan = bench_with_plan(workspace, pot_ml=1500.0)
    row = plans.load_plan(workspace, plan)
    drawn = random.Random(11)  # noqa: S311 - lots, not secrets
    line = {
        "version_id": row.lines[0].version_id, "vessel_id": row.lines[0].vessel_id,
        "wick_count": 0, "count": 1, "fill_to": "net",
    }  # fmt: skip
    for _ in range(30):
        plans.add_line(workspace, plan, line | {"net_g": float(drawn.randint(250, 420))})
    plans.remove_lines(workspace, tuple(one.id for one in row.lines))
    return shown(workspace, ask, qtbot)


def at_once(page: PlanPage, workspace: Workspace) -> PlanView:
    assert page.view is not None
    shelf, today = load_shelf(workspace), workspace.clock.today()
    return view_plan(page.view.plan, shelf, workspace.settings, workspace.texts, today=today)


def test_what_was_hurried_is_settled_when_the_window_is_idle(
    hard: PlanPage, qtbot: QtBot, workspace: Workspace
) -> None:
    editor = open_cell(hard, 0, "count")
    assert isinstance(editor, QLineEdit)
    settle()
    editor.selectAll()
    qtbot.keyClicks(editor, "2")
    assert hard.view is not None
    assert hard.view.result.hurried
    assert hard.view.plan.lines[0].count == 2
    qtbot.waitUntil(lambda: hard.view is not None and not hard.view.result.hurried)
    settle()
    assert hard.view == at_once(hard, workspace)
    assert len(cards(hard)) == len(hard.view.pots)


def test_only_the_last_key_is_settled(
    hard: PlanPage, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    settled: list[int | None] = []
    bare = PlanPage._show_figures

    def noted(page: PlanPage, plan: PlanRow, shelf: Shelf, *, quick: bool = False) -> None:
        if not quick:
            settled.append(plan.lines[0].count)
        bare(page, plan, shelf, quick=quick)

    editor = open_cell(hard, 0, "count")
    assert isinstance(editor, QLineEdit)
    settle()
    monkeypatch.setattr(PlanPage, "_show_figures", noted)
    for typed in ("2", "3"):
        editor.selectAll()
        qtbot.keyClicks(editor, typed)
    qtbot.waitUntil(lambda: bool(settled))
    settle()
    assert settled == [3]


def test_pouring_starts_from_the_settled_plan(hard: PlanPage, workspace: Workspace) -> None:
    plan, shelf = hard.plan, hard._shelf
    assert plan is not None
    assert shelf is not None
    typed = replace(plan, extra_g=31.0)
    hard._compute(typed, typing=True)
    assert hard.view is not None
    assert hard.view.result.hurried
    hard.begin()
    assert not hard.view.result.hurried
    assert hard.view == at_once(hard, workspace)
