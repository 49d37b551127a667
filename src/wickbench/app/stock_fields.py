"""Fields of the two small forms of the shelf: what was bought, what was counted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.fields import FieldSpec
from wickbench.app.stock import Purchase, is_weighed
from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from collections.abc import Mapping

_LOT = "material_lot"


def _quantity(kind: str, name: str, label: str, *, low: float) -> FieldSpec:
    measure = "mass" if is_weighed(kind) else "count"
    return FieldSpec(name=name, label=label, kind=measure, table=_LOT, low=low)


def purchase_fields(kind: str) -> tuple[FieldSpec, ...]:
    """What is asked about a purchase of an item of this kind."""
    return (
        _quantity(kind, "quantity", N_("How much"), low=0.001),
        FieldSpec(name="paid_money", label=N_("Paid for it"), kind="money", table=_LOT, low=0),
        FieldSpec(
            name="freight_money",
            label=N_("Its share of freight"),
            kind="money",
            table=_LOT,
            low=0,
        ),
        FieldSpec(name="bought_on", label=N_("Bought on"), kind="date", table=_LOT),
        FieldSpec(name="supplier", label=N_("From"), kind="text", table=_LOT),
        FieldSpec(
            name="note",
            label=N_("Supplier’s lot number or a note"),
            kind="text",
            table=_LOT,
        ),
    )


def count_fields(kind: str) -> tuple[FieldSpec, ...]:
    """What is asked when the shelf is counted."""
    return (_quantity(kind, "quantity", N_("There is now"), low=0),)


def purchase_of(values: Mapping[str, object]) -> Purchase:
    """A purchase from the form's values; an empty quantity counts as nothing bought."""
    quantity, paid, freight = (
        _number(values.get(name)) for name in ("quantity", "paid_money", "freight_money")
    )
    return Purchase(
        quantity=quantity or 0.0,
        paid_money=paid,
        freight_money=freight,
        bought_on=_text(values.get("bought_on")),
        supplier=_text(values.get("supplier")),
        note=_text(values.get("note")),
    )


def _number(value: object) -> float | None:
    return float(value) if isinstance(value, int | float) else None


def _text(value: object) -> str | None:
    return str(value) if value else None
