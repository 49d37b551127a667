"""Filled candles of the demo on the scale: one set jar by jar, one with an average tare."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app import net_checks, vessel_parts
from wickbench.app.vessel_tables import NET_CHECKS
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

# Code of the candle, then rows: jar, empty with its wick, own tare, filled.
CHECKS: dict[str, tuple[tuple[str, str, str, str], ...]] = {
    "BS-30": (
        ("1", "213.6", "own", "423.1"),
        ("2", "211.0", "own", "421.8"),
        ("3", "215.2", "own", "424.4"),
        ("4", "212.3", "own", "422.4"),
        ("5", "210.1", "own", "420.9"),
    ),
    "BS-8": (
        ("1", "42.4", "average", "221.0"),
        ("2", "42.4", "average", "222.3"),
        ("3", "42.4", "average", "220.2"),
    ),
}


def fill_net_checks(workspace: Workspace, keys: dict[str, int]) -> None:
    """Weigh filled candles; the fine scale reads to 0.1 g."""
    with workspace.read() as connection:
        scales = records.fetch_all(connection, "scale", {}, ("id",))
    fine = next((int(str(row["id"])) for row in scales if row["step_g"] == 0.1), None)  # noqa: PLR2004 - as entered
    for code, rows in CHECKS.items():
        cells = [list(row) for row in rows]
        vessel_parts.paste_parts(workspace, NET_CHECKS, keys[code], cells)
        net_checks.set_scale(workspace, keys[code], fine)
