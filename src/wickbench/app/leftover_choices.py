"""What can be chosen when a leftover is kept: pots that were poured out, lots of a candle."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.leftover_keeping import offer_of_pot
from wickbench.app.texts_marker import N_
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

_MOST_POTS = 40


def kept_pots(workspace: Workspace) -> tuple[tuple[int, str], ...]:
    """Pots that were poured out, the latest first, with what is left in each by the weights."""
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "pour_pot", {"state": "done"}, ("-id",))[:_MOST_POTS]
    texts = workspace.texts
    found = []
    for row in rows:
        plan = row["plan"] if isinstance(row["plan"], dict) else {}
        offer = offer_of_pot(workspace, int(str(row["id"])))
        said = texts(
            N_("{lot} · {pot} · {mass} left"),
            lot=row["lot_code"] or "–",
            pot=plan.get("title") or "",
            mass=texts.quantity(offer.mass_g, "mass", step=0.1, both=False),
        )
        found.append((int(str(row["id"])), said))
    return tuple(found)


def lots_of_candle(workspace: Workspace, candle: int) -> tuple[tuple[int, str], ...]:
    """Pots from which a candle was poured, the latest first, by their lot codes."""
    with workspace.read() as connection:
        fills = records.fetch_all(connection, "pour_fill", {"candle_id": candle}, ("-id",))
        pots = {
            row["id"]: row for row in records.fetch_all(connection, "pour_pot", {"state": "done"})
        }
    keys = dict.fromkeys(fill["pour_pot_id"] for fill in fills if fill["pour_pot_id"] in pots)
    return tuple((int(str(key)), str(pots[key]["lot_code"] or "–")) for key in keys)


def most_in_candles(workspace: Workspace, candle: int, count: int) -> float | None:
    """What so many of a candle held by their declared net weight; ``None`` where it has none."""
    with workspace.read() as connection:
        net = records.fetch(connection, "candle", candle)["declared_net_g"]
    return count * float(str(net)) if net is not None else None
