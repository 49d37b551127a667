"""Columns of the two small tables of the stock panel."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.stock_view import KEPT_AS_COUNTED, Lot, Move, quantity_text
from wickbench.app.texts_marker import N_
from wickbench.gui.tables.column import Column

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.app.texts import Texts


def lot_columns(texts: Callable[[], Texts], kind: Callable[[], str]) -> tuple[Column[Lot], ...]:
    """Day, quantity, and what was paid with freight."""
    return (
        Column(
            key="day",
            title=N_("Bought on"),
            show=lambda lot: lot.bought_on,
            hint=lambda lot: _about(texts(), lot),
            look=_lot_look,
            stretch=True,
        ),
        Column(
            key="quantity",
            title=N_("How much"),
            show=lambda lot: quantity_text(texts(), lot.quantity, kind(), both=False),
            hint=lambda lot: quantity_text(texts(), lot.quantity, kind()),
            look=_lot_look,
            numeric=True,
        ),
        Column(
            key="paid",
            title=N_("Paid"),
            about=N_("Paid for the goods and their share of freight."),
            show=lambda lot: _paid(texts(), lot),
            hint=lambda lot: _about(texts(), lot),
            look=_lot_look,
            numeric=True,
        ),
    )


def _lot_look(lot: Lot) -> str:
    return "quiet" if lot.taken_back else ""


def _paid(texts: Texts, lot: Lot) -> str:
    if lot.taken_back:
        return texts(N_("taken back"))
    return "–" if lot.whole_money is None else texts.money(lot.whole_money)


def _about(texts: Texts, lot: Lot) -> str:
    parts = [lot.code, lot.supplier, lot.note]
    if lot.freight_money:
        parts.append(texts(N_("freight {freight_money} in it"), freight_money=lot.freight_money))
    if lot.taken_back:
        parts.append(texts(N_("taken back")))
    return " · ".join(part for part in parts if part)


def move_columns(texts: Callable[[], Texts], kind: Callable[[], str]) -> tuple[Column[Move], ...]:
    """Day, what happened, and by how much."""
    return (
        Column(key="day", title=N_("Day"), show=lambda move: move.moved_on),
        Column(
            key="reason",
            title=N_("Change"),
            show=lambda move: " ".join(
                part for part in (texts()(move.reason), move.lot_code) if part
            ),
            hint=lambda move: move.note or texts()(move.reason),
            look=lambda move: "quiet" if move.reason == KEPT_AS_COUNTED else "",
            stretch=True,
        ),
        Column(
            key="quantity",
            title=N_("By"),
            show=lambda move: _signed(texts(), move, kind()),
            numeric=True,
        ),
    )


def _signed(texts: Texts, move: Move, kind: str) -> str:
    shown = quantity_text(texts, move.quantity, kind, both=False)
    return f"+{shown}" if move.quantity > 0 else shown
