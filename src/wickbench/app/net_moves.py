"""The net weight moved to where it belongs: lower, to the front, level, in another ink."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.label_rules import rule_of
from wickbench.app.net_lines import printed_beside
from wickbench.app.net_way import Way
from wickbench.app.texts_marker import N_
from wickbench.domain.label_panel import lowest_share_mm
from wickbench.domain.labels import FactsElement, TextElement

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.app.label_check import LabelCheck
    from wickbench.app.net_lines import Ink, NetLine

_MOVE_MM: Final = 0.5
_FARTHEST_MM: Final = 12.0
_INK: Final = "#000000"
_WHITE: Final = "#ffffff"


def moved(check: LabelCheck, line: NetLine, key: str) -> Iterator[Way]:
    """Moved as little as can be, to where nothing else is met."""
    ink = line.ink
    element = check.laid.design.elements[line.at]
    if ink is None:
        return
    for across, down in _shifts(check, line, ink, key):
        there = replace(element, x_mm=element.x_mm + across, y_mm=element.y_mm + down)
        yield Way(
            key="move",
            words=_move_words(across, down),
            data={"by_mm": abs(across or down)},
            parts=frozenset({"move"}),
            at=line.at,
            element=there,
        )


def _move_words(across: float, down: float) -> str:
    if across:
        return N_("Move it to the middle")
    return N_("Move it down by {by_mm}") if down > 0 else N_("Move it up by {by_mm}")


def _shifts(check: LabelCheck, line: NetLine, ink: Ink, key: str) -> Iterator[tuple[float, float]]:
    """How far it could be moved, the shortest way first, where nothing else is met."""
    design = check.laid.design
    if key == "net-not-in-front":
        yield (design.width_mm - design.overlap_mm) / 2 - (ink.left + ink.right) / 2, 0.0
        return
    rule = rule_of("net-low", "US")
    low_mm = lowest_share_mm(design, rule.numbers["share"]) if rule is not None else 0.0
    others = printed_beside(check.laid, line)
    bottom = design.height_mm - design.safe_mm
    for step in range(1, int(_FARTHEST_MM / _MOVE_MM) + 1):
        for down in (step * _MOVE_MM, -step * _MOVE_MM):
            top = ink.top + down
            there = replace(ink, top=top, bottom=ink.bottom + down)
            inside = low_mm <= top + 1e-6 and there.bottom <= bottom
            if inside and not any(there.meets(other) for other in others):
                yield 0.0, down


def levelled(check: LabelCheck, line: NetLine) -> Iterator[Way]:
    """In straight lines along the base."""
    element = check.laid.design.elements[line.at]
    changes: dict[str, Any] = {"turn_deg": 0.0}
    if isinstance(element, TextElement):
        changes["curve"] = ""
    yield Way(
        key="level",
        words=N_("Set it level"),
        parts=frozenset({"level"}),
        at=line.at,
        element=replace(element, **changes),
    )


def inked(check: LabelCheck, line: NetLine) -> Iterator[Way]:
    """In black, or in white on a dark ground."""
    element = check.laid.design.elements[line.at]
    if not isinstance(element, TextElement | FactsElement):
        return
    for colour, words in ((_INK, N_("Print it in black")), (_WHITE, N_("Print it in white"))):
        yield Way(
            key=colour,
            words=words,
            parts=frozenset({colour}),
            at=line.at,
            element=replace(element, colour=colour),
        )
