"""What is worth saying about a recipe before it is made: loads, flash points, temperatures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

from wickbench.domain.equipment import HeatSource
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.recipes import (
    Load,
    Material,
    Recipe,
    actual_load,
    normalised,
    oil_shares,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

LOW_FLASH_C = 60.0
"""Up to here a liquid counts as flammable (GHS table 2.6.1, category 3: 23 to 60 °C)."""

NO_LIMIT_PERCENT = 100.0
_SLACK = 1e-9

_HOTTER_BY_C = 10.0
"""Less than this above the data sheet is what a melter does anyway (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WaxFacts:
    """What the data sheet of a wax, or a measurement, says.

    Attributes:
        name: what the maker calls it.
        liquid_70_g_per_ml: density at 70 °C, None when unknown.
        density_is_estimate: the density is a usual one of its class, not measured.
        max_load: most fragrance oil it holds, with its basis.
        flash_c: flash point.
        heat_to_c: how hot its maker wants it heated.
        liquid_range_g_per_ml: where the density at 70 °C may lie; None: as it is known.
        set_g_per_ml: apparent density once set, None when unknown.
        set_is_estimate: that density is a usual one of its class.
        set_range_g_per_ml: where it may lie; None: as it is known.
        finish: ``"single"`` pour, ``"top_up"`` or ``"second"`` pour.
    """

    name: str = ""
    liquid_70_g_per_ml: float | None = None
    density_is_estimate: bool = False
    max_load: Load | None = None
    flash_c: float | None = None
    heat_to_c: float | None = None
    liquid_range_g_per_ml: tuple[float, float] | None = None
    set_g_per_ml: float | None = None
    set_is_estimate: bool = False
    set_range_g_per_ml: tuple[float, float] | None = None
    finish: str = "single"


@dataclass(frozen=True, slots=True, kw_only=True)
class OilFacts:
    """What the data sheet and the certificate of a fragrance oil say.

    Attributes:
        name: what the maker calls it.
        density_g_per_ml: density at 20 °C, None when unknown.
        flash_c: flash point.
        ifra_percent: most of it in the finished candle by its certificate, percent of total;
            100 sets no limit, 0 allows none, None is unknown.
    """

    name: str = ""
    density_g_per_ml: float | None = None
    flash_c: float | None = None
    ifra_percent: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What is known of the materials and the heat.

    Attributes:
        waxes: facts by wax.
        oils: facts by fragrance oil.
        names: names of the other materials.
        heat: what heats the pots.
    """

    waxes: Mapping[Material, WaxFacts] = field(default_factory=dict)
    oils: Mapping[Material, OilFacts] = field(default_factory=dict)
    names: Mapping[Material, str] = field(default_factory=dict)
    heat: HeatSource = field(default_factory=HeatSource)

    def wax(self, material: Material) -> WaxFacts:
        """Facts of a wax; an unknown one has a name only."""
        return self.waxes.get(material) or WaxFacts(name=self.names.get(material, str(material)))

    def oil(self, material: Material) -> OilFacts:
        """Facts of an oil; an unknown one has a name only."""
        return self.oils.get(material) or OilFacts(name=self.names.get(material, str(material)))

    def name(self, material: Material) -> str:
        """What a material is called, of whatever kind it is."""
        known = self.waxes.get(material) or self.oils.get(material)
        return known.name if known else self.names.get(material, str(material))


class Checked(StrEnum):
    """How an oil stands against the certificate's maximum in the finished candle."""

    WITHIN = "within"
    OVER = "over"
    NOT_ALLOWED = "not-allowed"
    NO_LIMIT = "no-limit"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class OilCheck:
    """One oil against its certificate.

    Attributes:
        material: the oil.
        share_percent: of the finished mix.
        limit_percent: of the finished mix; None when unknown.
        state: the outcome; ``NO_LIMIT`` is no limit that was met: none is set.
    """

    material: Material
    share_percent: float
    limit_percent: float | None
    state: Checked


def oil_checks(recipe: Recipe, facts: Facts) -> tuple[OilCheck, ...]:
    """Each oil's share of the finished mix against its own certificate.

    Raises:
        OutOfRange: a recipe without wax.
    """
    checks = []
    for material, share in oil_shares(recipe).items():
        limit = facts.oil(material).ifra_percent
        checks.append(OilCheck(material, share, limit, _state(share, limit)))
    return tuple(checks)


def _state(share_percent: float, limit_percent: float | None) -> Checked:
    if limit_percent is None:
        return Checked.UNKNOWN
    if limit_percent >= NO_LIMIT_PERCENT:
        return Checked.NO_LIMIT
    if limit_percent <= 0:
        return Checked.NOT_ALLOWED
    return Checked.OVER if share_percent > limit_percent + _SLACK else Checked.WITHIN


def strictest_load(recipe: Recipe, facts: Facts) -> tuple[Material, Load] | None:
    """The wax of the blend that allows least oil, and its limit; None when none states one."""
    limits = [
        (material, limit)
        for material in normalised(recipe.wax)
        if (limit := facts.wax(material).max_load) is not None
    ]
    return min(limits, key=lambda pair: pair[1].of_wax, default=None)


def recipe_findings(recipe: Recipe, facts: Facts) -> tuple[Finding, ...]:
    """Everything worth saying about the recipe, the most pressing first.

    The flash point of an oil is information on the oil. It is a warning only up to 60 °C, or
    where the oil gets that hot over an open flame or in a pot left on the heat.
    """
    if not normalised(recipe.wax):
        return (Finding(Rank.STOPS, "recipe.no-wax"),)
    return sort_findings(
        [
            *_oil_and_load(recipe),
            *_wax_limit(recipe, facts),
            *_certificates(recipe, facts),
            *_oil_flash(recipe, facts),
            *_wax_heat(recipe, facts),
            *_temperatures(recipe),
        ]
    )


def _oil_and_load(recipe: Recipe) -> Iterator[Finding]:
    has_oil, has_load = (
        bool(normalised(recipe.fragrance)),
        bool(recipe.load and recipe.load.percent),
    )
    if has_oil and not has_load:
        yield Finding(Rank.WATCH, "recipe.oil-without-load")
    if has_load and not has_oil:
        yield Finding(Rank.WATCH, "recipe.load-without-oil")


def _wax_limit(recipe: Recipe, facts: Facts) -> Iterator[Finding]:
    load = actual_load(recipe)
    if not load.percent:
        return
    strictest = strictest_load(recipe, facts)
    if strictest is None:
        yield Finding(Rank.NOTE, "recipe.wax-limit-unknown")
        return
    yield from _silent_waxes(recipe, facts)
    material, limit = strictest
    if load.of_wax > limit.of_wax + _SLACK:
        data = {
            "name": facts.wax(material).name,
            "load_percent": getattr(load, f"of_{limit.basis}"),
            "limit_percent": limit.percent,
        }
        yield Finding(
            Rank.WATCH, f"recipe.over-wax-limit-of-{limit.basis}", data, ("wax", material)
        )


def _silent_waxes(recipe: Recipe, facts: Facts) -> Iterator[Finding]:
    """Waxes of a blend that do not say how much they hold, while another one does."""
    for material in normalised(recipe.wax):
        wax = facts.wax(material)
        if wax.max_load is None:
            yield Finding(
                Rank.NOTE, "recipe.one-wax-limit-unknown", {"name": wax.name}, ("wax", material)
            )


_CERTIFICATE_FINDINGS = {
    Checked.OVER: (Rank.STOPS, "recipe.oil-over-certificate"),
    Checked.NOT_ALLOWED: (Rank.STOPS, "recipe.oil-not-allowed"),
    Checked.UNKNOWN: (Rank.NOTE, "recipe.oil-certificate-unknown"),
}


def _certificates(recipe: Recipe, facts: Facts) -> Iterator[Finding]:
    for check in oil_checks(recipe, facts):
        if check.state not in _CERTIFICATE_FINDINGS:
            continue
        rank, key = _CERTIFICATE_FINDINGS[check.state]
        data = {"name": facts.oil(check.material).name, "share_percent": check.share_percent}
        if check.limit_percent is not None:
            data["limit_percent"] = check.limit_percent
        yield Finding(rank, key, data, ("oil", check.material))


def _oil_flash(recipe: Recipe, facts: Facts) -> Iterator[Finding]:
    for material in oil_shares(recipe):
        oil = facts.oil(material)
        about = ("oil", material)
        if oil.flash_c is None:
            if facts.heat.open_flame:
                yield Finding(Rank.NOTE, "recipe.flash-unknown", {"name": oil.name}, about)
            continue
        key = _flash_key(oil.flash_c, recipe, facts.heat)
        if key is not None:
            data = {"name": oil.name, "flash_c": oil.flash_c}
            yield Finding(Rank.WATCH, key, data, about)


def _flash_key(flash_c: float, recipe: Recipe, heat: HeatSource) -> str | None:
    added = [recipe.add_c] if recipe.add_c is not None else []
    reached = [*added, recipe.heat_to_c] if heat.pot_stays_on or not added else added
    hottest_c = max((celsius for celsius in reached if celsius is not None), default=flash_c)
    if hottest_c >= flash_c and heat.open_flame:
        return "recipe.flash-over-flame"
    if hottest_c >= flash_c and heat.pot_stays_on:
        return "recipe.flash-on-heat"
    return "recipe.flash-low" if flash_c <= LOW_FLASH_C else None


def _wax_heat(recipe: Recipe, facts: Facts) -> Iterator[Finding]:
    if recipe.heat_to_c is None:
        return
    for material in normalised(recipe.wax):
        wax = facts.wax(material)
        about = ("wax", material)
        data = {"name": wax.name, "heat_to_c": recipe.heat_to_c}
        if wax.flash_c is not None and recipe.heat_to_c >= wax.flash_c:
            data["flash_c"] = wax.flash_c
            yield Finding(Rank.STOPS, "recipe.heat-over-wax-flash", data, about)
        elif wax.heat_to_c is not None and recipe.heat_to_c > wax.heat_to_c + _HOTTER_BY_C:
            data["limit_c"] = wax.heat_to_c
            yield Finding(Rank.WATCH, "recipe.hotter-than-wax-wants", data, about)


def _temperatures(recipe: Recipe) -> Iterator[Finding]:
    heat_c, add_c, pour_c = recipe.heat_to_c, recipe.add_c, recipe.pour_c
    if heat_c is not None and pour_c is not None and heat_c < pour_c:
        data = {"heat_to_c": heat_c, "pour_c": pour_c}
        yield Finding(Rank.WATCH, "recipe.heat-below-pour", data)
    if heat_c is not None and add_c is not None and add_c > heat_c:
        data = {"add_c": add_c, "heat_to_c": heat_c}
        yield Finding(Rank.WATCH, "recipe.add-above-heat", data)
