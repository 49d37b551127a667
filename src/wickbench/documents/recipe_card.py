"""The recipe card: one version of a recipe on a page, to be hung up beside the bench."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from wickbench.documents.flow import GREY, Cell
from wickbench.documents.numbered_pages import draw_numbered, pages_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.documents.flow import Flow
    from wickbench.documents.numbered_pages import Sheet
    from wickbench.documents.surface import Surface

ACCENT: Final = "#a8540f"
SIZES: Final = (1.0, 0.93, 0.86)
"""A card that does not fit on a page is set smaller before it takes a second one."""

_TITLE_PT: Final = 18.0
_LOT_PT: Final = 11.0
_HEAD_PT: Final = 11.0
_COLUMN_PT: Final = 8.0
_TEXT_PT: Final = 9.5
_FIGURE_PT: Final = 11.5
_NOTE_PT: Final = 8.0
_HEAD_ROOM_MM: Final = 16.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CardTable:
    """A table of a card, in words.

    Attributes:
        title: over it.
        headings: of its columns.
        rows: of its cells; none leave the whole table out.
        shares: widths of the columns in parts.
        right: columns that stand right, as figures do.
        large: columns in the type of figures that are read from the bench.
        total: a last row under a rule; empty for none.
        notes: small sentences under it.
    """

    title: str
    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    shares: tuple[float, ...]
    right: tuple[int, ...] = ()
    large: tuple[int, ...] = ()
    total: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeCard:
    """Words and figures of one version, in the language and units of papers.

    Attributes:
        title: name of the recipe.
        subtitle: version, state, scent.
        lot: the word before the line for a lot code.
        load: the load in both bases; empty for none.
        tables: what goes in, how much, how hot, how much may be, what is made of it.
        watch: what stops or is to be watched, each in a sentence.
        cautions: what can hurt.
        notes: what the maker wrote about recipe and version.
        notes_word: before the lines to write on.
    """

    title: str
    subtitle: str
    lot: str
    load: str
    tables: tuple[CardTable, ...]
    watch: tuple[str, ...]
    cautions: tuple[str, ...]
    notes: tuple[str, ...]
    notes_word: str


def draw_recipe_cards(surface: Surface, sheet: Sheet, cards: Sequence[RecipeCard]) -> None:
    """Draw the cards, each from the top of a page, as large as lets it fit on one."""
    sizes = [_size_of(card, sheet) for card in cards]

    def draw(flow: Flow) -> None:
        for number, (card, size) in enumerate(zip(cards, sizes, strict=True)):
            if number:
                flow.new_page()
            _draw(flow, card, size)

    draw_numbered(surface, sheet, draw)


def _size_of(card: RecipeCard, sheet: Sheet) -> float:
    for size in SIZES:

        def draw(flow: Flow, size: float = size) -> None:
            _draw(flow, card, size)

        if pages_of(sheet, draw) == 1:
            return size
    return 1.0


def _draw(flow: Flow, card: RecipeCard, size: float) -> None:
    flow.row(
        [
            Cell(card.title, share=2.2, size_pt=_TITLE_PT * size, bold=True),
            Cell(card.lot, size_pt=_LOT_PT * size, colour=GREY),
        ],
        padding_mm=0.5,
    )
    flow.text(card.subtitle, _TEXT_PT * size, colour=GREY)
    for words in card.watch:
        flow.space(1.0 * size)
        flow.text(words, _TEXT_PT * size, bold=True)
    for number, table in enumerate(card.tables):
        _table(flow, table, size)
        if not number and card.load:
            flow.space(1.0 * size)
            flow.text(card.load, _FIGURE_PT * size, bold=True)
    flow.space(2.5 * size)
    for caution in card.cautions:
        flow.text(caution, _NOTE_PT)
    _notes(flow, card, size)


def _table(flow: Flow, table: CardTable, size: float) -> None:
    if not table.rows:
        return
    flow.space(2.5 * size)
    flow.keep(_HEAD_ROOM_MM)
    flow.text(table.title, _HEAD_PT * size, bold=True, colour=ACCENT)
    small = _COLUMN_PT * size
    heads = _cells(table, table.headings, small)
    heads = [replace(cell, size_pt=small, bold=False, colour=GREY) for cell in heads]
    flow.row(heads, padding_mm=0.4, rule=True)
    for row in table.rows:
        flow.row(_cells(table, row, _TEXT_PT * size, size), padding_mm=0.7 * size)
    if table.total:
        flow.rule(space_mm=0.0)
        flow.row(_cells(table, table.total, _TEXT_PT * size, size), padding_mm=0.7 * size)
    for note in table.notes:
        flow.text(note, _NOTE_PT, colour=GREY)


def _cells(table: CardTable, words: Sequence[str], size_pt: float, size: float = 1.0) -> list[Cell]:
    return [
        Cell(
            text,
            share=share,
            align="right" if at in table.right else "left",
            size_pt=_FIGURE_PT * size if at in table.large else size_pt,
            bold=at in table.large,
        )
        for at, (text, share) in enumerate(zip(words, table.shares, strict=True))
    ]


def _notes(flow: Flow, card: RecipeCard, size: float) -> None:
    """What the maker wrote, and lines to write on for as far as the page goes."""
    flow.space(2.0 * size)
    for words in card.notes:
        flow.text(words, _TEXT_PT * size)
    if flow.room_mm < _HEAD_ROOM_MM:
        return
    flow.text(card.notes_word, _NOTE_PT, colour=GREY)
    flow.writing_lines(int(flow.room_mm / 8.0))
