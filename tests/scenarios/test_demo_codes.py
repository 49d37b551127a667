"""Every code on every label page of the demo is read by a scanner's library (zxing-cpp)."""

from __future__ import annotations

from collections import Counter
from functools import partial
from typing import TYPE_CHECKING

import pypdfium2
import pytest
import zxingcpp

from documents.samples import shelf as typefaces
from wickbench.app.label_values import LabelSubject, label_values
from wickbench.app.print_run_view import label_texts
from wickbench.documents.label_layout import lay_out_label
from wickbench.documents.pdf_file import pdf_bytes
from wickbench.documents.sheet_layout import (
    RunEntry,
    SheetPages,
    draw_sheets,
    label_content,
    lay_out_sheets,
)
from wickbench.domain.label_fields import fill_in
from wickbench.domain.labels import CodeElement, LabelDesign
from wickbench.domain.sheets import StickerSheet

if TYPE_CHECKING:
    from collections.abc import Mapping

    from demo_papers import DemoPapers
    from wickbench.app.print_run_view import RunView
    from wickbench.app.print_runs import RunLine
    from wickbench.app.workspace import Workspace

DOTS = 300
DIGITS = {"ean13": 13, "upca": 12, "ean8": 8}


def _said(element: CodeElement, values: Mapping[str, str]) -> str:
    """What a scanner shall say: GS1 puts the missing check digit on; UPC-A is EAN-13 after a 0."""
    text = fill_in(element.text, values).text.strip()
    if element.symbol not in DIGITS:
        return text
    digits = text.replace(" ", "").replace("-", "")
    if len(digits) < DIGITS[element.symbol]:
        # GS1 General Specifications, check digit: weights 3, 1, … from the right, modulo ten.
        weighed = sum(int(one) * (3, 1)[at % 2] for at, one in enumerate(digits[::-1]))
        digits += str(-weighed % 10)
    return digits.zfill(13) if element.symbol == "upca" else digits


def _wanted_of_line(
    workspace: Workspace, demo: DemoPapers, design: LabelDesign, line: RunLine
) -> Counter[str]:
    subject = LabelSubject(
        candle_id=line.candle_id, lot_code=line.lot_code, poured_on=line.poured_on
    )
    texts = label_texts(workspace)
    values = label_values(demo.shelf, workspace.settings, texts, subject)
    wanted: Counter[str] = Counter()
    for nth in range(line.count):
        numbered = {**values, "number": str((line.first_number or 1) + nth)}
        codes = [one for one in design.elements if isinstance(one, CodeElement)]
        wanted.update(_said(one, numbered) for one in codes)
    return wanted


def _wanted(demo: DemoPapers, run: RunView) -> Counter[str]:
    wanted: Counter[str] = Counter()
    for label, line in zip(run.labels, run.lines, strict=True):
        if label.caution is None:
            wanted += _wanted_of_line(demo.workspace, demo, label.design, line)
    return wanted


def _read(pages: SheetPages) -> Counter[str]:
    """What all codes say, sticker by sticker, as printed at 300 dots an inch in grey.

    One by one, as people scan them: the library takes equal bars below each other for one code.
    """
    document = pypdfium2.PdfDocument(pdf_bytes(partial(draw_sheets, pages=pages), title="Labels"))
    found: Counter[str] = Counter()
    for page, sheet_no in zip(document, pages.sheet_numbers, strict=True):
        picture = page.render(scale=DOTS / 72, grayscale=True).to_pil()
        for one in pages.on_sheet(sheet_no):
            box = pages.sheet.sticker(one.index)
            sides = (box.x_mm, box.y_mm, box.right_mm, box.bottom_mm)
            piece = picture.crop(tuple(round(side * DOTS / 25.4) for side in sides))
            found.update(read.text for read in zxingcpp.read_barcodes(piece))
    document.close()
    return found


def test_every_code_of_the_demo_is_read(demo_papers: DemoPapers) -> None:
    count = 0
    for run in demo_papers.runs:
        assert run.pages is not None
        wanted = _wanted(demo_papers, run)
        if wanted:
            assert _read(run.pages) == wanted, run.run.name
            count += wanted.total()
    assert count > 10


@pytest.mark.parametrize("turned", [False, True])
def test_a_sheet_full_of_codes_is_read_to_the_last(*, turned: bool) -> None:
    size = (36.0, 62.0) if turned else (62.0, 36.0)
    # Invented measures; texts from the reserved domain of RFC 2606, digits from the GS1 manual.
    sheet = StickerSheet(210, 297, 9, 12.5, 3, 7, 65, 39.5, 62, 36)
    codes = (
        CodeElement(text="https://example.org/{lot}", x_mm=3, y_mm=3, w_mm=22, h_mm=22),
        CodeElement(text="629104150021", symbol="ean13", x_mm=5, y_mm=3, w_mm=50, h_mm=30),
        CodeElement(text="{lot}", symbol="code128", x_mm=4, y_mm=5, w_mm=54, h_mm=14),
    )
    entries = []
    wanted: Counter[str] = Counter()
    for at, code in enumerate(map(_upright, codes) if turned else codes):
        values = {"lot": f"26-332-A{at}"}
        design = LabelDesign(width_mm=size[0], height_mm=size[1], kind="tag", elements=(code,))
        label = lay_out_label(design, values, typefaces().nearest)
        entries.append(RunEntry(label_content(label), 7))
        wanted[_said(code, values)] += 7
    assert _read(lay_out_sheets(sheet, entries)) == wanted
    assert "6291041500213" in wanted  # GS1 General Specifications: the example of the check digit


def _upright(code: CodeElement) -> CodeElement:
    """The same code at the upper end of a label that is turned by a quarter."""
    box = {"x_mm": code.y_mm - 2, "y_mm": code.x_mm, "w_mm": code.h_mm, "h_mm": code.w_mm}
    if code.symbol != "qr":
        middle = (box["x_mm"] + box["w_mm"] / 2, box["y_mm"] + box["h_mm"] / 2)
        box = {
            "x_mm": middle[0] - code.w_mm / 2,
            "y_mm": middle[1] - code.h_mm / 2,
            "w_mm": code.w_mm,
            "h_mm": code.h_mm,
            "turn_deg": 90.0,
        }
    return CodeElement(text=code.text, symbol=code.symbol, **box)
