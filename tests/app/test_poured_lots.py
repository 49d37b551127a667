"""Which lots labels can be for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from app.test_pouring import bench_with_plan
from wickbench.app import plans, pouring, shelf_edit
from wickbench.app.poured_lots import PouredLot, lots_of, poured_lots
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace


def candle_on_the_plan(workspace: Workspace, plan: int) -> int:
    """The jars of the plan become a candle."""
    line = plans.load_plan(workspace, plan).lines[0]
    candle = shelf_edit.new_candle(
        workspace, {"name": "Garden", "version_id": line.version_id, "vessel_id": line.vessel_id}
    )
    with workspace.step("as a candle") as connection:
        records.update(connection, "plan_line", line.id, {"candle_id": candle})
    return candle


def test_without_a_pour_there_is_none(workshop: Workspace) -> None:
    bench_with_plan(workshop)
    assert poured_lots(workshop) == ()


def test_each_pot_is_a_lot_of_its_candles_the_newest_first(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop, pot_ml=3000.0)
    candle = candle_on_the_plan(workshop, plan)
    session = pouring.start_pour(workshop, plan)
    codes = [pot.lot_code for pot in session.pots]
    assert len(set(codes)) == len(codes) > 1
    today = workshop.clock.today().isoformat()
    own = [lot for lot in poured_lots(workshop) if lot.candle_id == candle]
    assert own == list(lots_of(workshop, candle))
    assert set(own) <= {PouredLot(code=one, candle_id=candle, poured_on=today) for one in codes}
    assert [lot.code for lot in own] == sorted((lot.code for lot in own), reverse=True)
    assert lots_of(workshop, None) == poured_lots(workshop)
    assert lots_of(workshop, candle + 1) == ()
    workshop.undo()
    assert poured_lots(workshop) == ()
