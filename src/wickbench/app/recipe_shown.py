"""How a recipe reads: limits, amounts, checks, densities, and how they were computed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.mixes import main_wax, temperatures, wax_defaults
from wickbench.app.recipe_words import both_bases, percent
from wickbench.app.texts_marker import N_
from wickbench.domain.quantities import convert
from wickbench.domain.recipe_checks import Checked

if TYPE_CHECKING:
    from wickbench.app.mixes import Density, MixDensities
    from wickbench.app.recipe_density import DensePart
    from wickbench.app.recipe_view import OilRow, RecipeView
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.domain.catalog import RecipeVersion

_POUND_OZ = 16
_SEVERAL = 2
_STEPS = {
    "g": 0.1, "kg": 1.0, "oz": 0.01 * 28.349523125, "lb oz": 0.1 * 28.349523125,
    "lb": 0.001 * 453.59237,
}  # fmt: skip


def limit_text(texts: Texts, view: RecipeView) -> str:
    """The strictest wax limit in both bases; empty when no wax states one."""
    if view.limit is None:
        return ""
    name, limit = view.limit
    return texts(N_("{name} holds at most {load}."), name=name, load=both_bases(texts, limit))


def step_of(texts: Texts) -> float:
    """The step in grams in which amounts are told in the person's first unit of mass."""
    return _STEPS.get(texts.units.first("mass"), 0.1)


def amount_text(texts: Texts, mass_g: float, step_g: float) -> str:
    """An amount in the first unit, with the digits of the step."""
    units = texts.units
    first = units.first("mass")
    if first == "g":
        return units.one(mass_g, "mass", "g", step=step_g)
    return units.one(mass_g, "mass", first)


def second_amount(texts: Texts, mass_g: float) -> str:
    """An amount in the second unit; empty when the settings show none.

    Below a pound the ounces keep hundredths.
    """
    unit = texts.units.second("mass")
    if not unit:
        return ""
    small = unit == "lb oz" and convert(mass_g, "mass", "oz") < _POUND_OZ
    return texts.units.one(mass_g, "mass", "oz" if small else unit)


_CHECKED = {
    Checked.WITHIN: N_("{name}: {share} of the candle, within the {limit} its certificate allows."),
    Checked.OVER: N_("{name}: {share} of the candle, over the {limit} its certificate allows."),
    Checked.NOT_ALLOWED: N_("{name}: {share} of the candle; its certificate allows none."),
    Checked.NO_LIMIT: N_("{name}: {share} of the candle; its certificate sets no limit here."),
    Checked.UNKNOWN: N_(
        "{name}: {share} of the candle; what its certificate allows is not entered."
    ),
}
CHECKED_LOOKS = {
    Checked.WITHIN: "fine", Checked.OVER: "stops", Checked.NOT_ALLOWED: "stops",
    Checked.NO_LIMIT: "note", Checked.UNKNOWN: "how",
}  # fmt: skip
"""Icon of each outcome, which is also the name of its ink where it has one."""


def oil_text(texts: Texts, row: OilRow) -> str:
    """How an oil stands against its certificate, and its flash point: information on the oil."""
    limit = "" if row.limit_percent is None else percent(texts, row.limit_percent)
    share = percent(texts, row.share_percent)
    said = texts(_CHECKED[row.state], name=row.name, share=share, limit=limit)
    if row.flash_c is None:
        return said
    flash = texts.quantity(row.flash_c, "temperature")
    return f"{said} {texts(N_('Flash point {flash}.'), flash=flash)}"


def blend_lines(texts: Texts, view: RecipeView) -> tuple[str, ...]:
    """Density and lowest flash point of several oils as one; nothing for a single oil."""
    blend = view.blend
    if blend is None or len(view.oils) < _SEVERAL:
        return ()
    if blend.estimate:
        span = texts.units.span(blend.low, blend.high, "density")
        density = texts(N_("{span} (estimate)"), span=span)
    else:
        density = texts.quantity(blend.density_g_per_ml, "density")
    lines = [texts(N_("The blend weighs {density}."), density=density)]
    names = {row.material: row.name for row in view.oils}
    if blend.lowest_flash is not None:
        key, flash_c = blend.lowest_flash
        lines.append(
            texts(
                N_("Lowest flash point of the blend {flash_c}, of {name}."),
                flash_c=flash_c,
                name=names.get(key, ""),
            )
        )
    silent = [names.get(key, "") for key in blend.without_flash]
    if silent:
        lines.append(
            texts(N_("The flash point of {names} is not entered."), names=", ".join(silent))
        )
    return tuple(lines)


def density_text(texts: Texts, mix: MixDensities | None) -> str:
    """Density of the mix, liquid and set, marked where it is an estimate."""
    if mix is None:
        return ""
    return texts(
        N_("The mix weighs {hot} liquid at {pour_c} and {set} once set."),
        hot=_density(texts, mix.hot),
        pour_c=mix.pour_c,
        set=_density(texts, mix.set),
    )


def _density(texts: Texts, density: Density) -> str:
    if not density.estimate:
        return texts.quantity(density.g_per_ml, "density")
    span = texts.units.span(density.low, density.high, "density")
    return texts(N_("{span} (estimate)"), span=span)


def assumed_texts(texts: Texts, version: RecipeVersion, shelf: Shelf) -> dict[str, str]:
    """What stands in empty fields: the main wax's own values, else what its class usually wants."""
    wax = main_wax(version, shelf)
    if wax is None:
        return {}
    usual = wax_defaults(wax)
    ranges = {
        "heat_to_c": (usual.heat_to_c, usual.heat_to_c),
        "add_oil_c": usual.add_oil_c,
        "pour_c": usual.pour_c,
    }
    said = {}
    for name, celsius in temperatures(version, shelf).items():
        if getattr(wax, name) is not None and celsius is not None:
            shown = texts.quantity(celsius, "temperature")
            said[name] = texts(N_("{value}, as the wax says"), value=shown)
        else:
            span = texts.units.span(*ranges[name], "temperature")
            said[name] = texts(N_("{span} (estimate)"), span=span)
    said["cure_days"] = _cure(texts, wax.cure_days, usual.cure_days)
    return said


def _cure(texts: Texts, own: int | None, usual: tuple[int, int]) -> str:
    if own is not None:
        return texts(N_("{value}, as the wax says"), value=str(own))
    return texts(N_("{span} (estimate)"), span=f"{usual[0]}–{usual[1]}")


def how_amounts(texts: Texts, view: RecipeView) -> tuple[str, ...]:
    """How the amounts came about."""
    if not view.amounts:
        return ()
    load = view.version.load
    said = [
        texts(
            N_(
                "Parts are shares of their sum. Dye and additives are percent of the wax. A load "
                "of wax is oil ÷ wax; of total it is oil ÷ (wax + oil): p = w ÷ (1 + w)."
            )
        ),
        texts(
            N_(
                "Each amount is a whole number of steps; what rounding leaves goes to the amounts "
                "that lost most, so that they sum to the total."
            )
        ),
    ]
    if load is not None and load.basis == "total":
        said.append(
            texts(N_("A load of total is kept of the whole mix, dye and additives counted in."))
        )
    return tuple(said)


def _dense_part(texts: Texts, part: DensePart) -> str:
    """One wax or oil with its share of the two together and its densities."""
    return texts(
        N_("{name}: {share} of wax and oil, {hot} liquid, {set} once set"),
        name=part.name,
        share=percent(texts, part.share_percent),
        hot=_density(texts, part.hot),
        set=_density(texts, part.set),
    )


def how_dense(texts: Texts, view: RecipeView) -> tuple[str, ...]:
    """How the densities came about."""
    if view.mix is None:
        return ()
    return (
        texts(
            N_(
                "Volumes add up (ideal mixing; wax and oil together are off by less than half a "
                "percent, no source): 1 ÷ ρ = Σ share ÷ density of each wax and oil. Dye and "
                "additives count with the wax."
            )
        ),
        *(_dense_part(texts, part) for part in view.dense),
        texts(
            N_(
                "Liquid wax at its pouring temperature: ρ = ρ at 70 °C − 0.00066 × (°C − 70); oil "
                "grows by 0.08 % for each °C above 20 °C (usual, no source)."
            )
        ),
        texts(
            N_(
                "An estimate is the range that waxes of the class have, and 0.88 to 1.10 g/mL for "
                "an oil whose density is not entered. A measured density gives one figure."
            )
        ),
    )
