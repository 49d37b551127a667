"""A text that is bent for the first time gets an oval on which it is seen to be round."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from wickbench.domain.labels import AnyElement, LabelDesign, TextElement

if TYPE_CHECKING:
    from collections.abc import Mapping

_ROUND: Final = frozenset({"circle", "oval"})
_STRAIGHT_ONLY: Final = frozenset({"wrap", "vertical"})
_LOW: Final = 0.5


def with_oval(
    design: LabelDesign, element: AnyElement, changes: Mapping[str, Any]
) -> Mapping[str, Any]:
    """Changes of an element, with another box where a straight line becomes a curve.

    The box of a line is far too low for a curve: on a round label the text goes round the safe
    zone, on another round a circle as wide as its box that keeps its upper or lower edge. A box
    that is high enough already, or turned, stays.

    Args:
        design: the label.
        element: as it is.
        changes: what a person changed.
    """
    curve = changes.get("curve")
    if not curve or not isinstance(element, TextElement) or element.curve:
        return changes
    if element.turn_deg % 360 or element.h_mm >= _LOW * element.w_mm:
        return changes
    x, y, wide, high = _oval(design, element, str(curve))
    return {**changes, "x_mm": x, "y_mm": y, "w_mm": wide, "h_mm": high}


def fields_that_act(element: AnyElement, names: frozenset[str]) -> frozenset[str]:
    """Fields of an element's form that change anything: a curve has no height and breaks no line.

    Args:
        element: the element.
        names: of all fields of its form.
    """
    curved = isinstance(element, TextElement) and bool(element.curve)
    return names - _STRAIGHT_ONLY if curved else names


def _oval(
    design: LabelDesign, element: TextElement, curve: str
) -> tuple[float, float, float, float]:
    safe = min(design.safe_mm, design.width_mm / 4, design.height_mm / 4)
    wide, high = design.width_mm - 2 * safe, design.height_mm - 2 * safe
    if design.shape in _ROUND:
        return safe, safe, wide, high
    side = min(element.w_mm, wide, high)
    x = element.x_mm + (element.w_mm - side) / 2
    y = element.y_mm if curve == "over" else element.y_mm + element.h_mm - side
    return _between(x, safe, safe + wide - side), _between(y, safe, safe + high - side), side, side


def _between(value: float, low: float, high: float) -> float:
    return max(low, min(value, high))
