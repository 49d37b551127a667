"""What stands in for a material's empty field: an estimate of its class, or what is usual.

An estimate is said to be one wherever it is shown; the person's own value replaces it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from wickbench.app.material_fields import FINISH_NAMES
from wickbench.app.texts_marker import N_
from wickbench.domain.mixes import USUAL_OIL_G_PER_ML, USUAL_OIL_RANGE
from wickbench.domain.wax_classes import WAX_CLASSES

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.texts import Texts

CLASS_SHORT: Final[Mapping[str, str]] = {
    "soy": N_("soy"),
    "coconut": N_("coconut"),
    "coconut_soy": N_("coconut and soy"),
    "rapeseed": N_("rapeseed"),
    "palm": N_("palm"),
    "paraffin": N_("paraffin"),
    "paraffin_soy": N_("paraffin and soy"),
    "beeswax": N_("beeswax"),
    "stearin": N_("stearin"),
}
WOODEN: Final = frozenset({"wooden", "wooden_booster"})
USUAL_TRIM_MM: Final[Mapping[bool, tuple[float, float]]] = {True: (3.0, 5.0), False: (6.0, 6.0)}
"""Trim by whether the wick is wooden (common practice, no source)."""
PAGE_MM: Final[Mapping[str, tuple[float, float]]] = {
    "A4": (210.0, 297.0),  # ISO 216
    "Letter": (215.9, 279.4),  # 8.5 × 11 in
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """What is taken while a field is empty.

    Attributes:
        low: smallest usual value, in the kind's unit.
        high: largest usual value; equal to ``low`` for a single one.
        kind: kind of quantity.
        why: msgid that says it is no fact, with ``{value}`` and maybe ``{of}``.
        of: msgid of what it belongs to; empty for nothing.
        usual: what calculations take; None: the middle of the two.
    """

    low: float
    high: float
    kind: str
    why: str = N_("{value} (estimate)")
    of: str = ""
    usual: float | None = None

    @property
    def middle(self) -> float:
        """What calculations take."""
        return (self.low + self.high) / 2 if self.usual is None else self.usual

    def text(self, texts: Texts) -> str:
        """As it stands in the empty field."""
        value = texts.units.span(self.low, self.high, self.kind)
        return texts(self.why, value=value, of=texts(self.of))


def estimates(kind: str, values: Mapping[str, object]) -> dict[str, Estimate]:
    """Estimates by field name for a material of this kind.

    Args:
        kind: kind of material.
        values: its presented values, as stored or as typed so far.
    """
    if kind == "wax":
        return _of_class(str(values.get("wax_class") or ""))
    if kind == "fragrance":
        low, high = USUAL_OIL_RANGE
        oil = Estimate(low=low, high=high, kind="density", usual=USUAL_OIL_G_PER_ML)
        return {"density_g_per_ml": oil}
    if kind == "wick" and values.get("wick_kind"):
        return {"trim_mm": _trim(str(values["wick_kind"]))}
    if kind == "sheet" and values.get("page") in PAGE_MM:
        return _page(str(values["page"]))
    return {}


def _of_class(wax_class: str) -> dict[str, Estimate]:
    usual = WAX_CLASSES.get(wax_class, WAX_CLASSES["other"])
    of = CLASS_SHORT.get(wax_class, "")
    why = N_("{value} (estimate for {of})") if of else N_("{value} (estimate)")
    spans: dict[str, tuple[tuple[float, float], str]] = {
        "liquid_g_per_ml": (usual.liquid_range_g_per_ml, "density"),
        "set_g_per_ml": (usual.set_range_g_per_ml, "density"),
        "melts_from_c": ((usual.melts_c[0], usual.melts_c[0]), "temperature"),
        "melts_to_c": ((usual.melts_c[1], usual.melts_c[1]), "temperature"),
        "heat_to_c": ((usual.heat_to_c, usual.heat_to_c), "temperature"),
        "add_oil_c": (usual.add_oil_c, "temperature"),
        "pour_c": (usual.pour_c, "temperature"),
        "cure_days": (usual.cure_days, "days"),
    }
    if usual.flash_c is not None:
        spans["flash_c"] = ((usual.flash_c, usual.flash_c), "temperature")
    taken = {"liquid_g_per_ml": usual.liquid_g_per_ml, "set_g_per_ml": usual.set_g_per_ml}
    shown = {
        name: Estimate(low=low, high=high, kind=kind, why=why, of=of, usual=taken.get(name))
        for name, ((low, high), kind) in spans.items()
    }
    # The range of a density is long; with the class it would not fit into a narrow field.
    short = N_("{value} (estimate)")
    return shown | {name: replace(shown[name], why=short) for name in taken}


def _trim(wick_kind: str) -> Estimate:
    wooden = wick_kind in WOODEN
    low, high = USUAL_TRIM_MM[wooden]
    of = N_("wooden wicks") if wooden else N_("cotton and paper wicks")
    return Estimate(low=low, high=high, kind="length", why=N_("{value} (usual for {of})"), of=of)


def _page(page: str) -> dict[str, Estimate]:
    return {
        name: Estimate(low=size, high=size, kind="length", why=N_("{value} ({of})"), of=page)
        for name, size in zip(("page_w_mm", "page_h_mm"), PAGE_MM[page], strict=True)
    }


def estimate_texts(texts: Texts, kind: str, values: Mapping[str, object]) -> dict[str, str]:
    """What stands in each empty field, by field name."""
    said = {name: one.text(texts) for name, one in estimates(kind, values).items()}
    if kind == "wax":
        said["finish"] = _usual_finish(texts, str(values.get("wax_class") or ""))
    return said


def _usual_finish(texts: Texts, wax_class: str) -> str:
    """How a wax of the class is usually finished: in one pour, topped up, with a second pour."""
    usual = WAX_CLASSES.get(wax_class, WAX_CLASSES["other"])
    said, of = texts(FINISH_NAMES[usual.finish]), CLASS_SHORT.get(wax_class, "")
    if not of:
        return said
    return texts(N_("{value} (usual for {of})"), value=said, of=texts(of))


def filled(kind: str, values: Mapping[str, object]) -> dict[str, object]:
    """The values with estimates in place of what is empty, for checks and drawings."""
    full = {name: one.middle for name, one in estimates(kind, values).items()}
    return full | {name: value for name, value in values.items() if value is not None}
