"""What else must be right before labels are printed: net weight, tested state, printer, region."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from wickbench.app.candles import view_candle
from wickbench.app.standards import net_rules
from wickbench.domain.capitals import has_small_letters
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.net_rules import min_figure_height_mm, pdp_area_cm2

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.documents.label_draws import LaidOutText
    from wickbench.documents.label_layout import LaidOutLabel
    from wickbench.documents.sheet_layout import SheetPages
    from wickbench.domain.catalog import Candle, Vessel

_SLACK_MM: Final = 0.005
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


def figure_findings(
    laid: LaidOutLabel,
    net_weight: str,
    candle: Candle,
    vessel: Vessel | None,
    regions: Sequence[str],
) -> tuple[list[Finding], list[Finding]]:
    """Height of the net weight's figures against the table of each region.

    Returns:
        what is too small or cannot be told, and what is well.
    """
    text = _net_text(laid, net_weight)
    if text is None or candle.declared_net_g is None:
        return [], []
    wrong: list[Finding] = []
    well: list[Finding] = []
    for region in regions:
        have = figure_height_mm(text, region)
        area = panel_cm2(vessel)
        try:
            least = min_figure_height_mm(
                net_rules(), region, pdp_area_cm2=area, nominal_g=candle.declared_net_g
            )
        except DomainError:
            wrong.append(Finding(Rank.NOTE, "print.panel-unknown", {"region": region}))
            continue
        data = {"height_mm": have, "least_mm": least, "region": region, "source": _source(region)}
        if have + _SLACK_MM < least:
            wrong.append(Finding(Rank.WATCH, "print.figures-small", data))
        else:
            well.append(Finding(Rank.NOTE, "print.figures-well", data))
    return wrong, well


def figure_height_mm(text: LaidOutText, region: str) -> float:
    """Height that a rule measures: in the US the "o" where lower-case letters are used.

    16 CFR 500.21(a): upper case letters count where there are only such; with lower case, the
    lower-case "o"; unit symbols such as "g" are no words. Elsewhere the figures themselves, as
    high as capitals.
    """
    small = has_small_letters(text.text)
    return text.o_height_mm if region == "US" and small else text.cap_height_mm


def panel_cm2(vessel: Vessel | None) -> float | None:
    """Front panel of a round vessel from its straight label zone; ``None`` when not measured."""
    if vessel is None:
        return None
    sides = [side for side in (vessel.outer_top_mm, vessel.outer_bottom_mm) if side]
    if not sides:
        return None
    from_mm, to_mm = vessel.straight_from_mm, vessel.straight_to_mm
    high = to_mm - from_mm if from_mm is not None and to_mm is not None else vessel.outer_height_mm
    if not high or high <= 0:
        return None
    return pdp_area_cm2(net_rules(), high, math.fsum(sides) / len(sides))


def region_findings(regions: Sequence[str]) -> list[Finding]:
    """The hazard label of the EU and the UK is not made here."""
    found = [region for region in regions if region in {"EU", "UK"}]
    if not found:
        return []
    return [Finding(Rank.WATCH, "print.hazard-label-not-made", {"regions": " + ".join(found)})]


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


def _net_text(laid: LaidOutLabel, net_weight: str) -> LaidOutText | None:
    wanted = " ".join(net_weight.split()).casefold()
    if not wanted:
        return None
    for text in laid.texts:
        if wanted in " ".join(text.text.split()).casefold():
            return text
    return None


def _source(region: str) -> str:
    rules = net_rules()
    for table in (rules.heights_by_panel, rules.heights_by_nominal):
        if region in table.rule.regions:
            return table.rule.source
    return ""
