"""Tables of a recipe card: what goes in, and how much of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.card_amounts import card_column
from wickbench.app.plan_inputs import usable_scales
from wickbench.app.recipe_shown import amount_text, step_of
from wickbench.app.recipe_view import Wanted
from wickbench.app.recipe_words import percent
from wickbench.app.texts_marker import N_
from wickbench.documents.recipe_card import CardTable
from wickbench.domain.recipes import Role, mix_parts, normalised, share_percents

if TYPE_CHECKING:
    from wickbench.app.card_amounts import CardColumn
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.domain.recipes import Recipe

_POUND_G: Final = 453.59237
_KINDS: Final = {
    Role.WAX: N_("wax"), Role.FRAGRANCE: N_("fragrance oil"), Role.DYE: N_("dye"),
    Role.ADDITIVE: N_("additive"),
}  # fmt: skip
_COARSE: Final = N_(
    "* One step of the scale is more than 3 % of it: weigh it on a finer scale, or make more."
)


def blend_table(recipe: Recipe, shelf: Shelf, texts: Texts) -> CardTable:
    """Each material in parts, of its blend, of the wax and of the whole mix."""
    blends = {Role.WAX: recipe.wax, Role.FRAGRANCE: recipe.fragrance}
    shares = {role: share_percents(normalised(blend)) for role, blend in blends.items()}
    parts = mix_parts(recipe)
    wax = sum(part.share for part in parts if part.role is Role.WAX)
    rows = []
    for part in parts:
        blend = blends.get(part.role)
        rows.append(
            (
                shelf.names.get(part.material, ""),
                texts(_KINDS[part.role]),
                "" if blend is None else texts.units.full(blend[part.material], "number"),
                "" if blend is None else percent(texts, shares[part.role][part.material]),
                percent(texts, 100 * part.share / wax),
                percent(texts, 100 * part.share),
            )
        )
    return CardTable(
        title=texts(N_("What goes in")),
        headings=(
            texts(N_("Material")), "", texts(N_("Parts")), texts(N_("Of its blend")),
            texts(N_("Of all the wax")), texts(N_("Of the mix")),
        ),
        rows=tuple(rows),
        shares=(3.4, 1.9, 1.0, 1.3, 1.5, 1.3),
        right=(2, 3, 4, 5),
    )  # fmt: skip


def amount_table(recipe: Recipe, shelf: Shelf, texts: Texts, chosen: Wanted) -> CardTable:
    """What to weigh for three amounts of wax and for the amount that was chosen."""
    step_g = None if texts.units.first("mass") == "g" else step_of(texts)
    scales = usable_scales(shelf)
    columns = [card_column(recipe, wanted, scales, step_g) for wanted in _asked(texts, chosen)]
    parts = mix_parts(recipe)
    rows = tuple(
        (shelf.names.get(part.material, ""), *(_amount(column, at, texts) for column in columns))
        for at, part in enumerate(parts)
    )
    coarse = any(one.coarse for column in columns for one in column.amounts)
    return CardTable(
        title=texts(N_("Weigh")),
        headings=("", *(_heading(column.wanted, texts) for column in columns)),
        rows=rows,
        shares=(2.6, *(1.6 for _ in columns)),
        right=tuple(range(1, len(columns) + 1)),
        large=tuple(range(1, len(columns) + 1)),
        total=(
            texts(N_("Together")),
            *(_total(column, texts) for column in columns),
        ),
        notes=(texts(_COARSE),) if coarse else (),
    )


def _asked(texts: Texts, chosen: Wanted) -> list[Wanted]:
    """Half, one and two kilograms of wax, or one, two and four pounds, and what was chosen."""
    pounds = texts.units.first("mass") in {"oz", "lb", "lb oz"}
    sizes = (_POUND_G, 2 * _POUND_G, 4 * _POUND_G) if pounds else (500.0, 1000.0, 2000.0)
    asked = [Wanted(mass_g=size, of="wax") for size in sizes]
    return asked if chosen in asked else [*asked, chosen]


def _heading(wanted: Wanted, texts: Texts) -> str:
    mass = texts.units.bulk(wanted.mass_g, both=False)
    if texts.units.first("mass") in {"oz", "lb oz"}:
        mass = texts.units.full(wanted.mass_g / _POUND_G, "number") + "\u00a0lb"
    if wanted.of == "wax":
        return texts(N_("for {mass} of wax"), mass=mass)
    return texts(N_("for {mass} in all"), mass=mass)


def _amount(column: CardColumn, at: int, texts: Texts) -> str:
    one = column.amounts[at]
    return amount_text(texts, one.mass_g, one.step_g) + ("\u00a0*" if one.coarse else "")


def _total(column: CardColumn, texts: Texts) -> str:
    """The sum, no finer than the coarsest scale that took part in it."""
    coarsest = max(one.step_g for one in column.amounts)
    return amount_text(texts, column.total_g, coarsest)
