"""Equipment as the page shows it: what each piece can do, and what is missing or odd about it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from wickbench.app import shelf_edit
from wickbench.app.equipment_fields import EQUIPMENT_FIELDS
from wickbench.app.texts_marker import N_
from wickbench.domain.equipment import Pot, Scale
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.water import pressure_at_altitude, z_factor
from wickbench.storage import catalog
from wickbench.storage.refusals import InUse

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Equipment

Row = dict[str, object]

TABLES: Final = tuple(EQUIPMENT_FIELDS)
"""Kinds of equipment in the order of the page."""
FINE_STEP_G: Final = 0.1
"""What a scale for fragrance oil reads to (common practice, no source)."""
_MELTED_G_PER_ML: Final = 0.9
"""Melted wax with its oil, roughly: for an estimate that is called one."""
USUAL_SAFE_FILL_PERCENT: Final = 80.0
_ATTRIBUTES: Final = {
    "scale": "scales",
    "pot": "pots",
    "heat_source": "heat_sources",
    "thermometer": "thermometers",
    "printer": "printers",
}
_TOLERANCE_G: Final = 1e-9


@dataclass(frozen=True, slots=True)
class EquipmentView:
    """Everything on the page.

    Attributes:
        rows: of each kind, in the order in which they were entered.
        findings: what stops first; ``about`` is ``(table, id)``, or ``(table,)`` for the kind. A
            piece without a name has an empty one in their data.
    """

    rows: Mapping[str, tuple[Row, ...]]
    findings: tuple[Finding, ...]

    def of(self, table: str, key: int | None = None) -> tuple[Finding, ...]:
        """Findings about one piece; without ``key`` those about the kind as a whole."""
        about = (table,) if key is None else (table, key)
        return tuple(one for one in self.findings if one.about == about)

    def worst(self, table: str) -> Rank | None:
        """The highest rank among the findings of a kind; ``None`` when there are none."""
        ranks = [one.rank for one in self.findings if one.about[0] == table]
        return max(ranks, default=None)


def load_equipment(workspace: Workspace) -> Equipment:
    """All equipment of the workshop."""
    with workspace.read() as connection:
        return catalog.equipment(connection)


def remove_equipment(workspace: Workspace, table: str, key: int, *, origin: object = None) -> None:
    """Take a piece of equipment out of the workshop as one undoable act.

    Raises:
        InUse: "equipment.in-use"; a weighing, a plan or a pour still names it.
    """
    try:
        shelf_edit.remove_row(workspace, table, key, N_("Remove equipment"), origin=origin)
    except InUse as error:
        raise InUse("equipment.in-use", **error.data) from error


def view_equipment(equipment: Equipment) -> EquipmentView:
    """What is there, and everything to be said about it."""
    rows = {table: rows_of(equipment, table) for table in TABLES}
    scales = tuple(scale for row in rows["scale"] if (scale := _scale(row)))
    found = [
        *_about_scales(rows["scale"], scales),
        *(one for row in rows["pot"] for one in _about_pot(row, scales)),
        *(one for row in rows["heat_source"] for one in _about_heat(row)),
        *(one for row in rows["thermometer"] for one in _about_thermometer(row)),
        *(one for row in rows["printer"] for one in _about_printer(row)),
    ]
    if not rows["pot"]:
        found.append(Finding(Rank.NOTE, "equipment.no-pot", {}, ("pot",)))
    for table in TABLES:
        found += _same_names(table, rows[table])
    return EquipmentView(rows, sort_findings(found))


def rows_of(equipment: Equipment, table: str) -> tuple[Row, ...]:
    """The rows of one kind."""
    found: tuple[Row, ...] = getattr(equipment, _ATTRIBUTES[table])
    return found


def with_typed(
    equipment: Equipment, table: str, key: int, values: Mapping[str, object]
) -> Equipment:
    """The equipment with some values of one piece as they are being typed."""
    rows = tuple(
        {**row, **values} if row.get("id") == key else row for row in rows_of(equipment, table)
    )
    return replace(equipment, **{_ATTRIBUTES[table]: rows})


def brim_of_water(
    water_g: float, water_c: float, altitude_m: float = 0.0, *, hectopascal: float | None = None
) -> float:
    """Volume in mL of the water that fills a pot to its brim, from its weight on a scale in air.

    Args:
        water_g: what the scale reads for the water alone.
        water_c: how warm water and air are.
        altitude_m: height of the workroom above the sea.
        hectopascal: air pressure; ``None`` for the usual one at that height.

    Raises:
        OutOfRange: no water, or water that is ice or steam.
    """
    if not math.isfinite(water_g) or water_g <= 0:
        raise OutOfRange("equipment.no-water")
    pressure = pressure_at_altitude(altitude_m) if hectopascal is None else hectopascal
    return water_g * z_factor(water_c, pressure)


# -- findings ------------------------------------------------------------------------------------
def _about_scales(rows: Iterable[Row], scales: tuple[Scale, ...]) -> Iterator[Finding]:
    rows = tuple(rows)
    for row in rows:
        maximum, step = _number(row, "maximum_g"), _number(row, "step_g")
        if maximum is None or step is None:
            yield _finding(Rank.STOPS, "equipment.scale-unfinished", row, "scale")
            continue
        try:
            Scale(_name(row), maximum, step)
        except DomainError as error:
            yield Finding(Rank.STOPS, error.key, error.data, ("scale", row.get("id")))
    if not rows:
        yield Finding(Rank.NOTE, "equipment.no-scale", {}, ("scale",))
    elif scales and all(one.reads_to_g > FINE_STEP_G + _TOLERANCE_G for one in scales):
        yield Finding(Rank.WATCH, "equipment.no-fine-scale", {}, ("scale",))


def _about_pot(row: Row, scales: tuple[Scale, ...]) -> Iterator[Finding]:
    brim = _number(row, "brim_ml")
    empty = _number(row, "empty_g")
    fill = _number(row, "safe_fill_percent")
    if brim is None:
        yield _finding(Rank.STOPS, "equipment.pot-no-brim", row, "pot")
    else:
        try:
            Pot(_name(row), brim, empty or 0.0)
        except DomainError as error:
            yield Finding(Rank.STOPS, error.key, error.data, ("pot", row.get("id")))
    if fill is not None and fill > USUAL_SAFE_FILL_PERCENT:
        yield _finding(Rank.WATCH, "equipment.pot-too-full", row, "pot", fill_percent=fill)
    if row.get("with_heat"):
        return
    if empty is None:
        yield _finding(Rank.NOTE, "equipment.pot-not-weighed", row, "pot")
    elif scales:
        yield from _on_scales(row, empty, max(scale.maximum_g for scale in scales))


def _on_scales(row: Row, empty_g: float, most_g: float) -> Iterator[Finding]:
    """Whether the largest scale carries the pot, empty and full."""
    brim, fill = _number(row, "brim_ml"), _number(row, "safe_fill_percent")
    share = (USUAL_SAFE_FILL_PERCENT if fill is None else fill) / 100
    full_g = empty_g + (brim or 0.0) * share * _MELTED_G_PER_ML
    if empty_g >= most_g:
        data = {"empty_g": empty_g, "maximum_g": most_g}
        yield _finding(Rank.WATCH, "equipment.pot-over-scales", row, "pot", **data)
    elif full_g > most_g:
        data = {"full_g": round(full_g, -1), "maximum_g": most_g}
        yield _finding(Rank.NOTE, "equipment.pot-heavy-when-full", row, "pot", **data)


def _about_heat(row: Row) -> Iterator[Finding]:
    if row.get("open_flame"):
        yield _finding(Rank.WATCH, "equipment.open-flame", row, "heat_source")
    if row.get("left_on_heat"):
        yield _finding(Rank.NOTE, "equipment.left-on-heat", row, "heat_source")


def _about_thermometer(row: Row) -> Iterator[Finding]:
    if row.get("thermometer_kind") == "infrared":
        yield _finding(Rank.WATCH, "equipment.infrared", row, "thermometer")


def _about_printer(row: Row) -> Iterator[Finding]:
    if _number(row, "edge_mm") is None:
        yield _finding(Rank.NOTE, "equipment.printer-no-edge", row, "printer")


def _same_names(table: str, rows: Iterable[Row]) -> Iterator[Finding]:
    seen: set[str] = set()
    for row in rows:
        # A printer stands here once for each of its trays.
        name = f"{row.get('name') or ''} {row.get('tray') or ''}".strip().casefold()
        if name and name in seen:
            yield _finding(Rank.WATCH, "equipment.same-name", row, table)
        seen.add(name)


def _finding(rank: Rank, key: str, row: Row, table: str, **data: object) -> Finding:
    return Finding(rank, key, {"name": _name(row), **data}, (table, row.get("id")))


def _scale(row: Row) -> Scale | None:
    maximum, step = _number(row, "maximum_g"), _number(row, "step_g")
    if maximum is None or step is None:
        return None
    try:
        return Scale(_name(row), maximum, step)
    except DomainError:
        return None


def _number(row: Mapping[str, object], name: str) -> float | None:
    value = row.get(name)
    return float(value) if isinstance(value, (int, float)) else None


def _name(row: Mapping[str, object]) -> str:
    return str(row.get("name") or "")
