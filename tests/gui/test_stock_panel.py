"""Buying and counting in the materials dock."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QLineEdit, QWidget

from gui.test_materials_dock import dock, panel
from wickbench.app import shelf_edit, stock
from wickbench.app.material_fields import KIND_NAMES

if TYPE_CHECKING:
    from wickbench.gui.materials.entry_form import EntryForm
    from wickbench.gui.materials.materials_dock import MaterialsDock
    from wickbench.gui.materials.stock_panel import StockPanel

__all__ = ["dock", "panel"]


# -- the stock panel -----------------------------------------------------------------------------
def form_of(panel: StockPanel) -> EntryForm:
    assert panel.form is not None
    return panel.form


def fill(panel: StockPanel, **typed: str) -> None:
    for name, text in typed.items():
        line = form_of(panel).fields[name].editor
        assert isinstance(line, QLineEdit)
        line.setFocus()
        line.selectAll()
        QTest.keyClicks(line, text)


def test_unknown_is_said_and_not_shown_as_nothing(panel: StockPanel) -> None:
    panel.show_item(shelf_edit.new_item(panel.workspace, "vessel", {"name": "Jar"}))
    assert panel.on_hand.text().startswith("On hand: unknown")
    assert panel.price.text().startswith("No price yet")
    assert not panel.lots.isVisible()
    panel.show_item(None)
    assert not panel.isVisible()


def test_buying_through_the_form(panel: StockPanel) -> None:
    item = shelf_edit.new_item(panel.workspace, "wax", {"name": "Soft", "supplier": "Mill"})
    panel.show_item(item)
    panel.bought.click()
    form = form_of(panel)
    assert form.fields["quantity"].editor.hasFocus()
    assert form.fields["bought_on"].text() == "2026-11-25"
    fill(panel, quantity="22 lb", paid_money="62", freight_money="11.18")
    QTest.keyClick(form.fields["freight_money"].editor, Qt.Key.Key_Return)
    assert panel.form is None
    assert panel.view is not None
    # 22 lb = 9.97903214 kg (NIST SP 811); 73.18 / 9.97903214 = 7.333 per kg, 73.18 / 22 = 3.326.
    assert panel.view.on_hand == pytest.approx(9979.032)
    assert panel.price.text() == "$7.33 per kg · $3.33 per lb with freight"
    assert panel.view.lots[0].supplier == "Mill"
    assert panel.lots.isVisible()
    panel.workspace.undo()
    assert panel.on_hand.text().startswith("On hand: unknown")


def test_what_is_typed_wrong_is_said_beside_it_and_nothing_is_lost(panel: StockPanel) -> None:
    item = shelf_edit.new_item(panel.workspace, "wax", {"name": "Soft"})
    panel.show_item(item)
    panel.bought.click()
    form = form_of(panel)
    form.accept.click()
    assert form.trouble.sentence == "Say how much you bought; it must be more than nothing."
    fill(panel, quantity="9 fl oz", bought_on="2026-12-24")
    form.accept.click()
    assert "volume" in form.fields["quantity"].trouble.sentence
    assert form.fields["quantity"].editor.hasFocus()
    fill(panel, quantity="9 oz")
    form.accept.click()
    assert "still to come" in form.trouble.sentence
    assert form.fields["quantity"].text() == "9 oz"
    fill(panel, bought_on="24 Nov")
    form.accept.click()
    assert panel.form is None
    assert panel.view is not None
    assert panel.view.lots[0].bought_on == "2026-11-24"


def test_two_readings_are_offered_in_the_form(panel: StockPanel) -> None:
    panel.show_item(shelf_edit.new_item(panel.workspace, "wax", {"name": "Soft"}))
    panel.bought.click()
    fill(panel, quantity="1,234")
    form_of(panel).accept.click()
    QApplication.processEvents()
    field = form_of(panel).fields["quantity"]
    choices = [one for one in field.trouble.findChildren(QAbstractButton) if one.isVisible()]
    assert len(choices) == 2
    choices[0].click()
    assert not field.trouble.sentence
    form_of(panel).accept.click()
    assert panel.view is not None
    assert round(panel.view.on_hand or 0, 3) in {1.234, 1234.0}


def test_counting_through_the_form(panel: StockPanel) -> None:
    item = shelf_edit.new_item(panel.workspace, "lid", {"name": "Bamboo"})
    panel.show_item(item)
    panel.count.click()
    form_of(panel).accept.click()
    assert "write 0" in form_of(panel).trouble.sentence
    fill(panel, quantity="2.5")
    form_of(panel).accept.click()
    assert "whole" in form_of(panel).fields["quantity"].trouble.sentence
    fill(panel, quantity="46")
    form_of(panel).accept.click()
    assert panel.on_hand.text() == "On hand 46 · counted 25 November 2026"


def test_escape_gives_the_form_up_and_another_item_closes_it(panel: StockPanel) -> None:
    first, second = (shelf_edit.new_item(panel.workspace, "lid") for _ in range(2))
    panel.show_item(first)
    panel.count.click()
    QTest.keyClick(form_of(panel).fields["quantity"].editor, Qt.Key.Key_Escape)
    assert panel.form is None
    panel.count.click()
    fill(panel, quantity="7")
    panel.show_item(first)
    assert form_of(panel).fields["quantity"].text() == "7"
    panel.show_item(second)
    assert panel.form is None


def test_a_wrong_purchase_is_corrected_in_sight(panel: StockPanel) -> None:
    item = shelf_edit.new_item(panel.workspace, "wax", {"name": "Soft"})
    stock.buy(panel.workspace, item, 10_000, 6.2)
    panel.show_item(item)
    panel.mend.click()
    assert form_of(panel).fields["quantity"].text() == "10000 g"
    fill(panel, quantity="1 kg")
    form_of(panel).accept.click()
    assert panel.view is not None
    assert panel.view.on_hand == 1000.0
    assert [one.taken_back for one in panel.view.lots] == [False, True]
    panel.history.click()
    assert panel.moves.isVisible()
    reasons = [one.reason for one in panel.moves_model.rows]
    assert reasons == ["bought", "correction", "bought"]
    panel.lots.go_to(panel.view.lots[1].id)
    assert not panel.mend.isEnabled()
    panel.lots.go_to(panel.view.lots[0].id)
    panel.take_back.click()
    assert panel.view.on_hand == 0.0
    assert panel.price.text().startswith("No price yet")


def test_a_later_count_is_told_while_the_day_is_typed(panel: StockPanel) -> None:
    item = shelf_edit.new_item(panel.workspace, "wax", {"name": "Soft"})
    stock.count(panel.workspace, item, 4200)
    panel.show_item(item)
    panel.bought.click()
    assert not form_of(panel).note.isVisible()
    fill(panel, quantity="10 kg", bought_on="2 Nov")
    assert "stays as you counted it" in form_of(panel).note.text()
    form_of(panel).accept.click()
    assert panel.view is not None
    assert panel.view.on_hand == 4200.0


# -- everywhere ----------------------------------------------------------------------------------
@pytest.mark.parametrize("kind", list(KIND_NAMES))
def test_nothing_is_wider_than_the_dock_and_everything_has_a_name(
    dock: MaterialsDock, kind: str
) -> None:
    key = shelf_edit.new_item(dock.workspace, kind, {"name": "A long name of a thing, " * 4})
    stock.buy(dock.workspace, key, 1000, 12.5, 1.5)
    dock.show_record(key)
    dock.material_editor.stock.bought.click()
    QApplication.processEvents()
    assert dock.editor_pane is not None
    assert dock.editor_pane.horizontalScrollBar().maximum() == 0
    ground = dock.editor_pane.widget()
    assert ground is not None
    assert ground.minimumSizeHint().width() <= 310
    for widget in dock.findChildren(QWidget):
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus and widget.isVisible():
            named = widget.accessibleName() or getattr(widget, "text", str)()
            assert named, f"{type(widget).__name__} {widget.objectName()}"
