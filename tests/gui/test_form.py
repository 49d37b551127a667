"""A form stores each field as one act, keeps what it cannot read, and never stamps on typing."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication, QFormLayout, QVBoxLayout, QWidget

from wickbench.app import shelf_edit
from wickbench.app.fields import FieldSpec, choices
from wickbench.gui.fields.choice_field import ChoiceField, ReferenceField
from wickbench.gui.fields.form import FieldForm, without_first
from wickbench.gui.fields.line_field import LineField
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot

    from wickbench.app.workspace import Workspace

POT = (
    FieldSpec(name="name", label="Name", kind="text", table="pot"),
    FieldSpec(name="brim_ml", label="Brim", kind="volume", table="pot", low=0),
    FieldSpec(name="empty_g", label="Empty", kind="mass", table="pot", low=0, group="Weights"),
    FieldSpec(name="with_heat", label="On the heat", kind="yes_no", table="pot"),
    FieldSpec(name="metal", label="Metal", kind="choice", table="pot",
              choices=choices({"steel": "steel", "aluminium": "aluminium"})),
    FieldSpec(name="note", label="Notes", kind="note", table="pot"),
)  # fmt: skip


@pytest.fixture
def pot(workspace: Workspace) -> int:
    return shelf_edit.new_equipment(workspace, "pot", {"name": "Blue pitcher", "brim_ml": 2500.0})


def stored(workspace: Workspace, pot: int) -> dict[str, object]:
    with workspace.read() as connection:
        return dict(records.fetch(connection, "pot", pot))


@pytest.fixture
def form(qtbot: QtBot, workspace: Workspace, pot: int) -> Iterator[FieldForm]:
    holder = QWidget()
    box = QVBoxLayout(holder)
    made = FieldForm(workspace, POT)
    box.addWidget(made)
    qtbot.addWidget(holder)
    holder.resize(700, 600)
    holder.show()
    made.show_record(pot, stored(workspace, pot))
    with qtbot.waitActive(holder):
        holder.activateWindow()
    yield made
    holder.close()


def line(form: FieldForm, name: str) -> LineField:
    field = form.fields[name]
    assert isinstance(field, LineField)
    return field


def type_into(qtbot: QtBot, form: FieldForm, name: str, text: str) -> None:
    field = line(form, name)
    field.line.setFocus()
    field.line.selectAll()
    qtbot.keyClicks(field.line, text)


def finish(qtbot: QtBot, form: FieldForm, name: str) -> None:
    qtbot.keyClick(line(form, name).line, Qt.Key.Key_Return)


def test_stored_values_are_shown_in_the_persons_units(form: FieldForm) -> None:
    assert line(form, "name").text() == "Blue pitcher"
    assert line(form, "brim_ml").text() == "2500 mL"
    # 2500 mL / 29.5735295625 mL per US fluid ounce (NIST SP 811) = 84.54
    assert line(form, "brim_ml").line.echo == "84.54 fl oz"


def test_typing_shows_what_was_understood_and_stores_nothing(
    qtbot: QtBot, form: FieldForm, workspace: Workspace, pot: int
) -> None:
    type_into(qtbot, form, "empty_g", "2 lb 4 oz")
    # 36 oz × 28.349523125 g (NIST SP 811, exact) = 1020.58 g
    assert line(form, "empty_g").line.echo.startswith("1021 g")
    assert form.values()["empty_g"] == pytest.approx(36 * 28.349523125)
    assert stored(workspace, pot)["empty_g"] is None


def test_enter_stores_as_one_act_that_can_be_undone(
    qtbot: QtBot, form: FieldForm, workspace: Workspace, pot: int
) -> None:
    type_into(qtbot, form, "empty_g", "300")
    with qtbot.waitSignal(form.committed):
        finish(qtbot, form, "empty_g")
    assert stored(workspace, pot)["empty_g"] == 300.0
    assert line(form, "empty_g").text() == "300 g"
    workspace.undo()
    assert stored(workspace, pot)["empty_g"] is None


def test_leaving_a_field_untouched_makes_no_act(form: FieldForm, workspace: Workspace) -> None:
    before = workspace.undo_label
    line(form, "brim_ml").line.setFocus()
    line(form, "empty_g").line.setFocus()
    assert workspace.undo_label == before


def test_unreadable_text_stays_with_its_sentence_and_after_reopening(
    qtbot: QtBot, form: FieldForm, workspace: Workspace, pot: int
) -> None:
    type_into(qtbot, form, "brim_ml", "lots")
    with qtbot.waitSignal(form.refused):
        finish(qtbot, form, "brim_ml")
    field = line(form, "brim_ml")
    assert field.text() == "lots"
    assert field.trouble.isVisible()
    assert field.trouble.sentence
    assert field.line.accessibleDescription() == field.trouble.sentence
    assert stored(workspace, pot)["brim_ml"] == 2500.0
    again = FieldForm(workspace, POT)
    qtbot.addWidget(again)
    again.show_record(pot, stored(workspace, pot))
    assert line(again, "brim_ml").text() == "lots"
    assert line(again, "brim_ml").trouble.sentence == field.trouble.sentence


def test_escape_restores_and_forgets_the_draft(
    qtbot: QtBot, form: FieldForm, workspace: Workspace, pot: int
) -> None:
    type_into(qtbot, form, "brim_ml", "lots")
    finish(qtbot, form, "brim_ml")
    field = line(form, "brim_ml")
    field.line.setFocus()
    qtbot.keyClick(field.line, Qt.Key.Key_Escape)
    assert field.text() == "2500 mL"
    assert not field.trouble.sentence
    again = FieldForm(workspace, POT)
    qtbot.addWidget(again)
    again.show_record(pot, stored(workspace, pot))
    assert line(again, "brim_ml").text() == "2500 mL"


def test_two_readings_are_offered_as_buttons(
    qtbot: QtBot, form: FieldForm, workspace: Workspace, pot: int
) -> None:
    type_into(qtbot, form, "brim_ml", "1,234")
    finish(qtbot, form, "brim_ml")
    field = line(form, "brim_ml")
    from PySide6.QtWidgets import QPushButton

    offered = [button for button in field.trouble.findChildren(QPushButton) if button.isVisible()]
    assert len(offered) == 2
    thousand = next(button for button in offered if "1234" in button.text())
    qtbot.mouseClick(thousand, Qt.MouseButton.LeftButton)
    assert stored(workspace, pot)["brim_ml"] == 1234.0
    assert not field.trouble.sentence


def test_fresh_values_do_not_stamp_on_typing(
    qtbot: QtBot, form: FieldForm, workspace: Workspace, pot: int
) -> None:
    type_into(qtbot, form, "name", "Half a na")
    form.show_record(pot, stored(workspace, pot) | {"name": "From elsewhere", "empty_g": 5.0})
    assert line(form, "name").text() == "Half a na"
    assert line(form, "empty_g").text() == "5 g"


def test_undo_in_a_field_without_history_is_left_to_the_window(
    qtbot: QtBot, form: FieldForm
) -> None:
    from PySide6.QtCore import QEvent
    from PySide6.QtGui import QKeyEvent

    def taken() -> bool:
        event = QKeyEvent(
            QEvent.Type.ShortcutOverride, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier
        )
        event.ignore()
        QApplication.sendEvent(line(form, "name").line, event)
        return event.isAccepted()

    line(form, "name").line.setFocus()
    assert not taken()
    type_into(qtbot, form, "name", "New")
    assert taken()
    finish(qtbot, form, "name")
    assert not taken()


def test_a_choice_is_stored_at_once_and_the_wheel_passes_over_it(
    qtbot: QtBot, form: FieldForm, workspace: Workspace, pot: int
) -> None:
    field = form.fields["metal"]
    assert isinstance(field, ChoiceField)
    field.combo.setFocus()
    qtbot.keyClicks(field.combo, "al")
    field.combo.activated.emit(field.combo.currentIndex())
    assert stored(workspace, pot)["metal"] == "aluminium"
    line(form, "name").line.setFocus()
    wheel = QWheelEvent(
        QPointF(5, 5), QPointF(5, 5), QPoint(), QPoint(0, 120), Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(field.combo, wheel)
    assert field.text() == "aluminium"


def test_a_ticked_box_is_stored_at_once(
    qtbot: QtBot, form: FieldForm, workspace: Workspace, pot: int
) -> None:
    box = form.fields["with_heat"].editor
    qtbot.mouseClick(box, Qt.MouseButton.LeftButton, pos=QPoint(10, box.height() // 2))
    assert stored(workspace, pot)["with_heat"] == 1


def test_a_note_is_stored_when_the_focus_leaves(
    qtbot: QtBot, form: FieldForm, workspace: Workspace, pot: int
) -> None:
    note = form.fields["note"].editor
    note.setFocus()
    qtbot.keyClicks(note, "Handle gets hot")
    line(form, "name").line.setFocus()
    assert stored(workspace, pot)["note"] == "Handle gets hot"


def test_labels_stand_above_when_narrow_and_beside_when_wide(form: FieldForm) -> None:
    policy = QFormLayout.RowWrapPolicy
    holder = form.parentWidget()
    assert holder is not None
    holder.resize(310, 600)
    QApplication.processEvents()
    assert form._rows.rowWrapPolicy() == policy.WrapAllRows
    assert form.width() <= 310
    holder.resize(900, 600)
    QApplication.processEvents()
    assert form._rows.rowWrapPolicy() == policy.DontWrapRows


def test_a_reference_is_found_by_part_of_its_name(qtbot: QtBot, workspace: Workspace) -> None:
    shelf_edit.new_item(workspace, "lid", {"name": "Bamboo lid 80"})
    cork = shelf_edit.new_item(workspace, "lid", {"name": "Cork"})
    spec = FieldSpec(name="lid_id", label="Lid", kind="reference", table="vessel", refers_to="lid")
    jar = shelf_edit.new_item(workspace, "vessel", {"name": "Jar"})
    form = FieldForm(workspace, (spec,))
    qtbot.addWidget(form)
    with qtbot.waitActive(form):
        form.show()
    form.show_record(jar, {"lid_id": None})
    field = form.fields["lid_id"]
    assert isinstance(field, ReferenceField)
    field.combo.setFocus()
    qtbot.keyClicks(field.combo, "cor")
    qtbot.keyClick(field.combo, Qt.Key.Key_Return)
    with workspace.read() as connection:
        assert records.fetch(connection, "vessel", jar)["lid_id"] == cork
    form.close()


@pytest.mark.parametrize(
    ("echo", "typed", "left"),
    [
        ("300 g · 10.58 oz", "300 g", "10.58 oz"),
        ("300 g · 10.58 oz", "10.58 oz", "300 g · 10.58 oz"),
        ("300 g", "300 g", ""),
        ("", "", ""),
    ],
)
def test_the_echo_does_not_repeat_what_was_typed(echo: str, typed: str, left: str) -> None:
    assert without_first(echo, typed) == left
