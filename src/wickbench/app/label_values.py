"""What fields in labels are filled with: candle, recipe, lot, net weight and business."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.business import business_name, business_place
from wickbench.app.label_facts import declared_net, fact_values, fact_words
from wickbench.app.material_estimates import CLASS_SHORT
from wickbench.app.texts_marker import N_
from wickbench.domain.catalog import Fragrance, Wax

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.domain.catalog import Candle, RecipeVersion

FIELD_WORDS: Final[Mapping[str, str]] = {
    "candle": N_("Name of the candle"),
    "identity": N_("What it is, as the candle says"),
    "recipe": N_("Recipe"),
    "vessel": N_("Vessel"),
    "wax": N_("Kind of wax"),
    "fragrance": N_("Fragrance"),
    "ingredients": N_("What the oils contain"),
    "code": N_("Code of the candle"),
    "net_weight": N_("Net weight"),
    "net_weight_first": N_("Net weight, first of two lines"),
    "net_weight_second": N_("Net weight, second of two lines"),
    "lot": N_("Lot"),
    "poured_on": N_("Day of pouring"),
    "burn_time": N_("Burn advice"),
    "price": N_("Price"),
    "business": N_("Name of the business"),
    "business_address": N_("Place of the business"),
    "phone": N_("Telephone"),
    "email": N_("E-mail"),
    "web": N_("Web address"),
    "number": N_("Running number"),
    "of": N_("Last running number"),
}
"""Fields in the order of the list to insert from: name to msgid."""

_SAMPLE_G: Final = 220.0
_SAMPLE_DAY: Final = "2026-11-26"
_BURN: Final = N_("Burn at most {n} hours at a time")
LONGEST_BURN_H: Final = 4
"""Longest burn in hours: common practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelSubject:
    """What a label is printed for.

    Attributes:
        candle_id: ``None`` while none is chosen.
        lot_code: as printed, without the word before it.
        poured_on: ISO date, or empty.
    """

    candle_id: int | None = None
    lot_code: str = ""
    poured_on: str = ""


def label_values(
    shelf: Shelf, settings: Settings, texts: Texts, subject: LabelSubject
) -> dict[str, str]:
    """Value of each field by its name; empty where nothing is known.

    Words and values for a frame of facts stand beside them, under names that no text can hold.

    Args:
        shelf: the snapshot.
        settings: of the file.
        texts: in the language of labels.
        subject: candle and lot.
    """
    values = {**_business(settings, texts), **_lot(settings, texts, subject)}
    candle = shelf.candles.get(subject.candle_id) if subject.candle_id else None
    if candle is not None:
        values |= _candle(shelf, settings, texts, candle)
    fields = {name: values.get(name, "") for name in FIELD_WORDS}
    return fields | fact_words(settings, texts) | _facts(settings, texts, candle)


def sample_values(settings: Settings, texts: Texts) -> dict[str, str]:
    """Values for looking at a label before there is a candle."""
    sample = {
        "candle": texts(N_("Name of candle")),
        "recipe": texts(N_("Name of scent")),
        "identity": texts(N_("scented {wax} candle"), wax=texts(CLASS_SHORT["soy"])),
        "wax": texts(CLASS_SHORT["soy"]),
        **_net_weight(_SAMPLE_G, settings, texts),
        "business": texts(N_("Your business")),
        "business_address": texts(N_("Street, town")),
        "lot": f"{texts(settings.text('lot_word'))} 26-330-A1",
        "number": "7",
        "of": "48",
        "poured_on": texts.day(_SAMPLE_DAY),
        "burn_time": texts(_BURN, n=LONGEST_BURN_H),
    }
    own = {name: value for name, value in _business(settings, texts).items() if value}
    fields = {**{name: texts(word) for name, word in FIELD_WORDS.items()}, **sample, **own}
    said = fact_words(settings, texts) | fact_values(_SAMPLE_G, LONGEST_BURN_H, settings, texts)
    return fields | said


def _net_weight(declared_net_g: float | None, settings: Settings, texts: Texts) -> dict[str, str]:
    """The declared net weight as printed where it is sold, whole and on two lines."""
    said = declared_net(declared_net_g, settings, texts)
    if said is None:
        return {}
    first, second = (*said.lines, "")[:2]
    return {
        "net_weight": said.text,
        "net_weight_first": first,
        "net_weight_second": second,
    }


def _facts(settings: Settings, texts: Texts, candle: Candle | None) -> dict[str, str]:
    if candle is None:
        return {}
    hours = LONGEST_BURN_H if candle.wick_ids else None
    return fact_values(candle.declared_net_g, hours, settings, texts)


def _business(settings: Settings, texts: Texts) -> dict[str, str]:
    return {
        "business": business_name(settings, texts),
        "business_address": business_place(settings),
        "phone": settings.text("business_phone"),
        "email": settings.text("business_email"),
        "web": settings.text("business_web"),
    }


def _lot(settings: Settings, texts: Texts, subject: LabelSubject) -> dict[str, str]:
    word = texts(settings.text("lot_word"))
    return {
        "lot": f"{word} {subject.lot_code}" if subject.lot_code else "",
        "poured_on": texts.day(subject.poured_on) if subject.poured_on else "",
    }


def _candle(shelf: Shelf, settings: Settings, texts: Texts, candle: Candle) -> dict[str, str]:
    version = shelf.versions.get(candle.version_id) if candle.version_id else None
    recipe = _recipe(shelf, texts, version) if version is not None else {}
    price = candle.price_money
    return {
        **recipe,
        "candle": candle.name,
        "identity": candle.identity or _identity(recipe, candle, texts),
        "vessel": shelf.names.get(candle.vessel_id, "") if candle.vessel_id else "",
        "code": candle.code or "",
        "burn_time": texts(_BURN, n=LONGEST_BURN_H) if candle.wick_ids else "",
        **_net_weight(candle.declared_net_g, settings, texts),
        "price": texts.money(price) if price is not None else "",
    }


def _identity(recipe: Mapping[str, str], candle: Candle, texts: Texts) -> str:
    """What it is by its waxes and oils, where the candle does not say it itself."""
    wax = recipe.get("wax", "")
    if not wax:
        return ""
    melts = not candle.wick_ids
    if recipe.get("fragrance"):
        words = N_("scented {wax} melts") if melts else N_("scented {wax} candle")
    else:
        words = N_("{wax} melts") if melts else N_("{wax} candle")
    return texts(words, wax=wax)


def _recipe(shelf: Shelf, texts: Texts, version: RecipeVersion) -> dict[str, str]:
    waxes: dict[str, None] = {}
    oils: list[str] = []
    contents: dict[str, None] = {}
    for part in version.parts:
        material = shelf.materials.get(part.item_id) if part.item_id else None
        if material is None:
            continue
        details = material.details
        if isinstance(details, Wax):
            short = CLASS_SHORT.get(details.wax_class or "", "")
            waxes[texts(short) if short else material.name] = None
        elif isinstance(details, Fragrance):
            oils.append(material.name)
            contents |= dict.fromkeys([details.ingredients] if details.ingredients else [])
    return {
        "recipe": version.name,
        "wax": texts(N_(" and ")).join(waxes),
        "fragrance": ", ".join(oils),
        "ingredients": "; ".join(contents),
    }
