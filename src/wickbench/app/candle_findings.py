"""What is worth saying about a candle before it is poured, labelled or sold."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.candle_net import MG_PER_G
from wickbench.app.layered_candles import layered_findings
from wickbench.app.vessel_advice import advice, burns, wick_diameter_mm
from wickbench.domain.catalog import Wick
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.net_weight import check_declared
from wickbench.domain.rounding import half_up

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.app.candle_net import PlannedNet
    from wickbench.app.measures import VesselMeasures
    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf
    from wickbench.domain.catalog import Candle

_TELL_ESTIMATE_PERCENT = 1.0
_ABOUT_THE_VESSEL = frozenset({"vessel.not-rated", "vessel.can-burn"})


def findings_of(
    candle: Candle,
    shelf: Shelf,
    measures: VesselMeasures | None,
    net: PlannedNet | None,
    settings: Settings,
) -> tuple[Finding, ...]:
    """All findings of a candle, the most pressing first; its tests are told apart from these."""
    found = [
        *_missing(candle, measures, net),
        *_code(candle, shelf),
        *_recipe(candle, shelf),
        *layered_findings(candle, shelf),
        *_wicks(candle, shelf, measures),
        *_vessel(candle, shelf, measures),
        *_declared(candle, net, settings),
        *_estimate(net),
    ]
    return sort_findings(found)


def _missing(
    candle: Candle, measures: VesselMeasures | None, net: PlannedNet | None
) -> Iterator[Finding]:
    if candle.version_id is None:
        yield Finding(Rank.NOTE, "candle.no-recipe")
    if measures is None:
        yield Finding(Rank.NOTE, "candle.no-vessel")
    elif measures.line_ml is None:
        yield Finding(Rank.NOTE, "candle.no-line")
    elif candle.version_id is not None and net is None:
        yield Finding(Rank.NOTE, "candle.mix-unknown")


def _code(candle: Candle, shelf: Shelf) -> Iterator[Finding]:
    code = (candle.code or "").strip().casefold()
    for other in shelf.candles.values():
        same = (other.code or "").strip().casefold() == code
        if code and same and other.id != candle.id and not other.archived:
            data = {"code": (candle.code or "").strip(), "name": other.name}
            yield Finding(Rank.WATCH, "candle.code-taken", data)
            return


def _recipe(candle: Candle, shelf: Shelf) -> Iterator[Finding]:
    version = shelf.versions.get(candle.version_id or 0)
    if version is None:
        return
    if version.state == "retired":
        data: dict[str, object] = {"name": version.name, "number": version.number}
        yield Finding(Rank.NOTE, "candle.recipe-retired", data)
    newest = max(
        one.number for one in shelf.versions.values() if one.recipe_id == version.recipe_id
    )
    if newest > version.number:
        data = {"name": version.name, "number": version.number, "newest": newest}
        yield Finding(Rank.NOTE, "candle.newer-version", data)


def _wicks(candle: Candle, shelf: Shelf, measures: VesselMeasures | None) -> Iterator[Finding]:
    vessel = shelf.vessels.get(candle.vessel_id or 0)
    if vessel is None or measures is None:
        return
    if burns(vessel) and not candle.wick_ids:
        yield Finding(Rank.WATCH, "candle.no-wick")
    inner_mm = wick_diameter_mm(measures)
    if len(candle.wick_ids) != 1 or inner_mm is None:
        return
    material = shelf.materials.get(candle.wick_ids[0])
    wick = material.details if material is not None else None
    if not isinstance(wick, Wick) or material is None:
        return
    low, high = wick.diameter_from_mm, wick.diameter_to_mm
    if (low is not None and inner_mm < low) or (high is not None and inner_mm > high):
        data = {"name": material.name, "inner_mm": inner_mm}
        yield Finding(Rank.NOTE, "candle.wick-outside", data)


def _vessel(candle: Candle, shelf: Shelf, measures: VesselMeasures | None) -> Iterator[Finding]:
    """What the vessel itself makes dangerous with a flame in it."""
    vessel = shelf.vessels.get(candle.vessel_id or 0)
    if vessel is not None and measures is not None and candle.wick_ids:
        yield from (one for one in advice(vessel, measures) if one.key in _ABOUT_THE_VESSEL)


def _declared(candle: Candle, net: PlannedNet | None, settings: Settings) -> Iterator[Finding]:
    if candle.declared_net_g is None:
        if net is not None:
            yield Finding(Rank.NOTE, "candle.nothing-declared")
        return
    if net is None:
        return
    if net.weighed_in:
        yield from _room(net)
        return
    mass_mg = int(half_up(candle.declared_net_g * MG_PER_G))
    found: dict[str, Finding] = {}
    for region in settings.regions:
        try:
            found |= {one.key: one for one in check_declared(mass_mg, net.net_g, region)}
        except DomainError as error:
            found[error.key] = Finding(Rank.WATCH, error.key, error.data)
    yield from found.values()


def _room(net: PlannedNet) -> Iterator[Finding]:
    """Whether a net weight that is weighed in has room in the vessel."""
    data = {"declared_g": net.net_g, "line_g": net.at_line_g}
    if net.at_brim_g is not None and net.net_g > net.at_brim_g:
        data["brim_g"] = net.at_brim_g
        yield Finding(Rank.STOPS, "candle.net-over-brim", data)
    elif net.net_g > net.at_line_g:
        yield Finding(Rank.WATCH, "candle.net-over-line", data)


def _estimate(net: PlannedNet | None) -> Iterator[Finding]:
    if net is None or not net.estimate:
        return
    if 100 * (net.high_g - net.low_g) >= _TELL_ESTIMATE_PERCENT * net.net_g:
        data = {"low_g": net.low_g, "high_g": net.high_g}
        yield Finding(Rank.NOTE, "candle.net-is-estimate", data)
