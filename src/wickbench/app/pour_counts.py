"""What a pour yields for labelling: its candles with counts, lot codes and days, pot by pot."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickbench.app.plan_view import view_plan
from wickbench.app.plans import PlanRow, load_plan
from wickbench.app.pour_codes import taken_codes
from wickbench.domain.findings import Finding, Rank
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickbench.app.plan_view import PlanView
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace

    Row = dict[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class PouredCandles:
    """Candles of one kind from one pot.

    Attributes:
        candle_id: which candle.
        count: how many.
        lot_code: without the word before it; empty while it is not known.
        poured_on: ISO date, or empty.
        pour_pot_id: the pot, once pouring began.
    """

    candle_id: int
    count: int
    lot_code: str = ""
    poured_on: str = ""
    pour_pot_id: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PourCounts:
    """A pour as labels are made for it.

    Attributes:
        plan: as stored.
        candles: pot by pot; each candle once in each pot.
        findings: what is missing, with the place where it is mended in ``about``.
    """

    plan: PlanRow
    candles: tuple[PouredCandles, ...] = ()
    findings: tuple[Finding, ...] = ()

    @property
    def lots(self) -> int:
        """How many lots it makes."""
        return len({one.lot_code or one.pour_pot_id for one in self.candles})


def pour_counts(workspace: Workspace, shelf: Shelf, plan_id: int) -> PourCounts:
    """The candles of a pour: as filled once poured, else as planned.

    Raises:
        Gone: there is no such plan.
    """
    plan = load_plan(workspace, plan_id)
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "pour_pot", {"plan_id": plan_id}, ("number", "id"))
        pots = [row for row in rows if row["state"] != "dropped"]
        fills = {
            row["id"]: records.fetch_all(connection, "pour_fill", {"pour_pot_id": row["id"]})
            for row in pots
        }
    if pots:
        return _recorded(plan, shelf, [(pot, fills[pot["id"]]) for pot in pots])
    return _planned(workspace, shelf, plan)


# -- what was poured -------------------------------------------------------------------------------
def _recorded(plan: PlanRow, shelf: Shelf, pots: Sequence[tuple[Row, Sequence[Row]]]) -> PourCounts:
    found: list[PouredCandles] = []
    told: list[Finding] = []
    for pot, fills in pots:
        done = pot["state"] == "done"
        if not done:
            told.append(_note("pour-labels.pot-open", plan, pot=str(pot["number"])))
        if not pot["lot_code"]:
            told.append(_watch("pour-labels.no-lot", ("plan", plan.id)))
        for fill in fills:
            count = _number(
                fill["poured"] if done and fill["poured"] is not None else fill["count"]
            )
            if count and fill["candle_id"] is None:
                name = shelf.names.get(_number(fill["vessel_id"]), "")
                told.append(_no_candle(plan, count, name))
            elif count:
                found.append(_filled(pot, _number(fill["candle_id"]), count))
    return PourCounts(plan=plan, candles=_merged(found), findings=tuple(told))


def _filled(pot: Row, candle: int, count: int) -> PouredCandles:
    return PouredCandles(
        candle_id=candle,
        count=count,
        lot_code=str(pot["lot_code"] or ""),
        poured_on=str(pot["poured_on"] or ""),
        pour_pot_id=_number(pot["id"]),
    )


# -- what is planned -------------------------------------------------------------------------------
def _planned(workspace: Workspace, shelf: Shelf, plan: PlanRow) -> PourCounts:
    view = view_plan(
        plan,
        shelf,
        workspace.settings,
        workspace.texts,
        today=workspace.clock.today(),
        taken_codes=taken_codes(workspace, plan.id),
    )
    told = [one for one in view.findings if one.about[:1] == ("lot",)]
    if plan.pour_on is None:
        told.append(_watch("pour-labels.no-day", ("plan", plan.id)))
    found, left = _from_pots(view)
    for line, count in left.items():
        one = next(one for one in view.prepared.resolved if one.row.id == line)
        if one.candle is None:
            name = one.vessel.name if one.vessel else ""
            told.append(_no_candle(plan, count, name))
            continue
        told.append(_watch("pour-labels.no-pot", ("plan", plan.id), candle=one.candle.name))
        day = plan.pour_on or ""
        found.append(PouredCandles(candle_id=one.candle.id, count=count, poured_on=day))
    return PourCounts(plan=plan, candles=_merged(found), findings=tuple(told))


def _from_pots(view: PlanView) -> tuple[list[PouredCandles], dict[int, int]]:
    """What the plan's pots fill, and what of each line is in no pot or is no candle."""
    day = view.plan.pour_on or ""
    candles = {one.row.id: one.candle for one in view.prepared.resolved}
    left = {one.row.id: one.row.count or 0 for one in view.prepared.resolved}
    found: list[PouredCandles] = []
    for card in view.pots:
        for fill in card.plan.fills:
            line = int(str(fill.line_key))
            candle = candles.get(line)
            if candle is None:
                continue
            left[line] -= fill.count
            code = card.lot_code if day else ""
            made = PouredCandles(
                candle_id=candle.id, count=fill.count, lot_code=code, poured_on=day
            )
            found.append(made)
    return found, {line: count for line, count in left.items() if count > 0}


def _merged(found: Iterable[PouredCandles]) -> tuple[PouredCandles, ...]:
    """Two lines of the same candle in one pot are one lot."""
    kept: dict[object, PouredCandles] = {}
    for one in found:
        key = (one.candle_id, one.lot_code, one.pour_pot_id)
        known = kept.get(key)
        kept[key] = one if known is None else replace(known, count=known.count + one.count)
    return tuple(kept.values())


def _no_candle(plan: PlanRow, count: int, vessel: str) -> Finding:
    return _watch("pour-labels.no-candle", ("plan", plan.id), count=count, vessel=vessel)


def _watch(key: str, about: tuple[object, ...], **data: object) -> Finding:
    return Finding(Rank.WATCH, key, data, about)


def _note(key: str, plan: PlanRow, **data: object) -> Finding:
    return Finding(Rank.NOTE, key, data, ("bench", plan.id))


def _number(value: object) -> int:
    return int(str(value)) if value is not None else 0
