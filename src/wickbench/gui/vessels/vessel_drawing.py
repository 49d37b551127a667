"""The drawing of a vessel on the screen: the lines of `app.vessel_drawing` in the theme's inks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from wickbench.documents.front_view import PAPER
from wickbench.documents.stacking import spread
from wickbench.gui.fonts import scaled
from wickbench.gui.theme import Colours, colours_of
from wickbench.gui.vessels.front_painting import paint_front

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.vessel_drawing import DrawnLine, VesselDrawing
    from wickbench.app.vessel_labels import DrawnLabel
    from wickbench.documents.front_view import FrontLabel

_MARGIN: Final = 14.0
_GAP: Final = 14.0
_LEADER: Final = 4.0
_TALL_CHARACTERS: Final = 34
_MOST_FOR_WORDS: Final = 0.5
_SMALL: Final = 0.86


class VesselPicture(QWidget):
    """A vessel to scale with its levels; words stand at the right, never over each other.

    Attributes:
        drawing: the vessel; ``None`` for nothing.
        front: what is seen of a label on it.
        paper: colour of the label's paper.
    """

    def __init__(self, accessible_name: str) -> None:
        super().__init__()
        self.drawing: VesselDrawing | None = None
        self.front: FrontLabel | None = None
        self._foot_mm = 0.0
        self.paper = PAPER
        self.setAccessibleName(accessible_name)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        scaled(self, _SMALL)

    def show_drawing(self, drawing: VesselDrawing | None) -> None:
        """Show a drawing; ``None`` hides the widget."""
        self.setVisible(drawing is not None)
        if drawing == self.drawing:
            return
        self.drawing = drawing
        self.setAccessibleDescription(drawing.description if drawing else "")
        self.update()

    def show_front(self, front: FrontLabel | None, foot_mm: float = 0.0) -> None:
        """Show a label on the vessel; ``foot_mm`` is where the vessel stands in the drawing."""
        self.front, self._foot_mm = front, foot_mm
        self.update()

    def describe(self, more: str) -> None:
        """Say in words what else is seen, for who cannot see it."""
        parts = (self.drawing.description if self.drawing else "", more)
        self.setAccessibleDescription("; ".join(part for part in parts if part))

    @override
    def sizeHint(self) -> QSize:
        return QSize(260, self.fontMetrics().averageCharWidth() * _TALL_CHARACTERS + 40)

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(160, self.sizeHint().height())

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = colours_of(self)
        frame = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        focus = self.hasFocus()
        painter.setPen(QPen(QColor(colours.accent if focus else colours.line), 2 if focus else 1))
        painter.setBrush(QColor(colours.sheet))
        painter.drawRoundedRect(frame, 6, 6)
        if self.drawing is not None:
            sketch = _Sketch(painter, self.drawing, colours, frame)
            sketch.paint_lines()
            if self.front is not None:
                foot = sketch.at((0.0, self._foot_mm))
                paint_front(painter, self.front, foot, sketch.scale, self.paper)
            sketch.paint_words()
        painter.end()


def wrapped(lines: Sequence[str], metrics: QFontMetrics, most: float) -> tuple[str, ...]:
    """Lines broken between words where they are wider than ``most`` pixels."""
    found: list[str] = []
    for line in lines:
        row = ""
        for word in line.split(" "):
            longer = f"{row} {word}".strip()
            if row and metrics.horizontalAdvance(longer) > most:
                found.append(row)
                longer = word
            row = longer
        found.append(row)
    return tuple(found)


class _Sketch:
    """One painting of one drawing into one frame."""

    def __init__(
        self, painter: QPainter, drawing: VesselDrawing, colours: Colours, frame: QRectF
    ) -> None:
        self.painter, self.drawing, self.colours = painter, drawing, colours
        metrics = painter.fontMetrics()
        room = frame.adjusted(_MARGIN, _MARGIN, -_MARGIN, -_MARGIN)
        most = max(room.width() * _MOST_FOR_WORDS, metrics.averageCharWidth() * 12.0)
        self.words = [wrapped(label.lines, metrics, most) for label in drawing.labels]
        lines = [line for label in self.words for line in label]
        self.words_wide = max((metrics.horizontalAdvance(line) for line in lines), default=0)
        self.line_high = float(metrics.height())
        wide = max(40.0, room.width() - self.words_wide - _GAP)
        drawn_w = max(1.0, drawing.right_mm - drawing.left_mm)
        drawn_h = max(1.0, drawing.top_mm - drawing.bottom_mm)
        self.scale = min(wide / drawn_w, room.height() / drawn_h)
        used = drawn_w * self.scale + _GAP + self.words_wide
        self.left = room.left() + max(0.0, (room.width() - used) / 2)
        self.top = room.top() + (room.height() - drawn_h * self.scale) / 2
        self.words_at = self.left + drawn_w * self.scale + _GAP
        self.room = room

    def at(self, point: tuple[float, float]) -> QPointF:
        """A point of the drawing on the screen."""
        x = self.left + (point[0] - self.drawing.left_mm) * self.scale
        return QPointF(x, self.top + (self.drawing.top_mm - point[1]) * self.scale)

    def paint_lines(self) -> None:
        """Paint lines from back to front."""
        for line in self.drawing.lines:
            self._line(line)

    def _line(self, line: DrawnLine) -> None:
        pen, brush = self._ink(line.role)
        self.painter.setPen(pen)
        self.painter.setBrush(brush if line.closed else Qt.BrushStyle.NoBrush)
        polygon = QPolygonF([self.at(point) for point in line.points])
        if line.closed:
            self.painter.drawPolygon(polygon)
        else:
            self.painter.drawPolyline(polygon)

    def _ink(self, role: str) -> tuple[QPen | Qt.PenStyle, QColor | Qt.BrushStyle]:
        colours = self.colours
        ink, quiet, accent = QColor(colours.ink), QColor(colours.quiet), QColor(colours.accent)
        dashed = Qt.PenStyle.DashLine
        glass = QColor(colours.ink)
        glass.setAlphaF(0.10)
        pale = QColor(colours.accent)
        pale.setAlphaF(0.22)
        inks: dict[str, tuple[QPen | Qt.PenStyle, QColor | Qt.BrushStyle]] = {
            "wax": (Qt.PenStyle.NoPen, QColor(colours.wash)),
            "range": (Qt.PenStyle.NoPen, pale),
            "wall": (QPen(ink, 1.4), glass),
            "brim": (QPen(quiet, 1.2, dashed), Qt.BrushStyle.NoBrush),
            "fill": (QPen(accent, 1.6, dashed), Qt.BrushStyle.NoBrush),
            "set": (QPen(accent, 1.6), Qt.BrushStyle.NoBrush),
            "zone": (QPen(quiet, 2.0), Qt.BrushStyle.NoBrush),
            "wick": (QPen(ink, 2.2), ink),
            "room": (QPen(quiet, 1.2), Qt.BrushStyle.NoBrush),
        }
        return inks.get(role, (QPen(ink, 1.0), Qt.BrushStyle.NoBrush))

    def paint_words(self) -> None:
        """Paint the words beside, each with a line to its level."""
        labels = self.drawing.labels
        sizes = [self.line_high * len(lines) + 3 for lines in self.words]
        wanted = [self.at((0.0, label.at_mm)).y() for label in labels]
        places = spread(wanted, sizes, self.room.top() - 6, self.room.bottom() + 6)
        for label, lines, place, size in zip(labels, self.words, places, sizes, strict=True):
            self._leader(label, place - size / 2 + self.line_high / 2)
            self._label(label, lines, place - size / 2)

    def _label(self, label: DrawnLabel, lines: Sequence[str], top: float) -> None:
        accent = label.role in {"fill", "set"}
        for number, text in enumerate(lines):
            strong = accent and number == 0
            self.painter.setPen(QColor(self.colours.accent if strong else self.colours.quiet))
            box = QRectF(self.words_at, top + number * self.line_high, self.words_wide + 4, 40)
            flags = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
            self.painter.drawText(box, flags.value, text)

    def _leader(self, label: DrawnLabel, place: float) -> None:
        """A thin line from a level to the first line of its words."""
        if label.role not in {"brim", "fill", "set"}:
            return
        ends = [line.points[-1] for line in self.drawing.of(label.role)]
        if not ends:
            return
        quiet = QColor(self.colours.accent if label.role != "brim" else self.colours.quiet)
        quiet.setAlphaF(0.5)
        self.painter.setPen(QPen(quiet, 0.8))
        goal = QPointF(self.words_at - _LEADER, place)
        self.painter.drawLine(self.at(ends[0]), goal)
