"""The weigh sheets of a plan: from the plan in words to the paper."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.held_back import held_texts
from wickbench.app.label_making import typeface_shelf
from wickbench.app.mixes import main_wax, wax_defaults
from wickbench.app.paper_sizes import paper_size
from wickbench.app.plan_cards import ESTIMATED, estimated_temperatures
from wickbench.app.plan_pots import celsius
from wickbench.app.plan_view import PlanView, view_plan
from wickbench.app.plans import load_plan, pour_day
from wickbench.app.pour_codes import taken_codes
from wickbench.app.pour_session import Session, load_session
from wickbench.app.shelf import Shelf, load_shelf
from wickbench.app.texts_marker import N_
from wickbench.app.weighed_sheets import (
    weighed_facts,
    weighed_fills,
    weighed_lines,
    weighed_subtitle,
)
from wickbench.documents.flow import PaperFaces
from wickbench.documents.numbered_pages import Sheet, draw_numbered
from wickbench.documents.pdf_file import write_pdf
from wickbench.documents.typefaces import REGULAR, SANS
from wickbench.documents.weigh_sheet import SheetLine, WeighSheet, draw_weigh_sheets
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Rank

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable
    from pathlib import Path

    from wickbench.app.plan_pots import PotCard
    from wickbench.app.settings import Settings
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.documents.surface import Surface
    from wickbench.domain.findings import Finding

_HEADINGS = (
    "", N_("Material"), N_("Weigh"), "", N_("How"), N_("Weighed"),
)  # fmt: skip
CAUTIONS = (
    N_(
        "Hot wax burns: gloves and goggles on, children and pets out. Never leave a pot on the "
        "heat alone; smother burning wax with a lid, never water."
    ),
    N_(
        "Keep oils away from flame and off the skin; air the room. The data sheets of your "
        "materials and local rules come before this sheet."
    ),
)
_NOTES = N_("Notes: temperatures, room, what went otherwise")
PAPER_MARGIN_MM = 12.0
_TEST_ONLY = N_("For testing, not for sale: {names}.")


def paper_texts(workspace: Workspace) -> Texts:
    """Words of papers, in their own language, with the person's units."""
    return workspace.texts.in_language(workspace.settings.text("language_of_papers") or "en")


def sheets_of(view: PlanView, shelf: Shelf, settings: Settings, texts: Texts) -> list[WeighSheet]:
    """One sheet for each pot of a plan."""
    day = view.plan.pour_on or ""
    return [_sheet(card, view, shelf, settings, texts, day) for card in view.pots]


def _sheet(  # noqa: PLR0917 - what a sheet is made of
    card: PotCard, view: PlanView, shelf: Shelf, settings: Settings, texts: Texts, day: str
) -> WeighSheet:
    lot = texts(settings.text("lot_word"))
    when = texts.date(day) if day else ""
    return WeighSheet(
        title=card.title,
        lot=f"{lot} {card.lot_code}" if card.lot_code else "",
        subtitle=" · ".join(part for part in (when, card.total) if part),
        headings=tuple(texts(words) for words in _HEADINGS),
        lines=tuple(
            SheetLine(
                name=one.name, amount=one.amount, other=one.other, scale=one.scale, when=one.when
            )
            for one in card.weigh
        ),
        facts=_facts(card, view, shelf, texts),
        fills=card.fills,
        cautions=tuple(texts(words) for words in CAUTIONS),
        notes=texts(_NOTES),
    )


def sheets_of_session(
    session: Session, day: str, settings: Settings, texts: Texts
) -> list[WeighSheet]:
    """One sheet for each pot of a pour that was begun: planned, and what was weighed."""
    return [_weighed_sheet(session, at, day, settings, texts) for at in range(len(session.pots))]


def _weighed_sheet(
    session: Session, at: int, day: str, settings: Settings, texts: Texts
) -> WeighSheet:
    one = session.pots[at]
    subtitle = (texts.date(day) if day else "", weighed_subtitle(session, at, texts))
    return WeighSheet(
        title=one.title,
        lot=f"{texts(settings.text('lot_word'))} {one.lot_code}" if one.lot_code else "",
        subtitle=" · ".join(part for part in subtitle if part),
        headings=tuple(texts(words) for words in _HEADINGS),
        lines=weighed_lines(session, at, texts),
        facts=weighed_facts(session, at, texts),
        fills=weighed_fills(session, at, texts),
        filled=one.state == "done",
        cautions=tuple(texts(words) for words in CAUTIONS),
        notes=texts(_NOTES),
    )


def _facts(card: PotCard, view: PlanView, shelf: Shelf, texts: Texts) -> tuple[str, ...]:
    facts = [texts(N_("Load {load}"), load=card.load)]
    facts += _heat_to(card, shelf, texts)
    facts += _add_oil_at(card, shelf, texts)
    if card.pour_at:
        facts.append(_pour_at(card, shelf, texts))
    facts += held_texts(card.plan, texts)
    facts.append(texts(N_("Left over at the end: {left}"), left=card.leftover))
    version = shelf.versions.get(int(str(card.plan.recipe_key)))
    if version is not None and estimated_temperatures(version, shelf):
        facts.append(texts(ESTIMATED))
    lines = {fill.line_key for fill in card.plan.fills}
    names = dict.fromkeys(
        str(one.data.get("candle") or one.data.get("vessel"))
        for one in view.findings
        if one.key.startswith(("plan.candle-", "plan.line-no-candle")) and one.about[1] in lines
    )
    if names:
        facts.append(texts(_TEST_ONLY, names=", ".join(names)))
    return tuple(facts)


def _heat_to(card: PotCard, shelf: Shelf, texts: Texts) -> list[str]:
    """How hot the wax is made, with what is usual for its class."""
    version = shelf.versions.get(int(str(card.plan.recipe_key)))
    wax = main_wax(version, shelf) if version is not None else None
    heat_c = card.plan.recipe.heat_to_c
    if wax is None or heat_c is None:
        return []
    hot, usual = celsius(texts, heat_c), celsius(texts, wax_defaults(wax).heat_to_c)
    return [texts(N_("Heat the wax to {hot}; usual for such a wax {usual}"), hot=hot, usual=usual)]


def _add_oil_at(card: PotCard, shelf: Shelf, texts: Texts) -> list[str]:
    """The window for the oil that is usual for the wax's class; nothing without oil."""
    version = shelf.versions.get(int(str(card.plan.recipe_key)))
    wax = main_wax(version, shelf) if version is not None else None
    add_c = card.plan.recipe.add_c
    if wax is None or add_c is None or not card.plan.load.percent:
        return []
    low, high = wax_defaults(wax).add_oil_c
    return [
        texts(
            N_("Add oil at {hot}; usual for such a wax {low} to {high}"),
            hot=celsius(texts, add_c),
            low=celsius(texts, low),
            high=celsius(texts, high),
        )
    ]


def _pour_at(card: PotCard, shelf: Shelf, texts: Texts) -> str:
    """The pouring temperature with the window that is usual for the wax's class."""
    version = shelf.versions.get(int(str(card.plan.recipe_key)))
    wax = main_wax(version, shelf) if version is not None else None
    if wax is None:
        return texts(N_("Pour at {hot}"), hot=card.pour_at)
    low, high = wax_defaults(wax).pour_c
    return texts(
        N_("Pour at {hot}; usual for such a wax {low} to {high}"),
        hot=card.pour_at,
        low=celsius(texts, low),
        high=celsius(texts, high),
    )


def write_weigh_sheets(workspace: Workspace, plan: int, path: Path) -> Path:
    """Write the weigh sheets of a plan as PDF; once begun, with what was really weighed.

    Raises:
        DomainError: ``weigh.nothing`` when the plan has no pot yet, and when the file cannot be
            written.
    """
    shelf, texts = load_shelf(workspace), paper_texts(workspace)
    row = load_plan(workspace, plan)
    today = workspace.clock.today()
    view = view_plan(
        row, shelf, workspace.settings, texts, today=today, taken_codes=taken_codes(workspace, plan)
    )
    session = load_session(workspace, plan)
    if session is not None:
        sheets = sheets_of_session(session, row.pour_on or "", workspace.settings, texts)
    else:
        sheets = sheets_of(view, shelf, workspace.settings, texts)
    if not sheets:
        raise DomainError("weigh.nothing")
    sheet = paper_sheet(workspace, texts, N_("Weigh sheet"), pour_day(row, today))

    def draw(surface: Surface) -> None:
        draw_numbered(surface, sheet, lambda flow: draw_weigh_sheets(flow, sheets))

    title = texts(N_("Weigh sheets, {day}"), day=texts.date(pour_day(row, today)))
    return write_pdf(path, draw, title=title, language=texts.language)


def paper_sheet(workspace: Workspace, texts: Texts, kind: str, day: dt.date) -> Sheet:
    """Page, margins and foot of a paper: whose it is, what it is (a msgid) and of which day."""
    parts = (workspace.settings.text("business_name"), texts(kind), texts.day(day))
    return Sheet(
        faces=paper_faces(),
        page_mm=paper_size(workspace.settings),
        margin_mm=PAPER_MARGIN_MM,
        foot=" · ".join(part for part in parts if part),
        page_words=page_words(texts),
    )


def page_words(texts: Texts) -> Callable[[int, int], str]:
    """What stands at the right of a page's foot."""
    return lambda page, pages: texts(N_("page {page} of {pages}"), page=str(page), pages=str(pages))


def paper_faces() -> PaperFaces:
    """The typefaces of papers, which always exist."""
    shelf = typeface_shelf()
    return PaperFaces(shelf.nearest(SANS, REGULAR)[0], shelf.nearest(SANS, "Bold")[0])


def stops_of(view: PlanView) -> tuple[Finding, ...]:
    """What stops the pour."""
    return tuple(one for one in view.findings if one.rank is Rank.STOPS)
