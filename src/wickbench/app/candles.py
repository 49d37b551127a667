"""Candles as the person sees them: the list, one candle with its weight, state and findings."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING, Any

from wickbench.app.candle_findings import findings_of
from wickbench.app.candle_net import PlannedNet, Proposal, planned_net, proposals
from wickbench.app.candle_shown import wicks_text
from wickbench.app.candle_state import Tested, state_of
from wickbench.app.measures import levels, measure
from wickbench.app.mixes import densities_or_none
from wickbench.app.recipe_fields import TEST_STATE_NAMES
from wickbench.app.references import name_key
from wickbench.app.texts_marker import N_
from wickbench.app.vessel_drawing import VesselDrawing, draw_vessel
from wickbench.app.vessel_labels import DrawnWick
from wickbench.app.vessels import wick_of
from wickbench.domain.catalog import Candle, RecipeVersion, Vessel
from wickbench.domain.findings import Finding
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickbench.app.measures import VesselMeasures
    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace

MOST_WICKS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class CandleRow:
    """A candle in the list."""

    id: int
    code: str
    name: str
    recipe: str
    vessel: str
    wicks: str
    declared_g: float | None
    state: str
    put_away: bool
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CandleView:
    """Everything that is shown of one candle.

    Attributes:
        candle: stored, or as it is being typed.
        version, vessel: what it is made of; ``None`` until chosen.
        tested: its tested state, with reasons when it was reopened.
        net: what goes into it by the plan; ``None`` while the vessel or the mix is unknown.
        proposals: the largest declaration of each region sold in.
        drawing: the vessel with this candle's wicks.
        passed_before: wicks that passed in this vessel, each with its recipe.
        findings: everything worth saying, most pressing first.
    """

    candle: Candle
    version: RecipeVersion | None
    vessel: Vessel | None
    tested: Tested
    net: PlannedNet | None
    proposals: tuple[Proposal, ...]
    drawing: VesselDrawing | None
    passed_before: tuple[tuple[str, str], ...]
    findings: tuple[Finding, ...]


def candle_rows(shelf: Shelf, texts: Texts, *, put_away: bool = False) -> tuple[CandleRow, ...]:
    """The list by name; candles that were put away only when asked for."""
    listed = [one for one in shelf.candles.values() if put_away or not one.archived]
    rows = [_row(one, shelf, texts) for one in listed]
    return tuple(sorted(rows, key=lambda row: (name_key(row.name), row.id)))


def _row(candle: Candle, shelf: Shelf, texts: Texts) -> CandleRow:
    version = shelf.versions.get(candle.version_id or 0)
    recipe = ""
    if version is not None:
        recipe = texts(N_("{name} v{number}"), name=version.name, number=version.number)
    vessel = shelf.names.get(candle.vessel_id or 0, "")
    wicks = wicks_text(texts, candle.wick_ids, shelf)
    state = state_of(candle, shelf).state
    words = (
        candle.name, candle.code, recipe, vessel, wicks, candle.identity, candle.note,
        texts(TEST_STATE_NAMES[state]),
    )  # fmt: skip
    return CandleRow(
        id=candle.id,
        code=candle.code or "",
        name=candle.name,
        recipe=recipe,
        vessel=vessel,
        wicks=wicks,
        declared_g=candle.declared_net_g,
        state=state,
        put_away=candle.archived,
        words=" ".join(word for word in words if word),
    )


def view_candle(candle: Candle, shelf: Shelf, settings: Settings, texts: Texts) -> CandleView:
    """Work one candle out, stored or as it is being typed."""
    version = shelf.versions.get(candle.version_id) if candle.version_id is not None else None
    vessel = shelf.vessels.get(candle.vessel_id) if candle.vessel_id is not None else None
    measures = measure(vessel, shelf, settings) if vessel is not None else None
    net = planned_net(candle, version, measures, shelf)
    return CandleView(
        candle=candle,
        version=version,
        vessel=vessel,
        tested=state_of(candle, shelf),
        net=net,
        proposals=proposals(net, settings),
        drawing=_drawing(candle, measures, shelf, texts),
        passed_before=passed_before(candle.vessel_id, shelf),
        findings=findings_of(candle, shelf, measures, net, settings),
    )


def _drawing(
    candle: Candle, measures: VesselMeasures | None, shelf: Shelf, texts: Texts
) -> VesselDrawing | None:
    vessel, version = shelf.vessels.get(candle.vessel_id or 0), None
    if candle.version_id is not None:
        version = shelf.versions.get(candle.version_id)
    if vessel is None or measures is None:
        return None
    wick = DrawnWick(count=0, trim_mm=0.0)
    if candle.wick_ids:
        this_only = replace(shelf, candles={candle.id: replace(candle, archived=False)})
        wick = wick_of(vessel, measures, this_only)
    found = levels(vessel, measures, densities_or_none(version, shelf))
    return draw_vessel(vessel, measures, found, wick, texts)


def passed_before(vessel_id: int | None, shelf: Shelf) -> tuple[tuple[str, str], ...]:
    """Wicks and recipe of every test that was passed in a vessel, each pair once."""
    found: dict[tuple[str, str], None] = {}
    for candle in shelf.candles.values():
        for record in candle.tests:
            was = record.made_of or {}
            if record.state == "passed" and vessel_id and was.get("vessel_id") == vessel_id:
                wicks = was.get("wicks")
                names = ", ".join(map(str, wicks)) if isinstance(wicks, list) else ""
                found[names, str(was.get("version") or "")] = None
    return tuple(found)


def drafted(candle: Candle, typed: Mapping[str, object]) -> Candle:
    """The candle with values that are being typed in place of the stored ones."""
    known = {one.name for one in fields(Candle)} - {"id", "wick_ids", "extras", "tests"}
    changed: dict[str, Any] = {name: value for name, value in typed.items() if name in known}
    changed["name"] = changed.get("name") or ""
    return replace(candle, **changed)


# -- changing --------------------------------------------------------------------------------------
def set_wicks(
    workspace: Workspace, candle: int, wicks: Sequence[int], *, origin: object = None
) -> None:
    """Give a candle these wicks, none for a melt, three at most.

    Raises:
        ValueError: more than three; a bug of ours.
    """
    if len(wicks) > MOST_WICKS:
        raise ValueError(wicks)
    with workspace.step(N_("Change the wicks"), origin=origin) as connection:
        old = records.fetch_all(connection, "candle_wick", {"candle_id": candle})
        if [row["item_id"] for row in old] == list(wicks):
            return
        for row in old:
            records.delete(connection, "candle_wick", int(str(row["id"])))
        for position, item in enumerate(wicks):
            values = {"candle_id": candle, "position": position, "item_id": item}
            records.insert(connection, "candle_wick", values)


def declare(workspace: Workspace, candle: int, mass_mg: int, *, origin: object = None) -> None:
    """Fix the declared net weight of a candle."""
    values = {"declared_net_g": mass_mg / 1000}
    with workspace.step(N_("Declare the net weight"), origin=origin) as connection:
        records.update(connection, "candle", candle, values)
