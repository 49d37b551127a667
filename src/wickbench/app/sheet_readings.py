"""Measuring a sticker sheet: readings of a ruler and what a scan showed, compared and kept."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from typing import TYPE_CHECKING, Final

from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.rounding import to_step
from wickbench.domain.sheet_measuring import (
    Measured,
    SideMeasures,
    SideReadings,
    check_side,
    measure_side,
)
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

_VERSION: Final = 1
SIDES: Final = ("across", "down")
MEASURE_NAMES: Final[Mapping[str, tuple[str, str, str]]] = {
    "across": ("left_mm", "pitch_x_mm", "sticker_w_mm"),
    "down": ("top_mm", "pitch_y_mm", "sticker_h_mm"),
}
"""Margin, pitch and size of each side as the sheet's fields are called."""
COUNT_NAMES: Final[Mapping[str, str]] = {"across": "columns", "down": "rows"}
_READINGS: Final = ("first_near_mm", "last_near_mm", "last_far_mm", "size_mm")
# A margin is no better than the reading; an error in a pitch adds up over the columns.
_STEPS_MM: Final = (0.1, 0.01, 0.1)
_DIFFERS_MM: Final = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """A measure as it was measured and as it stands in the sheet.

    Attributes:
        name: the sheet's field.
        measured: rounded, with its doubt.
        stored_mm: ``None`` when nothing is entered.
    """

    name: str
    measured: Measured
    stored_mm: float | None

    @property
    def differs(self) -> bool:
        """Whether they are further apart than the doubt explains."""
        if self.stored_mm is None:
            return False
        off = abs(self.stored_mm - self.measured.value_mm)
        return off > max(self.measured.doubt_mm, _DIFFERS_MM)


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredSheet:
    """What readings say of a sheet.

    Attributes:
        sides: of each side, what can be computed so far.
        compared: measure by measure, across before down.
        findings: what is odd about the readings, and which one would help.
    """

    sides: Mapping[str, SideMeasures] = field(default_factory=dict)
    compared: tuple[Compared, ...] = ()
    findings: tuple[Finding, ...] = ()

    @property
    def values(self) -> dict[str, float]:
        """The sheet's fields as measured."""
        return {one.name: one.measured.value_mm for one in self.compared}


def kept_readings(values: Mapping[str, object]) -> dict[str, SideReadings]:
    """The ruler's readings that are kept with a sheet; empty ones where there are none."""
    stored = values.get("readings")
    ruler = stored.get("ruler", {}) if isinstance(stored, dict) else {}
    return {side: _readings(ruler.get(side, {})) for side in SIDES}


def last_doubts(values: Mapping[str, object]) -> tuple[float | None, float | None]:
    """Doubt of the last column's and row's place, as far as the kept readings say."""
    stored = values.get("readings")
    if not isinstance(stored, dict):
        return (None, None)
    found: list[float | None] = []
    for side in SIDES:
        scanned = stored.get("scan", {}).get(side, {}).get("last_doubt_mm")
        measured = _side(kept_readings(values)[side], values, side)
        ruled = measured.last_doubt_mm if isinstance(measured, SideMeasures) else None
        known = [one for one in (ruled, scanned) if isinstance(one, int | float)]
        found.append(min(known, default=None))
    return (found[0], found[1])


def measured_sheet(
    values: Mapping[str, object], readings: Mapping[str, SideReadings]
) -> MeasuredSheet:
    """What readings say of a sheet, beside what is entered.

    Args:
        values: presented values of the sheet; its counts are taken from there.
        readings: of each side.
    """
    sides: dict[str, SideMeasures] = {}
    findings: list[Finding] = []
    for side in SIDES:
        found = _side(readings[side], values, side)
        if isinstance(found, SideMeasures):
            sides[side] = found
            findings += check_side(found, side)
        elif found is not None:
            findings.append(found)
    compared = [one for side, found in sides.items() for one in compare(values, side, found)]
    return MeasuredSheet(sides=sides, compared=tuple(compared), findings=tuple(findings))


def compare(values: Mapping[str, object], side: str, found: SideMeasures) -> list[Compared]:
    """Measures of a side beside what is entered."""
    compared = []
    measures = (found.margin, found.pitch, found.size)
    for name, one, step in zip(MEASURE_NAMES[side], measures, _STEPS_MM, strict=True):
        if one is None:
            continue
        stored = values.get(name)
        compared.append(
            Compared(
                name=name,
                measured=Measured(to_step(max(0.0, one.value_mm), step), one.doubt_mm),
                stored_mm=float(stored) if isinstance(stored, int | float) else None,
            )
        )
    return compared


def take_measures(
    workspace: Workspace,
    sheet_id: int,
    measures: Mapping[str, object],
    *,
    ruler: Mapping[str, SideReadings] | None = None,
    scan: Mapping[str, object] | None = None,
    origin: object = None,
) -> None:
    """Put measures into a sheet, and keep what they were read from.

    Args:
        workspace: the open workshop.
        sheet_id: the sheet's item.
        measures: presented values of its fields.
        ruler: readings of each side.
        scan: what a picture showed.
        origin: who asks.
    """
    with workspace.step(N_("Measure a sticker sheet"), origin=origin) as connection:
        stored = records.fetch(connection, "sheet", sheet_id)["readings"]
        kept = dict(stored) if isinstance(stored, dict) else {}
        if ruler is not None:
            kept["ruler"] = {side: _known(one) for side, one in ruler.items()}
        if scan is not None:
            kept["scan"] = dict(scan)
        kept |= {"version": _VERSION, "measured_on": workspace.clock.today().isoformat()}
        records.update(connection, "sheet", sheet_id, {**measures, "readings": kept})


def _known(readings: SideReadings) -> dict[str, float]:
    return {name: value for name, value in asdict(readings).items() if value is not None}


def _readings(stored: object) -> SideReadings:
    known = stored if isinstance(stored, dict) else {}
    kept = {name: known[name] for name in _READINGS if isinstance(known.get(name), int | float)}
    try:
        return SideReadings(**kept)
    except OutOfRange:
        return SideReadings()


def _side(
    readings: SideReadings, values: Mapping[str, object], side: str
) -> SideMeasures | Finding | None:
    count = values.get(COUNT_NAMES[side])
    try:
        return measure_side(readings, int(count) if isinstance(count, int | float) else 1)
    except DomainError as error:
        return Finding(Rank.STOPS, error.key, error.data)
