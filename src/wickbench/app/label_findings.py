"""What else must be right before labels are printed: net weight, tested state, printer."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.candles import view_candle
from wickbench.domain.findings import Finding, Rank

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.documents.label_layout import LaidOutLabel
    from wickbench.documents.sheet_layout import SheetPages
    from wickbench.domain.catalog import Candle

_PAGE_FINDINGS: Final = "sheet.near-"
_NET: Final = "net-weight."
_LAYERED: Final = "leftovers."


def candle_findings(
    candle: Candle | None, kind: str, shelf: Shelf, settings: Settings, texts: Texts
) -> list[Finding]:
    """Whether the candle is chosen, passed its burn tests, and keeps the weight it declares."""
    if candle is None:
        return [Finding(Rank.WATCH, "print.no-candle")] if kind in {"jar", "caution"} else []
    view = view_candle(candle, shelf, settings, texts)
    found = []
    if kind == "jar" and candle.declared_net_g is None:
        found.append(Finding(Rank.WATCH, "print.net-weight-not-declared", {"candle": candle.name}))
    if kind == "jar":
        # A label may be printed before the fill is mended, so this does not stop the print.
        told = [one for one in view.findings if one.key.startswith(_NET)]
        found += [Finding(min(one.rank, Rank.WATCH), one.key, one.data) for one in told]
    # A label for oneself may be printed: it is told, and stops nothing.
    told = [one for one in view.findings if one.key.startswith(_LAYERED)]
    found += [Finding(Rank.WATCH, one.key, one.data) for one in told]
    # Without a wick the caution sticker is the one for melts, and the label belongs to none.
    found += [one for one in view.findings if one.key == "candle.no-wick"]
    if view.tested.state == "test_again":
        found.append(Finding(Rank.WATCH, "print.test-again", {"candle": candle.name}))
    elif view.tested.state != "passed":
        found.append(Finding(Rank.WATCH, "print.not-passed", {"candle": candle.name}))
    return found


def printer_findings(
    pages: SheetPages, laid: Sequence[LaidOutLabel], printer: Mapping[str, object] | None
) -> list[Finding]:
    """Text and pictures in the strip of the page that the printer leaves blank."""
    if printer is None or not isinstance(printer.get("edge_mm"), int | float):
        return []
    edge = float(str(printer["edge_mm"]))
    bottom = max(edge, float(str(printer.get("bottom_edge_mm") or 0.0)))
    sheet = pages.sheet
    for one in pages.placements:
        box, ink = sheet.sticker(one.index), _inner_box(laid[one.entry])
        left, top = box.x_mm + ink[0], box.y_mm + ink[1]
        right, below = box.x_mm + ink[2], box.y_mm + ink[3]
        inside = left >= edge and top >= edge and right <= sheet.page_w_mm - edge
        if not (inside and below <= sheet.page_h_mm - bottom):
            data = {"number": one.index + 1, "edge_mm": edge, "printer": printer.get("name") or ""}
            return [Finding(Rank.WATCH, "print.outside-printable", data)]
    return []


def without_general_edges(findings: Sequence[Finding]) -> list[Finding]:
    """The findings without those about what printers usually leave blank: this one is known."""
    return [one for one in findings if not one.key.startswith(_PAGE_FINDINGS)]


def _inner_box(laid: LaidOutLabel) -> tuple[float, float, float, float]:
    """What may not be lost: the box of all texts, the whole sticker without any."""
    if laid.bent is not None:
        return 0.0, 0.0, laid.width_mm, laid.height_mm
    xs: list[float] = []
    ys: list[float] = []
    for text in laid.texts:
        if text.text.strip() and text.element < len(laid.design.elements):
            element = laid.design.elements[text.element]
            xs += [element.x_mm, element.x_mm + element.w_mm]
            ys += [element.y_mm, element.y_mm + element.h_mm]
    if not xs:
        safe = laid.design.safe_mm
        return safe, safe, laid.design.width_mm - safe, laid.design.height_mm - safe
    return min(xs), min(ys), max(xs), max(ys)
