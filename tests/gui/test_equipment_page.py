"""The page of equipment: pieces entered, measured, doubled and removed through its own widgets."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit

from wickbench.app import equipment, search, shelf_edit
from wickbench.app.workspace import Workspace
from wickbench.gui.equipment.equipment_page import EquipmentPage

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pytestqt.qtbot import QtBot

    from gui.conftest import Answers
    from wickbench.app.questions import Ask
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Services
    from wickbench.gui.equipment.equipment_section import EquipmentSection
    from wickbench.gui.fields.field import Field
    from wickbench.gui.main_window import MainWindow


@pytest.fixture
def page(qtbot: QtBot, workspace: Workspace, ask: Answers) -> Iterator[EquipmentPage]:
    made = EquipmentPage(workspace, ask)
    qtbot.addWidget(made)
    made.resize(1100, 800)
    with qtbot.waitActive(made):
        made.show()
    yield made
    made.release()
    made.close()


def type_into(qtbot: QtBot, field: Field, text: str) -> None:
    line = field.editor
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, text)
    qtbot.keyClick(line, Qt.Key.Key_Return)
    QApplication.processEvents()  # what came into view takes its place


def add(qtbot: QtBot, section: EquipmentSection, **typed: str) -> int:
    """Enter one piece as a person would: press the button, type, press Enter."""
    new = section.list.make_first if section.record is None else section.new
    qtbot.mouseClick(new, Qt.MouseButton.LeftButton)
    fields = section.editor.form.fields
    assert QApplication.focusWidget() is fields["name"].editor
    for name, text in typed.items():
        type_into(qtbot, fields[name], text)
    assert section.record is not None
    return section.record


def cells(section: EquipmentSection) -> list[list[str]]:
    model = section.list.model
    return [
        [
            str(model.index(row, column).data()).replace("\N{NO-BREAK SPACE}", " ")
            for column in range(len(model.columns))
        ]
        for row in range(len(model.rows))
    ]


def said(section: EquipmentSection) -> str:
    found = section.list.findings
    return " ".join(found.sentences) if found.isVisible() else ""


def test_an_empty_page_offers_the_first_of_every_kind(page: EquipmentPage) -> None:
    assert list(page.sections) == list(equipment.TABLES)
    for section in page.sections.values():
        assert section.list.make_first.isVisible()
        assert section.list.what_for.text()
        assert not section.list.table.isVisible()
        assert not section.editor.isVisible()
        assert not section.new.isVisible()


def test_scales_are_entered_in_the_units_they_are_read_in(
    qtbot: QtBot, page: EquipmentPage, workspace: Workspace
) -> None:
    scales = page.sections["scale"]
    add(qtbot, scales, name="Bench scale", maximum_g="11 lb", step_g="1 g")
    assert "0.1 g or finer" in said(scales)
    add(qtbot, scales, name="Oil scale", maximum_g="500", step_g="0.1")
    assert said(scales) == ""
    # 11 lb at 453.59237 g each (NIST SP 811, B.8).
    carried = [row["maximum_g"] for row in equipment.load_equipment(workspace).scales]
    assert carried == [pytest.approx(11 * 453.59237, abs=0.001), 500.0]
    assert [row[0] for row in cells(scales)] == ["Bench scale", "Oil scale"]
    assert cells(scales)[1] == ["Oil scale", "500 g", "0.1 g"]


def test_a_swapped_scale_is_said_while_typing_and_nothing_is_stored_yet(
    qtbot: QtBot, page: EquipmentPage, workspace: Workspace
) -> None:
    scales = page.sections["scale"]
    add(qtbot, scales, name="Oil scale", maximum_g="5", step_g="1")
    line = scales.editor.form.fields["step_g"].editor
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "500 g")
    assert "Are the two swapped?" in said(scales)
    assert equipment.load_equipment(workspace).scales[0]["step_g"] == 1.0
    qtbot.keyClick(line, Qt.Key.Key_Escape)
    assert line.text() == "1 g"
    assert "swapped" not in said(scales)


@pytest.mark.parametrize(
    ("table", "name", "nonsense"),
    [
        ("scale", "maximum_g", "heavy"),
        ("scale", "maximum_g", "0"),
        ("scale", "step_g", "2 lb 4"),
        ("pot", "brim_ml", "2 kg"),
        ("pot", "safe_fill_percent", "120"),
        ("pot", "empty_g", "-3"),
        ("heat_source", "power_w", "1.5"),
        ("printer", "edge_mm", "1e3"),
    ],
)
def test_nonsense_stays_in_its_field_with_a_sentence_also_after_a_restart(
    qtbot: QtBot,
    page: EquipmentPage,
    workspace: Workspace,
    ask: Answers,
    make_services: Callable[[Texts, Ask], Services],
    *,
    table: str,
    name: str,
    nonsense: str,
) -> None:
    section = page.sections[table]
    key = add(qtbot, section, **{"name": "Odd one", name: nonsense})
    field = section.editor.form.fields[name]
    assert field.text() == nonsense
    assert field.trouble.isVisible()
    sentence = field.trouble.sentence
    assert len(sentence) > 10
    assert "{" not in sentence
    page.release()
    page.close()
    workspace.close()
    again = Workspace.open(workspace.path, make_services(workspace.texts, ask))
    second = EquipmentPage(again, ask)
    qtbot.addWidget(second)
    second.show()
    shown = second.sections[table]
    assert shown.record == key
    assert shown.editor.form.fields[name].text() == nonsense
    assert shown.editor.form.fields[name].trouble.sentence == sentence
    second.release()
    second.close()
    again.close()


def test_a_brim_is_measured_with_water(
    qtbot: QtBot, page: EquipmentPage, workspace: Workspace
) -> None:
    """2506 g of water at 21 °C: Z 1.0031 mL/g (ISO 8655-6, 101.3 kPa) makes 2513.8 mL."""
    pots = page.sections["pot"]
    add(qtbot, pots, name="Blue pitcher")
    assert "cannot be planned" in said(pots)
    brim = pots.editor.brim
    assert brim is not None
    assert not brim.take.isVisible()
    type_into(qtbot, brim.water, "2506 g")
    assert "2514" in brim.result.text()
    qtbot.mouseClick(brim.take, Qt.MouseButton.LeftButton)
    assert equipment.load_equipment(workspace).pots[0]["brim_ml"] == 2514.0
    assert pots.editor.form.fields["brim_ml"].text() == "2514 mL"
    assert "cannot be planned" not in said(pots)
    assert brim.water.text() == ""
    workspace.undo()
    assert equipment.load_equipment(workspace).pots[0]["brim_ml"] is None


def test_a_brim_is_measured_at_the_pressure_that_was_read(
    qtbot: QtBot, page: EquipmentPage, workspace: Workspace
) -> None:
    workspace.set_settings({"air_pressure_hpa": 800.0, "room_c": 20.0})
    pots = page.sections["pot"]
    add(qtbot, pots, name="Blue pitcher")
    brim = pots.editor.brim
    assert brim is not None
    type_into(qtbot, brim.water, "10 kg")
    assert "800 hPa, as entered" in brim.air.text()
    # ISO 8655-6, table of Z at 20 °C: 1.0026 mL/g at 80 kPa, 1.0029 at 101.3 kPa.
    assert "10026" in brim.result.text().replace(",", "")


def test_water_that_cannot_be_read_says_so(qtbot: QtBot, page: EquipmentPage) -> None:
    pots = page.sections["pot"]
    add(qtbot, pots, name="Blue pitcher")
    brim = pots.editor.brim
    assert brim is not None
    type_into(qtbot, brim.water, "full")
    assert brim.water.trouble.isVisible()
    assert brim.water.text() == "full"
    assert not brim.take.isVisible()


def test_cautions_follow_what_is_ticked_and_chosen(qtbot: QtBot, page: EquipmentPage) -> None:
    heat = page.sections["heat_source"]
    add(qtbot, heat, name="Gas ring")
    flame = heat.editor.form.fields["open_flame"].editor
    flame.setFocus()
    qtbot.keyClick(flame, Qt.Key.Key_Space)
    flame_said = said(heat)
    assert "can catch fire" in flame_said
    assert "Local rules decide" in flame_said
    thermometers = page.sections["thermometer"]
    add(qtbot, thermometers, name="Gun")
    combo = thermometers.editor.form.fields["thermometer_kind"].editor
    assert isinstance(combo, QComboBox)
    combo.setCurrentIndex(combo.findData("infrared"))
    combo.activated.emit(combo.currentIndex())
    assert "matt tape" in said(thermometers)
    assert cells(thermometers) == [["Gun", "infrared", ""]]


def test_pieces_are_doubled_removed_and_brought_back(
    qtbot: QtBot, page: EquipmentPage, workspace: Workspace
) -> None:
    printers = page.sections["printer"]
    add(qtbot, printers, name="Office laser", tray="bypass", edge_mm="4.2 mm")
    qtbot.mouseClick(printers.duplicate, Qt.MouseButton.LeftButton)
    assert [row[:2] for row in cells(printers)] == [
        ["Office laser", "bypass"],
        ["Office laser (copy)", "bypass"],
    ]
    printers.list.table.setFocus()
    qtbot.keyClick(printers.list.table, Qt.Key.Key_Delete)
    assert len(cells(printers)) == 1
    qtbot.mouseClick(printers.remove, Qt.MouseButton.LeftButton)
    assert cells(printers) == []
    assert printers.list.make_first.isVisible()
    assert workspace.undo_label == "Remove equipment"
    workspace.undo()
    workspace.undo()
    assert len(cells(printers)) == 2
    workspace.redo()
    assert [row[0] for row in cells(printers)] == ["Office laser"]


def test_everything_entered_is_undone_and_redone(
    qtbot: QtBot, page: EquipmentPage, workspace: Workspace
) -> None:
    add(qtbot, page.sections["scale"], name="Bench scale", maximum_g="5 kg", step_g="1 g")
    add(qtbot, page.sections["pot"], name="Blue", brim_ml="2.5 L", empty_g="400 g")
    before = equipment.load_equipment(workspace)
    while workspace.may_undo:
        workspace.undo()
    assert not equipment.load_equipment(workspace).scales
    assert page.sections["pot"].list.make_first.isVisible()
    while workspace.may_redo:
        workspace.redo()
    assert equipment.load_equipment(workspace) == before
    assert cells(page.sections["pot"])[0][:2] == ["Blue", "2500 mL"]


def test_choosing_another_piece_shows_its_own_values_and_findings(
    qtbot: QtBot, page: EquipmentPage
) -> None:
    pots = page.sections["pot"]
    first = add(qtbot, pots, name="Blue", brim_ml="2500 mL", empty_g="400 g")
    add(qtbot, pots, name="Red")
    assert "Red: how much it holds" in said(pots)
    pots.list.table.go_to(first)
    assert pots.record == first
    assert pots.editor.form.fields["brim_ml"].text() == "2500 mL"
    assert "Red" not in said(pots)


def test_the_brim_line_is_empty_again_for_another_pot(qtbot: QtBot, page: EquipmentPage) -> None:
    pots = page.sections["pot"]
    first = add(qtbot, pots, name="Blue")
    add(qtbot, pots, name="Red")
    brim = pots.editor.brim
    assert brim is not None
    type_into(qtbot, brim.water, "900 g")
    pots.list.table.go_to(first)
    assert brim.water.text() == ""
    assert not brim.take.isVisible()


def test_units_change_in_lists_and_forms_at_once(
    qtbot: QtBot, page: EquipmentPage, workspace: Workspace
) -> None:
    pots = page.sections["pot"]
    add(qtbot, pots, name="Blue", brim_ml="1 L", empty_g="400 g")
    workspace.set_setting("volume_unit", "fl oz")
    # 1 US fluid ounce is 29.57353 mL (NIST SP 811, B.8): 33.814 to the litre.
    assert cells(pots)[0][1].startswith("33.81")
    assert pots.editor.form.fields["brim_ml"].text().startswith("33.81")


def test_names_are_shown_as_they_were_typed(qtbot: QtBot, page: EquipmentPage) -> None:
    pots = page.sections["pot"]
    add(qtbot, pots, name="<b>R&D</b> pot")
    assert cells(pots)[0][0] == "<b>R&D</b> pot"
    assert "<b>R&D</b> pot" in said(pots)


@pytest.mark.parametrize("table", equipment.TABLES)
def test_find_anything_leads_to_the_piece(window: MainWindow, table: str) -> None:
    workspace, bench = window.workspace, window.workbench
    assert workspace is not None
    assert bench is not None
    for name in ("Alder", "Birch", "Cedar"):
        shelf_edit.new_equipment(workspace, table, {"name": f"{name} {table}"})
    hit = search.find(workspace, "birch")[0]
    bench.go(hit.place, hit.record)
    QApplication.processEvents()
    page = bench.pages["equipment"]
    assert isinstance(page, EquipmentPage)
    section = page.sections[table]
    assert section.record == hit.record
    assert section.editor.form.fields["name"].text() == f"Birch {table}"
    top = section.mapTo(page.viewport(), section.rect().topLeft()).y()
    assert -1 <= top < page.viewport().height()


def test_the_menu_opens_the_page(window: MainWindow) -> None:
    bench = window.workbench
    assert bench is not None
    bench.place_actions["equipment"].trigger()
    assert isinstance(window.stack.currentWidget(), EquipmentPage)
    assert bench.place_actions["equipment"] in window.menus.menus["go"].actions()
