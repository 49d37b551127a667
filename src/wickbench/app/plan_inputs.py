"""From the plan and the shelf to what the domain plans with."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypeVar

from wickbench.app.candle_state import state_of
from wickbench.app.layered_candles import layered_findings
from wickbench.app.leftovers_wanted import wanted_leftovers
from wickbench.app.measures import measure_once
from wickbench.app.mixes import facts_of, recipe_once
from wickbench.app.plans import LineRow
from wickbench.domain.catalog import Candle, RecipeVersion, Vessel
from wickbench.domain.equipment import Pot, Scale
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.plan import PlanInputs, PlanLine
from wickbench.domain.shrinkage import hot_room_ml

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from wickbench.app.measures import VesselMeasures
    from wickbench.app.plans import PlanRow
    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf

    Row = Mapping[str, object]

Made = TypeVar("Made")
_NOT_WEIGHED = {"nominal", "shape"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Resolved:
    """A line with everything it names looked up; ``None`` where it is not said yet."""

    row: LineRow
    candle: Candle | None
    version: RecipeVersion | None
    vessel: Vessel | None
    wick_ids: tuple[int, ...] = ()
    lid_id: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Prepared:
    """What the plan is computed from, and what was noticed on the way."""

    inputs: PlanInputs
    resolved: tuple[Resolved, ...]
    findings: tuple[Finding, ...]


def resolve(row: LineRow, shelf: Shelf) -> Resolved:
    """Look up what a line names: its candle's recipe, vessel, wicks and lid, or its own."""
    candle = shelf.candles.get(row.candle_id) if row.candle_id is not None else None
    version_id = candle.version_id if candle else row.version_id
    vessel_id = candle.vessel_id if candle else row.vessel_id
    wicks = candle.wick_ids if candle else ()
    if candle is None and row.wick_id is not None:
        wicks = (row.wick_id,) * (1 if row.wick_count is None else row.wick_count)
    return Resolved(
        row=row,
        candle=candle,
        version=shelf.versions.get(version_id) if version_id is not None else None,
        vessel=shelf.vessels.get(vessel_id) if vessel_id is not None else None,
        wick_ids=wicks,
        lid_id=candle.lid_id if candle else None,
    )


def prepare(plan: PlanRow, shelf: Shelf, settings: Settings) -> Prepared:
    """Everything the plan is computed from; what cannot be used becomes a finding."""
    findings: list[Finding] = []
    resolved = tuple(resolve(row, shelf) for row in plan.lines)
    lines = [line for one in resolved if (line := _line(one, shelf, settings, findings))]
    heat = next(
        (row for row in shelf.equipment.heat_sources if row.get("id") == plan.heat_source_id), None
    )
    inputs = PlanInputs(
        lines=tuple(lines),
        pots=_pots(plan, shelf, findings),
        scales=_scales(shelf, findings),
        facts=facts_of(shelf, heat),
        extra_g=plan.extra_g or 0.0,
        extra_percent=plan.extra_percent or 0.0,
        prices=shelf.prices,
        stock=shelf.on_hand,
        leftovers=wanted_leftovers(plan, shelf),
    )
    return Prepared(inputs=inputs, resolved=resolved, findings=tuple(findings))


def _line(
    one: Resolved, shelf: Shelf, settings: Settings, findings: list[Finding]
) -> PlanLine | None:
    about = ("line", one.row.id)
    missing = _missing(one)
    if missing or one.version is None or one.vessel is None:
        findings.append(Finding(Rank.WATCH, missing, {}, about))
        return None
    findings += _about_candle(one, shelf, about)
    measures = measure_once(one.vessel, shelf, settings)
    if one.row.fill_to != "net" and measures.line_from in _NOT_WEIGHED:
        key = f"plan.fill-from-{measures.line_from}"
        findings.append(Finding(Rank.WATCH, key, {"vessel": one.vessel.name}, about))
    try:
        return PlanLine(
            key=one.row.id,
            recipe_key=one.version.id,
            recipe=recipe_once(one.version, shelf),
            count=one.row.count or 0,
            vessel_key=one.vessel.id,
            vessel_name=one.vessel.name,
            fill_to=one.row.fill_to,
            fill_ml=measures.line_ml,
            brim_ml=measures.brim_ml,
            most_ml=_most_ml(measures),
            net_g=one.row.net_g,
            declared_net_g=one.candle.declared_net_g if one.candle else None,
            items=items_of(one),
        )
    except DomainError as error:
        findings.append(Finding(Rank.STOPS, error.key, error.data, about))
        return None


def _most_ml(measures: VesselMeasures) -> float | None:
    """Hot wax that the vessel takes without running over."""
    if measures.brim_ml is None:
        return None
    return hot_room_ml(measures.brim_ml, measures.profile, measures.cells)


def _missing(one: Resolved) -> str:
    """Key of what a line does not say yet; empty when it can be planned."""
    if one.version is None:
        return "plan.line-no-recipe"
    if one.vessel is None:
        return "plan.line-no-vessel"
    if not one.row.count:
        return "plan.line-no-count"
    return ""


def _about_candle(one: Resolved, shelf: Shelf, about: tuple[object, ...]) -> list[Finding]:
    if one.candle is None:
        vessel = one.vessel.name if one.vessel else ""
        return [Finding(Rank.NOTE, "plan.line-no-candle", {"vessel": vessel}, about)]
    found = [replace(said, about=about) for said in layered_findings(one.candle, shelf)]
    state = state_of(one.candle, shelf).state
    if state != "passed":
        data = {"candle": one.candle.name}
        found.append(Finding(Rank.WATCH, f"plan.candle-{state}", data, about))
    return found


def items_of(one: Resolved) -> dict[int, int]:
    """Pieces that one candle of the line uses up."""
    items: dict[int, int] = {}
    for key in (one.vessel.id if one.vessel else None, one.lid_id, *one.wick_ids):
        if key is not None:
            items[key] = items.get(key, 0) + 1
    for key, count in one.candle.extras if one.candle else ():
        items[key] = items.get(key, 0) + count
    return items


def _pots(plan: PlanRow, shelf: Shelf, findings: list[Finding]) -> tuple[Pot, ...]:
    chosen = [
        row for row in shelf.equipment.pots if not plan.pot_ids or row.get("id") in plan.pot_ids
    ]
    return _usable(chosen, _pot, "plan.pot-no-brim", findings)


def _pot(row: Row) -> Pot | None:
    brim, safe = _number(row, "brim_ml"), _number(row, "safe_fill_percent")
    if brim is None:
        return None
    return Pot(_name(row), brim, _number(row, "empty_g") or 0.0, 80.0 if safe is None else safe)


def usable_scales(shelf: Shelf) -> tuple[Scale, ...]:
    """The scales of which enough is known to weigh with."""
    return _scales(shelf, [])


def _scales(shelf: Shelf, findings: list[Finding]) -> tuple[Scale, ...]:
    return _usable(shelf.equipment.scales, _scale, "plan.scale-unknown", findings)


def _scale(row: Row) -> Scale | None:
    maximum, step = _number(row, "maximum_g"), _number(row, "step_g")
    return None if maximum is None or step is None else Scale(_name(row), maximum, step)


def _usable(
    rows: Iterable[Row], make: Callable[[Row], Made | None], missing: str, findings: list[Finding]
) -> tuple[Made, ...]:
    """What can be made of the rows; each that cannot says why."""
    found: list[Made] = []
    for row in rows:
        try:
            made = make(row)
        except DomainError as error:
            findings.append(Finding(Rank.WATCH, error.key, error.data))
            continue
        if made is None:
            findings.append(Finding(Rank.WATCH, missing, {"name": _name(row)}))
        else:
            found.append(made)
    return tuple(found)


def _name(row: Row) -> str:
    return str(row.get("name") or "")


def _number(row: Row, name: str) -> float | None:
    value = row.get(name)
    return float(value) if isinstance(value, (int, float)) else None
