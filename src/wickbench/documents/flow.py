"""Papers that flow: headings, paragraphs, rows of figures, boxes to tick, rules, page breaks.

For weigh sheets, lists and records. Text is plain: what the person typed is never markup.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from wickbench.documents.outlines import line, rectangle
from wickbench.documents.surface import BLACK, Colour, Surface
from wickbench.documents.text import MM_PER_POINT, Run, Typeface, mm_per_unit, shape
from wickbench.documents.text_fit import wrap

if TYPE_CHECKING:
    from collections.abc import Sequence

GREY: Final = "#6b625a"

_LEADING: Final = 1.25
_GAP_MM: Final = 2.0


@dataclass(frozen=True, slots=True)
class PaperFaces:
    """Typefaces of a paper."""

    regular: Typeface
    bold: Typeface


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell of a row.

    Attributes:
        text: plain text, wrapped; ignored when ``tick`` is set.
        share: width of its column in parts of the row.
        align: left, centre or right; figures stand right.
        size_pt: type size.
        bold: in the bold face.
        colour: of the letters.
        tick: a box to tick.
        ticked: whether it is ticked already.
    """

    text: str = ""
    share: float = 1.0
    align: str = "left"
    size_pt: float = 10.0
    bold: bool = False
    colour: Colour = BLACK
    tick: bool = False
    ticked: bool = False


@dataclass(slots=True)
class Flow:
    """A paper written from top to bottom.

    Attributes:
        surface: what it is drawn on.
        faces: its typefaces.
        page_w_mm: page width.
        page_h_mm: page height.
        margin_mm: on all four sides.
        footer: draws on each finished page; gets the surface and the page's number from 1.
        y_mm: where the next thing will stand.
        pages: pages begun.
    """

    surface: Surface
    faces: PaperFaces
    page_w_mm: float
    page_h_mm: float
    margin_mm: float = 15.0
    footer: Callable[[Surface, int], None] | None = None
    y_mm: float = field(default=0.0, init=False)
    pages: int = field(default=0, init=False)

    def __post_init__(self) -> None:
        self.new_page()

    @property
    def width_mm(self) -> float:
        """Width between the margins."""
        return self.page_w_mm - 2 * self.margin_mm

    @property
    def left_mm(self) -> float:
        """Left margin."""
        return self.margin_mm

    @property
    def room_mm(self) -> float:
        """Height left on this page."""
        return self.page_h_mm - self.margin_mm - self.y_mm

    def new_page(self) -> None:
        """Begin a page."""
        self.surface.begin_page(self.page_w_mm, self.page_h_mm)
        self.pages += 1
        self.y_mm = self.margin_mm
        if self.footer is not None:
            self.footer(self.surface, self.pages)

    def keep(self, height_mm: float) -> None:
        """Begin a page when less than this height is left, unless the page is empty."""
        if height_mm > self.room_mm + 1e-6 and self.y_mm > self.margin_mm:
            self.new_page()

    def space(self, height_mm: float) -> None:
        """Leave some height free."""
        self.y_mm += height_mm

    def to(self, y_mm: float) -> None:
        """Go down to a place on this page; never up."""
        self.y_mm = max(self.y_mm, y_mm)

    def heading(self, text: str, size_pt: float = 16.0, *, colour: Colour = BLACK) -> None:
        """A heading that keeps some text below it on the same page."""
        self.keep(size_pt * MM_PER_POINT * _LEADING + 12)
        self.text(text, size_pt, bold=True, colour=colour)
        self.space(_GAP_MM / 2)

    def text(
        self,
        text: str,
        size_pt: float = 10.0,
        *,
        bold: bool = False,
        colour: Colour = BLACK,
        align: str = "left",
    ) -> None:
        """A paragraph, wrapped; its lines may go over the page's end."""
        face = self.faces.bold if bold else self.faces.regular
        for run in wrap(face, text, self.width_mm, size_pt):
            self.keep(size_pt * MM_PER_POINT * _LEADING)
            x = self.left_mm + _shift(run, size_pt, self.width_mm, align)
            y = self.y_mm + face.cap_height * mm_per_unit(face, size_pt) * 1.2
            self.surface.glyphs(run, size_pt, x, y, colour=colour)
            self.y_mm += size_pt * MM_PER_POINT * _LEADING

    def row(self, cells: Sequence[Cell], *, padding_mm: float = 1.5, rule: bool = False) -> None:
        """A row of cells side by side, each wrapped in its column; never split over pages."""
        widths = self._widths(cells)
        runs = [
            self._cell_runs(cell, width - _GAP_MM)
            for cell, width in zip(cells, widths, strict=True)
        ]
        lines = zip(cells, runs, strict=True)
        height = max((self._line_mm(cell) * len(block) for cell, block in lines), default=0.0)
        self.keep(height + 2 * padding_mm)
        self.y_mm += padding_mm
        x, base = self.left_mm, self._first_baseline(cells)
        for cell, block, width in zip(cells, runs, widths, strict=True):
            self._cell(cell, block, x, width - _GAP_MM, base)
            x += width
        self.y_mm += height + padding_mm
        if rule:
            self.rule(space_mm=0.0)

    def tick(self, text: str, size_pt: float = 11.0, *, ticked: bool = False) -> None:
        """A box to tick with its text."""
        box = size_pt * MM_PER_POINT * 1.6
        share = box / (self.width_mm - box)
        box_cell = Cell(share=share, tick=True, ticked=ticked, size_pt=size_pt)
        self.row([box_cell, Cell(text, size_pt=size_pt)])

    def rule(self, *, space_mm: float = 1.5, width_mm: float = 0.2, colour: Colour = GREY) -> None:
        """A line across the paper."""
        self.y_mm += space_mm
        path = line(self.left_mm, self.y_mm, self.left_mm + self.width_mm, self.y_mm)
        self.surface.path(path, stroke=colour, width_mm=width_mm)
        self.y_mm += space_mm

    def writing_lines(self, count: int, pitch_mm: float = 8.0) -> None:
        """Empty lines to write on by hand."""
        for _ in range(count):
            self.keep(pitch_mm)
            self.y_mm += pitch_mm
            path = line(self.left_mm, self.y_mm, self.left_mm + self.width_mm, self.y_mm)
            self.surface.path(path, stroke=GREY, width_mm=0.15)

    def _widths(self, cells: Sequence[Cell]) -> list[float]:
        parts = sum(cell.share for cell in cells)
        return [self.width_mm * cell.share / parts for cell in cells]

    def _face(self, cell: Cell) -> Typeface:
        return self.faces.bold if cell.bold else self.faces.regular

    def _cell_runs(self, cell: Cell, width_mm: float) -> tuple[Run, ...]:
        if cell.tick:
            return (shape(self._face(cell), ""),)
        return wrap(self._face(cell), cell.text, width_mm, cell.size_pt)

    def _line_mm(self, cell: Cell) -> float:
        return cell.size_pt * MM_PER_POINT * _LEADING

    def _first_baseline(self, cells: Sequence[Cell]) -> float:
        """All cells share the first base line, that of the largest type."""
        tallest = max(cells, key=lambda cell: cell.size_pt)
        return self.y_mm + self._ascent_mm(tallest)

    def _ascent_mm(self, cell: Cell) -> float:
        return self._face(cell).cap_height * mm_per_unit(self._face(cell), cell.size_pt) * 1.2

    def _cell(
        self, cell: Cell, runs: Sequence[Run], x_mm: float, width_mm: float, base_mm: float
    ) -> None:
        if cell.tick:
            side = cell.size_pt * MM_PER_POINT
            path = rectangle(x_mm, base_mm - side * 0.85, side, side)
            self.surface.path(path, stroke=BLACK, width_mm=0.3)
            if cell.ticked:
                self._tick_off(x_mm, base_mm - side * 0.85, side)
            return
        for at, run in enumerate(runs):
            y = base_mm + at * self._line_mm(cell)
            x = x_mm + _shift(run, cell.size_pt, width_mm, cell.align)
            self.surface.glyphs(run, cell.size_pt, x, y, colour=cell.colour)

    def _tick_off(self, x_mm: float, y_mm: float, side_mm: float) -> None:
        """A tick in a box, drawn as a pencil does."""
        corners = ((0.2, 0.5), (0.42, 0.75), (0.85, 0.2))
        first, *rest = ((x_mm + side_mm * x, y_mm + side_mm * y) for x, y in corners)
        path = (("m", *first), *(("l", *point) for point in rest))
        self.surface.path(path, stroke=BLACK, width_mm=0.45)


def _shift(run: Run, size_pt: float, width_mm: float, align: str) -> float:
    share = {"left": 0.0, "centre": 0.5, "right": 1.0}[align]
    return (width_mm - run.width_mm(size_pt)) * share
