"""Rows to the frozen values of the catalog.

Lists come by key, not by name: binary order puts Ä after Z, whoever shows names sorts them.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import fields
from typing import TYPE_CHECKING, Any

from sqlalchemy import func, select

from wickbench.domain import catalog as values
from wickbench.domain.errors import OutOfRange
from wickbench.domain.recipes import Load
from wickbench.storage import records
from wickbench.storage.refusals import Gone
from wickbench.storage.tables_catalog import MATERIAL_LOT, STOCK_MOVE

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from sqlalchemy import Connection

Row = dict[str, Any]

_DETAILS: dict[str, type[values.Details]] = {
    "wax": values.Wax,
    "fragrance": values.Fragrance,
    "wick": values.Wick,
    "dye": values.Dye,
    "additive": values.Additive,
    "lid": values.Lid,
    "sheet": values.SheetMeasures,
    "packaging": values.Packaging,
    "supplies": values.Supplies,
}
_FLAGS = frozenset(
    {
        "archived", "frozen", "liquid_measured", "set_measured", "candle_rated",
        "lead_in_workdays",
    }
)  # fmt: skip
_MG_PER_G = 1000


def materials(
    connection: Connection, kind: str | None = None, *, archived: bool = False
) -> list[values.Material]:
    """Materials of one kind, or of all; archived ones only when asked for.

    Raises:
        ValueError: no such kind.
    """
    kinds = values.MATERIAL_KINDS if kind is None else (kind,)
    found = [material for each in kinds for material in _materials_of(connection, each)]
    return [material for material in found if archived or not material.archived]


def _materials_of(connection: Connection, kind: str) -> list[values.Material]:
    details = {row["item_id"]: row for row in _rows(connection, kind)}
    items = _rows(connection, "item", {"kind": kind})
    return [_material(item, details.get(item["id"], {})) for item in items]


def material(connection: Connection, key: int) -> values.Material:
    """One material by its item.

    Raises:
        Gone: there is none.
    """
    item = records.fetch(connection, "item", key)
    kind = str(item["kind"])
    if kind not in _DETAILS:
        raise Gone("storage.gone", table="item")
    details = records.fetch_all(connection, kind, {"item_id": key})
    return _material(item, details[0] if details else {})


def _material(item: Row, details: Row) -> values.Material:
    kind = item["kind"]
    filled = _pick(_DETAILS[kind], details)
    if kind == "wax":
        filled["max_load"] = load_of(details.get("max_load_percent"), details.get("max_load_basis"))
    return values.Material(**_pick(values.Material, item), details=_DETAILS[kind](**filled))


def load_of(percent: object, basis: object) -> Load | None:
    """A load with its basis; ``None`` while the percentage or the basis is not filled in.

    A load that no mix can have counts as not filled in, so that its field can still be mended.
    """
    if not isinstance(percent, int | float) or not isinstance(basis, str):
        return None
    try:
        return Load(percent, basis)
    except OutOfRange:
        return None


def vessels(connection: Connection, *, archived: bool = False) -> list[values.Vessel]:
    """Vessels with their diameters and weighings; archived ones only when asked for."""
    items = {item["id"]: item for item in _rows(connection, "item", {"kind": "vessel"})}
    diameters = _by(_rows(connection, "vessel_diameter", order=("height_mm",)), "vessel_id")
    weighings = _by(_rows(connection, "weighing"), "vessel_id")
    found = [
        _vessel(items[row["item_id"]], row, diameters[row["item_id"]], weighings[row["item_id"]])
        for row in _rows(connection, "vessel")
    ]
    return [vessel for vessel in found if archived or not vessel.archived]


def vessel(connection: Connection, key: int) -> values.Vessel:
    """One vessel by its item.

    Raises:
        Gone: there is none.
    """
    return _vessel(
        records.fetch(connection, "item", key),
        records.fetch(connection, "vessel", key),
        _rows(connection, "vessel_diameter", {"vessel_id": key}, ("height_mm",)),
        _rows(connection, "weighing", {"vessel_id": key}),
    )


def _vessel(
    item: Row, row: Row, diameters: Iterable[Row], weighings: Iterable[Row]
) -> values.Vessel:
    profile = tuple(
        (each["height_mm"], each["diameter_mm"])
        for each in diameters
        if each["height_mm"] is not None and each["diameter_mm"] is not None
    )
    readings = tuple(values.WeighingRow(**_pick(values.WeighingRow, each)) for each in weighings)
    known = _pick(values.Vessel, {**row, **item})
    return values.Vessel(**known, diameters=profile, weighings=readings)


def recipe_versions(
    connection: Connection, recipe_id: int | None = None
) -> list[values.RecipeVersion]:
    """Versions of one recipe, or of all, each recipe's by number."""
    where = {} if recipe_id is None else {"recipe_id": recipe_id}
    names = {row["id"]: row["name"] for row in _rows(connection, "recipe")}
    parts = _by(_rows(connection, "recipe_part"), "version_id")
    rows = _rows(connection, "recipe_version", where, ("recipe_id", "number"))
    return [_version(row, names[row["recipe_id"]], parts[row["id"]]) for row in rows]


def recipe_version(connection: Connection, key: int) -> values.RecipeVersion:
    """One version.

    Raises:
        Gone: there is none.
    """
    row = records.fetch(connection, "recipe_version", key)
    recipe = records.fetch(connection, "recipe", int(str(row["recipe_id"])))
    parts = _rows(connection, "recipe_part", {"version_id": key})
    return _version(row, str(recipe["name"]), parts)


def _version(row: Row, name: str, parts: Iterable[Row]) -> values.RecipeVersion:
    known = _pick(values.RecipeVersion, row)
    known["load"] = load_of(row["load_percent"], row["load_basis"])
    lines = tuple(values.RecipePart(**_pick(values.RecipePart, part)) for part in parts)
    return values.RecipeVersion(**known, name=name, parts=lines)


def candles(connection: Connection, *, archived: bool = False) -> list[values.Candle]:
    """Candles with their wicks, extras and tests; archived ones only when asked for."""
    wicks = _by(_rows(connection, "candle_wick"), "candle_id")
    extras = _by(_rows(connection, "candle_extra"), "candle_id")
    tests = _by(_rows(connection, "test_record", order=("at_ms",)), "candle_id")
    found = [
        _candle(row, wicks[row["id"]], extras[row["id"]], tests[row["id"]])
        for row in _rows(connection, "candle")
    ]
    return [candle for candle in found if archived or not candle.archived]


def candle(connection: Connection, key: int) -> values.Candle:
    """One candle.

    Raises:
        Gone: there is none.
    """
    return _candle(
        records.fetch(connection, "candle", key),
        _rows(connection, "candle_wick", {"candle_id": key}),
        _rows(connection, "candle_extra", {"candle_id": key}),
        _rows(connection, "test_record", {"candle_id": key}, ("at_ms",)),
    )


def _candle(
    row: Row, wicks: Iterable[Row], extras: Iterable[Row], tests: Iterable[Row]
) -> values.Candle:
    known = _pick(values.Candle, row)
    known["wick_ids"] = tuple(wick["item_id"] for wick in wicks if wick["item_id"] is not None)
    known["extras"] = tuple(
        (extra["item_id"], extra["count"]) for extra in extras if extra["item_id"] is not None
    )
    known["tests"] = tuple(values.TestRecord(**_pick(values.TestRecord, test)) for test in tests)
    return values.Candle(**known)


def equipment(connection: Connection) -> values.Equipment:
    """Scales, pots, heat sources, thermometers and printers, as rows in presented names."""
    return values.Equipment(
        scales=tuple(_rows(connection, "scale")),
        pots=tuple(_rows(connection, "pot")),
        heat_sources=tuple(_rows(connection, "heat_source")),
        thermometers=tuple(_rows(connection, "thermometer")),
        printers=tuple(_rows(connection, "printer")),
    )


def on_hand(connection: Connection) -> dict[int, float | None]:
    """What is there of each item: grams when it is weighed, pieces when it is counted.

    ``None`` when it was never bought or counted.
    """
    moved = func.sum(STOCK_MOVE.c.quantity)
    statement = select(STOCK_MOVE.c.item_id, moved).group_by(STOCK_MOVE.c.item_id)
    sums = {item: int(quantity) for item, quantity in connection.execute(statement)}
    items = _rows(connection, "item")
    return {item["id"]: _amount(item["kind"], sums.get(item["id"])) for item in items}


def _amount(kind: str, quantity: int | None) -> float | None:
    if quantity is None:
        return None
    return quantity / _MG_PER_G if kind in values.WEIGHED_KINDS else float(quantity)


def prices(connection: Connection) -> dict[int, values.Price]:
    """What each item cost when it was bought last, freight included.

    The latest lot by day, then by entry, that says both what was paid and for how much, and was
    not taken back by a counter-entry. An item without one is left out.
    """
    lots, moves = MATERIAL_LOT.c, STOCK_MOVE.c
    taken_back = select(moves.lot_id).where(
        moves.lot_id.is_not(None), moves.reason == "corrected", moves.quantity < 0
    )
    statement = (
        select(lots.item_id, lots.paid_e4, lots.freight_e4, lots.quantity)
        .where(lots.paid_e4.is_not(None), lots.quantity > 0, lots.id.not_in(taken_back))
        .order_by(func.ifnull(lots.bought_on, ""), lots.id)
    )
    return {
        row.item_id: values.Price(row.paid_e4 + (row.freight_e4 or 0), row.quantity)
        for row in connection.execute(statement)
    }


def _rows(
    connection: Connection, table: str, where: Mapping[str, object] | None = None,
    order: tuple[str, ...] = (),
) -> list[Row]:  # fmt: skip
    return records.fetch_all(connection, table, where, order)


def _by(rows: Iterable[Row], name: str) -> defaultdict[int, list[Row]]:
    """Rows by what they are a part of, in their own order."""
    found: defaultdict[int, list[Row]] = defaultdict(list)
    for row in rows:
        found[row[name]].append(row)
    return found


def _pick(of: type, row: Row) -> Row:
    """The columns that a frozen value has a field for; yes and no as such."""
    names = {field.name for field in fields(of)}
    return {
        name: bool(value) if name in _FLAGS else value
        for name, value in row.items()
        if name in names
    }
