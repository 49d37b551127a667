"""What somebody does at the window: press, type, choose, fill in cells; nothing behind its back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit
from sqlalchemy import select

from wickbench.gui.labels.gallery import Gallery
from wickbench.storage import state
from wickbench.storage.tables import METADATA

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from PySide6.QtWidgets import QAbstractButton, QMenu, QPushButton, QWidget

    from gui.conftest import StandingClock
    from wickbench.gui.catalog.catalog_dock import CatalogDock
    from wickbench.gui.fields.form import FieldForm
    from wickbench.gui.fields.note_field import NoteField
    from wickbench.gui.main_window import MainWindow
    from wickbench.gui.tables.table_view import TableView

Dump = dict[str, list[dict[str, object]]]
APART_S = 5.0
"""Acts of a person are further apart than what the journal takes for one act."""


class Hands:
    """Somebody at the window."""

    def __init__(self, window: MainWindow, clock: StandingClock) -> None:
        self.window = window
        self.clock = clock

    # -- going ---------------------------------------------------------------------------------
    def page(self, key: str) -> Any:  # noqa: ANN401 - each page has parts of its own
        """Go to a page by its action, as its button, menu and shortcut do."""
        bench = self.window.workbench
        assert bench is not None
        {**bench.stage_actions, **bench.place_actions}[key].trigger()
        QApplication.processEvents()
        return bench.pages[key]

    def dock(self, key: str) -> Any:  # noqa: ANN401 - each dock has parts of its own
        """Go to a dock by its action."""
        bench = self.window.workbench
        assert bench is not None
        bench.dock_actions[key].trigger()
        QApplication.processEvents()
        return bench.docks[key]

    def activate(self) -> None:
        """Give the keyboard to the window: what popped up before may have taken it."""
        self.window.activateWindow()
        assert QTest.qWaitForWindowActive(self.window)

    # -- doing ---------------------------------------------------------------------------------
    def press(self, button: QAbstractButton) -> None:
        """Press a button that is there to be pressed."""
        assert button.isVisible(), f"{button.objectName()} cannot be seen"
        assert button.isEnabled(), f"{button.objectName()} is greyed"
        self.clock.wait(APART_S)
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)
        QApplication.processEvents()

    def pick(self, menu: QMenu, words: str) -> None:
        """Choose the line of a menu that says this."""
        self.clock.wait(APART_S)
        (action,) = [one for one in menu.actions() if one.text() == words]
        action.trigger()
        QApplication.processEvents()

    def begin_label(self, button: QPushButton, starting: str) -> None:
        """Press *New label* and, in the gallery, a design."""
        self.press(button)
        (gallery,) = [one for one in button.window().findChildren(Gallery) if one.isVisible()]
        (tile,) = [one for one in gallery.tiles if one.offered.starting == starting]
        self.press(tile)

    def type(self, form: FieldForm | Any, name: str, text: str) -> None:  # noqa: ANN401 - forms
        """Type over what stands in a field, or choose in it, and leave it with Enter."""
        field = form.fields[name]
        assert field.editor.isVisible(), f"{name} cannot be seen"
        self.type_in(field, text)

    def type_in(self, field: Any, text: str) -> None:  # noqa: ANN401 - any kind of field
        """Type into one field as above."""
        self.clock.wait(APART_S)
        editor = field.editor
        if isinstance(editor, QComboBox):
            self.choose(field, text)
            return
        assert isinstance(editor, QLineEdit)
        editor.setFocus()
        editor.selectAll()
        QTest.keyClicks(editor, text)
        QTest.keyClick(editor, Qt.Key.Key_Return)
        QApplication.processEvents()

    def write(self, field: NoteField, text: str) -> None:
        """Write a text of several lines over what stands there, and leave it with Tab."""
        self.clock.wait(APART_S)
        self.activate()
        field.note.setFocus()
        field.note.selectAll()
        field.note.insertPlainText(text)
        QTest.keyClick(field.note, Qt.Key.Key_Tab)
        QApplication.processEvents()

    def fill(self, form: FieldForm | Any, values: Mapping[str, str]) -> None:  # noqa: ANN401
        """Fill in several fields."""
        for name, text in values.items():
            self.type(form, name, text)

    def choose(self, field: Any, shown: str) -> None:  # noqa: ANN401 - any field with a list
        """Choose the only line of a list that contains these words, as a click on it does."""
        combo: QComboBox = field.combo
        self.clock.wait(APART_S)
        found = [at for at in range(combo.count()) if shown in combo.itemText(at)]
        exact = [at for at in found if combo.itemText(at) == shown]
        (at,) = exact or found
        combo.setFocus()
        combo.setCurrentIndex(at)
        combo.activated.emit(at)
        QApplication.processEvents()

    def cell(self, table: TableView, row: int, key: str, text: str) -> None:
        """Open a cell, type, press Enter."""
        self.open_cell(table, row, key)
        editor = opened(table)
        line = editor.lineEdit() if isinstance(editor, QComboBox) else editor
        assert line is not None
        line.selectAll()
        QTest.keyClicks(editor, text)
        QTest.keyClick(editor, Qt.Key.Key_Return)
        QApplication.processEvents()
        QApplication.processEvents()

    def open_cell(self, table: TableView, row: int, key: str) -> None:
        """Go to a cell and press the key that opens it."""
        model = table.rows_model
        column = [one.key for one in model.columns].index(key)
        self.clock.wait(APART_S)
        table.setFocus()
        table.setCurrentIndex(model.index(row, column))
        QTest.keyClick(table, Qt.Key.Key_F2)

    def rows(self, table: TableView, rows: Iterable[Mapping[str, str]]) -> None:
        """Add rows in the inviting last row, cell by cell."""
        for row in rows:
            at = len(table.rows_model.rows)
            for key, text in row.items():
                self.cell(table, at, key, text)

    def new(self, dock: CatalogDock, kind: str = "") -> None:
        """Press *New*, or choose a kind in its menu."""
        assert dock.list_pane is not None
        if kind:
            self.pick(dock.list_pane.new.menu(), kind)
        else:
            self.press(dock.list_pane.new)

    # -- undo and redo -------------------------------------------------------------------------
    def undo_everything(self) -> int:
        """Undo by the menu until it is greyed; says how many acts there were."""
        return self._repeat("undo")

    def redo_everything(self) -> int:
        """Redo by the menu until it is greyed."""
        return self._repeat("redo")

    def _repeat(self, name: str) -> int:
        acts = 0
        action = self.window.menus.actions[name]
        while action.isEnabled():
            action.trigger()
            QApplication.processEvents()
            acts += 1
            assert acts < 2000
        return acts

    def dump(self, *, journalled: bool = True) -> Dump:
        """Every row of every table; without what undo is not meant to touch when asked so."""
        assert self.window.workspace is not None
        with self.window.workspace.read() as connection:
            return {
                table.name: [
                    dict(row)
                    for row in connection.execute(
                        select(table).order_by(*table.primary_key.columns)
                    ).mappings()
                ]
                for table in METADATA.sorted_tables
                if table.info["journalled"] or not journalled
            }

    def drafts(self, table: str, record: int) -> dict[str, str]:
        """What was typed in a record's fields and could not be read."""
        assert self.window.workspace is not None
        with self.window.workspace.read() as connection:
            return state.drafts(connection, table, record)


def opened(table: QWidget) -> QLineEdit | QComboBox:
    """The editor that is open in a table."""
    combos = [one for one in table.findChildren(QComboBox) if one.isVisible()]
    lines = [one for one in table.findChildren(QLineEdit) if one.isVisible()]
    assert combos or lines, "no cell is open"
    return combos[0] if combos else lines[0]


def plain(text: str) -> str:
    """With plain spaces, for comparing what a screen and a paper say."""
    return text.replace("\N{NO-BREAK SPACE}", " ").replace("\N{NARROW NO-BREAK SPACE}", " ")
