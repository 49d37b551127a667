"""A leftover through the window: kept at the bench, worked into another pour, poured, undone."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from PySide6.QtWidgets import QApplication

from app.test_leftovers_app import everything
from app.test_pouring import bench_with_plan
from wickbench.app import stock
from wickbench.app.shelf import load_shelf
from wickbench.gui.leftovers.plan_card import LeftoverCard

if TYPE_CHECKING:
    from scenarios.hands import Hands
    from wickbench.app.workspace import Workspace


def workspace_of(hands: Hands) -> Workspace:
    assert hands.window.workspace is not None
    return hands.window.workspace


def pour(hands: Hands, plan: Any) -> Any:  # noqa: ANN401 - the page of the plan, then the bench
    """Start pouring, weigh everything as shown, pour every pot out."""
    hands.press(plan.start)
    bench = hands.window.workbench
    assert bench is not None
    page = bench.pages["bench"]
    while page.view.phase != "done":
        if page.view.phase == "weigh":
            hands.press(page.step.as_shown)
        else:
            hands.press(page.fills.finish)
    return page


def leftover_card(plan: Any) -> Any:  # noqa: ANN401 - one of the page's cards
    section = next(one for one in plan.sections if isinstance(one.panel, LeftoverCard))
    if not section.header.isChecked():
        section.header.click()  # folded until somebody wants it
        QApplication.processEvents()
    return section.panel


def test_a_leftover_goes_from_one_pot_into_another(hands: Hands) -> None:
    workspace = workspace_of(hands)
    bench_with_plan(workspace)
    for item in load_shelf(workspace).on_hand:
        stock.buy(workspace, item, 9000, 30.0)  # enough for two pours
    plan = hands.page("pour_plan")
    bench = pour(hands, plan)

    assert bench.keep.isVisible()
    hands.type_in(bench.keep.mass, "412 g")
    (row,) = load_shelf(workspace).leftovers.values()
    assert row.mass_g == 412.0
    assert row.lot_code

    plan = hands.page("pour_plan")
    hands.press(plan.start)  # planned the same again
    card = leftover_card(plan)
    assert card.isVisible()
    hands.type_in(card.mass, "9 kg")
    assert "412" in card.mass.trouble.sentence
    assert not plan.plan.leftovers
    hands.type_in(card.mass, "300 g")
    assert plan.plan.leftovers
    assert plan.view.pots[0].weigh[0].amount.replace("\N{NO-BREAK SPACE}", " ") == "300 g"
    needs = dict(plan.view.result.needs)
    before = everything(workspace)
    on_hand = dict(load_shelf(workspace).on_hand)
    pour(hands, plan)

    shelf = load_shelf(workspace)
    # mass is kept: what the plan said left the shelf, and nothing was lost between the pots
    for item, used in needs.items():
        assert (on_hand[item] or 0) - (shelf.on_hand[item] or 0) == pytest.approx(used, abs=1e-3)
    assert everything(workspace) == pytest.approx(before, abs=5e-3)
    assert shelf.leftovers[row.id].left_g == pytest.approx(112.0)

    page = hands.page("leftovers")
    page.show_record(row.id)
    QApplication.processEvents()
    assert page.uses.isVisible()
    assert shelf.leftovers[row.id].uses[0].name in page.uses_model.rows[0].what

    after = hands.dump(journalled=True)
    acts = hands.undo_everything()
    assert acts > 10
    assert not load_shelf(workspace).leftovers
    assert hands.redo_everything() == acts
    assert hands.dump(journalled=True) == after
