"""The page of candles: made, searched, declared and tested through its own widgets."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit

from wickbench.app import candles, recipe_parts, shelf_edit
from wickbench.app.shelf import load_shelf
from wickbench.gui.candles.candles_page import CandlesPage
from wickbench.gui.recipes.recipes_dock import RecipesDock
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot

    from gui.conftest import Answers
    from wickbench.app.workspace import Workspace
    from wickbench.gui.fields.field import Field
    from wickbench.gui.main_window import MainWindow


def stock(workspace: Workspace) -> dict[str, int]:
    """A recipe, a jar that holds 250 mL to its line, two wicks, a lid; all invented."""

    def item(kind: str, name: str, **details: object) -> int:
        return shelf_edit.new_item(workspace, kind, {"name": name}, details)

    found = {
        "soy": item(
            "wax", "Meadow soy", wax_class="soy", liquid_g_per_ml=0.87, liquid_measured=1,
            set_g_per_ml=0.9, set_measured=1, pour_c=70,
        ),
        "jar": item(
            "vessel", "Amber tumbler", vessel_kind="jar", candle_rated=1, rated_by="maker",
            height_mm=90.0, fill_mm=75.0,
        ),
        "wick": item("wick", "Flat cotton 6", wick_kind="cotton"),
        "wick_2": item("wick", "Flat cotton 8", wick_kind="cotton"),
        "lid": item("lid", "Cork lid"),
    }  # fmt: skip
    found["recipe"] = shelf_edit.new_recipe(workspace, "Bramble")
    found["version"] = next(iter(load_shelf(workspace).versions))
    recipe_parts.add_line(
        workspace, recipe_parts.RECIPE_TABLES[0], found["version"], load_shelf(workspace),
        {"item_id": str(found["soy"])},
    )  # fmt: skip
    with workspace.step("shape") as connection:
        for height in (0.0, 90.0):
            values = {"vessel_id": found["jar"], "height_mm": height, "diameter_mm": 65.0}
            records.insert(connection, "vessel_diameter", values)
    return found


def with_candle(workspace: Workspace, ids: dict[str, int], name: str, code: str) -> int:
    values = {
        "name": name, "code": code, "version_id": ids["version"], "vessel_id": ids["jar"],
    }  # fmt: skip
    made = shelf_edit.new_candle(workspace, values)
    candles.set_wicks(workspace, made, [ids["wick"]])
    return made


@pytest.fixture
def ids(workspace: Workspace) -> dict[str, int]:
    return stock(workspace)


@pytest.fixture
def page(
    qtbot: QtBot, workspace: Workspace, ask: Answers, ids: dict[str, int]
) -> Iterator[CandlesPage]:
    assert ids
    made = CandlesPage(workspace, ask)
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


def choose(qtbot: QtBot, field: Field, text: str) -> None:
    """Type a part of a name into a searchable list and leave it."""
    combo = field.editor
    assert isinstance(combo, QComboBox)
    line = combo.lineEdit()
    assert line is not None
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, text)
    completer = combo.completer()
    if completer is not None and (popup := completer.popup()) is not None:
        popup.hide()
    line.editingFinished.emit()
    QApplication.processEvents()


def column(page: CandlesPage, key: str) -> list[str]:
    at = next(i for i, one in enumerate(page.model.columns) if one.key == key)
    return [str(page.model.index(row, at).data()) for row in range(len(page.model.rows))]


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


def test_an_empty_page_says_what_belongs_there_and_makes_the_first(
    qtbot: QtBot, page: CandlesPage, ids: dict[str, int], workspace: Workspace
) -> None:
    assert page.empty.isVisible()
    assert not page.side_column.isVisible()
    qtbot.mouseClick(page.make_first, Qt.MouseButton.LeftButton)
    assert page.side_column.isVisible()
    first = page.editor.first
    assert QApplication.focusWidget() is first.fields["name"].editor
    type_into(qtbot, first.fields["name"], "Bramble, tumbler")
    type_into(qtbot, first.fields["code"], "BT-30")
    choose(qtbot, first.fields["version_id"], "bramble")
    choose(qtbot, first.fields["vessel_id"], "amber")
    choose(qtbot, page.editor.wicks.fields[0], "cotton 6")
    assert column(page, "name") == ["Bramble, tumbler"]
    assert column(page, "code") == ["BT-30"]
    assert column(page, "recipe") == ["Bramble v1"]
    assert column(page, "vessel") == ["Amber tumbler"]
    assert column(page, "wicks") == ["Flat cotton 6"]
    assert column(page, "state") == ["untested"]
    (candle,) = load_shelf(workspace).candles.values()
    assert (candle.version_id, candle.wick_ids) == (ids["version"], (ids["wick"],))


def test_wicks_come_one_after_the_other_and_go(
    qtbot: QtBot, page: CandlesPage, ids: dict[str, int], workspace: Workspace
) -> None:
    key = with_candle(workspace, ids, "Bramble", "B")
    wicks = page.editor.wicks
    assert [field.isVisible() for field in wicks.fields] == [True, True, False]
    choose(qtbot, wicks.fields[1], "cotton 8")
    choose(qtbot, wicks.fields[2], "cotton 6")
    wanted = (ids["wick"], ids["wick_2"], ids["wick"])
    assert load_shelf(workspace).candles[key].wick_ids == wanted
    for _ in range(3):
        wicks.fields[0].committed.emit("")
    assert load_shelf(workspace).candles[key].wick_ids == ()
    assert column(page, "wicks") == ["no wick"]


def test_the_proposed_weight_is_taken_and_then_stays(
    qtbot: QtBot, page: CandlesPage, ids: dict[str, int], workspace: Workspace
) -> None:
    key = with_candle(workspace, ids, "Bramble", "B")
    weight = page.editor.weight
    assert plain(weight.proposed.text()).startswith("United States: Net Wt ")
    promised = (
        plain(weight.proposed.text()).removeprefix("United States: ").removesuffix(" at most")
    )
    qtbot.mouseClick(weight.take, Qt.MouseButton.LeftButton)
    assert not weight.take.isVisible()
    assert plain(weight.printed.text()) == f"United States: “{promised}”"
    declared = load_shelf(workspace).candles[key].declared_net_g
    with workspace.step("shallower") as connection:
        records.update(connection, "vessel", ids["jar"], {"fill_mm": 60.0})
    assert load_shelf(workspace).candles[key].declared_net_g == declared
    assert any("less than the" in plain(said) for said in page.editor.findings.sentences)
    assert weight.take.isVisible()


def test_a_verdict_is_recorded_shown_and_reopened(
    qtbot: QtBot, page: CandlesPage, ids: dict[str, int], workspace: Workspace
) -> None:
    with_candle(workspace, ids, "Bramble", "B")
    tests = page.editor.tests
    qtbot.mouseClick(tests.record, Qt.MouseButton.LeftButton)
    assert tests.form.isVisible()
    QApplication.processEvents()
    state = tests.form.fields["state"].editor
    assert isinstance(state, QComboBox)
    state.setCurrentIndex(state.findData("passed"))
    type_into_only(qtbot, tests.form.fields["tested_by"], "Ida")
    qtbot.mouseClick(tests.form.accept, Qt.MouseButton.LeftButton)
    assert not tests.form.isVisible()
    assert tests.state.text() == "passed · 25 November 2026 · Ida"
    assert column(page, "state") == ["passed"]
    choose(qtbot, page.editor.wicks.fields[0], "cotton 8")
    assert column(page, "state") == ["test again"]
    assert "Flat cotton 6" in tests.reasons.sentences[0]
    workspace.undo()
    assert column(page, "state") == ["passed"]
    workspace.undo()
    assert column(page, "state") == ["untested"]


def type_into_only(qtbot: QtBot, field: Field, text: str) -> None:
    line = field.editor
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, text)


def test_a_day_that_is_no_day_or_to_come_gets_its_sentence(
    qtbot: QtBot, page: CandlesPage, ids: dict[str, int], workspace: Workspace
) -> None:
    with_candle(workspace, ids, "Bramble", "B")
    tests = page.editor.tests
    tests.begin()
    QApplication.processEvents()
    day = tests.form.fields["tested_on"]
    type_into_only(qtbot, day, "someday")
    qtbot.mouseClick(tests.form.accept, Qt.MouseButton.LeftButton)
    assert day.trouble.sentence
    type_into_only(qtbot, day, "2027-01-05")
    qtbot.mouseClick(tests.form.accept, Qt.MouseButton.LeftButton)
    assert "still to come" in tests.form.trouble.sentence
    assert tests.form.isVisible()
    assert column(page, "state") == ["untested"]


def test_a_price_that_cannot_be_read_stays_with_its_sentence_after_a_restart(
    qtbot: QtBot, page: CandlesPage, ids: dict[str, int], workspace: Workspace, ask: Answers
) -> None:
    with_candle(workspace, ids, "Bramble", "B")
    price = page.editor.sold.fields["price_money"]
    type_into(qtbot, price, "a bit")
    assert price.trouble.sentence
    again = CandlesPage(workspace, ask)
    qtbot.addWidget(again)
    again.show()
    kept = again.editor.sold.fields["price_money"]
    assert (kept.text(), bool(kept.trouble.sentence)) == ("a bit", True)
    again.release()
    again.close()


def test_the_list_is_searched_and_keeps_its_place(
    page: CandlesPage, ids: dict[str, int], workspace: Workspace
) -> None:
    with_candle(workspace, ids, "Bramble, tumbler", "BT")
    second = with_candle(workspace, ids, "Äpfel, tumbler", "AE")
    page.show_record(second)
    assert page.name.text() == "Äpfel, tumbler"
    page.search.setText("apfel")
    assert column(page, "name") == ["Äpfel, tumbler"]
    page.search.setText("zzz")
    assert page.nothing.isVisible()
    page.search.setText("flat cotton")
    assert len(column(page, "name")) == 2
    shelf_edit.new_candle(workspace, {"name": "Third"})
    assert page.record == second


def test_duplicate_and_remove_are_acts_that_can_be_undone(
    qtbot: QtBot, page: CandlesPage, ids: dict[str, int], workspace: Workspace
) -> None:
    with_candle(workspace, ids, "Bramble", "B")
    qtbot.mouseClick(page.duplicate, Qt.MouseButton.LeftButton)
    assert column(page, "name") == ["Bramble", "Bramble (copy)"]
    assert column(page, "code") == ["B", ""]
    qtbot.mouseClick(page.remove, Qt.MouseButton.LeftButton)
    assert column(page, "name") == ["Bramble"]
    workspace.undo()
    assert column(page, "name") == ["Bramble", "Bramble (copy)"]


def test_every_widget_that_takes_the_focus_says_its_name(
    page: CandlesPage, ids: dict[str, int], workspace: Workspace
) -> None:
    with_candle(workspace, ids, "Bramble", "B")
    page.editor.tests.begin()
    for widget in page.findChildren(QLineEdit) + page.findChildren(QComboBox):
        assert widget.accessibleName() or widget.parent().property("accessibleName")


def test_it_is_reached_by_key_menu_and_from_another_page(qtbot: QtBot, window: MainWindow) -> None:
    workspace, workbench = window.workspace, window.workbench
    assert workspace is not None
    assert workbench is not None
    ids = stock(workspace)
    key = with_candle(workspace, ids, "Bramble, tumbler", "BT")
    action = workbench.place_actions["candles"]
    assert action.shortcut().toString() == "Ctrl+Shift+C"
    assert action in window.menus.menus["go"].actions()
    workbench.go("candles", key)
    page = workbench.pages["candles"]
    assert isinstance(page, CandlesPage)
    assert page.record == key
    assert page.isVisible()
    qtbot.mouseClick(page.editor.show_recipe, Qt.MouseButton.LeftButton)
    assert workbench.docks["recipes"].record == ids["recipe"]
    qtbot.mouseClick(page.editor.show_vessel, Qt.MouseButton.LeftButton)
    assert workbench.docks["vessels"].record == ids["jar"]
    for width in (1024, 1440):
        window.resize(width, 768)
        QApplication.processEvents()
        assert page.editor.minimumSizeHint().width() <= page.viewport().width()
        assert page.horizontalScrollBar().maximum() == 0


def test_what_was_put_away_stays_named_and_chosen(
    page: CandlesPage, ids: dict[str, int], workspace: Workspace
) -> None:
    key = with_candle(workspace, ids, "Bramble", "B")
    for name in ("jar", "wick"):
        assert not shelf_edit.remove_item(workspace, ids[name])
    assert not shelf_edit.remove_recipe(workspace, ids["recipe"])
    first = page.editor.first
    shown = [first.fields["version_id"], first.fields["vessel_id"], page.editor.wicks.fields[0]]
    texts = []
    for field in shown:
        combo = field.editor
        assert isinstance(combo, QComboBox)
        texts.append(combo.currentText())
        line = combo.lineEdit()
        assert line is not None
        line.editingFinished.emit()
    assert texts == ["Bramble v1", "Amber tumbler", "Flat cotton 6"]
    candle = load_shelf(workspace).candles[key]
    assert (candle.version_id, candle.vessel_id) == (ids["version"], ids["jar"])
    assert candle.wick_ids == (ids["wick"],)


def test_what_was_put_away_is_seen_when_asked_for_and_brought_back(
    qtbot: QtBot, page: CandlesPage, ids: dict[str, int], workspace: Workspace, ask: Answers
) -> None:
    key = with_candle(workspace, ids, "Bramble", "B")
    with workspace.step("plan") as connection:
        plan = records.insert(connection, "plan", {"name": "Fair"})
        records.insert(connection, "plan_line", {"plan_id": plan, "candle_id": key})
    qtbot.mouseClick(page.remove, Qt.MouseButton.LeftButton)
    assert "put away" in ask.told[-1]
    assert column(page, "name") == []
    page.put_away_too.setChecked(True)
    assert column(page, "name") == ["Bramble"]
    assert page.editor.put_away.isVisible()
    QApplication.processEvents()
    qtbot.mouseClick(page.editor.put_away.bring_back, Qt.MouseButton.LeftButton)
    assert not page.put_away_too.isVisible()
    assert column(page, "name") == ["Bramble"]


def test_a_recipe_leads_to_a_new_candle_of_it(window: MainWindow) -> None:
    workspace, workbench = window.workspace, window.workbench
    assert workspace is not None
    assert workbench is not None
    ids = stock(workspace)
    dock = workbench.docks["recipes"]
    assert isinstance(dock, RecipesDock)
    dock.show_record(ids["recipe"])
    assert dock.editor is not None
    QApplication.processEvents()
    dock.editor.versions.candle.click()
    page = workbench.pages["candles"]
    assert isinstance(page, CandlesPage)
    assert page.editor.first.fields["version_id"].text() == str(ids["version"])
    assert page.name.text() == "Bramble"
    workspace.undo()
    assert load_shelf(workspace).candles == {}
    assert page.empty.isVisible()
