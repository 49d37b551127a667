"""Keys that move, size and turn what is chosen on the canvas."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt

from wickbench.app.texts_marker import N_
from wickbench.domain.arranging import moved, tidy_turn
from wickbench.gui.labels.canvas.gestures import TURN_STEP_DEG

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QKeyEvent

    from wickbench.domain.labels import AnyElement

_STEP_MM: Final = 0.5
_FINE_MM: Final = 0.1
_LEAST_MM: Final = 0.1
_WAYS: Final = {
    Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1), Qt.Key.Key_Down: (0, 1),
}  # fmt: skip
_TURNS: Final = {Qt.Key.Key_BracketLeft: -TURN_STEP_DEG, Qt.Key.Key_BracketRight: TURN_STEP_DEG}

Changed = tuple[dict[int, "AnyElement"], str]


def moved_by_key(
    event: QKeyEvent, elements: Sequence[AnyElement], chosen: Sequence[int]
) -> Changed | None:
    """What a key makes of what is chosen, and what undo calls it; ``None`` for another key.

    Arrows move by half a millimetre, with Shift by a tenth; with Ctrl they size; [ and ] turn.
    """
    if not chosen:
        return None
    key = Qt.Key(event.key())
    if key in _TURNS:
        return _turned(elements, chosen, _TURNS[key]), N_("Turn on a label")
    if key not in _WAYS:
        return None
    fine = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
    step = _FINE_MM if fine else _STEP_MM
    dx, dy = (way * step for way in _WAYS[key])
    if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
        return {at: _sized(elements[at], dx, dy) for at in chosen}, N_("Size on a label")
    return {at: moved(elements[at], dx, dy) for at in chosen}, N_("Move on a label")


def _sized(element: AnyElement, wider: float, higher: float) -> AnyElement:
    least = 0.0 if element.h_mm == 0 else _LEAST_MM
    return replace(
        element,
        w_mm=max(_LEAST_MM, element.w_mm + wider),
        h_mm=max(least, element.h_mm + higher),
    )


def _turned(
    elements: Sequence[AnyElement], chosen: Sequence[int], by_deg: float
) -> dict[int, AnyElement]:
    return {
        at: replace(elements[at], turn_deg=tidy_turn(elements[at].turn_deg + by_deg))
        for at in chosen
    }
