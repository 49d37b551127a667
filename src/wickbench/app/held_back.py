"""What a pot holds back for the top-up or the second pour, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.texts import Texts
    from wickbench.domain.plan import PotPlan

_WHAT_FOR = {
    "top_up": N_(
        "Pour {first} at first; hold back {all} to top up: {each}, once set, with the sinkholes "
        "opened."
    ),
    "second": N_(
        "Pour {first} at first; hold back {all} for the second pour: {each}, once the first has "
        "set firm but is still warm."
    ),
}


def held_texts(pot: PotPlan, texts: Texts) -> list[str]:
    """One sentence that says how much, for which vessels and when; nothing for a single pour."""
    if not pot.held_g:
        return []
    fills = [fill for fill in pot.fills if fill.held_g]
    first = {fill.vessel_name: fill.each_g - fill.held_g for fill in fills}
    later = {fill.vessel_name: fill.held_g for fill in fills}
    return [
        texts(
            _WHAT_FOR[pot.finish],
            all=texts.quantity(pot.held_g, "mass", step=1, both=False),
            first=_each(first, texts),
            each=_each(later, texts),
        )
    ]


def _each(masses_g: Mapping[str, float], texts: Texts) -> str:
    """Grams for each vessel; the vessel is named where several differ."""
    several = len({round(mass_g, 3) for mass_g in masses_g.values()}) > 1
    each = N_("{mass} for each {vessel}") if several else N_("{mass} each")
    said = dict.fromkeys(
        texts(
            each,
            mass=texts.quantity(mass_g, "mass", step=0.1, both=False),
            vessel=vessel,
        )
        for vessel, mass_g in masses_g.items()
    )
    return ", ".join(said)
