"""Net weight of a candle: wax, fragrance and dye by the plan, and what may be declared of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.app.mixes import Density, densities_or_none, finish_of_version, recipe_of
from wickbench.domain.errors import DomainError
from wickbench.domain.net_weight import Declared, declared_text, propose_declared
from wickbench.domain.recipes import Role, mix_parts
from wickbench.domain.rounding import half_up

if TYPE_CHECKING:
    from wickbench.app.measures import VesselMeasures
    from wickbench.app.mixes import MixDensities
    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf
    from wickbench.domain.catalog import Candle, RecipeVersion

NET_ROLES = frozenset({Role.WAX, Role.FRAGRANCE, Role.DYE})
MG_PER_G = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedNet:
    """What one candle holds, in grams of wax, fragrance and dye.

    Attributes:
        net_g: by the plan: filled to the line hot or until the set wax meets it, or the net
            weight that is weighed in.
        low_g, high_g: where it may lie when a density is an estimate.
        at_line_g, at_brim_g: what it would hold to the line and to the brim.
        at_line_low_g: the lower end of the estimate to the line.
        estimate: a density or the volume was not measured.
        line_ml, g_per_ml, net_share: what it was computed from; the density is that of the set
            mix where the set wax meets the line (``until_set``), else that of the hot one, and
            ``net_share`` is the part of the mix that counts (additives do not).
        weighed_in: filled to a net weight instead of the line.
    """

    net_g: float
    low_g: float
    high_g: float
    at_line_g: float
    at_line_low_g: float
    at_brim_g: float | None
    estimate: bool
    line_ml: float
    g_per_ml: float
    net_share: float
    weighed_in: bool
    until_set: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """The largest declaration that a region's rule allows for the planned weight."""

    region: str
    declared: Declared


def net_share(version: RecipeVersion, shelf: Shelf) -> float:
    """Part of the mix that is wax, fragrance or dye.

    Raises:
        OutOfRange: a version without wax, or with an amount that cannot be.
    """
    parts = mix_parts(recipe_of(version, shelf))
    return sum(part.share for part in parts if part.role in NET_ROLES)


def planned_net(
    candle: Candle, version: RecipeVersion | None, measures: VesselMeasures | None, shelf: Shelf
) -> PlannedNet | None:
    """Volume to the line × density of the mix, hot or set × its share of wax, fragrance and dye.

    ``None`` while the vessel's line, the recipe or the density of its mix is unknown.
    """
    mix = densities_or_none(version, shelf)
    if version is None or mix is None or measures is None or measures.line_ml is None:
        return None
    share = net_share(version, shelf)
    line_ml, brim_ml = measures.line_ml, measures.brim_ml
    until_set = candle.fill_to == "set" or finish_of_version(version, shelf) != "single"
    full = _full(mix, until_set=until_set)
    at_line_g = line_ml * full.g_per_ml * share
    weighed_in = candle.fill_to == "net" and candle.declared_net_g is not None
    net_g = candle.declared_net_g if weighed_in and candle.declared_net_g else at_line_g
    return PlannedNet(
        net_g=net_g,
        low_g=net_g if weighed_in else line_ml * full.low * share,
        high_g=net_g if weighed_in else line_ml * full.high * share,
        at_line_g=at_line_g,
        at_line_low_g=line_ml * full.low * share,
        at_brim_g=None if brim_ml is None else brim_ml * mix.hot.g_per_ml * share,
        estimate=not weighed_in and (full.estimate or measures.line_from != "weighed"),
        line_ml=line_ml,
        g_per_ml=full.g_per_ml,
        net_share=share,
        weighed_in=weighed_in,
        until_set=until_set,
    )


def _full(mix: MixDensities, *, until_set: bool) -> Density:
    """What a line's volume weighs: of the hot mix, or of the set one, which is never lighter."""
    if not until_set:
        return mix.hot
    low = max(mix.set.low, mix.hot.low)
    return Density(g_per_ml=mix.set.g_per_ml, low=low, high=mix.set.high, estimate=mix.set.estimate)


def proposals(net: PlannedNet | None, settings: Settings) -> tuple[Proposal, ...]:
    """For each region sold in the largest declaration of what the candle surely holds."""
    if net is None:
        return ()
    language = settings.text("language_of_labels") or "en"
    found = []
    for region in settings.regions:
        try:
            declared = propose_declared(_surely_g(net), region, language=language)
        except DomainError:
            continue
        found.append(Proposal(region=region, declared=declared))
    return tuple(found)


def _surely_g(net: PlannedNet) -> float:
    """What it holds to the line at least: a guess of the density must not overstate."""
    return min(net.at_line_g, net.at_line_low_g)


def proposed_mg(found: tuple[Proposal, ...]) -> int | None:
    """One weight that keeps every region's rule: the smallest of the proposals."""
    return min((one.declared.mass_mg for one in found), default=None)


def declared_lines(candle: Candle, settings: Settings) -> tuple[tuple[str, str], ...]:
    """Region and declaration as it would be printed; nothing while none is declared."""
    if candle.declared_net_g is None:
        return ()
    language = settings.text("language_of_labels") or "en"
    mass_mg = int(half_up(candle.declared_net_g * MG_PER_G))
    found = []
    for region in settings.regions:
        try:
            found.append((region, declared_text(mass_mg, region, language)))
        except DomainError:
            continue
    return tuple(found)
