"""What comes onto the shelf and what is found there: purchases, counts, and their corrections.

A purchase is a lot and a move of the same quantity; a count is a move of the difference. Both are
booked: undo takes them back on the same day, after that a counter-entry does, and stays visible.
A count says what stood there on its day, so a purchase from before that day, entered or mended
later, leaves what was counted as it is.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.app.texts_marker import N_
from wickbench.domain.catalog import WEIGHED_KINDS
from wickbench.domain.errors import OutOfRange
from wickbench.domain.rounding import half_up_decimal
from wickbench.storage import records, state

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace
    from wickbench.storage.workshop_file import Connection

LOT_COUNTER = "material_lot"
"""Numbers of purchases are never given twice, undo or not."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """What was bought.

    Attributes:
        quantity: grams of what is weighed, pieces of anything else.
        paid_money: for the goods alone, in the currency of the file.
        freight_money: their share of freight and fees.
        bought_on: local day, ISO; today when not given.
        supplier: who sold it; the item's own supplier when not given.
        note: the supplier's lot number, the invoice, anything worth keeping.
    """

    quantity: float
    paid_money: float | None = None
    freight_money: float | None = None
    bought_on: str | None = None
    supplier: str | None = None
    note: str | None = None


def is_weighed(kind: str) -> bool:
    """Whether an item of this kind is bought and counted by weight."""
    return kind in WEIGHED_KINDS


def buy(
    workspace: Workspace,
    item_id: int,
    quantity: float,
    paid_money: float | None = None,
    freight_money: float | None = None,
    *,
    bought_on: str | None = None,
    supplier: str | None = None,
    note: str | None = None,
    origin: object = None,
) -> int:
    """Enter a purchase: a lot and a move onto the shelf as one act; returns the lot's key.

    Raises:
        OutOfRange: nothing bought, pieces that are not whole, money below zero, a day to come.
    """
    purchase = Purchase(
        quantity=quantity,
        paid_money=paid_money,
        freight_money=freight_money,
        bought_on=bought_on,
        supplier=supplier,
        note=note,
    )
    return enter_purchase(workspace, item_id, purchase, origin=origin)


def enter_purchase(
    workspace: Workspace, item_id: int, purchase: Purchase, *, origin: object = None
) -> int:
    """As ``buy``, with the purchase as one value."""
    _check(workspace, purchase)
    with workspace.step(N_("Enter a purchase"), origin=origin) as connection:
        bought_on = purchase.bought_on or workspace.clock.today().isoformat()
        counted = _counted_after(connection, item_id, bought_on) is not None
        return _book(workspace, connection, item_id, purchase, counted=counted)


def count(
    workspace: Workspace,
    item_id: int,
    quantity: float,
    *,
    note: str | None = None,
    origin: object = None,
) -> None:
    """Say what stands on the shelf now; the difference is booked as a move, even when it is zero.

    Args:
        workspace: the open workshop.
        item_id: what was counted.
        quantity: grams of what is weighed, pieces of anything else.
        note: why it differs, if worth keeping.
        origin: who began it.

    Raises:
        OutOfRange: less than nothing, or pieces that are not whole.
    """
    if quantity < 0:
        raise OutOfRange("stock.less-than-nothing")
    with workspace.step(N_("Count what is there"), origin=origin) as connection:
        there = _on_hand(connection, item_id)
        move = _move(workspace, item_id, _stored(connection, item_id, quantity) - there, "counted")
        records.insert(connection, "stock_move", {**move, "note": note})


def take_back(workspace: Workspace, lot_id: int, *, origin: object = None) -> None:
    """Correct a purchase that never was: a counter-entry takes it off the shelf again.

    What was counted since stays as it was counted.

    Raises:
        OutOfRange: it was taken back already.
    """
    with workspace.step(N_("Take a purchase back"), origin=origin) as connection:
        _counter_entry(workspace, connection, lot_id)


def mend_purchase(
    workspace: Workspace, lot_id: int, purchase: Purchase, *, origin: object = None
) -> int:
    """Correct a purchase: the wrong entry is countered and the right one entered, as one act.

    Returns:
        The key of the right lot.

    Raises:
        OutOfRange: as ``buy``, or the purchase was taken back already.
    """
    _check(workspace, purchase)
    with workspace.step(N_("Correct a purchase"), origin=origin) as connection:
        item_id = whole(records.fetch(connection, "material_lot", lot_id)["item_id"])
        counted = _counter_entry(workspace, connection, lot_id)
        bought_on = purchase.bought_on or workspace.clock.today().isoformat()
        counted = counted or _counted_after(connection, item_id, bought_on) is not None
        return _book(workspace, connection, item_id, purchase, counted=counted)


def counted_since(workspace: Workspace, item_id: int, bought_on: str) -> str | None:
    """The day of a count after this day, which a purchase of that day no longer changes."""
    with workspace.read() as connection:
        return _counted_after(connection, item_id, bought_on)


def _check(workspace: Workspace, purchase: Purchase) -> None:
    if purchase.quantity <= 0:
        raise OutOfRange("stock.nothing-bought")
    for paid in (purchase.paid_money, purchase.freight_money):
        if paid is not None and paid < 0:
            raise OutOfRange("stock.paid-below-zero")
    if purchase.bought_on and purchase.bought_on > workspace.clock.today().isoformat():
        raise OutOfRange("stock.day-to-come", bought_on=purchase.bought_on)


def _book(
    workspace: Workspace,
    connection: Connection,
    item_id: int,
    purchase: Purchase,
    *,
    counted: bool,
) -> int:
    item = records.fetch(connection, "item", item_id)
    bought_on = purchase.bought_on or workspace.clock.today().isoformat()
    quantity = _stored(connection, item_id, purchase.quantity)
    lot = {
        "item_id": item_id,
        "code": f"M-{state.next_number(connection, LOT_COUNTER)}",
        "bought_on": bought_on,
        "quantity": quantity,
        "paid_money": purchase.paid_money,
        "freight_money": purchase.freight_money,
        "supplier": purchase.supplier or item["supplier"],
        "note": purchase.note,
    }
    lot_id = records.insert(connection, "material_lot", lot)
    move = _move(workspace, item_id, quantity, "bought")
    records.insert(connection, "stock_move", {**move, "lot_id": lot_id, "moved_on": bought_on})
    if counted:
        _as_counted(workspace, connection, item_id, lot_id, -quantity)
    return lot_id


def _counter_entry(workspace: Workspace, connection: Connection, lot_id: int) -> bool:
    """Counter a purchase; says whether a count after it had taken it in."""
    moves = records.fetch_all(connection, "stock_move", {"lot_id": lot_id}, ("id",))
    bought = next((one for one in moves if one["reason"] == "bought"), None)
    if bought is None or any(one["reason"] == "corrected" for one in moves):
        raise OutOfRange("stock.taken-back-already")
    item_id, quantity = whole(bought["item_id"]), whole(bought["quantity"])
    move = _move(workspace, item_id, -quantity, "corrected")
    entry = {**move, "lot_id": lot_id, "corrects_id": bought["id"]}
    records.insert(connection, "stock_move", entry)
    counted = any(one["reason"] == "counted" for one in moves) or any(
        whole(one["id"]) > whole(bought["id"]) for one in _counts(connection, item_id)
    )
    if counted:
        _as_counted(workspace, connection, item_id, lot_id, quantity)
    return counted


def _as_counted(
    workspace: Workspace, connection: Connection, item_id: int, lot_id: int, quantity: int
) -> None:
    """Keep what was counted: the purchase was on the shelf when it was counted, or never was."""
    move = _move(workspace, item_id, quantity, "counted")
    records.insert(connection, "stock_move", {**move, "lot_id": lot_id})


def _counts(connection: Connection, item_id: int) -> list[dict[str, object]]:
    """Counts by hand; those that belong to a lot only keep an earlier one right."""
    where = {"item_id": item_id, "reason": "counted", "lot_id": None}
    return records.fetch_all(connection, "stock_move", where, ("moved_on", "id"))


def _counted_after(connection: Connection, item_id: int, bought_on: str) -> str | None:
    days = [str(one["moved_on"]) for one in _counts(connection, item_id) if one["moved_on"]]
    return next((day for day in reversed(days) if day > bought_on), None)


def _move(workspace: Workspace, item_id: int, quantity: int, reason: str) -> dict[str, object]:
    return {
        "item_id": item_id,
        "quantity": quantity,
        "reason": reason,
        "moved_on": workspace.clock.today().isoformat(),
        "at_ms": workspace.clock.now_ms(),
    }


def _on_hand(connection: Connection, item_id: int) -> int:
    """Milligrams or pieces by all moves; zero when there is none."""
    moves = records.fetch_all(connection, "stock_move", {"item_id": item_id})
    return sum(whole(one["quantity"]) for one in moves)


def _stored(connection: Connection, item_id: int, quantity: float) -> int:
    """Milligrams of what is weighed, pieces of anything else."""
    if is_weighed(str(records.fetch(connection, "item", item_id)["kind"])):
        return int(half_up_decimal(quantity, 3).scaleb(3))
    if quantity != int(quantity):
        raise OutOfRange("stock.whole-pieces")
    return int(quantity)


def whole(value: object) -> int:
    """A whole number out of a row.

    Raises:
        TypeError: it is none; a bug of ours.
    """
    if not isinstance(value, int):
        raise TypeError(value)
    return value
