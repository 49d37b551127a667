"""The calendar of a plan on one page: a strip of days, and each step with a box to tick."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.documents.flow import GREY, Cell
from wickbench.documents.outlines import rectangle
from wickbench.documents.surface import BLACK

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.documents.flow import Flow
    from wickbench.documents.surface import Colour

_BAR_MM: Final = 4.0
_MARK_MM: Final = 2.4
_ACCENT: Final = "#a8540f"
_WASH: Final = "#f6e6d6"
_FILLS: Final[dict[str, Colour]] = {"cure": _WASH, "burn": _ACCENT}


@dataclass(frozen=True, slots=True)
class PageBar:
    """A stretch of the strip: where it begins and ends as a share of its width.

    ``kind`` is "cure" or "burn"; "mark" for a single day.
    """

    kind: str
    begin: float
    end: float


@dataclass(frozen=True, slots=True)
class PageLane:
    """One row of the strip."""

    name: str
    bars: tuple[PageBar, ...]


@dataclass(frozen=True, slots=True)
class PageDay:
    """One step: when, what, why then."""

    when: str
    title: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarPage:
    """Everything that stands on the page.

    Attributes:
        title, subtitle: above.
        lanes: the strip.
        first, last: under its ends.
        legend: how to read it.
        days: first day first.
        warnings: what stands against it, printed before the days.
    """

    title: str
    subtitle: str
    lanes: tuple[PageLane, ...]
    first: str
    last: str
    legend: str
    days: tuple[PageDay, ...]
    warnings: tuple[str, ...] = ()


def draw_calendar_page(flow: Flow, page: CalendarPage) -> None:
    """Draw it; a calendar of many steps goes over to a second page."""
    flow.heading(page.title)
    flow.text(page.subtitle, colour=GREY)
    flow.space(3)
    for words in page.warnings:
        flow.text(words, bold=True)
        flow.space(1)
    for lane in page.lanes:
        _lane(flow, lane)
    flow.row([Cell(page.first, size_pt=8.5), Cell(page.last, size_pt=8.5, align="right")])
    flow.text(page.legend, 8.5, colour=GREY)
    flow.rule(space_mm=2.5)
    for day in page.days:
        _day(flow, day)


def _lane(flow: Flow, lane: PageLane) -> None:
    flow.keep(_BAR_MM + 8)
    flow.text(lane.name, 9.0)
    top = flow.y_mm
    for bar in lane.bars:
        _bar(flow, bar, top)
    flow.space(_BAR_MM + 2)


def _bar(flow: Flow, bar: PageBar, top_mm: float) -> None:
    left = flow.left_mm + bar.begin * flow.width_mm
    wide = (bar.end - bar.begin) * flow.width_mm
    if bar.kind == "mark":
        middle, down = left + wide / 2, (_BAR_MM - _MARK_MM) / 2
        path = rectangle(middle - _MARK_MM / 2, top_mm + down, _MARK_MM, _MARK_MM)
        flow.surface.path(path, fill=BLACK)
        return
    path = rectangle(left, top_mm, wide, _BAR_MM)
    flow.surface.path(path, fill=_FILLS[bar.kind], stroke=_ACCENT, width_mm=0.25)


def _day(flow: Flow, day: PageDay) -> None:
    """A box to tick, the day, and what happens on it; its reason stays with it."""
    flow.keep(18)
    columns: Sequence[Cell] = (
        Cell(share=0.06, tick=True, size_pt=12),
        Cell(day.when, share=0.34),
        Cell(day.title, share=0.6, bold=True, size_pt=11),
    )
    flow.row(columns, padding_mm=1.0)
    reason = Cell(day.why, share=0.6, size_pt=9, colour=GREY)
    flow.row((Cell(share=0.4), reason), padding_mm=0.6)
