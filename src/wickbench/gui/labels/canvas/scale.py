"""Which part of the label is seen, and how large: between millimetres and pixels."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

from PySide6.QtCore import QPointF, QSizeF

LEAST, MOST = 0.5, 60.0
"""Pixels per millimetre."""
RULER: Final = 22.0
"""Width of a ruler in pixels."""
_MARGIN: Final = 18.0
_LARGEST_FIT: Final = 14.0
_SEEN: Final = 24.0


@dataclass(slots=True)
class Scale:
    """Pixels per millimetre and where the label's corner lies.

    Attributes:
        per_mm: pixels per millimetre.
        corner: of the label, in pixels of the widget.
        fitted: the label is shown as large as the widget allows, whatever its size.
    """

    per_mm: float = 4.0
    corner: QPointF = field(default_factory=QPointF)
    fitted: bool = True

    def to_label(self, place: QPointF) -> tuple[float, float]:
        """A place of the widget on the label, in mm."""
        return (
            (place.x() - self.corner.x()) / self.per_mm,
            (place.y() - self.corner.y()) / self.per_mm,
        )

    def to_widget(self, x_mm: float, y_mm: float) -> QPointF:
        """A place of the label in the widget."""
        return QPointF(self.corner.x() + x_mm * self.per_mm, self.corner.y() + y_mm * self.per_mm)

    def fit(self, widget: QSizeF, label_mm: QSizeF) -> None:
        """Show the whole label as large as the widget allows, in its middle."""
        room = QSizeF(widget.width() - RULER - 2 * _MARGIN, widget.height() - RULER - 2 * _MARGIN)
        across = room.width() / max(1.0, label_mm.width())
        down = room.height() / max(1.0, label_mm.height())
        self.per_mm = min(max(LEAST, min(across, down)), _LARGEST_FIT)
        self.fitted = True
        self._middle(widget, label_mm)

    def zoom(self, per_mm: float, about: QPointF, widget: QSizeF, label_mm: QSizeF) -> None:
        """Another scale; the point under the pointer stays where it is."""
        x, y = self.to_label(about)
        self.per_mm = min(max(LEAST, per_mm), MOST)
        self.corner = QPointF(about.x() - x * self.per_mm, about.y() - y * self.per_mm)
        self.fitted = False
        self.keep_seen(widget, label_mm)

    def pan(self, by: QPointF, widget: QSizeF, label_mm: QSizeF) -> None:
        """Move the label in the widget."""
        self.corner = self.corner + by
        self.fitted = False
        self.keep_seen(widget, label_mm)

    def keep_seen(self, widget: QSizeF, label_mm: QSizeF) -> None:
        """Never lose the label: at least a piece of it stays in the widget."""
        wide, high = label_mm.width() * self.per_mm, label_mm.height() * self.per_mm
        self.corner = QPointF(
            min(max(self.corner.x(), RULER + _SEEN - wide), widget.width() - _SEEN),
            min(max(self.corner.y(), RULER + _SEEN - high), widget.height() - _SEEN),
        )

    def _middle(self, widget: QSizeF, label_mm: QSizeF) -> None:
        self.corner = QPointF(
            RULER + (widget.width() - RULER - label_mm.width() * self.per_mm) / 2,
            RULER + (widget.height() - RULER - label_mm.height() * self.per_mm) / 2,
        )
