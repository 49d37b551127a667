"""Tables of a recipe card: how hot, how much may be, and which candles are made of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.candle_shown import state_text, wicks_text
from wickbench.app.candle_state import state_of
from wickbench.app.mixes import facts_of, main_wax, temperatures, wax_defaults
from wickbench.app.recipe_words import both_bases, load_text, percent
from wickbench.app.texts_marker import N_
from wickbench.documents.recipe_card import CardTable
from wickbench.domain.recipe_checks import Checked, oil_checks
from wickbench.domain.recipes import Load, actual_load, normalised

if TYPE_CHECKING:
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.domain.catalog import RecipeVersion, Wax
    from wickbench.domain.recipe_checks import Facts, OilCheck, WaxFacts
    from wickbench.domain.recipes import Recipe

_IN_RECIPE: Final = N_("the recipe")
_ON_SHEET: Final = N_("the wax’s data sheet")
_ESTIMATE: Final = N_("estimate")
_SLACK: Final = 1e-9
_AT: Final = {
    "heat_to_c": N_("Heat the wax to"), "add_oil_c": N_("Add the oil at"), "pour_c": N_("Pour at"),
}  # fmt: skip


# -- heat and time ---------------------------------------------------------------------------------
def heat_table(version: RecipeVersion, shelf: Shelf, texts: Texts) -> CardTable:
    """Temperatures with their usual windows, stirring and cure."""
    wax = main_wax(version, shelf)
    rows = [_hot(name, version, shelf, texts) for name in ("heat_to_c", "add_oil_c")]
    if version.stir_min is not None:
        minutes = texts(N_("{n} min"), n=str(version.stir_min))
        rows.append((texts(N_("Stir")), minutes, "", texts(_IN_RECIPE)))
    rows.append(_hot("pour_c", version, shelf, texts))
    if wax is not None:
        rows.append(_cure(version, wax, texts))
    return CardTable(
        title=texts(N_("How hot, how long")),
        headings=(
            "", texts(N_("Do it at")), texts(N_("Usual for such a wax (estimate)")),
            texts(N_("As said by")),
        ),
        rows=tuple(rows),
        shares=(2.2, 2.2, 3.4, 2.2),
        large=(1,),
    )  # fmt: skip


def _hot(name: str, version: RecipeVersion, shelf: Shelf, texts: Texts) -> tuple[str, ...]:
    value = temperatures(version, shelf)[name]
    wax = main_wax(version, shelf)
    usual = ""
    if wax is not None:
        found = getattr(wax_defaults(wax), name)
        low, high = found if isinstance(found, tuple) else (found, found)
        usual = _span(texts, low, high)
    said = "" if value is None else texts.quantity(value, "temperature")
    return (texts(_AT[name]), said, usual, texts(_source(name, version, wax)))


def _span(texts: Texts, low_c: float, high_c: float) -> str:
    """A window in both units: "74–85 °C · 165–185 °F"."""
    first, second = texts.units.first("temperature"), texts.units.second("temperature")
    said = []
    for unit in (first, second) if second else (first,):
        lower, upper = (texts.units.one(value, "temperature", unit) for value in (low_c, high_c))
        head = lower.removesuffix(unit).rstrip()
        said.append(upper if lower == upper else f"{head}–{upper}")
    return " · ".join(said)


def _source(name: str, version: RecipeVersion, wax: Wax | None) -> str:
    if getattr(version, name) is not None:
        return _IN_RECIPE
    return _ON_SHEET if wax is not None and getattr(wax, name) is not None else _ESTIMATE


def _cure(version: RecipeVersion, wax: Wax, texts: Texts) -> tuple[str, ...]:
    low, high = wax_defaults(wax).cure_days
    own = version.cure_days if version.cure_days is not None else wax.cure_days
    days = own if own is not None else high
    usual = texts(N_("{low} to {high} days"), low=str(low), high=str(high))
    said = texts.plural("{n} day", "{n} days", days)
    return (texts(N_("Cure")), said, usual, texts(_source("cure_days", version, wax)))


# -- limits ----------------------------------------------------------------------------------------
def limit_table(recipe: Recipe, shelf: Shelf, texts: Texts) -> CardTable:
    """What each wax holds and each oil's certificate allows, with the room that is left."""
    facts = facts_of(shelf)
    load = actual_load(recipe)
    rows = [_wax_row(facts.wax(key), load, texts) for key in normalised(recipe.wax)]
    rows += [_oil_row(one, facts, texts) for one in oil_checks(recipe, facts)]
    return CardTable(
        title=texts(N_("How much may be")),
        headings=(
            "", texts(N_("In this recipe")), texts(N_("At most")), texts(N_("Room left")),
            texts(N_("Flash point")),
        ),
        rows=tuple(rows),
        shares=(2.4, 2.0, 2.8, 2.1, 1.6),
        notes=(
            texts(
                N_(
                    "An oil is counted in percent of the finished candle, as its certificate "
                    "does. A flash point says how the oil behaves when heated; it is no limit."
                )
            ),
        ),
    )  # fmt: skip


def _wax_row(wax: WaxFacts, load: Load, texts: Texts) -> tuple[str, ...]:
    now, most, left = both_bases(texts, load) or "–", texts(N_("not entered")), ""
    if wax.max_load is not None:
        now = load_text(texts, _in_basis(load, wax.max_load.basis))
        most = both_bases(texts, wax.max_load) or texts(N_("none"))
        basis = wax.max_load.basis
        room = wax.max_load.percent - getattr(load, f"of_{basis}")
        left = _room(texts, room, N_("{room} of wax") if basis == "wax" else N_("{room} of total"))
    flash = "" if wax.flash_c is None else texts.quantity(wax.flash_c, "temperature")
    return (wax.name, now, most, left, flash)


def _in_basis(load: Load, basis: str) -> Load:
    """The same load in the basis in which a wax states its own."""
    return Load(load.of_wax if basis == "wax" else load.of_total, basis)


def _room(texts: Texts, room: float, words: str) -> str:
    if room < -_SLACK:
        return texts(N_("{room} too much"), room=percent(texts, -room))
    return texts(words, room=percent(texts, max(0.0, room)))


def _oil_row(check: OilCheck, facts: Facts, texts: Texts) -> tuple[str, ...]:
    oil = facts.oil(check.material)
    share = texts(N_("{share} of the candle"), share=percent(texts, check.share_percent))
    most, left = texts(N_("not entered")), ""
    if check.state is Checked.NO_LIMIT:
        most = texts(N_("sets no limit here"))
    elif check.limit_percent is not None:
        limit = percent(texts, check.limit_percent)
        most = texts(N_("{share} of the candle"), share=limit)
        room = check.limit_percent - check.share_percent
        left = _room(texts, room, N_("{room} of the candle"))
    flash = "" if oil.flash_c is None else texts.quantity(oil.flash_c, "temperature")
    return (oil.name, share, most, left, flash)


# -- candles ---------------------------------------------------------------------------------------
def candle_table(version: RecipeVersion, shelf: Shelf, texts: Texts) -> CardTable:
    """Candles made of this version, with vessel, wick, declared net weight and tested state."""
    own = [
        one for one in shelf.candles.values() if one.version_id == version.id and not one.archived
    ]
    rows = tuple(
        (
            " · ".join(part for part in (one.name, one.code or "") if part),
            shelf.names.get(one.vessel_id or 0, "") or "–",
            wicks_text(texts, one.wick_ids, shelf),
            texts(N_("not declared"))
            if one.declared_net_g is None
            else texts.quantity(one.declared_net_g, "mass"),
            state_text(texts, state_of(one, shelf)),
        )
        for one in sorted(own, key=lambda one: one.name.casefold())
    )
    return CardTable(
        title=texts(N_("Candles made of it")),
        headings=(
            texts(N_("Candle")), texts(N_("Vessel")), texts(N_("Wick")),
            texts(N_("Declared net weight")), texts(N_("Tested")),
        ),
        rows=rows,
        shares=(2.6, 2.0, 2.0, 1.9, 2.4),
    )  # fmt: skip
