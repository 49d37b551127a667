"""Words for equipment: what stands in the lists, what an empty list says, how to measure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from wickbench.app.equipment_fields import EQUIPMENT_FIELDS
from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickbench.app.texts import Texts
    from wickbench.domain.findings import Finding

Row = dict[str, object]

ADD_ONE: Final[Mapping[str, str]] = {
    "scale": N_("New scale"),
    "pot": N_("New pot"),
    "heat_source": N_("New heat source"),
    "thermometer": N_("New thermometer"),
    "printer": N_("New printer"),
}
DUPLICATE_ONE: Final[Mapping[str, str]] = {
    "scale": N_("Duplicate the scale"),
    "pot": N_("Duplicate the pot"),
    "heat_source": N_("Duplicate the heat source"),
    "thermometer": N_("Duplicate the thermometer"),
    "printer": N_("Duplicate the printer"),
}
REMOVE_ONE: Final[Mapping[str, str]] = {
    "scale": N_("Remove the scale"),
    "pot": N_("Remove the pot"),
    "heat_source": N_("Remove the heat source"),
    "thermometer": N_("Remove the thermometer"),
    "printer": N_("Remove the printer"),
}
NO_NAME: Final[Mapping[str, str]] = {
    "scale": N_("Scale without a name"),
    "pot": N_("Pot without a name"),
    "heat_source": N_("Heat source without a name"),
    "thermometer": N_("Thermometer without a name"),
    "printer": N_("Printer without a name"),
}
WHAT_FOR: Final[Mapping[str, str]] = {
    "scale": N_(
        "Each ingredient of a pour is weighed on the finest scale that carries it. Its maximum and "
        "what it reads to are on its type plate."
    ),
    "pot": N_(
        "A pot is what the oil is added in: a pitcher or a melter. A pour is split so that no pot "
        "is filled beyond its safe fill."
    ),
    "heat_source": N_(
        "What heats the wax. Cautions about flash points depend on an open flame and on whether "
        "the pot stays on the heat."
    ),
    "thermometer": N_("What the temperatures of a pour are read on."),
    "printer": N_(
        "A printer with its tray. Labels keep clear of the edges that it cannot print; each tray "
        "pulls paper a little differently and gets an entry of its own."
    ),
}
MEASURE_BRIM: Final = N_(
    "To measure the brim: set the scale to zero with the dry pot on it, fill the pot with water "
    "until no more goes in, and enter what the water weighs."
)
_HEADS: Final[Mapping[str, tuple[tuple[str, str], ...]]] = {
    "scale": (("maximum_g", N_("Maximum")), ("step_g", N_("Reads to"))),
    "pot": (
        ("brim_ml", N_("To the brim")),
        ("safe_ml", N_("Safe fill")),
        ("empty_g", N_("Empty")),
    ),
    "heat_source": (
        ("power_w", N_("Watts")),
        ("open_flame", N_("Flame")),
        ("left_on_heat", N_("Pot stays on")),
    ),
    "thermometer": (("thermometer_kind", N_("Kind")), ("reads_to_c", N_("Reads to"))),
    "printer": (("tray", N_("Tray")), ("edge_mm", N_("Cannot print within"))),
}
SPARE: Final = frozenset({"safe_ml", "empty_g"})
"""Columns that give way where it is narrow; the form beside the list says them too."""
NUMERIC: Final = frozenset(
    {"maximum_g", "step_g", "brim_ml", "safe_ml", "empty_g", "power_w", "reads_to_c"}
)


def heads(table: str) -> tuple[tuple[str, str], ...]:
    """Key and msgid of each column after the name."""
    return _HEADS[table]


def shown_name(texts: Texts, table: str, row: Row) -> str:
    """What a piece is called, also when it has no name yet."""
    return str(row.get("name") or "") or texts(NO_NAME[table])


def named(texts: Texts, table: str, findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """The findings with something to call a piece that has no name."""
    stand_in = {"name": texts(NO_NAME[table])}
    return tuple(
        replace(one, data={**one.data, **stand_in}) if one.data.get("name") == "" else one
        for one in findings
    )


def cell(texts: Texts, table: str, row: Row, column: str) -> str:
    """What stands in a column of a piece's row; empty when not filled in."""
    if column == "safe_ml":
        return _safe_fill(texts, row)
    if column == "edge_mm":
        return _edges(texts, row)
    if column in {"open_flame", "left_on_heat"}:
        return texts(N_("yes")) if row.get(column) else texts(N_("no"))
    value = row.get(column)
    spec = next(one for one in EQUIPMENT_FIELDS[table] if one.name == column)
    if value is None or value == "":
        return ""
    if spec.is_quantity and isinstance(value, (int, float)):
        return _short(texts, column, value, spec.kind)
    return next((texts(one.label) for one in spec.choices if one.value == value), str(value))


def _short(texts: Texts, column: str, value: float, kind: str) -> str:
    """As it was typed, or rounded for reading when that is shorter; a step is never rounded."""
    if column == "reads_to_c":
        return f"{texts.number(value, 3).rstrip('0').rstrip('.,')} °C"
    full = texts.units.full(value, kind)
    if column == "step_g":
        return full
    return min(full, texts.units.read(value, kind, both=False), key=len)


def _safe_fill(texts: Texts, row: Row) -> str:
    brim, fill = row.get("brim_ml"), row.get("safe_fill_percent")
    if not isinstance(fill, (int, float)):
        return ""
    share = texts.units.read(fill, "percent")
    if not isinstance(brim, (int, float)):
        return share
    return f"{texts.units.read(brim * fill / 100, 'volume', both=False)} · {share}"


def _edges(texts: Texts, row: Row) -> str:
    edge, bottom = row.get("edge_mm"), row.get("bottom_edge_mm")
    if not isinstance(edge, (int, float)):
        return ""
    around = texts.units.full(edge, "length")
    if not isinstance(bottom, (int, float)) or bottom == edge:
        return around
    below = texts.units.full(bottom, "length")
    return texts(N_("{around}, {below} at the bottom"), around=around, below=below)
