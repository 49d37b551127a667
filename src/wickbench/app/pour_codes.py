"""Lot codes that pots carry already."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace


def taken_codes(workspace: Workspace, except_plan: int | None = None) -> frozenset[str]:
    """Every lot code given so far; those of one plan left out when it is named."""
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "pour_pot")
    return frozenset(
        str(row["lot_code"]) for row in rows if row["lot_code"] and row["plan_id"] != except_plan
    )
