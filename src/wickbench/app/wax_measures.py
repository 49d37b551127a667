"""Measurements of a wax as they lie in the file, and the densities that come of them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.air_pressure import air_pressure
from wickbench.app.measures import measure, measure_once
from wickbench.app.mixes import wax_liquid
from wickbench.app.references import name_key
from wickbench.app.settings import Settings
from wickbench.app.shelf import Shelf, load_shelf
from wickbench.app.texts_marker import N_
from wickbench.app.wax_measuring_fields import NEEDED, labels_of
from wickbench.domain.catalog import Wax
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.domain.wax_measured import (
    Average,
    Line,
    Reading,
    average,
    drop_of_level,
    hot_to_line,
    water_on_set,
)
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickbench.app.measures import VesselMeasures
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Vessel

    Values = Mapping[str, Any]

DIGITS: Final = 4
_SQRT_12: Final = 12**0.5
_TENTH_OF_G: Final = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What readings of one wax are worked out with: read once, then each key is pure.

    Attributes:
        shelf: snapshot, for jars and scales.
        settings: for the air pressure.
        wax: as it is known.
        liquid: density at 70 °C and standard uncertainty that a drop of the level is read with.
    """

    shelf: Shelf
    settings: Settings
    wax: Wax
    liquid: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """One stored measurement.

    Attributes:
        id: key of its row.
        way: "hot", "set" or "drop".
        measured_on: the day.
        values: as stored.
        left_out: does not count.
        reading: what follows; None when it cannot be worked out.
        trouble: why not.
    """

    id: int
    way: str
    measured_on: str
    values: Values
    left_out: bool
    reading: Reading | None
    trouble: DomainError | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WaxMeasures:
    """All measurements of one wax, and the two densities that come of them."""

    wax_id: int
    wax: Wax
    rows: tuple[Measured, ...]
    liquid: Average | None
    set: Average | None

    def in_use(self, which: str) -> bool:
        """Whether the measured density ("liquid" or "set") is the one that the wax has."""
        found: Average | None = getattr(self, which)
        own = getattr(self.wax, f"{which}_g_per_ml")
        if found is None or own is None or not getattr(self.wax, f"{which}_measured"):
            return False
        return bool(abs(own - round(found.g_per_ml, DIGITS)) < 10**-DIGITS / 2)

    def odd_of(self, which: str) -> Measured | None:
        """The measurement that lies far off the others."""
        found: Average | None = getattr(self, which)
        if found is None or found.odd is None:
            return None
        return _counted(self.rows, which)[found.odd]


# -- working out -----------------------------------------------------------------------------------
def bench_for(workspace: Workspace, wax_id: int) -> Bench | None:
    """What a measurement of this wax is worked out with; None when it is no wax."""
    shelf = load_shelf(workspace)
    found = shelf.materials.get(wax_id)
    if found is None or not isinstance(found.details, Wax):
        return None
    wax = found.details
    bench = Bench(shelf=shelf, settings=workspace.settings, wax=wax, liquid=_liquid_of(wax, None))
    measured = [_measured(row, bench) for row in _rows(workspace, wax_id)]
    return replace(bench, liquid=_liquid_of(wax, _average(measured, "liquid")))


def _liquid_of(wax: Wax, measured: Average | None) -> tuple[float, float]:
    if measured is not None:
        return measured.g_per_ml, measured.standard_uncertainty
    known = wax_liquid(wax, 70.0)
    return known.g_per_ml, (known.high - known.low) / _SQRT_12


def jars_of(
    shelf: Shelf, settings: Settings, texts: Texts | None = None
) -> tuple[tuple[str, str], ...]:
    """Word and name of each vessel whose fill line was weighed, by name.

    Where several numbered jars of a box were weighed each of them can be meant, too: it is known
    better than any jar out of the box.

    Args:
        shelf: snapshot.
        settings: for the air pressure.
        texts: names the single jars; without it they are left out.
    """
    found: list[tuple[str, str]] = []
    kept = [vessel for vessel in shelf.vessels.values() if not vessel.archived]
    for vessel in sorted(kept, key=lambda one: name_key(one.name)):
        if measure_once(vessel, shelf, settings).line is None:
            continue
        found.append((str(vessel.id), vessel.name))
        numbers = sorted(_jar_numbers(vessel))
        if texts is not None and len(numbers) > 1:
            said = N_("{vessel}, jar {number}")
            found += [
                (f"{vessel.id}:{no}", texts(said, vessel=vessel.name, number=str(no)))
                for no in numbers
            ]
    return tuple(found)


def jar_of(values: Values) -> tuple[int | None, int | None]:
    """Which vessel, and which numbered jar of it; ``None`` for none, and for any of the box."""
    chosen = str(values.get("vessel_id") or "")
    key, _, number = chosen.partition(":")
    if not key:
        return None, None
    stored = values.get("vessel_no")
    return int(key), int(number) if number else stored


def _jar_numbers(vessel: Vessel) -> set[int]:
    return {one.vessel_no for one in vessel.weighings if one.level == "line" and one.vessel_no}


def work_out(way: str, values: Values, bench: Bench) -> Reading:
    """The density that readings give.

    Raises:
        OutOfRange: ``measured.missing`` with the label's msgid as ``what``, or a reading that
            cannot be.
    """
    for name in NEEDED[way]:
        if values.get(name) is None:
            raise OutOfRange("measured.missing", what=labels_of(way)[name])
    if way == "drop":
        return drop_of_level(values["hot_mm"], values["set_mm"], values["wax_c"], *bench.liquid)
    line, step = line_of(values, bench), _reads_to_g(values, bench)
    if way == "hot":
        return hot_to_line(values["mass_g"], values["wax_c"], line, reads_to_g=step)
    return water_on_set(
        values["mass_g"],
        values["water_g"],
        values["water_c"],
        line,
        reads_to_g=step,
        hectopascal=air_pressure(bench.settings).hectopascal,
    )


def line_of(values: Values, bench: Bench) -> Line:
    """The jar's line as it was weighed; the typed volume without a jar, or a lost one."""
    key, number = jar_of(values)
    vessel = bench.shelf.vessels.get(key) if key else None
    if vessel is not None:
        measures = _measures_of(vessel, number, bench)
        if measures.line is not None:
            return Line(measures.line.volume_ml, _one_jar_ml(measures), _mouth_mm(measures))
    if values.get("volume_ml") is None:
        raise OutOfRange("measured.missing", what=N_("Jar"))
    return Line(values["volume_ml"])


def _measures_of(vessel: Vessel, number: int | None, bench: Bench) -> VesselMeasures:
    """Of any jar of the box, or by the weighings of one of them alone."""
    if number is None or number not in _jar_numbers(vessel):
        return measure_once(vessel, bench.shelf, bench.settings)
    own = tuple(one for one in vessel.weighings if one.vessel_no == number)
    return measure(replace(vessel, weighings=own), bench.shelf, bench.settings)


def _one_jar_ml(measures: VesselMeasures) -> float | None:
    """Doubt of one jar out of the box: of the mean, and what jars differ by."""
    if measures.line is None:
        return None
    between = measures.line.spread_between_ml or 0.0
    return float((measures.line.standard_uncertainty_ml**2 + between**2) ** 0.5)


def _mouth_mm(measures: VesselMeasures) -> float | None:
    """Diameter of a round surface as large as the wax's, in all cells."""
    profile, fill = measures.profile, measures.fill_mm
    if profile is None or fill is None or not 0 < fill <= profile.top_mm:
        return None
    return float(profile.diameter_mm(fill) * measures.cells**0.5)


def _reads_to_g(values: Values, bench: Bench) -> float:
    """The chosen scale's step; without one what the typed digits say: whole grams or tenths."""
    for row in bench.shelf.equipment.scales:
        step = row.get("step_g")
        if row.get("id") == values.get("scale_id") and isinstance(step, int | float) and step > 0:
            return float(step)
    typed = [values.get(name) for name in ("mass_g", "water_g")]
    return _TENTH_OF_G if any(value and round(value * 10) % 10 for value in typed) else 1.0


# -- reading ---------------------------------------------------------------------------------------
def load_measures(workspace: Workspace, wax_id: int) -> WaxMeasures | None:
    """All measurements of a wax, worked out; None when it is no wax."""
    bench = bench_for(workspace, wax_id)
    if bench is None:
        return None
    rows = tuple(_measured(row, bench) for row in _rows(workspace, wax_id))
    return WaxMeasures(
        wax_id=wax_id,
        wax=bench.wax,
        rows=rows,
        liquid=_average(rows, "liquid"),
        set=_average(rows, "set"),
    )


def _rows(workspace: Workspace, wax_id: int) -> Sequence[Values]:
    with workspace.read() as connection:
        return records.fetch_all(
            connection, "wax_measurement", {"wax_id": wax_id}, ("measured_on", "id")
        )


def _measured(row: Values, bench: Bench) -> Measured:
    reading, trouble = None, None
    try:
        reading = work_out(str(row["way"]), row, bench)
    except DomainError as error:
        trouble = error
    return Measured(
        id=int(row["id"]),
        way=str(row["way"]),
        measured_on=str(row["measured_on"] or ""),
        values=row,
        left_out=bool(row["left_out"]),
        reading=reading,
        trouble=trouble,
    )


def _counted(rows: Sequence[Measured], which: str) -> list[Measured]:
    return [
        row
        for row in rows
        if (row.way == "hot") == (which == "liquid") and not row.left_out and row.reading
    ]


def _average(rows: Sequence[Measured], which: str) -> Average | None:
    return average([row.reading for row in _counted(rows, which) if row.reading is not None])
