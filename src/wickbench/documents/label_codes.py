"""A code on a label: bars as one path, letters, and what keeps a scanner from reading it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import Affine, shift, turn
from wickbench.documents.codes import LaidOutCode, lay_out_code
from wickbench.documents.label_draws import PathDraw, TextDraw
from wickbench.documents.outlines import rectangle
from wickbench.documents.rooms import is_inside
from wickbench.documents.surface import map_path
from wickbench.domain.arranging import box_of
from wickbench.domain.codes import RULES, bends_too_much
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.labels import CodeElement, FrameElement

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.documents.text import Typeface
    from wickbench.domain.label_fields import FilledText
    from wickbench.domain.labels import LabelDesign

# Scanners light with red: what looks dark to the eye may be bright to them. The least difference
# is common practice, no source; GS1 grades contrast by a measuring device.
_LEAST_CONTRAST: Final = 0.55
_QUARTER: Final = 90.0
_HALF_TURN: Final = 180.0
_STEEP: Final = 45.0
_SLACK_MM: Final = 0.02
_WHITE: Final = "#ffffff"
_TILL: Final = frozenset({"ean13", "upca", "ean8"})


@dataclass(frozen=True, slots=True)
class CodeOnLabel:
    """What came of a code element: from back to front, and what is to be mended."""

    draws: tuple[PathDraw | TextDraw, ...]
    findings: tuple[Finding, ...]
    text: str = ""


def place_code(
    design: LabelDesign,
    at: int,
    filled: FilledText,
    face: Typeface,
    around_mm: float | None,
) -> CodeOnLabel:
    """Lay out the code that is element ``at`` of a design.

    Args:
        design: the label.
        at: place of the element.
        filled: its text with the fields filled in.
        face: for the letters below the bars.
        around_mm: outer diameter of the vessel that the label goes round; None: flat or unknown.
    """
    element = _code(design, at)
    about = ("element", at)
    fields = [
        Finding(Rank.STOPS, "label.unknown-field", {"field": f"{{{name}}}"}, about)
        for name in filled.unknown
    ]
    try:
        code, box, quarter = _fitted(element, filled.text, face, around_mm)
    except DomainError as error:
        key = Rank.WATCH if error.key == "code.empty" else Rank.STOPS
        return CodeOnLabel((), (*fields, Finding(key, error.key, error.data, about)))
    found = _findings(design, at, code, box, (quarter, around_mm))
    found = [Finding(one.rank, one.key, one.data, about) for one in found]
    return CodeOnLabel(_draws(element, code, box), (*fields, *found), code.text)


def _code(design: LabelDesign, at: int) -> CodeElement:
    element = design.elements[at]
    if not isinstance(element, CodeElement):
        raise TypeError(element)
    return element


def _fitted(
    element: CodeElement, text: str, face: Typeface, around_mm: float | None
) -> tuple[LaidOutCode, Affine, bool]:
    """The code, the map from its own box to the label, and whether it was turned by itself."""
    code = lay_out_code(element, text, (element.w_mm, element.h_mm), face)
    if _wants_ladder(element, code, around_mm):
        upright = lay_out_code(element, text, (element.h_mm, element.w_mm), face)
        return upright, _to_label(element, quarter=True), True
    return code, _to_label(element, quarter=False), False


def _wants_ladder(element: CodeElement, code: LaidOutCode, around_mm: float | None) -> bool:
    """Bars that stand upright would bend too far round; a QR code gains nothing by turning."""
    if not element.ladder or element.symbol == "qr" or around_mm is None:
        return False
    return _runs_round(element, quarter=False) and bends_too_much(code.wide_mm, around_mm)


def _runs_round(element: CodeElement, *, quarter: bool) -> bool:
    """Whether the row of bars runs along the circumference rather than up the vessel."""
    turned = (element.turn_deg + (_QUARTER if quarter else 0.0)) % _HALF_TURN
    return min(turned, _HALF_TURN - turned) < _STEEP


def _to_label(element: CodeElement, *, quarter: bool) -> Affine:
    middle = (element.x_mm + element.w_mm / 2, element.y_mm + element.h_mm / 2)
    whole = turn(element.turn_deg, *middle)
    if not quarter:
        return whole.after(shift(element.x_mm, element.y_mm))
    corner = shift(middle[0] - element.h_mm / 2, middle[1] - element.w_mm / 2)
    return whole.after(turn(_QUARTER, *middle)).after(corner)


def _draws(
    element: CodeElement, code: LaidOutCode, to_label: Affine
) -> tuple[PathDraw | TextDraw, ...]:
    draws: list[PathDraw | TextDraw] = []
    if element.ground:
        draws.append(PathDraw(map_path(to_label, rectangle(*code.clear)), element.ground))
    draws.append(PathDraw(map_path(to_label, code.path), element.colour))
    degrees = _degrees(to_label)
    for sign in code.signs:
        x, y = to_label.apply(sign.x_mm, sign.y_mm)
        draws.append(TextDraw(sign.run, sign.size_pt, x, y, element.colour, degrees))
    return tuple(draws)


def _degrees(affine: Affine) -> float:
    """Clockwise turn of a map that turns and shifts."""
    return math.degrees(math.atan2(affine.b, affine.a))


def _findings(
    design: LabelDesign,
    at: int,
    code: LaidOutCode,
    to_label: Affine,
    bend: tuple[bool, float | None],
) -> list[Finding]:
    element = _code(design, at)
    quarter, around_mm = bend
    found = _size(element, code)
    found += _colours(design, at)
    found += _clear_space(design, at, code, to_label)
    if quarter:
        found.append(Finding(Rank.NOTE, "code.turned"))
    elif around_mm is not None and _bent(element, code, around_mm):
        key = "code.bends-square" if element.symbol == "qr" else "code.bends"
        data = {"wide_mm": code.wide_mm, "vessel_mm": around_mm}
        found.append(Finding(Rank.WATCH, key, data))
    return found


def _bent(element: CodeElement, code: LaidOutCode, around_mm: float) -> bool:
    square = element.symbol == "qr"
    return (square or _runs_round(element, quarter=False)) and bends_too_much(
        code.wide_mm, around_mm
    )


def _size(element: CodeElement, code: LaidOutCode) -> list[Finding]:
    rule = RULES[element.symbol]
    square = element.symbol == "qr"
    found = []
    if code.module_mm < rule.least_mm - 1e-9:
        key = "code.modules-small" if square else "code.bars-thin"
        data = {"module_mm": code.module_mm, "least_mm": rule.least_mm}
        found.append(Finding(Rank.WATCH, key, data))
    if element.symbol in _TILL:
        least = rule.least_high_mm * max(1.0, code.module_mm / rule.least_mm)
        if code.bars_high_mm < least - 1e-9:
            data = {"high_mm": code.bars_high_mm, "least_mm": least}
            found.append(Finding(Rank.WATCH, "code.bars-low", data))
    return found


def _colours(design: LabelDesign, at: int) -> list[Finding]:
    element = _code(design, at)
    ink = _red(element.colour)
    ground = _red(element.ground or _behind(design, at))
    return [Finding(Rank.WATCH, "code.colours")] if ground - ink < _LEAST_CONTRAST else []


def _red(colour: str) -> float:
    return int(colour[1:3], 16) / 255


def _behind(design: LabelDesign, at: int) -> str:
    """Colour behind the middle of an element."""
    middle = _middle(design, at)
    for under in reversed(design.elements[:at]):
        if isinstance(under, FrameElement) and under.fill and _covers(under, middle):
            return under.fill
    return design.background or _WHITE


def _middle(design: LabelDesign, at: int) -> tuple[float, float]:
    one = design.elements[at]
    return one.x_mm + one.w_mm / 2, one.y_mm + one.h_mm / 2


def _covers(under: FrameElement, point: tuple[float, float]) -> bool:
    x, y = point
    right, bottom = under.x_mm + under.w_mm, under.y_mm + under.h_mm
    return under.x_mm <= x <= right and under.y_mm <= y <= bottom


def _clear_space(
    design: LabelDesign, at: int, code: LaidOutCode, to_label: Affine
) -> list[Finding]:
    left, top, wide, high = code.clear
    corners = [to_label.apply(x, y) for x in (left, left + wide) for y in (top, top + high)]
    found = []
    if not all(is_inside(design, x, y, margin_mm=0.0, slack_mm=_SLACK_MM) for x, y in corners):
        found.append(Finding(Rank.WATCH, "code.outside"))
    if _touched(design, at, corners):
        found.append(Finding(Rank.WATCH, "code.covered"))
    return found


def _touched(design: LabelDesign, at: int, corners: Sequence[tuple[float, float]]) -> bool:
    """Whether anything but a frame, turned as it is, reaches into the clear space."""
    left, right = min(x for x, _ in corners), max(x for x, _ in corners)
    top, bottom = min(y for _, y in corners), max(y for _, y in corners)
    others = [
        box_of(other)
        for place, other in enumerate(design.elements)
        if place != at and not isinstance(other, FrameElement)
    ]
    return any(
        other.left < right - _SLACK_MM
        and other.right > left + _SLACK_MM
        and other.top < bottom - _SLACK_MM
        and other.bottom > top + _SLACK_MM
        for other in others
    )
