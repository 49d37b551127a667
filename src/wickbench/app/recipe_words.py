"""The words for loads and versions: "8 % of wax", "v3 · for sale"."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.recipe_fields import STATE_NAMES
from wickbench.app.texts_marker import N_
from wickbench.domain.rounding import half_up

if TYPE_CHECKING:
    from wickbench.app.texts import Texts
    from wickbench.domain.catalog import RecipeVersion
    from wickbench.domain.recipes import Load

_WHOLE = 100.0
_BASES = {"wax": N_("{percent} of wax"), "total": N_("{percent} of total")}


def percent(texts: Texts, value: float) -> str:
    """A percentage with two decimals at most and no needless zero; its basis stands beside it."""
    return texts.units.full(float(half_up(value * 100)) / 100, "percent")


def load_text(texts: Texts, load: Load | None) -> str:
    """A load with its basis: "8 % of wax"; empty for none."""
    if load is None:
        return ""
    return texts(_BASES[load.basis], percent=percent(texts, load.percent))


def both_bases(texts: Texts, load: Load | None, beside_percent: float = 0.0) -> str:
    """A load said both ways: "8 % of wax = 7.41 % of total".

    Args:
        texts: words and units.
        load: as the recipe says it.
        beside_percent: dye and additives in the mix, in percent of the wax: they are part of the
            total.
    """
    if load is None or not load.percent:
        return ""
    wax, total = load.of_wax, load.of_total
    if load.basis == "wax":
        total = _WHOLE * wax / (_WHOLE + wax + beside_percent)
    else:
        wax = total * (_WHOLE + beside_percent) / (_WHOLE - total)
    of_wax = texts(_BASES["wax"], percent=percent(texts, wax))
    of_total = texts(_BASES["total"], percent=percent(texts, total))
    first, second = (of_wax, of_total) if load.basis == "wax" else (of_total, of_wax)
    return f"{first} = {second}"


def beside_the_oil(version: RecipeVersion) -> float:
    """Dye and additives of a version together, in percent of the wax."""
    return sum(
        part.of_wax_percent or 0.0 for part in version.parts if part.role in {"dye", "additive"}
    )


def version_name(texts: Texts, version: RecipeVersion) -> str:
    """A version with its state: "v3 · for sale"."""
    state = texts(STATE_NAMES.get(version.state, ""))
    return texts(N_("v{number} · {state}"), number=version.number, state=state)
