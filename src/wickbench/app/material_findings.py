"""What is worth saying about one material, from its values as stored or as typed so far."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.material_estimates import USUAL_TRIM_MM, WOODEN, filled
from wickbench.app.sticker_sheets import sheet_findings
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.mixes import USUAL_OIL_RANGE
from wickbench.domain.recipe_checks import LOW_FLASH_C, NO_LIMIT_PERCENT
from wickbench.domain.recipes import Load
from wickbench.domain.wax_classes import WAX_CLASSES

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

Values = dict[str, float]
FLASH_DISTANCE_C: Final = 20.0
"""Wax stays this far below its flash point (common practice, no source)."""
_COTTON_TRIM_MM: Final = (5.0, 7.0)
_LOW_NECK_MM: Final = 6.0


def material_findings(kind: str, values: Mapping[str, object]) -> tuple[Finding, ...]:
    """Findings about a material of this kind, the most pressing first.

    Args:
        kind: kind of material.
        values: its presented values; ``None`` or missing: not filled in.
    """
    if kind == "sheet":
        return sheet_findings(values)
    check = _CHECKS.get(kind)
    return sort_findings(list(check(values))) if check else ()


def _numbers(values: Mapping[str, object]) -> Values:
    return {
        name: float(value)
        for name, value in values.items()
        if isinstance(value, int | float) and not isinstance(value, bool)
    }


# -- wax -----------------------------------------------------------------------------------------
def _wax(values: Mapping[str, object]) -> Iterator[Finding]:
    own, all_known = _numbers(values), _numbers(filled("wax", values))
    if not values.get("wax_class"):
        yield Finding(Rank.NOTE, "material.wax-no-class")
    yield from _wax_densities(str(values.get("wax_class") or "other"), own)
    yield from _wax_load(values, own)
    yield from _wax_melting(own, all_known)
    yield from _wax_heating(own, all_known)


def _wax_densities(wax_class: str, own: Values) -> Iterator[Finding]:
    liquid, hard = own.get("liquid_g_per_ml"), own.get("set_g_per_ml")
    if liquid is not None and hard is not None and hard < liquid:
        data = {"set_g_per_ml": hard, "liquid_g_per_ml": liquid}
        yield Finding(Rank.WATCH, "material.wax-set-lighter", data)
    if (own.get("liquid_measured") and liquid is None) or (
        own.get("set_measured") and hard is None
    ):
        yield Finding(Rank.WATCH, "material.wax-measured-without-value")
    usual = WAX_CLASSES.get(wax_class, WAX_CLASSES["other"])
    spans = ((liquid, usual.liquid_range_g_per_ml), (hard, usual.set_range_g_per_ml))
    for typed, (low, high) in spans:
        if typed is not None and not low <= typed <= high:
            data = {"own_g_per_ml": typed, "low_g_per_ml": low, "high_g_per_ml": high}
            yield Finding(Rank.NOTE, "material.wax-density-unusual", data)


def _wax_load(values: Mapping[str, object], own: Values) -> Iterator[Finding]:
    most, basis = own.get("max_load_percent"), values.get("max_load_basis")
    if most is None:
        yield Finding(Rank.NOTE, "material.wax-no-load")
    elif not basis:
        yield Finding(Rank.WATCH, "material.wax-load-without-basis", {"load_percent": most})


def _wax_melting(own: Values, known: Values) -> Iterator[Finding]:
    start, end = known["melts_from_c"], known["melts_to_c"]
    typed = "melts_from_c" in own or "melts_to_c" in own
    if typed and start > end:
        data = {"from_c": start, "to_c": end}
        yield Finding(Rank.WATCH, "material.wax-melts-backwards", data)
    flash = known.get("flash_c")
    if flash is not None and max(start, end) >= flash:
        data = {"melts_c": max(start, end), "flash_c": flash}
        yield Finding(Rank.STOPS, "material.wax-melts-above-flash", data)


def _wax_heating(own: Values, known: Values) -> Iterator[Finding]:
    heat, add, flash = known["heat_to_c"], known["add_oil_c"], known.get("flash_c")
    if flash is not None and heat >= flash:
        data = {"heat_to_c": heat, "flash_c": flash}
        yield Finding(Rank.STOPS, "material.wax-heat-above-flash", data)
    elif flash is not None and heat > flash - FLASH_DISTANCE_C:
        data = {"heat_to_c": heat, "flash_c": flash, "most_c": flash - FLASH_DISTANCE_C}
        yield Finding(Rank.STOPS, "material.wax-heat-near-flash", data)
    if ("add_oil_c" in own or "heat_to_c" in own) and add > heat:
        data = {"add_oil_c": add, "heat_to_c": heat}
        yield Finding(Rank.WATCH, "material.wax-oil-above-heat", data)
    if ("pour_c" in own or "heat_to_c" in own) and known["pour_c"] > heat:
        data = {"pour_c": known["pour_c"], "heat_to_c": heat}
        yield Finding(Rank.WATCH, "material.wax-pour-above-heat", data)
    yield from _wax_set_already(own, known)
    if ("heat_to_c" in own or "melts_to_c" in own) and heat < known["melts_to_c"]:
        data = {"heat_to_c": heat, "melts_c": known["melts_to_c"]}
        yield Finding(Rank.WATCH, "material.wax-heat-below-melting", data)


def _wax_set_already(own: Values, known: Values) -> Iterator[Finding]:
    """Oil stirred in, or wax poured, below where the wax is all set."""
    sets = known["melts_from_c"]
    own_set = "melts_from_c" in own
    if ("add_oil_c" in own or own_set) and known["add_oil_c"] < sets:
        data = {"add_oil_c": known["add_oil_c"], "melts_c": sets}
        yield Finding(Rank.WATCH, "material.wax-oil-below-melting", data)
    if ("pour_c" in own or own_set) and known["pour_c"] < sets:
        data = {"pour_c": known["pour_c"], "melts_c": sets}
        yield Finding(Rank.WATCH, "material.wax-pour-below-melting", data)


# -- fragrance oil -------------------------------------------------------------------------------
def _fragrance(values: Mapping[str, object]) -> Iterator[Finding]:
    own = _numbers(values)
    yield from _certificate(own.get("ifra_12_percent"))
    flash = own.get("flash_c")
    if flash is None:
        yield Finding(Rank.NOTE, "material.oil-no-flash")
    elif flash <= LOW_FLASH_C:
        yield Finding(Rank.WATCH, "material.oil-flash-low", {"flash_c": flash})
    else:
        yield Finding(Rank.NOTE, "material.oil-flash", {"flash_c": flash})
    if own.get("vanillin_percent"):
        data = {"vanillin_percent": own["vanillin_percent"]}
        yield Finding(Rank.NOTE, "material.oil-vanillin", data)
    density, (low, high) = own.get("density_g_per_ml"), USUAL_OIL_RANGE
    if density is not None and not low <= density <= high:
        data = {"own_g_per_ml": density, "low_g_per_ml": low, "high_g_per_ml": high}
        yield Finding(Rank.NOTE, "material.oil-density-unusual", data)


def _certificate(most: float | None) -> Iterator[Finding]:
    if most is None:
        yield Finding(Rank.NOTE, "material.oil-no-certificate")
    elif most >= NO_LIMIT_PERCENT:
        yield Finding(Rank.NOTE, "material.oil-no-limit")
    elif most <= 0:
        yield Finding(Rank.STOPS, "material.oil-not-allowed")
    else:
        data = {"total_percent": most, "wax_percent": Load(most, "total").of_wax}
        yield Finding(Rank.NOTE, "material.oil-limit", data)


# -- wick ----------------------------------------------------------------------------------------
def _wick(values: Mapping[str, object]) -> Iterator[Finding]:
    own, kind = _numbers(values), str(values.get("wick_kind") or "")
    if not kind:
        yield Finding(Rank.NOTE, "material.wick-no-kind")
    start, end = own.get("diameter_from_mm"), own.get("diameter_to_mm")
    if start is not None and end is not None and start > end:
        yield Finding(
            Rank.WATCH, "material.wick-diameters-backwards", {"from_mm": start, "to_mm": end}
        )
    yield from _trim(kind, own)
    neck = own.get("neck_mm")
    if neck is not None and neck < _LOW_NECK_MM and kind not in WOODEN:
        yield Finding(
            Rank.NOTE, "material.wick-neck-low", {"neck_mm": neck, "least_mm": _LOW_NECK_MM}
        )
    if kind == "cored":
        yield Finding(Rank.NOTE, "material.wick-lead")


def _trim(kind: str, own: Values) -> Iterator[Finding]:
    trim = own.get("trim_mm")
    if trim is None or not kind:
        return
    wooden = kind in WOODEN
    low, high = USUAL_TRIM_MM[True] if wooden else _COTTON_TRIM_MM
    if not low <= trim <= high:
        key = "material.wick-trim-wooden" if wooden else "material.wick-trim-cotton"
        yield Finding(Rank.WATCH, key, {"trim_mm": trim})
    length = own.get("length_mm")
    if length is not None and trim >= length:
        data = {"trim_mm": trim, "length_mm": length}
        yield Finding(Rank.WATCH, "material.wick-shorter-than-trim", data)


# -- the rest ------------------------------------------------------------------------------------
def _shares(values: Mapping[str, object]) -> Iterator[Finding]:
    own = _numbers(values)
    usual, most = own.get("usual_percent"), own.get("max_percent")
    if usual is not None and most is not None and most < usual:
        data = {"usual_percent": usual, "most_percent": most}
        yield Finding(Rank.WATCH, "material.most-below-usual", data)


def _lid(values: Mapping[str, object]) -> Iterator[Finding]:
    own = _numbers(values)
    fits, diameter = own.get("fits_mm"), own.get("diameter_mm")
    if fits is not None and diameter is not None and diameter < fits:
        yield Finding(
            Rank.WATCH, "material.lid-too-small", {"diameter_mm": diameter, "fits_mm": fits}
        )


_CHECKS: Final[Mapping[str, Callable[[Mapping[str, object]], Iterator[Finding]]]] = {
    "wax": _wax,
    "fragrance": _fragrance,
    "wick": _wick,
    "dye": _shares,
    "additive": _shares,
    "lid": _lid,
}
