"""A long print run of labels with running numbers, beside plain ReportLab with form objects.

Both write the same visible sheets: one form for what stays, a line with lot and number on each.
Asked for: at most twice the time of plain ReportLab, and at most 15 kB of memory for each page.

Not collected with the tests:  python tests/benchmarks/bench_labels.py [labels]
"""

# ruff: noqa: T201  (a benchmark prints)

from __future__ import annotations

import gc
import io
import statistics
import sys
import time
import tracemalloc
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, Any

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from wickbench.documents.kept_drawing import KeepingSurface
from wickbench.documents.label_draws import PathDraw, TextDraw
from wickbench.documents.label_layout import LaidOutLabel, lay_out_label
from wickbench.documents.numbered import numbered_label
from wickbench.documents.pdf_file import pdf_bytes
from wickbench.documents.sheet_layout import (
    RunEntry,
    SheetPages,
    draw_sheets,
    label_content,
    lay_out_sheets,
)
from wickbench.documents.typefaces import TypefaceShelf
from wickbench.domain.labels import FrameElement, LabelDesign, LineElement, TextElement
from wickbench.domain.sheets import StickerSheet

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

LABELS = 12_000
ROUNDS = 9
MOST_TIMES = 2.0
MOST_KB = 15.0
MM = 72 / 25.4
FONT = "Sans"

# Invented measures, of no known product.
SHEET = StickerSheet(210, 297, 9, 12.5, 3, 7, 65, 39.5, 62, 36, "rounded", corner_mm=3)
LINES = (
    ("Saltmarsh & cedar", 5.0, 14.0),
    ("scented soy candle", 11.5, 8.0),
    ("Net wt 7.8 oz (221 g)", 16.0, 8.0),
    ("Harbour Lane, 4 Quay Row, Saltby", 20.5, 7.0),
)
NUMBERED = "Lot 26-332-A1 · No. {number}"
NUMBER_TOP_MM = 26.5


def _text(text: str, top: float, size: float) -> TextElement:
    box = {"x_mm": 4.0, "y_mm": top, "w_mm": 54.0, "h_mm": 6.0}
    return TextElement(text=text, size_pt=size, min_size_pt=size, **box)


DESIGN = LabelDesign(
    width_mm=62,
    height_mm=36,
    shape="rounded",
    corner_mm=3,
    kind="tag",
    elements=(
        FrameElement(x_mm=0, y_mm=0, w_mm=62, h_mm=36, figure="sticker", inset_mm=2),
        LineElement(x_mm=16, y_mm=25.5, w_mm=30, h_mm=0),
        *(_text(*line) for line in LINES),
        _text(NUMBERED, NUMBER_TOP_MM, 7.0),
    ),
)


_SHELF = TypefaceShelf(())  # the program keeps its typefaces too


def _laid(design: LabelDesign, values: Mapping[str, str]) -> LaidOutLabel:
    return lay_out_label(design, values, _SHELF.nearest)


def ours(labels: int) -> bytes:
    """The run as the program writes it: laid out, placed, drawn."""
    return _written(_placed(labels))


def kept(labels: int) -> bytes:
    """The same, and every page kept so that it can be printed again exactly."""
    pages = _placed(labels)
    data = _written(pages)
    keeping = KeepingSurface()
    draw_sheets(keeping, pages)
    keeping.kept()
    return data


def _placed(labels: int) -> SheetPages:
    numbered = numbered_label(DESIGN, {}, range(1, labels + 1), _laid)
    entry = RunEntry(label_content(numbered.label), labels, numbered)
    return lay_out_sheets(SHEET, [entry])


def _written(pages: SheetPages) -> bytes:
    return pdf_bytes(lambda surface: draw_sheets(surface, pages), title="Run", language="en")


class Plain:
    """The same sheets, written straight with ReportLab."""

    def __init__(self) -> None:
        self.label = _laid(DESIGN, {"number": "12000"})
        self.number = next(
            draw
            for draw in self.label.draws
            if isinstance(draw, TextDraw) and draw.run.text.startswith("Lot")
        )
        self.middle = (self.number.x_mm + self.number.run.width_mm(7.0) / 2) * MM

    def __call__(self, labels: int) -> bytes:
        """Write the run."""
        out = io.BytesIO()
        canvas = Canvas(out, pagesize=(SHEET.page_w_mm * MM, SHEET.page_h_mm * MM))
        canvas.setTitle("Run")
        self._form(canvas)
        first = NUMBERED.split("{", maxsplit=1)[0]
        for at in range(labels):
            place = SHEET.sticker(at % SHEET.count)
            if at and at % SHEET.count == 0:
                canvas.showPage()
            left, top = place.x_mm * MM, (SHEET.page_h_mm - place.y_mm) * MM
            canvas.saveState()
            canvas.translate(left, top)
            canvas.doForm("label")
            canvas.restoreState()
            canvas.setFont(FONT, 7.0)
            down = top - self.number.y_mm * MM
            canvas.drawCentredString(left + self.middle, down, f"{first}{at + 1}")
        canvas.save()
        return out.getvalue()

    def _form(self, canvas: Any) -> None:  # noqa: ANN401 - the library has no types
        canvas.beginForm("label", 0, -DESIGN.height_mm * MM, DESIGN.width_mm * MM, 0)
        for draw in self.label.draws:
            if draw is self.number:
                continue
            if isinstance(draw, TextDraw):
                canvas.setFont(FONT, draw.size_pt)
                canvas.drawString(draw.x_mm * MM, -draw.y_mm * MM, draw.run.text)
            elif isinstance(draw, PathDraw):
                self._path(canvas, draw)
        canvas.endForm()

    @staticmethod
    def _path(canvas: Any, draw: PathDraw) -> None:  # noqa: ANN401 - the library has no types
        path = canvas.beginPath()
        calls = {"m": path.moveTo, "l": path.lineTo, "c": path.curveTo}
        for command, *numbers in draw.path:
            points = [float(one) * MM * (-1 if at % 2 else 1) for at, one in enumerate(numbers)]
            if command == "z":
                path.close()
            else:
                calls[str(command)](*points)
        canvas.setLineWidth(draw.width_mm * MM)
        canvas.drawPath(path, stroke=1, fill=0)


def register_font() -> None:
    """Give ReportLab the typeface that the label is set in."""
    file = Path(str(resources.files("font_source_sans_pro"))) / "files/SourceSansPro-Regular.ttf"
    pdfmetrics.registerFont(TTFont(FONT, file))


def seconds(write: Callable[[int], bytes], labels: int) -> float:
    """Processor seconds of one run."""
    gc.collect()
    began = time.process_time()
    write(labels)
    return time.process_time() - began


def memory_kb(write: Callable[[int], bytes], labels: int) -> tuple[float, float]:
    """Kilobytes for each page: the most held at once while writing, and what the file has."""
    pages = -(-labels // SHEET.count)
    write(SHEET.count)  # what is held once for all: typefaces, shaped lines
    gc.collect()
    tracemalloc.start()
    size = len(write(labels))
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return most / pages / 1000, size / pages / 1000


def main() -> None:
    """Print medians of rounds taken in turn, so that a busy machine is busy for both."""
    labels = int(sys.argv[1]) if len(sys.argv) > 1 else LABELS
    register_font()
    plain = Plain()
    ways = {"ours": ours, "kept": kept, "plain": plain}
    for write in ways.values():
        write(SHEET.count)
    rounds = [[seconds(write, labels) for write in ways.values()] for _ in range(ROUNDS)]
    print(f"{labels} labels on {-(-labels // SHEET.count)} pages, median of {ROUNDS} rounds")
    print(f"asked: {MOST_TIMES} times plain ReportLab, {MOST_KB} kB a page held at most")
    for at, (name, write) in enumerate(ways.items()):
        taken = statistics.median(one[at] for one in rounds)
        times = statistics.median(one[at] / one[-1] for one in rounds)
        most, size = memory_kb(write, labels)
        print(f"  {name:5} {taken:.3f} s, {times:.2f} times; {most:.1f} kB a page, file {size:.1f}")


if __name__ == "__main__":
    main()
