"""A workshop with a plan of two candles in three pots, sticker sheets and labels, for printing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from app.label_workshop import CIRCLES, THREE_BY_SEVEN, sheet_in
from app.test_pouring import bench_with_plan, weigh_all
from wickbench.app import labels, plans, pouring, shelf_edit
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace


@dataclass(frozen=True)
class Poured:
    """Keys of what was put into the workshop."""

    plan: int
    jar: int
    tin: int
    sheet: int
    circles: int
    front: int
    caution: int


def pour_workshop(workspace: Workspace) -> Poured:
    """Eighteen jars and twelve tins planned for 28 November, in three pots of 4.2 L at most."""
    plan = bench_with_plan(workspace, pot_ml=4200.0)
    sheet = shelf_edit.new_item(workspace, "sheet", {"name": "Kraft"}, THREE_BY_SEVEN)
    circles = shelf_edit.new_item(workspace, "sheet", {"name": "Rounds"}, CIRCLES)
    front = labels.new_label(workspace, "hush", sheet_in(workspace, sheet), name="Front")
    caution = labels.new_label(workspace, labels.CAUTION, sheet_in(workspace, circles))
    made = []
    with workspace.step("Candles") as connection:
        records.update(connection, "plan", plan, {"name": "Fair", "pour_on": "2026-11-28"})
        for line, name in zip(plans.load_plan(workspace, plan).lines, ("Jar", "Tin"), strict=True):
            row = {"name": f"Garden {name}", "version_id": line.version_id}
            row |= {"vessel_id": line.vessel_id, "declared_net_g": 200.0}
            candle = records.insert(connection, "candle", row)
            records.update(connection, "plan_line", line.id, {"candle_id": candle})
            made.append(candle)
    return Poured(plan, *made, sheet, circles, front, caution)


def pour_out(workspace: Workspace, plan: int, *, broken: int = 0) -> None:
    """Pour the whole plan; so many vessels of the first pot's first line break."""
    session = pouring.start_pour(workspace, plan)
    for pot in range(len(session.pots)):
        session = weigh_all(workspace, session, pot)
        first = session.pots[pot].fills[0]
        poured = {first.id: first.count - broken} if pot == 0 else {}
        session = pouring.finish_pot(workspace, session, pot, poured)
