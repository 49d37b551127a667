"""Measuring a wax: writing readings down, leaving one out, putting a density to use."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wickbench.app.texts_marker import N_
from wickbench.app.wax_measures import (
    DIGITS,
    bench_for,
    jar_of,
    line_of,
    load_measures,
    work_out,
)
from wickbench.domain.errors import OutOfRange
from wickbench.domain.wax_measured import check_set_heavier
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.wax_measures import WaxMeasures
    from wickbench.app.workspace import Workspace
    from wickbench.domain.wax_measured import Average

    Values = Mapping[str, Any]


def write_down(
    workspace: Workspace, wax_id: int, way: str, values: Values, *, origin: object = None
) -> int:
    """Keep a measurement; returns its key. The jar's volume is kept with it.

    Raises:
        DomainError: as ``work_out``; nothing is kept then.
    """
    bench = bench_for(workspace, wax_id)
    if bench is None:
        raise OutOfRange("measured.nothing")
    work_out(way, values, bench)
    row: dict[str, Any] = {"wax_id": wax_id, "way": way, **values}
    row["measured_on"] = workspace.clock.today().isoformat()
    if way != "drop":
        row["vessel_id"], row["vessel_no"] = jar_of(values)
        row["volume_ml"] = line_of(values, bench).volume_ml
    with workspace.step(N_("Measure a wax"), origin=origin) as connection:
        return records.insert(connection, "wax_measurement", row)


def leave_out(
    workspace: Workspace, key: int, *, left_out: bool = True, origin: object = None
) -> None:
    """Let a measurement not count, or count again."""
    said = N_("Leave a measurement out") if left_out else N_("Count a measurement again")
    with workspace.step(said, origin=origin) as connection:
        records.update(connection, "wax_measurement", key, {"left_out": int(left_out)})


def remove_measurement(workspace: Workspace, key: int, *, origin: object = None) -> None:
    """Remove a measurement."""
    with workspace.step(N_("Remove a measurement"), origin=origin) as connection:
        records.delete(connection, "wax_measurement", key)


def use_density(workspace: Workspace, wax_id: int, which: str, *, origin: object = None) -> None:
    """Give the wax its measured density ("liquid" or "set"); it replaces the estimate everywhere.

    Raises:
        OutOfRange: nothing was measured, or set wax would be lighter than liquid.
    """
    measures = load_measures(workspace, wax_id)
    found: Average | None = getattr(measures, which) if measures is not None else None
    if measures is None or found is None:
        raise OutOfRange("measured.nothing")
    _check_pair(measures, which, found.g_per_ml)
    values = {f"{which}_g_per_ml": round(found.g_per_ml, DIGITS), f"{which}_measured": 1}
    with workspace.step(N_("Use a measured density"), origin=origin) as connection:
        records.update(connection, "wax", wax_id, values)


def _check_pair(measures: WaxMeasures, which: str, g_per_ml: float) -> None:
    """Set wax is not lighter than liquid, as far as the other one was measured."""
    other = "set" if which == "liquid" else "liquid"
    known = getattr(measures.wax, f"{other}_g_per_ml")
    if known is None or not getattr(measures.wax, f"{other}_measured"):
        measured: Average | None = getattr(measures, other)
        known = measured.g_per_ml if measured is not None else None
    if known is None:
        return
    liquid, hard = (g_per_ml, known) if which == "liquid" else (known, g_per_ml)
    check_set_heavier(liquid, hard)
