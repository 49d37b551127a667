"""Small parts: findings in three ranks, how something is computed, questions, icons, pages."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QAction, QTextDocument
from PySide6.QtGui import Qt as GuiQt
from PySide6.QtWidgets import QApplication, QLabel, QMessageBox, QWidget

from gui.sample_pages import PlainPage
from wickbench.app.resources import ResourceMissing
from wickbench.app.texts import Texts
from wickbench.domain.findings import Finding, Rank
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.icons import drawing, icon_pixmap, recolour, set_icon
from wickbench.gui.naming import plain_action_text, plain_hint
from wickbench.gui.page import button, label
from wickbench.gui.questions import AskInWindow
from wickbench.gui.style_sheet import set_look
from wickbench.gui.theme import DARK, LIGHT

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from gui.conftest import Answers
    from wickbench.app.workspace import Workspace

FINDINGS = (
    Finding(Rank.NOTE, "x.note"),
    Finding(Rank.STOPS, "x.stops"),
    Finding(Rank.WATCH, "x.watch"),
)


def test_ranks_look_different_and_what_stops_comes_first(qtbot: QtBot) -> None:
    shown = FindingsList()
    qtbot.addWidget(shown)
    shown.show_findings(Texts(), FINDINGS)
    assert [sentence.split()[0] for sentence in shown.sentences] == ["x.stops", "x.watch", "x.note"]
    words = [one.text() for one in shown.findChildren(QLabel) if one.text()]
    assert "Stops you" in words
    assert "Watch" in words
    pictures = [
        bytes(one.pixmap().toImage().constBits())
        for one in shown.findChildren(QLabel)
        if not one.pixmap().isNull()
    ]
    assert len(set(pictures)) == 3


def test_nothing_to_say_is_said_where_it_counts(qtbot: QtBot) -> None:
    quiet, well = FindingsList(), FindingsList("All text fits.")
    for shown in (quiet, well):
        qtbot.addWidget(shown)
        shown.show_findings(Texts(), FINDINGS)
        shown.show_findings(Texts(), ())
    assert quiet.isHidden()
    assert well.sentences == ["All text fits."]


def test_how_something_is_computed_is_shown_on_demand(qtbot: QtBot) -> None:
    asked = HowComputed(Texts())
    qtbot.addWidget(asked)
    asked.explain(("Water weighs 0.9978 g per mL at 22 °C.", "<b>253.4 g</b> make 254 mL."))
    frame = asked.popover()
    said = [one.text() for one in frame.findChildren(QLabel)]
    assert said[1:] == ["Water weighs 0.9978 g per mL at 22 °C.", "<b>253.4 g</b> make 254 mL."]
    assert all(one.textFormat() == Qt.TextFormat.PlainText for one in frame.findChildren(QLabel))
    asked.explain(())
    assert asked.isHidden()


@pytest.mark.parametrize(("press", "agreed"), [("Remove it", True), ("Keep as it is", False)])
def test_a_question_is_answered_by_the_button_pressed(
    qtbot: QtBot, press: str, *, agreed: bool
) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    with qtbot.waitActive(window):
        window.show()
    seen: list[tuple[str, Qt.TextFormat]] = []

    def answer() -> None:
        box = QApplication.activeModalWidget()
        assert isinstance(box, QMessageBox)
        seen.append((box.text(), box.textFormat()))
        next(one for one in box.buttons() if one.text() == press).click()

    QTimer.singleShot(0, answer)
    assert AskInWindow(Texts).confirm("Remove <i>it</i> for good?", "Remove it") is agreed
    assert seen == [("Remove <i>it</i> for good?", Qt.TextFormat.PlainText)]
    window.close()


def test_enter_and_escape_keep_things_as_they_are(qtbot: QtBot) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    with qtbot.waitActive(window):
        window.show()
    for key in (Qt.Key.Key_Return, Qt.Key.Key_Escape):
        QTimer.singleShot(0, lambda key=key: qtbot.keyClick(QApplication.activeModalWidget(), key))
        assert not AskInWindow(Texts).confirm("Remove it for good?", "Remove it")
    window.close()


def test_icons_are_drawn_in_the_ink_of_the_theme(qtbot: QtBot) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    action = QAction("Undo", window)
    set_icon(action, "undo", LIGHT)
    light = action.icon().pixmap(24).toImage()
    recolour(window, DARK)
    assert action.icon().pixmap(24).toImage() != light
    ink = icon_pixmap("undo", "#2b2622", 24).toImage()
    colours = {ink.pixelColor(x, y).name() for x in range(24) for y in range(24)
               if ink.pixelColor(x, y).alpha() == 255}  # fmt: skip
    assert colours == {"#2b2622"}
    with pytest.raises(ResourceMissing):
        drawing("no-such-icon")


def test_a_changed_look_keeps_the_font(qtbot: QtBot) -> None:
    shown = label("223 g", "quiet")
    qtbot.addWidget(shown)
    font = shown.font()
    font.setPointSizeF(20)
    shown.setFont(font)
    shown.show()
    set_look(shown, "stops")
    assert shown.font().pointSizeF() == 20
    shown.close()


def test_an_ampersand_of_the_person_is_no_mnemonic() -> None:
    assert plain_action_text("Bramble & smoke") == "Bramble && smoke"


@pytest.mark.parametrize(("width", "below"), [(700, True), (1400, False)])
def test_the_side_column_drops_below_when_there_is_no_room(
    qtbot: QtBot, workspace: Workspace, ask: Answers, width: int, *, below: bool
) -> None:
    page = PlainPage(workspace, ask)
    qtbot.addWidget(page)
    page.show_side()
    page.side.addWidget(label("What it comes to"))
    page.resize(width, 600)
    page.show()
    assert page.side_below is below
    assert page.horizontalScrollBar().maximum() == 0
    page.close()
    page.release()


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space])
def test_buttons_are_pressed_by_enter_and_space(qtbot: QtBot, key: Qt.Key) -> None:
    made = button("Start pouring", "primary")
    qtbot.addWidget(made)
    with qtbot.waitSignal(made.clicked):
        qtbot.keyClick(made, key)


@pytest.mark.parametrize("name", ["<b>Rose</b> & <img src=x.png>", "a < b & c", "Salt & Pepper"])
def test_a_tooltip_shows_a_name_as_it_was_typed(name: str) -> None:
    hint = plain_hint(name)
    shown = QTextDocument()
    # A tooltip takes the same two ways: what looks like markup is read as markup.
    (shown.setHtml if GuiQt.mightBeRichText(hint) else shown.setPlainText)(hint)
    assert shown.toPlainText() == name
