"""Where the net weight stands: low on the front, level, and with free space round it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.label_rules import rule_of, ruled
from wickbench.app.net_lines import printed_beside
from wickbench.app.required_heights import panel_of
from wickbench.app.standards import net_rules
from wickbench.documents.label_checks import contrast_at
from wickbench.domain.label_panel import front_part, lowest_share_mm
from wickbench.domain.labels import FactsElement, TextElement

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.app.label_check import LabelCheck
    from wickbench.app.net_lines import Ink, NetLine
    from wickbench.domain.findings import Finding

LEAST_CONTRAST = 4.5
"""WCAG 2.1, 1.4.3: lightness of letter and ground, for text of ordinary size."""

_SLACK_MM = 0.05


def place_findings(check: LabelCheck) -> list[Finding]:
    """What is wrong with the place of the declaration, in each region sold in."""
    line = check.declared
    ink = line.ink if line is not None else None
    if line is None or ink is None or check.laid.design.kind not in {"jar", "lid"}:
        return []
    found: list[Finding] = []
    for region in check.regions:
        found += _apart(check, line, ink, region)
        found += _low(check, line, ink, region)
        found += _level(check, line, region)
        found += _on_front(check, ink, region, "net-not-in-front", line.at)
        found += _contrast(check, line, region)
    return found


def text_ink_in_front(check: LabelCheck, ink: Ink) -> bool:
    """Whether a text can be read from the front of the vessel it goes round."""
    if check.around_mm is None:
        return True
    left, right = front_part(check.laid.design, check.around_mm, net_rules().panel_share)
    return ink.left >= left - _SLACK_MM and ink.right <= right + _SLACK_MM


def _apart(check: LabelCheck, line: NetLine, ink: Ink, region: str) -> Iterator[Finding]:
    """Free space: the height of its letters above and below, two widths of an N beside."""
    rule = rule_of("net-apart", region)
    if rule is None:
        return
    about = ("element", line.at)
    if not line.alone:
        yield ruled(rule, "net-not-alone", about, {"text": line.said.text})
        return
    high = max(line.figures_mm(), line.text.cap_height_mm)
    above = rule.numbers["heights_above_and_below"] * high
    beside = rule.numbers["widths_of_n_beside"] * line.n_width_mm()
    free = ink.grown(beside - _SLACK_MM, above - _SLACK_MM)
    if any(free.meets(other) for other in printed_beside(check.laid, line)):
        yield ruled(rule, "net-crowded", about, {"above_mm": above, "beside_mm": beside})


def _low(check: LabelCheck, line: NetLine, ink: Ink, region: str) -> Iterator[Finding]:
    """In the lowest 30 % of the label's area, unless the panel is small."""
    rule = rule_of("net-low", region)
    area_cm2 = panel_of(check)
    if rule is None or check.laid.design.kind == "lid":
        return
    if area_cm2 is not None and area_cm2 <= rule.numbers["not_up_to_cm2"]:
        return
    line_mm = lowest_share_mm(check.laid.design, rule.numbers["share"])
    if ink.top < line_mm - _SLACK_MM:
        data = {"percent": round(rule.numbers["share"] * 100), "from_mm": line_mm}
        yield ruled(rule, "net-high", ("element", line.at), data)


def _level(check: LabelCheck, line: NetLine, region: str) -> Iterator[Finding]:
    """In lines parallel to the base; not turned, not along a curve."""
    rule = rule_of("net-level", region)
    element = check.laid.design.elements[line.at]
    bent = isinstance(element, TextElement) and bool(element.curve)
    if rule is not None and (element.turn_deg % 360 or bent):
        yield ruled(rule, "net-turned", ("element", line.at))


def _on_front(check: LabelCheck, ink: Ink, region: str, key: str, at: int) -> Iterator[Finding]:
    rule = rule_of("front", region)
    if rule is not None and not text_ink_in_front(check, ink):
        yield ruled(rule, key, ("element", at))


def _contrast(check: LabelCheck, line: NetLine, region: str) -> Iterator[Finding]:
    rule = rule_of("net-contrast", region)
    element = check.laid.design.elements[line.at]
    if rule is None or not isinstance(element, TextElement | FactsElement):
        return
    contrast = contrast_at(check.laid.design, element.colour, line.at, check.paper)
    if contrast is not None and contrast < LEAST_CONTRAST:
        yield ruled(rule, "net-pale", ("element", line.at))
