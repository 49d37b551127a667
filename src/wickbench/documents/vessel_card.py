"""The vessel card, half a page: what a vessel holds, how that was measured, and how it looks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Protocol

from wickbench.documents.flow import GREY, Cell
from wickbench.documents.outlines import rectangle
from wickbench.documents.stacking import spread
from wickbench.documents.surface import BLACK
from wickbench.documents.text import MM_PER_POINT, mm_per_unit, shape
from wickbench.documents.text_fit import wrap

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.documents.flow import Flow
    from wickbench.documents.surface import Colour, Path

_HEAD_MM: Final = 19.0
_ROW_MM: Final = 5.0
_NOTE_PT: Final = 8.0
_SCALES: Final = (1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 7.5, 10.0, 20.0, 50.0)
_BOX_H_MM: Final = 66.0
_BOX_SHARE: Final = 0.5
_PAD_MM: Final = 4.0
_WORDS_PT: Final = 7.5
_FACT_PT: Final = 9.0
_LEADING: Final = 1.25
_ACCENT: Final = "#a8540f"
_FILLS: Final[dict[str, Colour]] = {
    "wax": "#f6e6d6", "range": "#ecccae", "wall": "#e9e6e2", "wick": "#2b2622",
}  # fmt: skip
_STROKES: Final[dict[str, tuple[Colour, float, tuple[float, ...]]]] = {
    "wall": (BLACK, 0.3, ()), "brim": (GREY, 0.25, (1.0, 0.8)), "fill": (_ACCENT, 0.35, (1.2, 0.8)),
    "set": (_ACCENT, 0.35, ()), "wick": (BLACK, 0.5, ()), "zone": (GREY, 0.4, ()),
    "room": (GREY, 0.25, ()),
}  # fmt: skip


class DrawnLine(Protocol):
    """A line of the drawing in mm, y upwards; a shape when closed."""

    @property
    def role(self) -> str:
        """What it is: "wall", "wax", "fill" and so on."""

    @property
    def points(self) -> Sequence[tuple[float, float]]:
        """Its corners."""

    @property
    def closed(self) -> bool:
        """Whether it is a shape."""


class DrawnWords(Protocol):
    """Words that belong to a height."""

    @property
    def role(self) -> str:
        """What they are about."""

    @property
    def at_mm(self) -> float:
        """The height."""

    @property
    def lines(self) -> Sequence[str]:
        """The words, one line under the other."""


class Drawing(Protocol):
    """A drawing to scale."""

    @property
    def lines(self) -> Sequence[DrawnLine]:
        """From back to front."""

    @property
    def labels(self) -> Sequence[DrawnWords]:
        """From top to bottom."""

    @property
    def left_mm(self) -> float:
        """Left edge."""

    @property
    def right_mm(self) -> float:
        """Right edge."""

    @property
    def bottom_mm(self) -> float:
        """Lower edge."""

    @property
    def top_mm(self) -> float:
        """Upper edge."""


@dataclass(frozen=True, slots=True, kw_only=True)
class VesselCard:
    """Words and figures of a card, in the language and units of papers.

    Attributes:
        title: name of the vessel.
        subtitle: what it is made of, who made it.
        facts: label and value, from top to bottom.
        headings: of the table of weighings.
        weighings: its rows; none leave the table out.
        notes: how it was measured, what is an estimate.
        drawing: to scale; ``None`` while the inside is unknown.
        scale: the word before "1 : 2".
    """

    title: str
    subtitle: str = ""
    facts: tuple[tuple[str, str], ...] = ()
    headings: tuple[str, ...] = ()
    weighings: tuple[tuple[str, ...], ...] = ()
    notes: tuple[str, ...] = ()
    drawing: Drawing | None = None
    scale: str = ""


def draw_vessel_card(flow: Flow, card: VesselCard) -> None:
    """Write a card at the flow's place; it begins a page when its own height is not left."""
    flow.keep(min(_height_mm(flow, card), flow.page_h_mm - 2 * flow.margin_mm))
    flow.heading(card.title, 15.0)
    if card.subtitle:
        flow.text(card.subtitle, _FACT_PT, colour=GREY)
    flow.space(2.0)
    top = flow.y_mm
    box_w = flow.width_mm * _BOX_SHARE if card.drawing is not None else 0.0
    if card.drawing is not None:
        _draw(flow, card.drawing, card.scale, box_w)
    gap = 5.0 if box_w else 0.0
    end = _facts(flow, card.facts, flow.left_mm + box_w + gap, flow.width_mm - box_w - gap, top)
    flow.to(max(end, top + _BOX_H_MM if box_w else end) + 3.0)
    _table(flow, card)
    for note in card.notes:
        flow.text(note, _NOTE_PT, colour=GREY)
    flow.space(6.0)


def _height_mm(flow: Flow, card: VesselCard) -> float:
    """About what a card takes: two with a few weighings stand on a page."""
    face, width = flow.faces.regular, flow.width_mm
    lines = sum(len(wrap(face, note, width, _NOTE_PT)) for note in card.notes)
    rows = len(card.weighings) + 1 if card.weighings else 0
    body = _BOX_H_MM if card.drawing is not None else 0.0
    return _HEAD_MM + body + rows * _ROW_MM + lines * _NOTE_PT * MM_PER_POINT * _LEADING


def _facts(
    flow: Flow, facts: Sequence[tuple[str, str]], x_mm: float, width_mm: float, y_mm: float
) -> float:
    """Labels over their values in a column; gives the place below."""
    step = _FACT_PT * MM_PER_POINT * _LEADING
    for name, value in facts:
        for text, bold in ((name, False), (value, True)):
            face = flow.faces.bold if bold else flow.faces.regular
            for run in wrap(face, text, width_mm, _FACT_PT):
                y_mm += step
                colour = BLACK if bold else GREY
                flow.surface.glyphs(run, _FACT_PT, x_mm, y_mm, colour=colour)
        y_mm += 1.5
    return y_mm


def _table(flow: Flow, card: VesselCard) -> None:
    if not card.weighings:
        return
    flow.row(_cells(card.headings, bold=True), padding_mm=0.8, rule=True)
    for row in card.weighings:
        flow.row(_cells(row), padding_mm=0.5)
    flow.space(2.0)


def _cells(texts: Sequence[str], *, bold: bool = False) -> list[Cell]:
    return [
        Cell(text, align="right" if at else "left", size_pt=8.5, bold=bold)
        for at, text in enumerate(texts)
    ]


# -- the drawing -----------------------------------------------------------------------------------
def paper_scale(width_mm: float, height_mm: float, room_w_mm: float, room_h_mm: float) -> float:
    """How many mm of the vessel one mm of paper stands for: the smallest round number that fits."""
    needed = max(width_mm / room_w_mm, height_mm / room_h_mm)
    return next((scale for scale in _SCALES if scale >= needed - 1e-9), needed)


def _draw(flow: Flow, drawing: Drawing, scale_word: str, box_w_mm: float) -> None:
    left, top = flow.left_mm, flow.y_mm
    frame = rectangle(left, top, box_w_mm, _BOX_H_MM)
    flow.surface.path(frame, stroke=GREY, width_mm=0.15)
    words = _words_width(flow, drawing)
    room_w = max(15.0, box_w_mm - 3 * _PAD_MM - words)
    room_h = _BOX_H_MM - 2 * _PAD_MM - 4.0
    wide, high = drawing.right_mm - drawing.left_mm, drawing.top_mm - drawing.bottom_mm
    scale = paper_scale(wide, high, room_w, room_h)
    x0 = left + _PAD_MM + (room_w - wide / scale) / 2 - drawing.left_mm / scale
    y0 = top + _PAD_MM + (room_h - high / scale) / 2 + drawing.top_mm / scale
    for line in drawing.lines:
        path = _path([(x0 + x / scale, y0 - y / scale) for x, y in line.points], line.closed)
        _ink(flow, line, path)
    _words(flow, drawing, left + box_w_mm - _PAD_MM - words, y0, scale=scale, top_mm=top)
    run = shape(flow.faces.regular, f"{scale_word} 1 : {scale:g}".strip())
    at = top + _BOX_H_MM - 2.0
    flow.surface.glyphs(run, _WORDS_PT - 0.5, left + _PAD_MM, at, colour=GREY)


def _path(points: Sequence[tuple[float, float]], closed: bool) -> Path:  # noqa: FBT001 - of the line
    first, *rest = points
    steps = (("m", *first), *(("l", *point) for point in rest))
    return (*steps, ("z",)) if closed else steps


def _ink(flow: Flow, line: DrawnLine, path: Path) -> None:
    fill = _FILLS.get(line.role) if line.closed else None
    stroke, width, dash = _STROKES.get(line.role, (None, 0.25, ()))
    flow.surface.path(path, fill=fill, stroke=stroke, width_mm=width, dash_mm=dash)


def _words_width(flow: Flow, drawing: Drawing) -> float:
    runs = [shape(flow.faces.regular, text) for label in drawing.labels for text in label.lines]
    return max((run.width_mm(_WORDS_PT) for run in runs), default=0.0)


def _words(
    flow: Flow, drawing: Drawing, x_mm: float, y0_mm: float, *, scale: float, top_mm: float
) -> None:
    face = flow.faces.regular
    step = _WORDS_PT * MM_PER_POINT * _LEADING
    rise = face.cap_height * mm_per_unit(face, _WORDS_PT) / 2
    wanted = [y0_mm - label.at_mm / scale for label in drawing.labels]
    sizes = [step * len(label.lines) for label in drawing.labels]
    places = spread(wanted, sizes, top_mm + 1.0, top_mm + _BOX_H_MM - 1.0)
    for label, place, size in zip(drawing.labels, places, sizes, strict=True):
        colour = _ACCENT if label.role in {"fill", "set"} else GREY
        for number, text in enumerate(label.lines):
            y = place - size / 2 + step * (number + 0.5) + rise
            flow.surface.glyphs(shape(face, text), _WORDS_PT, x_mm, y, colour=colour)
