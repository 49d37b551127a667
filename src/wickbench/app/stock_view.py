"""What the shelf shows of one item: how much is there, what it cost, how that came about."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.stock import is_weighed, whole
from wickbench.app.texts_marker import N_
from wickbench.domain.catalog import Price
from wickbench.domain.findings import Finding, Rank
from wickbench.storage import catalog, records

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace

REASON_NAMES: Final[Mapping[str, str]] = {
    "bought": N_("bought"),
    "counted": N_("counted"),
    "used": N_("used"),
    "corrected": N_("correction"),
    "made": N_("made"),
    "sold": N_("sold"),
    "moved": N_("moved"),
}
KEPT_AS_COUNTED: Final = N_("as counted")
"""A move that only keeps an earlier count right."""

_MG_PER_KG: Final = 1_000_000
_MG_PER_100_LB: Final = 45_359_237  # 1 lb = 453.59237 g, exact (NIST SP 811, appendix B)
_IMPERIAL: Final = frozenset({"oz", "lb", "lb oz"})
_SMALL_MONEY: Final = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """One purchase as it was entered; ``quantity`` in grams or pieces."""

    id: int
    code: str
    bought_on: str
    quantity: float
    paid_money: float | None
    freight_money: float | None
    supplier: str
    note: str
    taken_back: bool

    @property
    def whole_money(self) -> float | None:
        """Paid and freight together; ``None`` when it is not known what was paid."""
        return None if self.paid_money is None else self.paid_money + (self.freight_money or 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """One change of what is there; ``quantity`` signed, in grams or pieces."""

    id: int
    moved_on: str
    quantity: float
    reason: str
    lot_code: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StockView:
    """An item's stock.

    Attributes:
        item_id: its key.
        kind: its kind.
        supplier: who it usually comes from.
        on_hand: grams or pieces; ``None`` when never counted or bought, which is not zero.
        counted_on: day of the last count.
        price: of the latest purchase that says what was paid, freight included.
        with_freight: whether freight is in that price.
        lots: purchases, newest first.
        moves: what changed, newest first.
        findings: what is odd about it.
    """

    item_id: int
    kind: str
    supplier: str = ""
    on_hand: float | None = None
    counted_on: str | None = None
    price: Price | None = None
    with_freight: bool = False
    lots: tuple[Lot, ...] = ()
    moves: tuple[Move, ...] = ()
    findings: tuple[Finding, ...] = ()

    @property
    def weighed(self) -> bool:
        """Whether its quantities are grams."""
        return is_weighed(self.kind)


def stock_view(workspace: Workspace, item_id: int) -> StockView:
    """Read an item's stock.

    Raises:
        Gone: there is no such item.
    """
    with workspace.read() as connection:
        item = records.fetch(connection, "item", item_id)
        lot_rows = records.fetch_all(connection, "material_lot", {"item_id": item_id})
        move_rows = records.fetch_all(connection, "stock_move", {"item_id": item_id}, ("id",))
        on_hand = catalog.on_hand(connection)[item_id]
        price = catalog.prices(connection).get(item_id)
    kind = str(item["kind"])
    divisor = 1000 if is_weighed(kind) else 1
    taken = {row["lot_id"] for row in move_rows if row["reason"] == "corrected"}
    lots = tuple(_lot(row, divisor, taken) for row in sorted(lot_rows, key=_by_day, reverse=True))
    codes = {lot.id: lot.code for lot in lots}
    moves = tuple(_move(row, divisor, codes) for row in reversed(move_rows))
    priced = next((lot for lot in lots if lot.paid_money is not None and not lot.taken_back), None)
    return StockView(
        item_id=item_id,
        kind=kind,
        supplier=str(item["supplier"] or ""),
        on_hand=on_hand,
        counted_on=_counted_on(move_rows),
        price=price,
        with_freight=bool(priced and priced.freight_money),
        lots=lots,
        moves=moves,
        findings=_findings(on_hand),
    )


def _by_day(row: Mapping[str, object]) -> tuple[str, int]:
    return str(row["bought_on"] or ""), whole(row["id"])


def _lot(row: Mapping[str, object], divisor: int, taken: set[object]) -> Lot:
    return Lot(
        id=whole(row["id"]),
        code=str(row["code"] or ""),
        bought_on=str(row["bought_on"] or ""),
        quantity=whole(row["quantity"] or 0) / divisor,
        paid_money=_money(row["paid_money"]),
        freight_money=_money(row["freight_money"]),
        supplier=str(row["supplier"] or ""),
        note=str(row["note"] or ""),
        taken_back=row["id"] in taken,
    )


def _money(value: object) -> float | None:
    return float(value) if isinstance(value, int | float) else None


def _move(row: Mapping[str, object], divisor: int, codes: Mapping[int, str]) -> Move:
    lot_id = row["lot_id"]
    kept = row["reason"] == "counted" and lot_id is not None
    return Move(
        id=whole(row["id"]),
        moved_on=str(row["moved_on"] or ""),
        quantity=whole(row["quantity"]) / divisor,
        reason=KEPT_AS_COUNTED if kept else REASON_NAMES[str(row["reason"])],
        lot_code=codes.get(lot_id, "") if isinstance(lot_id, int) else "",
        note=str(row["note"] or ""),
    )


def _counted_on(moves: list[dict[str, object]]) -> str | None:
    days = [
        str(row["moved_on"])
        for row in moves
        if row["reason"] == "counted" and row["lot_id"] is None and row["moved_on"]
    ]
    return max(days, default=None)


def _findings(on_hand: float | None) -> tuple[Finding, ...]:
    if on_hand is not None and on_hand < 0:
        return (Finding(Rank.WATCH, "stock.below-nothing"),)
    return ()


# -- as a person reads it ------------------------------------------------------------------------
def quantity_text(texts: Texts, quantity: float | None, kind: str, *, both: bool = True) -> str:
    """A quantity of an item for reading; *unknown* when it was never counted."""
    if quantity is None:
        return texts(N_("unknown"))
    if is_weighed(kind):
        return texts.units.bulk(quantity, both=both)
    return texts.quantity(quantity, "count")


def on_hand_text(texts: Texts, view: StockView, *, both: bool = True) -> str:
    """*On hand 4.2 kg · counted 3 November 2026*, or that nobody ever counted."""
    if view.on_hand is None:
        return texts(N_("On hand: unknown. Count it once, or enter a purchase."))
    there = quantity_text(texts, view.on_hand, view.kind, both=both)
    if view.counted_on is None:
        return texts(N_("On hand {there}, never counted"), there=there)
    day = texts.day(view.counted_on)
    return texts(N_("On hand {there} · counted {day}"), there=there, day=day)


def price_text(texts: Texts, view: StockView) -> str:
    """*$7.32 per kg with freight*, or that no price is known yet."""
    if view.price is None:
        return texts(N_("No price yet. It comes from what you bought."))
    if view.with_freight:
        return texts(N_("{price} with freight"), price=unit_price_text(texts, view))
    return unit_price_text(texts, view)


def unit_price_text(texts: Texts, view: StockView) -> str:
    """What a kilogram, a pound or a piece costs, in the units that the person reads weights in."""
    if view.price is None:
        return ""
    if not view.weighed:
        each = float(view.price.of(1)) / 10_000
        return texts(N_("{price} each"), price=small_money(texts, each))
    units = dict.fromkeys(
        "lb" if unit in _IMPERIAL else "kg"
        for unit in (texts.units.first("mass"), texts.units.second("mass"))
        if unit
    )
    return " · ".join(_per(texts, view.price, unit) for unit in units)


def _per(texts: Texts, price: Price, unit: str) -> str:
    if unit == "kg":
        amount = float(price.of(_MG_PER_KG)) / 10_000
        return texts(N_("{price} per kg"), price=small_money(texts, amount))
    amount = float(price.of(_MG_PER_100_LB) / 100) / 10_000
    return texts(N_("{price} per lb"), price=small_money(texts, amount))


def small_money(texts: Texts, amount: float) -> str:
    """Money for one of something: a cheap thing's price shows a part of a cent."""
    return texts.money(amount, 2 if abs(amount) >= _SMALL_MONEY or not amount else 3)
