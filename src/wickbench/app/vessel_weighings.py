"""From the weighings of a vessel to what it holds: rows that cannot be are told, others count."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.air_pressure import air_pressure
from wickbench.domain.capacity_advice import capacity_advice
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.vessels import Capacity, Weighing, measured_capacity

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf
    from wickbench.domain.catalog import Vessel, WeighingRow

LEVELS = ("line", "brim")
_MISSING = {
    "empty_g": "vessel.weighing-without-empty",
    "filled_g": "vessel.weighing-without-water",
    "water_c": "vessel.weighing-without-temperature",
}
_USUAL_STEP_G = 0.1


def complete_weighings(vessel: Vessel, level: str) -> tuple[WeighingRow, ...]:
    """Rows of a level that have all three readings."""
    return tuple(row for row in rows_of(vessel, level) if not _missing(row))


def rows_of(vessel: Vessel, level: str) -> tuple[WeighingRow, ...]:
    """All rows of a level, in the order of the table."""
    return tuple(row for row in vessel.weighings if row.level == level)


def capacity_of(
    vessel: Vessel, level: str, shelf: Shelf, settings: Settings, mouth_mm: float | None
) -> tuple[Capacity | None, tuple[Finding, ...]]:
    """Measured capacity to a level, and what to say about its weighings.

    Findings name their row by its place in the table (``weighing_no``, from 1) and carry
    ``("weighing", key of the row)``, or ``("weighing", level)`` when they are about all rows.

    Args:
        vessel: with its weighings.
        level: "line" or "brim".
        shelf: for the scales that were used.
        settings: for the air pressure.
        mouth_mm: inner diameter where the water stands, when known.
    """
    air = air_pressure(settings)
    conditions = {"hectopascal": air.hectopascal, "hectopascal_error": air.error_hpa}
    findings: list[Finding] = []
    good: list[tuple[int, WeighingRow]] = []
    for number, row in enumerate(rows_of(vessel, level), start=1):
        trouble = _trouble(row, number, conditions)
        if trouble is None:
            good.append((number, row))
        else:
            findings.append(trouble)
    if not good:
        return None, tuple(findings)
    rows = [row for _, row in good]
    found = measured_capacity(
        [_weighing(row) for row in rows],
        scale_reads_to_g=reads_to_g(rows, shelf),
        mouth_mm=mouth_mm,
        **conditions,
    )
    findings += [
        _on_its_row(one, good, level) for one in capacity_advice(found, to_brim=level == "brim")
    ]
    return found, tuple(findings)


def _weighing(row: WeighingRow) -> Weighing:
    return Weighing(row.empty_g or 0.0, row.filled_g or 0.0, row.water_c or 0.0, row.vessel_no or 1)


def _missing(row: WeighingRow) -> tuple[str, ...]:
    return tuple(name for name in _MISSING if getattr(row, name) is None)


def _trouble(row: WeighingRow, number: int, conditions: Mapping[str, float]) -> Finding | None:
    """Why this row does not count."""
    about = ("weighing", row.id)
    missing = _missing(row)
    if missing:
        return Finding(Rank.NOTE, _MISSING[missing[0]], {"weighing_no": number}, about)
    try:
        measured_capacity([_weighing(row)], **conditions)
    except DomainError as error:
        return Finding(Rank.STOPS, error.key, {**error.data, "weighing_no": number}, about)
    return None


def _on_its_row(finding: Finding, good: Sequence[tuple[int, WeighingRow]], level: str) -> Finding:
    """Advice about one of the rows that count, told by its place among all rows."""
    if len(finding.about) == 2 and isinstance(finding.about[1], int):  # noqa: PLR2004 - a pair
        number, row = good[finding.about[1]]
        data = {**finding.data, "weighing_no": number}
        return Finding(finding.rank, finding.key, data, ("weighing", row.id))
    return Finding(finding.rank, finding.key, dict(finding.data), ("weighing", level))


def reads_to_g(rows: Sequence[WeighingRow], shelf: Shelf) -> float:
    """The coarsest scale used; without one, what the typed digits say: whole grams or tenths."""
    steps = {row["id"]: row.get("step_g") for row in shelf.equipment.scales}
    found = [steps.get(row.scale_id) for row in rows]
    used = [float(step) for step in found if isinstance(step, (int, float)) and step > 0]
    if used:
        return max(used)
    typed = [value for row in rows for value in (row.empty_g, row.filled_g) if value]
    return _USUAL_STEP_G if any(round(value * 10) % 10 for value in typed) else 1.0
