"""Words and values that a frame of facts prints beside the fields of texts."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.texts_marker import N_
from wickbench.documents.facts_block import BARE, BOTH, WORD
from wickbench.domain.errors import OutOfRange
from wickbench.domain.net_weight import declared_for

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.settings import Settings
    from wickbench.app.texts import Texts
    from wickbench.domain.net_weight import Declared

FACT_WORDS: Final[Mapping[str, str]] = {
    "identity": N_("What it is"),
    "poured_on": N_("Poured on"),
    "burn_time": N_("Burning"),
    "ingredients": N_("Contains"),
    "wax": N_("Wax"),
    "fragrance": N_("Fragrance"),
    "code": N_("Article"),
    "price": N_("Price"),
    "business": N_("Made by"),
    "business_address": N_("Address"),
    "web": N_("Web"),
}
"""Printed before the value; the words of lot and net weight come with their values."""

_BURN_ALONE: Final = N_("at most {n} hours at a time")
_MG_PER_G: Final = 1000


def fact_words(settings: Settings, texts: Texts) -> dict[str, str]:
    """The words before the values, under their reserved names.

    Args:
        settings: of the file.
        texts: in the language of labels.
    """
    words = {WORD + name: texts(word) for name, word in FACT_WORDS.items()}
    return {**words, WORD + "lot": texts(settings.text("lot_word"))}


def fact_values(
    declared_net_g: float | None, burn_hours: int | None, settings: Settings, texts: Texts
) -> dict[str, str]:
    """Values that read otherwise in a frame of facts, under their reserved names.

    Args:
        declared_net_g: declared net weight; None while there is none.
        burn_hours: longest burn; None for what is not burnt.
        settings: of the file.
        texts: in the language of labels.
    """
    found = {}
    if burn_hours is not None:
        found[BARE + "burn_time"] = texts(_BURN_ALONE, n=burn_hours)
    return found | _net(declared_net_g, settings, texts)


def declared_net(
    declared_net_g: float | None, settings: Settings, texts: Texts, *, both: bool = False
) -> Declared | None:
    """The declared net weight as printed wherever it is sold; None when it cannot be.

    Args:
        declared_net_g: as the candle says.
        settings: of the file.
        texts: in the language of labels.
        both: in grams and ounces, whatever the region asks for; each figure rounded down.
    """
    if declared_net_g is None:
        return None
    mass_mg = round(declared_net_g * _MG_PER_G)
    try:
        return declared_for(mass_mg, settings.regions, texts.language, both=both)
    except OutOfRange:
        return None


def _net(declared_net_g: float | None, settings: Settings, texts: Texts) -> dict[str, str]:
    found: dict[str, str] = {}
    for name, both in (("net_weight", False), (BOTH, True)):
        said = declared_net(declared_net_g, settings, texts, both=both)
        if said is not None:
            found |= {name: said.text, WORD + name: said.lead}
    found.pop("net_weight", None)
    return found
