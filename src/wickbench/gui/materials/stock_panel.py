"""How much of an item is there, what it cost, and the two ways to say so: *Count* and *Bought*."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from wickbench.app import stock, stock_view
from wickbench.app.stock_fields import count_fields, purchase_fields, purchase_of
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.domain.findings import Finding, Rank
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.listening import Listener
from wickbench.gui.materials.entry_form import EntryForm
from wickbench.gui.materials.stock_columns import lot_columns, move_columns
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.stock_view import Lot, StockView
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace

_KINDS = frozenset({"stock", "settings"})


class StockPanel(QWidget):
    """Stock of the item shown by ``show_item``; refreshes itself when the stock changes."""

    def __init__(self, workspace: Workspace, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.workspace = workspace
        self.view: StockView | None = None
        self.form: EntryForm | None = None
        self._mending: int | None = None
        self.on_hand = label()
        self.price = label("", "quiet")
        self.findings = FindingsList()
        self.count = button(self.texts(N_("Count…")))
        self.bought = button(self.texts(N_("Bought…")))
        self.mend = button(self.texts(N_("Correct…")))
        self.take_back = button(self.texts(N_("Take back")))
        self.history = button(self.texts(N_("History")), "flat")
        self.history.setCheckable(True)
        self.lots_model: RowModel[Any] = RowModel(
            lambda: self.texts, lot_columns(lambda: self.texts, lambda: self.kind), _key
        )
        self.lots = TableView(
            self.lots_model, self.texts(N_("Purchases")), most_rows=4, fewest_rows=1
        )
        self.moves_model: RowModel[Any] = RowModel(
            lambda: self.texts, move_columns(lambda: self.texts, lambda: self.kind), _key
        )
        self.moves = TableView(self.moves_model, self.texts(N_("Every change")), most_rows=10)
        self._lay_out()
        self._connect()
        name_attributes(self)
        self._listener = Listener(workspace, self, _KINDS, self.refresh)

    def _lay_out(self) -> None:
        self._box = QVBoxLayout(self)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(8)
        self._box.addWidget(heading(self.texts(N_("Stock"))))
        for widget in (self.on_hand, self.price, self.findings):
            self._box.addWidget(widget)
        self._box.addLayout(_row(self.count, self.bought))
        self._form_at = self._box.count()
        self._box.addWidget(self.lots)
        self._box.addLayout(_row(self.mend, self.take_back))
        self._box.addLayout(_row(self.history))
        self._box.addWidget(self.moves)
        self.moves.setVisible(False)
        self.findings.setVisible(False)
        for table in (self.lots, self.moves):
            table.setSelectionMode(TableView.SelectionMode.SingleSelection)

    def _connect(self) -> None:
        self.count.clicked.connect(self._ask_count)
        self.bought.clicked.connect(self._ask_purchase)
        self.mend.clicked.connect(self._ask_mended)
        self.take_back.clicked.connect(self._take_back)
        self.history.toggled.connect(self._show_history)
        self.lots.chosen.connect(self._lot_chosen)
        self.lots.opened.connect(self._ask_mended)

    @property
    def texts(self) -> Texts:
        """Sentences and units as they are now."""
        return self.workspace.texts

    @property
    def kind(self) -> str:
        """Kind of the item shown."""
        return self.view.kind if self.view else "supplies"

    # -- showing ---------------------------------------------------------------------------------
    def show_item(self, item_id: int | None) -> None:
        """Show the stock of an item; ``None`` hides the panel. A half-typed entry stays."""
        if self.view is not None and self.view.item_id != item_id:
            self._close_form()
        if item_id is None:
            self.view = None
            self.setVisible(False)
            return
        self._read(item_id)

    def refresh(self, changes: Changes | None = None) -> None:  # noqa: ARG002 - all is read again
        """Read the stock of the same item again."""
        if self.view is not None:
            self._read(self.view.item_id)

    def _read(self, item_id: int) -> None:
        try:
            self.view = stock_view.stock_view(self.workspace, item_id)
        except DomainError:
            self.view = None
            self.setVisible(False)
            return
        self.setVisible(True)
        self._show(self.view)

    def _show(self, view: StockView) -> None:
        self.on_hand.setText(stock_view.on_hand_text(self.texts, view))
        self.price.setText(stock_view.price_text(self.texts, view))
        self.findings.show_findings(self.texts, view.findings)
        self.lots_model.set_rows(view.lots)
        self.moves_model.set_rows(view.moves)
        for widget in (self.lots, self.mend, self.take_back):
            widget.setVisible(bool(view.lots))
        self.history.setVisible(bool(view.moves))
        self.moves.setVisible(bool(view.moves) and self.history.isChecked())
        self._lot_chosen()

    def _show_history(self, shown: bool) -> None:  # noqa: FBT001 - Qt's argument
        self.moves.setVisible(shown)

    def _lot_chosen(self, *_: object) -> None:
        lot = self.chosen_lot
        may = lot is not None and not lot.taken_back
        self.mend.setEnabled(may)
        self.take_back.setEnabled(may)

    @property
    def chosen_lot(self) -> Lot | None:
        """The purchase that the person is on; the newest when there is only one."""
        row: Lot | None = self.lots_model.at(self.lots.currentIndex())
        if row is None and self.view is not None and len(self.view.lots) == 1:
            return self.view.lots[0]
        return row

    # -- asking ----------------------------------------------------------------------------------
    def _open_form(self, title: str, form_specs: object, action: str) -> EntryForm:
        self._close_form()
        form = EntryForm(self.workspace, self.texts(title), form_specs, self.texts(action))  # type: ignore[arg-type]
        form.given_up.connect(self._close_form)
        form.setObjectName("form")
        self._box.insertWidget(self._form_at, form)
        self.form = form
        return form

    def _close_form(self) -> None:
        if self.form is not None:
            self.form.hide()
            self.form.deleteLater()
            self.form = None
        self._mending = None

    def _ask_count(self) -> None:
        form = self._open_form(N_("Count"), count_fields(self.kind), N_("Write down"))
        form.accepted.connect(self._counted)
        form.focus_first()

    def _ask_purchase(self) -> None:
        self._purchase_form(N_("Bought"), {"bought_on": self.workspace.clock.today().isoformat()})
        self._mending = None

    def _ask_mended(self, *_: object) -> None:
        lot = self.chosen_lot
        if lot is None or lot.taken_back:
            return
        values = {name: getattr(lot, name) for name in _LOT_FIELDS}
        self._purchase_form(N_("Correct a purchase"), values)
        self._mending = lot.id

    def _purchase_form(self, title: str, values: Mapping[str, object]) -> None:
        form = self._open_form(title, purchase_fields(self.kind), N_("Write down"))
        form.fill(values)
        form.fields["supplier"].show_assumed(self.view.supplier if self.view else "")
        form.edited.connect(self._note_count)
        form.accepted.connect(self._bought)
        form.focus_first()
        self._note_count()

    def _note_count(self) -> None:
        """Say that a later count stands, while the day of the purchase is typed."""
        if self.form is None or self.view is None or "bought_on" not in self.form.fields:
            return
        day = self.form.readable("bought_on")
        counted = stock.counted_since(self.workspace, self.view.item_id, str(day)) if day else None
        said = Finding(Rank.NOTE, "stock.counted-since", {"counted_on": counted})
        self.form.say_note(self.texts.say(said) if counted else "")

    # -- storing ---------------------------------------------------------------------------------
    def _counted(self, values: dict[str, object]) -> None:
        quantity = values.get("quantity")
        if self.form is None or self.view is None:
            return
        try:
            if not isinstance(quantity, int | float):
                raise OutOfRange("stock.count-missing")
            item_id = self.view.item_id
            stock.count(self.workspace, item_id, quantity)
        except DomainError as error:
            self.form.say_trouble(self.texts.say(error))
            return
        self._stored()

    def _bought(self, values: dict[str, object]) -> None:
        if self.form is None or self.view is None:
            return
        purchase = purchase_of(values)
        try:
            if self._mending is None:
                stock.enter_purchase(self.workspace, self.view.item_id, purchase)
            else:
                stock.mend_purchase(self.workspace, self._mending, purchase)
        except DomainError as error:
            self.form.say_trouble(self.texts.say(error))
            return
        self._stored()

    def _take_back(self) -> None:
        lot = self.chosen_lot
        if lot is not None and not lot.taken_back:
            stock.take_back(self.workspace, lot.id)

    def _stored(self) -> None:
        self._close_form()
        self.refresh()
        self.bought.setFocus()


_LOT_FIELDS = ("quantity", "paid_money", "freight_money", "bought_on", "supplier", "note")


def _key(row: Lot) -> int:
    return row.id


def _row(*widgets: QWidget) -> QHBoxLayout:
    row = QHBoxLayout()
    row.setSpacing(8)
    for widget in widgets:
        row.addWidget(widget)
    row.addStretch(1)
    return row
