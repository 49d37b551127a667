"""Where a printer and tray put things: four measured crosshairs, kept for each computer."""

from __future__ import annotations

import platform
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.texts_marker import N_
from wickbench.documents.calibration import (
    Calibration,
    Point,
    calibrate,
    check_calibration,
    correction_for,
    crosshairs,
)
from wickbench.documents.calibration_page import CalibrationTexts
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.documents.affine import Affine

CROSSHAIR_NAMES: Final = (
    N_("Top left"), N_("Top right"), N_("Bottom left"), N_("Bottom right"),
)  # fmt: skip
_STEPS: Final = (
    N_("Print this page on plain paper from the printer and tray that you use for stickers."),
    N_("In the print dialog choose “actual size” or 100 %."),
    N_("Measure the bar below: it must be 100 mm long."),
    N_(
        "Measure the middle of each crosshair from the left and from the top edge of the paper, "
        "to half a millimetre, and type the eight distances in."
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptCalibration:
    """The measured places of one printer and tray.

    Attributes:
        id: key of the row.
        measured_on: ISO date.
        page_mm: the page that was measured.
        points: the four places measured, mm.
        fitted: what they say; ``None`` when they cannot be.
    """

    id: int
    measured_on: str
    page_mm: tuple[float, float]
    points: tuple[Point, ...]
    fitted: Calibration | None


def kept_calibration(workspace: Workspace, printer: str, tray: str) -> KeptCalibration | None:
    """The measured places of a printer and tray on this computer; ``None`` when never measured."""
    where = {"machine": machine_name(), "printer": printer, "tray": tray}
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "calibration", where, order=("-id",))
    return _kept(rows[0]) if rows else None


def _kept(row: dict[str, Any]) -> KeptCalibration:
    stored = row["points"] or {}
    page = tuple(stored.get("page_mm", (210.0, 297.0)))
    points = tuple((float(x), float(y)) for x, y in stored.get("points", []))
    try:
        fitted = calibrate(crosshairs(page[0], page[1]), points)
    except DomainError:
        fitted = None
    return KeptCalibration(
        id=row["id"],
        measured_on=row["measured_on"] or "",
        page_mm=(page[0], page[1]),
        points=points,
        fitted=fitted,
    )


def keep_calibration(
    workspace: Workspace,
    printer: str,
    tray: str,
    page_mm: tuple[float, float],
    points: Sequence[Point],
    *,
    origin: object = None,
) -> Calibration:
    """Keep four measured places; later prints on this printer and tray are corrected.

    Raises:
        OutOfRange: they are not four, or lie on one line.
    """
    fitted = calibrate(crosshairs(*page_mm), points)
    known = kept_calibration(workspace, printer, tray)
    stored = {"version": 1, "page_mm": list(page_mm), "points": [list(one) for one in points]}
    values: dict[str, object] = {
        "machine": machine_name(),
        "printer": printer,
        "tray": tray,
        "measured_on": workspace.clock.today(),
        "points": stored,
    }
    with workspace.step(N_("Measure a printer"), origin=origin) as connection:
        if known is None:
            records.insert(connection, "calibration", values)
        else:
            records.update(connection, "calibration", known.id, values)
    return fitted


def forget_calibration(
    workspace: Workspace, printer: str, tray: str, *, origin: object = None
) -> None:
    """Print on this printer and tray without correction again."""
    known = kept_calibration(workspace, printer, tray)
    if known is None:
        return
    with workspace.step(N_("Forget a printer’s correction"), origin=origin) as connection:
        records.delete(connection, "calibration", known.id)


def correction(workspace: Workspace, printer: str, tray: str) -> Affine:
    """What is applied to prints of a printer and tray; nothing when it was never measured."""
    known = kept_calibration(workspace, printer, tray)
    return correction_for(known.fitted if known else None)


def measured_findings(page_mm: tuple[float, float], points: Sequence[Point]) -> tuple[Finding, ...]:
    """What four measured places say about printer and measuring."""
    try:
        return check_calibration(calibrate(crosshairs(*page_mm), points))
    except DomainError as error:
        return (Finding(Rank.STOPS, error.key, error.data),)


def calibration_texts(texts: Texts) -> CalibrationTexts:
    """Words of the calibration page."""
    names = tuple(texts(name) for name in CROSSHAIR_NAMES)
    return CalibrationTexts(
        title=texts(N_("Where does the printer put things?")),
        steps=tuple(texts(step) for step in _STEPS),
        bar=texts(N_("100 mm")),
        names=(names[0], names[1], names[2], names[3]),
    )


def machine_name() -> str:
    """This computer: the same printer is driven differently by another one."""
    return platform.node() or "computer"
