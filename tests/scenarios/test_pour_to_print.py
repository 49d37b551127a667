"""From the plan to the printed sheet and back: labels made, brought up to date, printed, repeated.

What stands on the paper is read back with pypdf.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pypdf
from PySide6.QtWidgets import QApplication

from app.pour_workshop import pour_workshop
from scenarios.test_leftovers import pour, workspace_of
from wickbench.app import stock
from wickbench.app.shelf import load_shelf
from wickbench.gui.labels.labels_page import PRINTED
from wickbench.gui.labels.pour_dialog import PourDialog

if TYPE_CHECKING:
    from pathlib import Path

    from gui.conftest import Answers
    from scenarios.hands import Hands


def dialog_of(labels: Any) -> PourDialog:  # noqa: ANN401 - the page has parts of its own
    QApplication.processEvents()
    (dialog,) = [one for one in labels.findChildren(PourDialog) if one.isVisible()]
    return dialog


def lots_on(path: Path) -> dict[str, int]:
    """How often each lot code stands on the sheets."""
    text = " ".join(page.extract_text() for page in pypdf.PdfReader(path).pages)
    return {code: text.count(code) for code in ("26-332-A1", "26-332-A2", "26-332-A3")}


def test_a_pour_gets_its_labels_and_they_can_be_had_again(
    hands: Hands, ask: Answers, tmp_path: Path
) -> None:
    workspace = workspace_of(hands)
    kept = pour_workshop(workspace)
    for item in load_shelf(workspace).on_hand:
        stock.buy(workspace, item, 9000, 30.0)
    plan = hands.page("pour_plan")

    # before the pour: labels for what is planned
    hands.press(plan.to_labels)
    labels = hands.window.workbench.pages["labels"]  # type: ignore[union-attr]  # a workshop is open
    hands.press(dialog_of(labels).make)
    assert labels.desk.run.plan_id == kept.plan
    ask.path = tmp_path / "planned.pdf"
    hands.press(labels.export)
    planned = lots_on(ask.path)
    assert sum(planned.values()) == 30

    # after the pour a spare one for each lot is wanted; the run is brought up to date from there
    bench = pour(hands, hands.page("pour_plan"))
    hands.press(bench.to_labels)
    dialog = dialog_of(labels)
    assert "print 1, 30 stickers" in dialog.runs.text()
    hands.type_in(dialog.spare, "1")
    hands.press(dialog.make)
    ask.path = tmp_path / "poured.pdf"
    hands.press(labels.export)
    spare = {code: count + sum(code == line.lot_code for line in labels.desk.run.lines)
             for code, count in planned.items()}  # fmt: skip
    assert lots_on(ask.path) == spare

    # weeks later the net weight is another, and the first sheets are wanted once more
    candles = hands.page("candles")
    candles.show_record(kept.jar)
    hands.type(candles.editor.weight.form, "declared_net_g", "180 g")
    assert load_shelf(workspace).candles[kept.jar].declared_net_g == 180.0
    labels = hands.page("labels")
    labels.tabs.setCurrentIndex(PRINTED)
    history = labels.history
    history.table.go_to(history.model.rows[-1].id)
    QApplication.processEvents()
    ask.path = tmp_path / "again.pdf"
    hands.press(history.export_again)
    first, again = (pypdf.PdfReader(tmp_path / name) for name in ("planned.pdf", "again.pdf"))
    texts = [one.extract_text() for one in first.pages]
    assert [one.extract_text() for one in again.pages] == texts
    assert "200 g" in texts[0]
    assert ask.told == []
