"""A vessel with one cell of its small tables as it is being typed."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from wickbench.app import edit
from wickbench.domain.catalog import WeighingRow
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickbench.app.vessel_parts import PartRow
    from wickbench.app.vessel_tables import PartTable
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Vessel

Values = dict[str, Any]


def values_with(
    workspace: Workspace, part: PartTable, rows: Sequence[PartRow], cell: tuple[int, str, str]
) -> list[Values]:
    """Values of all rows, one of them with the text of a cell read.

    Args:
        workspace: the open workshop.
        part: the table.
        rows: as stored.
        cell: key of the row, name of the column, typed text; text that cannot be read leaves the
            stored value.
    """
    key, name, typed = cell
    found = [{**row.values, "id": row.id} for row in rows]
    try:
        value = edit.read_field(workspace, part.spec(name), typed)
    except DomainError:
        return found
    return [{**row, name: value} if row["id"] == key else row for row in found]


def with_rows(vessel: Vessel, part: PartTable, rows: Sequence[Mapping[str, Any]]) -> Vessel:
    """The vessel with these rows in one of its tables; the others stay."""
    if part.table == "vessel_diameter":
        pairs = [(row["height_mm"], row["diameter_mm"]) for row in rows]
        return replace(vessel, diameters=tuple(pair for pair in pairs if None not in pair))
    others = tuple(row for row in vessel.weighings if row.level != part.level)
    names = ("id", "vessel_no", "empty_g", "filled_g", "water_c", "scale_id")
    picked: list[Values] = [{name: row.get(name) for name in names} for row in rows]
    own = tuple(WeighingRow(level=part.level, **values) for values in picked)
    return replace(vessel, weighings=(*others, *own))
