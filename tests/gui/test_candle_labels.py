"""The labels of a candle on its page: chosen, proposed, and marked as a proposal."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication, QComboBox

from app.label_workshop import Kept, fill_workshop
from wickbench.app import labels, print_runs, shelf_edit
from wickbench.app.shelf import load_shelf
from wickbench.gui.candles.candles_page import CandlesPage

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gui.conftest import Answers
    from wickbench.app.workspace import Workspace


@pytest.fixture
def shop(workspace: Workspace) -> Kept:
    return fill_workshop(workspace)


@pytest.fixture
def page(
    qapp: QApplication, workspace: Workspace, ask: Answers, shop: Kept
) -> Iterator[CandlesPage]:
    made = CandlesPage(workspace, ask)
    made.show()
    made.show_record(shop.bramble)
    QApplication.processEvents()
    yield made
    made.release()
    made.close()
    made.deleteLater()
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def combo_of(page: CandlesPage, name: str) -> QComboBox:
    editor = page.editor.labels.fields[name].editor
    assert isinstance(editor, QComboBox)
    return editor


def hint_of(page: CandlesPage, name: str) -> str:
    line = combo_of(page, name).lineEdit()
    assert line is not None
    return line.placeholderText()


def test_the_only_label_of_a_kind_is_proposed_until_one_was_used(
    page: CandlesPage, shop: Kept
) -> None:
    workspace = page.workspace
    assert "proposed" not in hint_of(page, "jar_label_id")
    front = labels.new_label(workspace, "hush", name="Front")
    QApplication.processEvents()
    assert hint_of(page, "jar_label_id") == "Front (proposed: the only one there is)"
    other = labels.new_label(workspace, "sill", name="Framed")
    QApplication.processEvents()
    assert "proposed" not in hint_of(page, "jar_label_id")
    line = {"label_id": other, "candle_id": shop.bramble, "count": 1}
    print_runs.add_line(workspace, None, line)
    QApplication.processEvents()
    assert hint_of(page, "jar_label_id") == "Framed (proposed: used last for this candle)"
    assert hint_of(page, "lid_label_id") == ""
    assert load_shelf(workspace).candles[shop.bramble].jar_label_id is None
    assert front != other


def test_a_label_is_chosen_and_only_labels_of_its_kind_are_offered(
    page: CandlesPage, shop: Kept
) -> None:
    workspace = page.workspace
    front = labels.new_label(workspace, "hush", name="Front")
    caution = labels.new_label(workspace, labels.CAUTION)
    QApplication.processEvents()
    combo = combo_of(page, "jar_label_id")
    assert combo.findData(str(caution)) < 0
    at = combo.findData(str(front))
    combo.setCurrentIndex(at)
    combo.activated.emit(at)
    QApplication.processEvents()
    assert load_shelf(workspace).candles[shop.bramble].jar_label_id == front
    labels.remove_label(workspace, front)  # a candle names it: it is put away, and stays its label
    QApplication.processEvents()
    assert combo_of(page, "jar_label_id").currentText() == "Front"
    workspace.undo()
    copy = shelf_edit.duplicate_candle(workspace, shop.bramble)
    assert load_shelf(workspace).candles[copy].jar_label_id == front


def test_asked_for_a_field_it_goes_there(page: CandlesPage, shop: Kept) -> None:
    page.activateWindow()
    page.show_part("caution_label_id")
    page.show_record(shop.cedar)
    QApplication.processEvents()
    assert page.record == shop.cedar
    assert page.focusWidget() is combo_of(page, "caution_label_id")
    page.show_record(shop.bramble)
    assert page.record == shop.bramble
