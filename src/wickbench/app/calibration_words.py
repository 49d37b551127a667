"""What is corrected on a printer and tray, in words, and whether it should be measured again."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Final

from wickbench.app.calibrations import kept_calibration, machine_name
from wickbench.app.texts_marker import N_
from wickbench.domain.findings import Finding, Rank
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.documents.calibration import Calibration

OLD_DAYS: Final = 183
"""Half a year: rollers wear and trays are adjusted (common practice, no source)."""
_LEAST_MM: Final = 0.05
_LEAST_PERCENT: Final = 0.05
_LEAST_DEG: Final = 0.02


def correction_text(workspace: Workspace, printer: str, tray: str) -> str:
    """Where the printer puts things and when that was measured; empty when it never was."""
    kept = kept_calibration(workspace, printer, tray)
    if kept is None or kept.fitted is None:
        return ""
    texts = workspace.texts
    parts = _parts(texts, kept.fitted)
    day = texts.day(kept.measured_on) if kept.measured_on else "–"
    if not parts:
        return texts(N_("This printer puts things where they belong; measured {day}."), day=day)
    said = N_("This printer puts things {off}; that is corrected. Measured {day}.")
    return texts(said, off=", ".join(parts), day=day)


def calibration_findings(workspace: Workspace, printer: str, tray: str) -> tuple[Finding, ...]:
    """Whether the position was measured too long ago, or only for another tray."""
    kept = kept_calibration(workspace, printer, tray)
    if kept is None:
        return _others(workspace, printer, tray)
    if not kept.measured_on:
        return ()
    age = workspace.clock.today() - dt.date.fromisoformat(kept.measured_on)
    if age.days <= OLD_DAYS:
        return ()
    return (Finding(Rank.WATCH, "calibration.old", {"measured_on": kept.measured_on}),)


def _others(workspace: Workspace, printer: str, tray: str) -> tuple[Finding, ...]:
    """That another tray of the printer is corrected, and this one is not."""
    if not printer:
        return ()
    where = {"machine": machine_name(), "printer": printer}
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "calibration", where, order=("id",))
    others = [str(row["tray"] or "") for row in rows if (row["tray"] or "") != tray]
    if not others:
        return ()
    data = {"tray": others[0] or workspace.texts(N_("without a name"))}
    return (Finding(Rank.WATCH, "calibration.other-tray", data),)


def _parts(texts: Texts, fitted: Calibration) -> list[str]:
    """Shift, size and turn, as far as they can be seen."""
    found = [
        _way(texts, fitted.shift_x_mm, N_("{by} too far right"), N_("{by} too far left")),
        _way(texts, fitted.shift_y_mm, N_("{by} too low"), N_("{by} too high")),
        _size(texts, fitted),
        _turn(texts, fitted.turn_deg),
    ]
    return [one for one in found if one]


def _way(texts: Texts, shift_mm: float, forward: str, back: str) -> str:
    if abs(shift_mm) < _LEAST_MM:
        return ""
    by = texts.units.read(abs(shift_mm), "length", both=False)
    return texts(forward if shift_mm > 0 else back, by=by)


def _size(texts: Texts, fitted: Calibration) -> str:
    percents = [(scale - 1) * 100 for scale in (fitted.scale_x, fitted.scale_y)]
    worst = max(percents, key=abs)
    if abs(worst) < _LEAST_PERCENT:
        return ""
    by = texts.number(abs(worst), 1)
    return texts(N_("{by} % too large") if worst > 0 else N_("{by} % too small"), by=by)


def _turn(texts: Texts, turn_deg: float) -> str:
    if abs(turn_deg) < _LEAST_DEG:
        return ""
    by = texts.number(abs(turn_deg), 2)
    return texts(
        N_("turned by {by}° to the right") if turn_deg > 0 else N_("turned by {by}° to the left"),
        by=by,
    )
