"""What a pour takes off the shelf."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.domain.rounding import half_up_decimal
from wickbench.storage import catalog, records

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.workspace import Workspace
    from wickbench.storage.workshop_file import Connection


def take(
    workspace: Workspace, connection: Connection, used: Mapping[int, float], pour_pot: int | None
) -> None:
    """Book what one pot or a layered vessel used: grams of what is weighed, pieces of the rest.

    What was never bought or counted is not booked: nobody knows how much of it there is.
    """
    there = catalog.on_hand(connection)
    kinds = {row["id"]: row["kind"] for row in records.fetch_all(connection, "item")}
    weighed = {"wax", "fragrance", "dye", "additive"}
    for item, quantity in used.items():
        if there.get(item) is None or quantity <= 0:
            continue
        places = 3 if kinds[item] in weighed else 0
        stored = int(half_up_decimal(quantity, places).scaleb(places))
        move = {
            "item_id": item,
            "quantity": -stored,
            "reason": "used",
            "moved_on": workspace.clock.today().isoformat(),
            "at_ms": workspace.clock.now_ms(),
            "pour_pot_id": pour_pot,
        }
        records.insert(connection, "stock_move", move)
