"""The words and figures of a recipe card, and the cards as PDF."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.card_limits import candle_table, heat_table, limit_table
from wickbench.app.card_tables import amount_table, blend_table
from wickbench.app.mixes import recipe_of
from wickbench.app.recipe_edit import remembered_amount
from wickbench.app.recipe_view import view_recipe
from wickbench.app.recipe_words import beside_the_oil, both_bases, version_name
from wickbench.app.shelf import load_shelf
from wickbench.app.texts_marker import N_
from wickbench.app.weigh_sheets import CAUTIONS, paper_sheet, paper_texts
from wickbench.documents.pdf_file import write_pdf
from wickbench.documents.recipe_card import RecipeCard, draw_recipe_cards
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Rank
from wickbench.domain.recipes import normalised
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from wickbench.app.recipe_view import Wanted
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.documents.surface import Surface
    from wickbench.domain.catalog import RecipeVersion
    from wickbench.domain.recipes import Recipe

_RANKS: Final = {Rank.STOPS: N_("Stops you"), Rank.WATCH: N_("Watch")}


def recipe_card(
    version: RecipeVersion,
    shelf: Shelf,
    texts: Texts,
    wanted: Wanted,
    *,
    lot_word: str = "Lot",
    scent: str = "",
    notes: Sequence[str] = (),
) -> RecipeCard:
    """The card of a version as it is stored.

    Args:
        version: what is made.
        shelf: materials, candles, scales.
        texts: language and units of papers.
        wanted: the amount in the last column.
        lot_word: what the maker calls a lot.
        scent: the scent in words.
        notes: what the maker wrote.

    Raises:
        DomainError: ``recipe.no-wax`` and what else keeps a recipe from being made.
    """
    recipe = recipe_of(version, shelf)
    view = view_recipe(version, shelf, wanted)
    subtitle = (version_name(texts, version), scent)
    return RecipeCard(
        title=version.name or texts(N_("Recipe without a name")),
        subtitle=" · ".join(part for part in subtitle if part),
        lot=texts(N_("{lot} ____________________"), lot=texts(lot_word)),
        load=_load(version, recipe, texts),
        tables=(
            blend_table(recipe, shelf, texts),
            amount_table(recipe, shelf, texts, wanted),
            heat_table(version, shelf, texts),
            limit_table(recipe, shelf, texts),
            candle_table(version, shelf, texts),
        ),
        watch=tuple(
            f"{texts(_RANKS[one.rank])}: {texts.say(one)}"
            for one in view.findings
            if one.rank in _RANKS
        ),
        cautions=tuple(texts(words) for words in CAUTIONS),
        notes=tuple(words for words in notes if words),
        notes_word=texts(N_("Notes")),
    )


def _load(version: RecipeVersion, recipe: Recipe, texts: Texts) -> str:
    """The load both ways; one of total is kept of the whole mix, dye and additives counted in."""
    if version.load is None or not normalised(recipe.fragrance):
        return texts(N_("No fragrance"))
    said = both_bases(texts, version.load, beside_the_oil(version))
    return texts(N_("Fragrance load {load}"), load=said) if said else texts(N_("No fragrance"))


def write_recipe_cards(workspace: Workspace, path: Path, *, only: int | None = None) -> Path:
    """Write a card for the newest version of each recipe in use, or for one version only.

    Raises:
        DomainError: ``recipe.no-wax`` where one version was asked for that cannot be made,
            ``recipe-card.nothing`` where none can, and when the file cannot be written.
    """
    shelf, texts = load_shelf(workspace), paper_texts(workspace)
    if only is not None:
        cards = [_card(workspace, shelf.versions[only], shelf, texts)]
    else:
        cards = _every_card(workspace, shelf, texts)
    if not cards:
        raise DomainError("recipe-card.nothing")
    sheet = paper_sheet(workspace, texts, N_("Recipe card"), workspace.clock.today())

    def draw(surface: Surface) -> None:
        draw_recipe_cards(surface, sheet, cards)

    title = cards[0].title if only is not None else texts(N_("Recipe cards"))
    author = workspace.settings.text("business_name")
    return write_pdf(path, draw, title=title, language=texts.language, author=author)


def _every_card(workspace: Workspace, shelf: Shelf, texts: Texts) -> list[RecipeCard]:
    """Cards of what can be made; what has no wax yet has no card."""
    with workspace.read() as connection:
        kept = {row["id"] for row in records.fetch_all(connection, "recipe") if row["archived"]}
    cards = []
    for version in shelf.newest_versions():
        if version.recipe_id in kept or not any(part.role == "wax" for part in version.parts):
            continue
        try:
            cards.append(_card(workspace, version, shelf, texts))
        except DomainError as error:
            said = workspace.texts(N_("{name}: {why}"), name=version.name, why=texts.say(error))
            workspace.ask.tell(said)
    return cards


def _card(workspace: Workspace, version: RecipeVersion, shelf: Shelf, texts: Texts) -> RecipeCard:
    with workspace.read() as connection:
        recipe = records.fetch(connection, "recipe", version.recipe_id)
    return recipe_card(
        version,
        shelf,
        texts,
        remembered_amount(workspace),
        lot_word=workspace.settings.text("lot_word"),
        scent=str(recipe.get("scent_words") or ""),
        notes=(str(recipe.get("note") or ""), version.note or ""),
    )
