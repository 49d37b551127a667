"""The page of leftovers by its own buttons: keeping, putting away, layering a jar."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtTest import QSignalSpy

from app.test_layered_jars import jar_workshop
from wickbench.app.candle_state import state_of
from wickbench.app.shelf import load_shelf
from wickbench.gui.leftovers.leftovers_page import LeftoversPage

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from gui.conftest import Answers
    from wickbench.app.workspace import Workspace


def shown(workspace: Workspace, ask: Answers, qtbot: QtBot) -> LeftoversPage:
    page = LeftoversPage(workspace, ask)
    qtbot.addWidget(page)
    page.resize(1440, 900)
    page.show()
    page.refresh(None)
    return page


def test_an_empty_page_says_what_belongs_there(
    workspace: Workspace, ask: Answers, qtbot: QtBot
) -> None:
    page = shown(workspace, ask, qtbot)
    assert page.empty.isVisible()
    qtbot.mouseClick(page.keep_first, Qt.MouseButton.LeftButton)
    assert page.keep_card.isVisible()
    assert not page.empty.isVisible()


def test_a_leftover_is_kept_by_its_recipe(workspace: Workspace, ask: Answers, qtbot: QtBot) -> None:
    jar_workshop(workspace)
    page = shown(workspace, ask, qtbot)
    qtbot.mouseClick(page.keep, Qt.MouseButton.LeftButton)
    card = page.keep_card
    card.way.combo.setCurrentIndex(2)
    card.show_way()
    form = card.forms["other"]
    qtbot.mouseClick(form.accept, Qt.MouseButton.LeftButton)
    assert form.trouble.sentence
    recipe = form.fields["version_id"].combo
    recipe.setCurrentIndex(1)
    form.fields["mass_g"].line.setText("0,5 kg")
    qtbot.mouseClick(form.accept, Qt.MouseButton.LeftButton)
    assert not card.isVisible()
    row = load_shelf(workspace).leftovers[page.record or 0]
    assert row.mass_g == 500.0
    assert [part.mass_g for part in page.parts_model.rows] == [part.mass_g for part in row.parts]


def test_used_up_leaves_the_list_and_comes_back(
    workspace: Workspace, ask: Answers, qtbot: QtBot
) -> None:
    _, one, other = jar_workshop(workspace)
    page = shown(workspace, ask, qtbot)
    page.show_record(one)
    qtbot.mouseClick(page.put_away, Qt.MouseButton.LeftButton)
    assert [row.id for row in page.model.rows] == [other]
    page.show_record(one)
    qtbot.mouseClick(page.bring_back, Qt.MouseButton.LeftButton)
    assert not load_shelf(workspace).leftovers[one].archived


def test_a_jar_is_layered_and_its_candle_shown(
    workspace: Workspace, ask: Answers, qtbot: QtBot
) -> None:
    vessel, one, other = jar_workshop(workspace, certificate=5.0)
    page = shown(workspace, ask, qtbot)
    qtbot.mouseClick(page.layer, Qt.MouseButton.LeftButton)
    card = page.jar_card
    assert not card.make.isEnabled()
    field = card.fields["vessel_id"]
    field.combo.setCurrentIndex(field.combo.findData(str(vessel)))
    field.combo.activated.emit(field.combo.currentIndex())
    card.fields["name"].line.setText("Striped")
    card.fields["name"].edited.emit("Striped")
    assert card.make.isEnabled()
    assert card.verdict.text() == "Not for sale, because of Oil."
    # top first on the screen, bottom first in the jar
    assert [row.leftover_id for row in card.layers.model.rows] == [other, one]
    top = card.layers.model.rows[0]
    card.layers.model.take(top, card.layers.model.columns[1], "40 g")
    assert card.view is not None
    assert card.view.layers[1].mass_g == 40.0
    card.layers.model.take(top, card.layers.model.columns[1], "much")
    assert card.layers.trouble.sentence
    gone = QSignalSpy(page.go_requested)
    qtbot.mouseClick(card.make, Qt.MouseButton.LeftButton)
    place, candle = gone.at(0)
    assert place == "candles"
    shelf = load_shelf(workspace)
    assert shelf.candles[candle].name == "Striped"
    assert state_of(shelf.candles[candle], shelf).state == "untested"
    assert shelf.leftovers[other].left_g == 110.0
