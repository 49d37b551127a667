"""Paper on screen and printer: the drawing surface of documents as QPainter strokes and fills.

Text arrives as glyph ids at places and is filled with the same outlines that the PDF embeds, so
what is seen is what is printed.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QImage, QPainter, QPainterPath, QPen, QTransform

from wickbench.documents.pictures import open_picture
from wickbench.documents.surface import BLACK, pieces_at
from wickbench.documents.text import mm_per_unit

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.documents.affine import Affine
    from wickbench.documents.surface import Colour, Path, Surface
    from wickbench.documents.text import Run, Typeface

_MOST_RUNS: Final = 4096
_runs: dict[int, tuple[Run, QPainterPath]] = {}


class ScreenSurface:
    """A `Surface` over a painter whose unit is made a millimetre.

    Args:
        painter: open painter; its transform is kept and put back by `finish`.
        pixels_per_mm: device units of the painter per millimetre.
        left, top: where the page's corner lies in device units.
        page: number of the page to draw, from 1; others are passed over. ``None`` draws all, for a
            printer.
        next_page: called before the second and each later page when all are drawn.
    """

    def __init__(
        self,
        painter: QPainter,
        pixels_per_mm: float,
        *,
        left: float = 0.0,
        top: float = 0.0,
        page: int | None = 1,
        next_page: Callable[[float, float], None] | None = None,
    ) -> None:
        self._painter = painter
        self._wanted = page
        self._next_page = next_page
        self._forms: dict[str, tuple[float, float, float, Callable[[Surface], None]]] = {}
        self.pages: list[tuple[float, float]] = []
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.translate(left, top)
        painter.scale(pixels_per_mm, pixels_per_mm)

    @property
    def _seen(self) -> bool:
        return self._wanted is None or self._wanted == len(self.pages)

    def finish(self) -> None:
        """Give the painter back as it was."""
        self._painter.restore()

    def describe(self, *, title: str, language: str = "", author: str = "") -> None:
        """A screen has no place for it."""

    def link(self, url: str, x_mm: float, y_mm: float, width_mm: float, height_mm: float) -> None:
        """A painting cannot be clicked."""

    def begin_page(self, width_mm: float, height_mm: float) -> None:
        """Start a page; the printer is told from the second on."""
        if self.pages and self._next_page is not None:
            self._next_page(width_mm, height_mm)
        self.pages.append((width_mm, height_mm))

    def glyphs(
        self,
        run: Run,
        size_pt: float,
        x_mm: float,
        y_mm: float,
        *,
        colour: Colour = BLACK,
        turn_deg: float = 0.0,
    ) -> None:
        """Fill the outlines of a run."""
        if not self._seen:
            return
        painter = self._painter
        for part, left, top in pieces_at(run, size_pt, (x_mm, y_mm), turn_deg):
            unit = mm_per_unit(part.face, size_pt)
            painter.save()
            painter.translate(left, top)
            painter.rotate(turn_deg)
            painter.scale(unit, unit)
            painter.fillPath(run_path(part), QColor(colour))
            painter.restore()

    def path(
        self,
        path: Path,
        *,
        fill: Colour | None = None,
        stroke: Colour | None = None,
        width_mm: float = 0.25,
        dash_mm: tuple[float, ...] = (),
        even_odd: bool = False,
    ) -> None:
        """Fill and stroke a path; line ends butt, corners mitred."""
        if not self._seen:
            return
        shape = painter_path(path)
        rule = Qt.FillRule.OddEvenFill if even_odd else Qt.FillRule.WindingFill
        shape.setFillRule(rule)
        if fill is not None:
            self._painter.fillPath(shape, QColor(fill))
        if stroke is not None:
            self._painter.strokePath(shape, pen(stroke, width_mm, dash_mm))

    def image(
        self,
        data: bytes,
        x_mm: float,
        y_mm: float,
        width_mm: float,
        height_mm: float,
        *,
        turn_deg: float = 0.0,
    ) -> None:
        """Draw a picture file.

        Raises:
            DomainError: as ``documents.pictures.open_picture``.
        """
        if not self._seen:
            return
        painter = self._painter
        painter.save()
        painter.translate(x_mm, y_mm)
        painter.rotate(turn_deg)
        painter.drawImage(QRectF(0, 0, width_mm, height_mm), picture_image(data))
        painter.restore()

    def push_clip(self, path: Path) -> None:
        """Draw only inside the path until `pop`."""
        self._painter.save()
        self._painter.setClipPath(painter_path(path), Qt.ClipOperation.IntersectClip)

    def push_transform(self, affine: Affine) -> None:
        """Map what follows until `pop`."""
        self._painter.save()
        moved = QTransform(affine.a, affine.b, affine.c, affine.d, affine.e, affine.f)
        self._painter.setTransform(moved, combine=True)

    def pop(self) -> None:
        """Take back the last state."""
        self._painter.restore()

    def push_span(self, text: str) -> None:
        """Nothing is read from a painting."""

    def pop_span(self) -> None:
        """Nothing was begun."""

    def form(
        self,
        key: str,
        width_mm: float,
        height_mm: float,
        draw: Callable[[Surface], None],
        *,
        margin_mm: float = 0.0,
    ) -> None:
        """Keep a drawing for `place`."""
        self._forms.setdefault(key, (width_mm, height_mm, margin_mm, draw))

    def place(self, key: str, x_mm: float, y_mm: float, *, turn_deg: float = 0.0) -> None:
        """Draw a kept drawing here, cut at its margin."""
        if not self._seen:
            return
        width, height, margin, draw = self._forms[key]
        painter = self._painter
        painter.save()
        painter.translate(x_mm, y_mm)
        painter.rotate(turn_deg)
        box = QRectF(0, 0, width, height).adjusted(-margin, -margin, margin, margin)
        painter.setClipRect(box, Qt.ClipOperation.IntersectClip)
        draw(self)
        painter.restore()


def pen(colour: Colour, width_mm: float, dash_mm: tuple[float, ...] = ()) -> QPen:
    """A pen as paper has it: butt ends, mitred corners, dashes in millimetres."""
    made = QPen(QBrush(QColor(colour)), width_mm)
    made.setCapStyle(Qt.PenCapStyle.FlatCap)
    made.setJoinStyle(Qt.PenJoinStyle.SvgMiterJoin)
    made.setMiterLimit(10)
    if dash_mm and width_mm > 0:
        made.setDashPattern([dash / width_mm for dash in dash_mm])
    return made


def painter_path(path: Path) -> QPainterPath:
    """A path of documents as Qt's."""
    shape = QPainterPath()
    add_commands(shape, path, 0.0, 0.0, 1.0)
    return shape


def add_commands(shape: QPainterPath, path: Path, x: float, y: float, down: float) -> None:
    """Add path commands at a place; ``down`` is -1 when their y points up."""
    for command, *numbers in path:
        values = [float(number) for number in numbers]
        at = [(x + values[i], y + down * values[i + 1]) for i in range(0, len(values), 2)]
        match command:
            case "m":
                shape.moveTo(*at[0])
            case "l":
                shape.lineTo(*at[0])
            case "q":
                shape.quadTo(*at[0], *at[1])
            case "c":
                shape.cubicTo(*at[0], *at[1], *at[2])
            case _:
                shape.closeSubpath()


@lru_cache(8192)
def glyph_path(face: Typeface, gid: int) -> QPainterPath:
    """The outline of a glyph in font units, y down."""
    shape = QPainterPath()
    add_commands(shape, face.outline(gid), 0.0, 0.0, -1.0)
    shape.setFillRule(Qt.FillRule.WindingFill)
    return shape


def run_path(run: Run) -> QPainterPath:
    """The outlines of a whole run in font units, y down; shaped once, kept by identity."""
    kept = _runs.get(id(run))
    if kept is not None and kept[0] is run:
        return kept[1]
    shape = QPainterPath()
    shape.setFillRule(Qt.FillRule.WindingFill)
    for glyph in run.glyphs:
        shape.addPath(glyph_path(run.face, glyph.gid).translated(glyph.x, -glyph.y))
    if len(_runs) >= _MOST_RUNS:
        _runs.clear()
    _runs[id(run)] = (run, shape)
    return shape


@lru_cache(32)
def picture_image(data: bytes) -> QImage:
    """A picture file decoded with care, upright.

    Raises:
        DomainError: ``picture.damaged`` or ``picture.too-large``.
    """
    picture = open_picture(data).convert("RGBA")
    stride = 4 * picture.width
    image = QImage(
        picture.tobytes(), picture.width, picture.height, stride, QImage.Format.Format_RGBA8888
    )
    return image.copy()
