"""The calendar of a plan as a page to hang up in the workshop."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from wickbench.app.plan_calendar import plan_calendar
from wickbench.app.plan_view import view_plan
from wickbench.app.plans import load_plan
from wickbench.app.shelf import load_shelf
from wickbench.app.texts_marker import N_
from wickbench.app.weigh_sheets import paper_sheet, paper_texts
from wickbench.documents.calendar_page import (
    CalendarPage,
    PageBar,
    PageDay,
    PageLane,
    draw_calendar_page,
)
from wickbench.documents.numbered_pages import draw_numbered
from wickbench.documents.pdf_file import write_pdf
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Rank
from wickbench.domain.pour_calendar import Step

if TYPE_CHECKING:
    from pathlib import Path

    from wickbench.app.plan_calendar import Bar, PlanCalendar
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.documents.flow import Flow
    from wickbench.documents.surface import Surface

_KINDS = {Step.TEST_POUR: "cure", Step.POUR: "cure", Step.TEST_BURN: "burn"}
_LEGEND = N_("Light: from the pour until it is cured. Dark: burn tests. Square: order, or label.")


def write_calendar(workspace: Workspace, plan: int, path: Path) -> Path:
    """Write the calendar of a plan.

    Raises:
        DomainError: ``calendar.no-day`` while nobody said when it is needed; or the file cannot
            be written.
    """
    texts, today = paper_texts(workspace), workspace.clock.today()
    row, shelf = load_plan(workspace, plan), load_shelf(workspace)
    view = view_plan(row, shelf, workspace.settings, texts, today=today)
    shown = plan_calendar(view, shelf, workspace.settings, texts, today=today)
    if shown is None:
        raise DomainError("calendar.no-day")
    page = calendar_page(shown, row.name, texts)
    sheet = paper_sheet(workspace, texts, N_("Calendar"), today)

    def draw_page(flow: Flow) -> None:
        draw_calendar_page(flow, page)

    def draw(surface: Surface) -> None:
        draw_numbered(surface, sheet, draw_page)

    return write_pdf(path, draw, title=page.title, language=texts.language)


def calendar_page(shown: PlanCalendar, name: str, texts: Texts) -> CalendarPage:
    """What stands on the page."""
    ends = [day for lane in shown.lanes for bar in lane.bars for day in (bar.first, bar.last)]
    first, last = min([*ends, shown.today]), max([*ends, shown.needed_on])
    return CalendarPage(
        title=texts(N_("Needed by {day}"), day=texts.date(shown.needed_on)),
        subtitle=name,
        lanes=tuple(
            PageLane(lane.name, tuple(_bar(bar, first, last) for bar in lane.bars))
            for lane in shown.lanes
        ),
        first=texts.date(first),
        last=texts.date(last),
        legend=texts(_LEGEND),
        days=tuple(PageDay(day.when, day.title, day.why) for day in shown.days),
        warnings=tuple(texts.say(one) for one in shown.findings if one.rank is Rank.STOPS),
    )


def _bar(bar: Bar, first: dt.date, last: dt.date) -> PageBar:
    """A bar as shares of the strip; a day is as wide as it is long."""
    days = (last - first).days + 1
    end = bar.last + dt.timedelta(days=1)
    kind = _KINDS.get(bar.step, "mark")
    return PageBar(kind, (bar.first - first).days / days, (end - first).days / days)
