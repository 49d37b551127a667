"""One model for every table: typing, pasting, sorting, and rows that wait for an open cell."""

from __future__ import annotations

import time
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QApplication, QLineEdit

from wickbench.app.texts import Texts
from wickbench.domain.errors import CannotRead
from wickbench.domain.quantities import parse
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.paste import cells_of, text_of
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView, shared_widths, spared

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot


@dataclass(frozen=True)
class Jar:
    no: int
    name: str
    empty_g: float | None


class Shelf:
    """Rows that a test can type into, as a page would."""

    def __init__(self) -> None:
        self.jars = [Jar(1, "Amber", 212.4), Jar(2, "clear", 209.8), Jar(3, "Blue", None)]
        self.model: RowModel[Jar] = RowModel(
            Texts, self.columns(), lambda jar: jar.no, add=self.add, adding="Add a jar…"
        )
        self.model.set_rows(self.jars)

    def columns(self) -> tuple[Column[Jar], ...]:
        return (
            Column(key="name", title="Name", show=lambda jar: jar.name, stretch=True,
                   write=self.rename),
            Column(key="empty", title="Empty", numeric=True, sort=lambda jar: jar.empty_g,
                   show=lambda jar: "" if jar.empty_g is None else f"{jar.empty_g} g",
                   write=self.weigh),
        )  # fmt: skip

    def rename(self, jar: Jar, typed: str) -> None:
        self._put(replace(jar, name=typed))

    def weigh(self, jar: Jar, typed: str) -> None:
        self._put(replace(jar, empty_g=parse(typed, "mass", assume="g")))

    def add(self, typed: dict[str, str]) -> None:
        empty = typed.get("empty")
        weight = parse(empty, "mass", assume="g") if empty else None
        self.jars.append(Jar(len(self.jars) + 1, typed.get("name", ""), weight))
        self.model.set_rows(self.jars)

    def _put(self, jar: Jar) -> None:
        self.jars = [jar if one.no == jar.no else one for one in self.jars]
        self.model.set_rows(self.jars)


@pytest.fixture
def shelf() -> Shelf:
    return Shelf()


@pytest.fixture
def view(qtbot: QtBot, shelf: Shelf) -> Iterator[TableView]:
    made = TableView(shelf.model, "Jars")
    qtbot.addWidget(made)
    made.resize(300, 200)
    with qtbot.waitActive(made):
        made.show()
    yield made
    made.close()


def cells(view: TableView, column: int) -> list[str]:
    model = view.rows_model
    return [str(model.index(row, column).data() or "") for row in range(model.rowCount())]


def open_cell(view: TableView, row: int, column: int) -> QLineEdit:
    index = view.rows_model.index(row, column)
    view.setCurrentIndex(index)
    view.edit(index)
    editor = view.viewport().findChild(QLineEdit)
    assert editor is not None
    return editor


def test_headers_stand_like_their_figures(view: TableView) -> None:
    model = view.rows_model
    for column in range(model.columnCount()):
        header = model.headerData(
            column, Qt.Orientation.Horizontal, Qt.ItemDataRole.TextAlignmentRole
        )
        assert header == model.index(0, column).data(Qt.ItemDataRole.TextAlignmentRole)


@pytest.mark.parametrize("width", [160, 300, 900])
def test_columns_fill_the_width_exactly_and_never_scroll_sideways(
    view: TableView, width: int
) -> None:
    view.resize(width, 200)
    QApplication.processEvents()
    assert view.horizontalHeader().length() == view.viewport().width()
    assert view.horizontalScrollBar().maximum() == 0


def test_a_typed_cell_is_read_and_written(qtbot: QtBot, view: TableView, shelf: Shelf) -> None:
    editor = open_cell(view, 2, 1)
    qtbot.keyClicks(editor, "198.5")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert shelf.jars[2].empty_g == 198.5
    assert cells(view, 1)[2] == "198.5 g"


def test_a_cell_that_cannot_be_read_keeps_its_text_and_says_why(
    qtbot: QtBot, view: TableView, shelf: Shelf
) -> None:
    said: list[str] = []
    shelf.model.refused.connect(said.append)
    editor = open_cell(view, 0, 1)
    editor.selectAll()
    qtbot.keyClicks(editor, "heavy")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert shelf.jars[0].empty_g == 212.4
    index = shelf.model.index(0, 1)
    assert index.data() == "heavy"
    assert said == [index.data(Qt.ItemDataRole.ToolTipRole)]
    assert said[0]


def test_rows_wait_while_a_cell_is_open(qtbot: QtBot, view: TableView, shelf: Shelf) -> None:
    editor = open_cell(view, 0, 0)
    qtbot.keyClicks(editor, "Amber tumb")
    shelf.model.set_rows([Jar(9, "Only one", 1.0)])
    assert editor.isVisible()
    assert shelf.model.rowCount() == 4
    qtbot.keyClick(editor, Qt.Key.Key_Escape)
    QApplication.processEvents()
    assert cells(view, 0) == ["Only one", ""]


def test_the_inviting_row_makes_a_new_one(qtbot: QtBot, view: TableView, shelf: Shelf) -> None:
    editor = open_cell(view, 3, 0)
    assert editor.text() == ""
    qtbot.keyClicks(editor, "Stoneware")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert shelf.jars[3] == Jar(4, "Stoneware", None)


def test_cells_pasted_from_a_spreadsheet_change_rows_and_add_more(
    view: TableView, shelf: Shelf
) -> None:
    view.setCurrentIndex(shelf.model.index(1, 0))
    view.paste("Clear 30 cl\t210.1 g\r\nBlue 20 cl\t7 oz\r\nGreen\t150\r\n\r\n")
    assert shelf.jars[1] == Jar(2, "Clear 30 cl", 210.1)
    assert shelf.jars[2].name == "Blue 20 cl"
    # 7 oz × 28.349523125 g (NIST SP 811)
    assert shelf.jars[2].empty_g == pytest.approx(198.446661875)
    assert shelf.jars[3] == Jar(4, "Green", 150.0)


def test_sorting_ignores_case_and_puts_empty_cells_last(view: TableView) -> None:
    view.allow_sorting()
    view.sortByColumn(0, Qt.SortOrder.AscendingOrder)
    assert cells(view, 0)[:3] == ["Amber", "Blue", "clear"]
    view.sortByColumn(1, Qt.SortOrder.DescendingOrder)
    assert cells(view, 0)[:3] == ["Amber", "clear", "Blue"]


def test_the_chosen_row_stays_chosen_when_rows_change(view: TableView, shelf: Shelf) -> None:
    view.go_to(2)
    shelf.model.set_rows([Jar(8, "New", 1.0), *shelf.jars])
    assert view.current_key == 2


@pytest.mark.usefixtures("qapp")
def test_sorting_many_rows_is_quick() -> None:
    column = Column[Jar](
        key="no", title="No", show=lambda jar: str(jar.no), sort=lambda jar: jar.no
    )
    model: RowModel[Jar] = RowModel(Texts, (column,), lambda jar: jar.no)
    model.set_rows([Jar((at * 7919) % 100_003, "", None) for at in range(100_000)])
    begun = time.perf_counter()
    model.sort(0)
    assert time.perf_counter() - begun < 1.0
    assert model.rows[0].no == 0


def test_a_table_is_as_tall_as_its_rows_within_limits(qtbot: QtBot, shelf: Shelf) -> None:
    small = TableView(shelf.model, "Jars", fewest_rows=2, most_rows=12)
    qtbot.addWidget(small)
    row = small.verticalHeader().defaultSectionSize()
    before = small.sizeHint().height()
    shelf.add({"name": "one more"})
    assert small.sizeHint().height() == before + row
    assert small.editTriggers() & QAbstractItemView.EditTrigger.AnyKeyPressed


@given(
    st.lists(
        st.lists(st.text(alphabet="aé,;\"' \t\n12", min_size=1), min_size=1, max_size=4),
        min_size=1, max_size=5,
    )
)  # fmt: skip
def test_copied_cells_come_back_as_they_were(rows: list[list[str]]) -> None:
    kept = [[cell.strip() for cell in row] for row in rows]
    while kept and not any(kept[-1]):
        kept.pop()
    assert cells_of(text_of([[cell.strip() for cell in row] for row in rows])) == kept


def test_cells_may_be_cut_short_but_never_raise() -> None:
    assert cells_of("") == []
    assert cells_of('a\t"b\nc') == [["a", "b\nc"]]
    assert len(cells_of("x\n" * 5000)) == 500


def test_a_refused_new_row_says_why(shelf: Shelf) -> None:
    said: list[str] = []
    shelf.model.refused.connect(said.append)
    assert not shelf.model.take_row({"name": "x", "empty": "heavy"})
    assert said[0]
    with pytest.raises(CannotRead):
        shelf.add({"empty": "heavy"})


def test_spare_columns_give_way_before_the_name_becomes_unreadable() -> None:
    wanted = [150, 80, 80, 60]
    assert spared(wanted, [2, 3], 400, 0) == set()
    assert spared(wanted, [2, 3], 290, 0) == {3}
    assert spared(wanted, [2, 3], 200, 0) == {2, 3}


@given(
    st.lists(st.integers(30, 300), min_size=1, max_size=8), st.integers(260, 1500), st.data()
)  # fmt: skip
def test_widths_fill_the_room_and_none_vanishes(
    wanted: list[int], room: int, data: st.DataObject
) -> None:
    places = list(range(len(wanted)))
    stretch = data.draw(st.sampled_from(places))
    words = sorted({stretch, *data.draw(st.lists(st.sampled_from(places)))})
    widths = shared_widths(wanted, words, stretch, room)
    assert sum(widths) == room
    assert min(widths) >= 28
    if sum(wanted) <= room:
        assert all(widths[at] == wanted[at] for at in places if at != stretch)
