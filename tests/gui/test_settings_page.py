"""Business details and settings through their own widgets, and what follows everywhere else."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QLineEdit

from gui.whole_window import fill, stations
from wickbench.app import shelf_edit
from wickbench.app.settings import UNIT_PRESETS
from wickbench.app.texts import Texts
from wickbench.gui.fields.form import FieldForm
from wickbench.gui.fields.line_field import QuantityField
from wickbench.gui.setup.business_page import BusinessPage
from wickbench.gui.setup.settings_page import SettingsPage
from wickbench.storage import records

if TYPE_CHECKING:
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from gui.conftest import Answers
    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.workspace import Workspace
    from wickbench.gui.fields.field import Field
    from wickbench.gui.main_window import MainWindow

Shown = TypeVar("Shown")
MEASURES: dict[str, dict[str, object]] = {
    "wax": {"pour_c": 60.0},
    "vessel": {"height_mm": 90.0, "nominal_ml": 250.0},
    "recipe_version": {"pour_c": 60.0},
    "scale": {"maximum_g": 5000.0, "step_g": 1.0},
    "pot": {"brim_ml": 2000.0, "empty_g": 400.0},
    "printer": {"edge_mm": 5.0},
}


@pytest.fixture
def workshop(window: MainWindow) -> Workspace:
    assert window.workspace is not None
    return window.workspace


@pytest.fixture
def settings_page(window: MainWindow, workshop: Workspace) -> SettingsPage:
    assert workshop
    return page_of(window, "settings", SettingsPage)


@pytest.fixture
def business(window: MainWindow, workshop: Workspace) -> BusinessPage:
    assert workshop
    return page_of(window, "business", BusinessPage)


def page_of(window: MainWindow, key: str, kind: type[Shown]) -> Shown:
    assert window.workbench is not None
    window.workbench.go(key)
    QApplication.processEvents()
    page = window.workbench.pages[key]
    assert isinstance(page, kind)
    return page


def type_into(qtbot: QtBot, field: Field, text: str, *, leave: bool = True) -> None:
    line = field.editor
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, text)
    if leave:
        qtbot.keyClick(line, Qt.Key.Key_Return)


def choose(qtbot: QtBot, field: Field, word: str) -> None:
    """Go through the list by its keys until the word is chosen, then take it."""
    combo = field.editor
    assert isinstance(combo, QComboBox)
    combo.setFocus()
    qtbot.keyClick(combo, Qt.Key.Key_Home)
    for _ in range(combo.findData(word)):
        qtbot.keyClick(combo, Qt.Key.Key_Down)
    assert combo.currentData() == word


# -- business details ------------------------------------------------------------------------------
def test_the_picture_follows_while_typing_and_nothing_is_stored_yet(
    business: BusinessPage, workshop: Workspace, qtbot: QtBot
) -> None:
    type_into(qtbot, business.form.fields["business_name"], "Ember & Reed", leave=False)
    assert business.cards["US"].picture.lines == ("Ember & Reed",)
    assert business.cards["US"].picture.accessibleDescription() == "Ember & Reed"
    assert workshop.settings.text("business_name") == ""
    qtbot.keyClick(business.form.fields["business_name"].editor, Qt.Key.Key_Return)
    assert workshop.settings.text("business_name") == "Ember & Reed"


def test_what_is_missing_is_said_per_region_and_goes_when_it_is_filled_in(
    business: BusinessPage, workshop: Workspace, qtbot: QtBot
) -> None:
    workshop.set_setting("sold_in_uk", 1)
    assert list(business.cards) == ["US", "UK"]
    assert any("500.5" in said for said in business.cards["US"].findings.sentences)
    for name, text in (
        ("business_name", "Ember"), ("business_street", "1 Lane"), ("business_city", "Town"),
        ("business_state", "OR"), ("business_postcode", "97000"),
    ):  # fmt: skip
        type_into(qtbot, business.form.fields[name], text)
    assert business.cards["US"].findings.sentences == [
        "Everything that was looked for is filled in."
    ]
    assert ["telephone" in said for said in business.cards["UK"].findings.sentences] == [True]
    workshop.set_setting("sold_in_uk", 0)
    assert list(business.cards) == ["US"]


def test_where_you_sell_is_one_press_away(
    window: MainWindow, business: BusinessPage, qtbot: QtBot
) -> None:
    qtbot.mouseClick(business.where_sold, Qt.MouseButton.LeftButton)
    assert isinstance(window.stack.currentWidget(), SettingsPage)


# -- units -----------------------------------------------------------------------------------------
def test_one_press_sets_the_units_of_every_kind_in_one_act(
    settings_page: SettingsPage, workshop: Workspace, qtbot: QtBot
) -> None:
    heard: list[Changes] = []
    stop = workshop.subscribe(heard.append)
    qtbot.mouseClick(settings_page.customary_first, Qt.MouseButton.LeftButton)
    stop()
    assert len(heard) == 1
    assert {name: workshop.settings[name] for name in UNIT_PRESETS["customary"]} == dict(
        UNIT_PRESETS["customary"]
    )
    assert settings_page.units.fields["mass_unit"].text() == "oz"
    assert not settings_page.customary_first.isEnabled()
    assert not workshop.may_undo
    qtbot.mouseClick(settings_page.metric_first, Qt.MouseButton.LeftButton)
    assert workshop.settings["mass_unit"] == "g"


def shown_quantities(window: MainWindow) -> dict[str, str]:
    """Every filled quantity field in sight, by its form and name."""
    found = {}
    for form in window.findChildren(FieldForm):
        for name, field in form.fields.items():
            if isinstance(field, QuantityField) and field.text() and field.isVisible():
                found[f"{form.parent()} {name}"] = field.text()
    return found


def test_each_open_form_shows_the_new_units_at_once(
    window: MainWindow, workshop: Workspace
) -> None:
    fill(workshop)
    with workshop.step("measures") as connection:
        for table, values in MEASURES.items():
            for row in records.fetch_all(connection, table):
                records.update(connection, table, int(str(row.get("item_id") or row["id"])), values)
    seen = 0
    for station in stations(window):
        workshop.set_settings(UNIT_PRESETS["metric"])
        before = shown_quantities(window)
        workshop.set_settings(UNIT_PRESETS["customary"])
        after = shown_quantities(window)
        for name, text in before.items():
            if text.endswith(("°C", "g", "mL", "mm")) and not text.endswith("g/mL"):
                assert after[name].endswith(("°F", "oz", "fl oz", "in")), f"{station}: {name}"
                seen += 1
    assert seen >= 8


def test_another_way_of_writing_numbers_reaches_an_open_form(
    window: MainWindow, settings_page: SettingsPage, workshop: Workspace, qtbot: QtBot
) -> None:
    pot = shelf_edit.new_equipment(workshop, "pot", {"name": "Blue", "brim_ml": 1250.5})
    assert window.workbench is not None
    window.workbench.go("equipment/pot", pot)
    QApplication.processEvents()
    brim = window.workbench.pages["equipment"].sections["pot"].editor.form.fields["brim_ml"]  # type: ignore[attr-defined]
    assert "1250.5" in brim.text()
    window.workbench.go("settings")
    choose(qtbot, settings_page.region.fields["numbers"], "de_DE")
    window.workbench.go("equipment")
    QApplication.processEvents()
    assert "1250,5" in brim.text()


# -- lots ------------------------------------------------------------------------------------------
def test_the_next_lot_code_is_shown_while_the_pattern_is_typed(
    settings_page: SettingsPage, workshop: Workspace, qtbot: QtBot
) -> None:
    assert "Lot 26-329-A1" in settings_page.lots.text()
    type_into(qtbot, settings_page.work.fields["lot_pattern"], "{yyyy}{mm}{dd}.{letter}{pot}")
    assert "Lot 20261125.A1" in settings_page.lots.text()
    assert "Lot 20261125.A2" in settings_page.lots.text()
    choose(qtbot, settings_page.work.fields["lot_word"], "Batch")
    assert "Batch 20261125.A1" in settings_page.lots.text()
    assert workshop.settings.text("lot_word") == "Batch"


def test_codes_that_exist_are_passed_over(
    window: MainWindow, settings_page: SettingsPage, workshop: Workspace
) -> None:
    assert window.workbench is not None
    with workshop.step("pour") as connection:
        plan = records.insert(connection, "plan", {"name": "today"})
        records.insert(connection, "pour_pot", {"plan_id": plan, "lot_code": "26-329-A1"})
    window.workbench.go("settings")
    QApplication.processEvents()
    assert "26-329-B1" in settings_page.lots.text()


@pytest.mark.parametrize(
    ("pattern", "word"),
    [
        ("{yy}-{letter}{pot}", "day"),
        ("{yy}-{ddd}-{pot}", "letter"),
        ("{yy}-{ddd}-{letter}", "pot"),
        ("{yy}-{week}-{letter}{pot}", "week"),
        ("{yy}-{ddd}-{letter}{pot}#", "letters, digits"),
    ],
)
def test_a_pattern_under_which_codes_repeat_is_refused_and_kept_as_typed(
    settings_page: SettingsPage, workshop: Workspace, qtbot: QtBot, pattern: str, word: str
) -> None:
    field = settings_page.work.fields["lot_pattern"]
    type_into(qtbot, field, pattern)
    assert word in field.trouble.sentence
    assert field.text() == pattern
    assert workshop.settings.text("lot_pattern") == "{yy}-{ddd}-{letter}{pot}"
    assert settings_page.lots.text() == field.trouble.sentence


@pytest.mark.parametrize(
    ("name", "typed"), [("room_c", "hot"), ("room_c", "300 °C"), ("altitude_m", "9000")]
)
def test_nonsense_gets_its_sentence_beside_the_field(
    settings_page: SettingsPage, qtbot: QtBot, name: str, typed: str
) -> None:
    field = settings_page.work.fields[name]
    type_into(qtbot, field, typed)
    assert field.trouble.sentence
    assert field.text() == typed


# -- this computer ---------------------------------------------------------------------------------
def test_colours_change_at_once_in_window_and_menu(
    window: MainWindow, settings_page: SettingsPage, qtbot: QtBot
) -> None:
    choose(qtbot, settings_page.computer.theme, "dark")
    assert window.user.text("theme") == "dark"
    assert QApplication.palette().window().color().lightnessF() < 0.5
    ticked = [action for action in window.theme_menu.actions() if action.isChecked()]
    assert [action.objectName() for action in ticked] == ["theme_dark"]
    window.theme_menu.chosen.emit("light")
    assert settings_page.computer.theme.text() == "light"


def test_the_language_of_the_window_is_kept_for_the_next_start(
    window: MainWindow, settings_page: SettingsPage, qtbot: QtBot
) -> None:
    languages = settings_page.computer.language.editor
    assert isinstance(languages, QComboBox)
    assert languages.itemText(0) == "English"
    if languages.findData("de") >= 0:
        choose(qtbot, settings_page.computer.language, "de")
        assert window.user.text("language") == "de"


def test_backups_go_where_one_says_from_the_next_opening_on(
    window: MainWindow, settings_page: SettingsPage, ask: Answers, qtbot: QtBot, tmp_path: Path
) -> None:
    computer = settings_page.computer
    assert str(tmp_path) in computer.backups.text()
    other = tmp_path / "elsewhere"
    other.mkdir()
    ask.path = other
    qtbot.mouseClick(computer.other_folder, Qt.MouseButton.LeftButton)
    assert window.user.text("backup_folder") == str(other)
    assert str(other) in computer.waiting.text()
    qtbot.mouseClick(computer.usual_folder, Qt.MouseButton.LeftButton)
    assert window.user.text("backup_folder") == ""
    assert not computer.waiting.isVisible()


def test_a_folder_that_takes_no_backups_is_refused(
    window: MainWindow, settings_page: SettingsPage, ask: Answers, qtbot: QtBot, tmp_path: Path
) -> None:
    ask.path = tmp_path / "nowhere"
    qtbot.mouseClick(settings_page.computer.other_folder, Qt.MouseButton.LeftButton)
    assert len(ask.told) == 1
    assert "nowhere" in ask.told[0]
    assert window.user.text("backup_folder") == ""


# -- as a whole ------------------------------------------------------------------------------------
def test_both_pages_are_found_by_what_makers_call_them(window: MainWindow) -> None:
    from wickbench.gui.find_anything import FindAnything

    assert window.workspace is not None
    finder = FindAnything(window.workspace, window.menus.commands, window)
    for sought, title in (
        ("settings", "Settings"), ("preferences", "Settings"), ("units", "Settings"),
        ("business", "Business details"), ("equipment", "Equipment"), ("unit", "Weights in"),
        ("backup", "Backups"), ("telephone", "Telephone"), ("lot code", "Lot code"),
    ):  # fmt: skip
        assert title in [target.title for target in finder.targets(sought)], sought
    finder.deleteLater()


@pytest.mark.parametrize(
    ("sought", "place", "field"),
    [
        ("telephone", "business", "business_phone"),
        ("lot code", "settings", "lot_pattern"),
        ("temperatures also", "settings", "temperature_unit_2"),
    ],
)
def test_a_setting_that_is_found_gets_the_cursor(
    window: MainWindow, qtbot: QtBot, sought: str, place: str, field: str
) -> None:
    from wickbench.app.search import find

    assert window.workspace is not None
    assert window.workbench is not None
    hit = find(window.workspace, sought)[0]
    window.workbench.go(hit.place, hit.record)
    page = window.workbench.pages[place]
    assert window.stack.currentWidget() is page
    forms = page.findChildren(FieldForm)
    editor = next(form.fields[field].editor for form in forms if field in form.fields)
    with qtbot.waitActive(window):
        window.activateWindow()
    qtbot.waitUntil(editor.hasFocus)
    qtbot.waitUntil(lambda: page.viewport().rect().contains(
        editor.mapTo(page.viewport(), editor.rect().center())))  # fmt: skip


@pytest.mark.parametrize("key", ["business", "settings"])
def test_nothing_is_cut_on_a_small_screen(window: MainWindow, qtbot: QtBot, key: str) -> None:
    window.resize(1024, 768)
    assert window.workbench is not None
    page = window.workbench.show_page(key)
    assert page is not None
    QApplication.processEvents()
    assert page.side_below
    assert page.horizontalScrollBar().maximum() == 0

    def cut() -> list[str]:
        return [
            shown.text()
            for shown in page.findChildren(QLabel)
            if shown.isVisible() and shown.wordWrap() and shown.text()
            and shown.height() < shown.heightForWidth(shown.width())
        ]  # fmt: skip

    qtbot.waitUntil(lambda: not cut(), timeout=2000)


def test_sentences_of_business_are_said_in_the_language_of_labels(
    business: BusinessPage, workshop: Workspace
) -> None:
    workshop.set_settings({"business_name": "Ember", "business_role": "made_for"})
    english = business.cards["US"].picture.lines[0]
    assert english == "Manufactured for Ember"
    workshop.set_setting("language_of_labels", "de")
    shown = business.cards["US"].picture.lines[0]
    folder = workshop.texts.folder
    assert shown == Texts("de", folder=folder)("Manufactured for {name}", name="Ember")
