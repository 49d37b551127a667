"""Letters that a typeface lacks are lent by another: on paper, on screen, and said."""

from __future__ import annotations

import math

import pypdfium2 as pdfium
import pytest
from hypothesis import given
from hypothesis import strategies as st

from documents.samples import shelf
from wickbench.documents.label_layout import draw_label, lay_out_label
from wickbench.documents.lost_letters import lent, missing
from wickbench.documents.pdf import PdfSurface
from wickbench.documents.surface import RecordingSurface
from wickbench.documents.text import shape
from wickbench.domain.labels import LabelDesign, TextElement

# The serif (907 characters, Latin only in part) has no ŋ and no ɔ; the sans has both.
SERIF, _ = shelf().nearest("Source Serif Pro")
SANS, _ = shelf().nearest("Source Sans Pro")
MIXED = "Aŋɔ and b"


def test_the_runs_of_a_mixed_line_follow_each_other() -> None:
    run = shape(SERIF, MIXED)
    assert [(part.face, part.text) for _, part in run.parts] == [
        (SERIF, "A"), (SANS, "ŋɔ "), (SERIF, "and b"),
    ]  # fmt: skip
    starts = [start for start, _ in run.pieces(10.0)]
    widths = [part.width_mm(10.0) for _, part in run.parts]
    assert starts == pytest.approx([0.0, widths[0], widths[0] + widths[1]])
    assert run.width_mm(10.0) == pytest.approx(sum(widths))
    assert shape(SERIF, "and b").parts == ()


def test_what_is_lent_is_not_missing_and_what_nobody_has_is() -> None:
    assert missing(SERIF, MIXED) == ()
    assert lent(SERIF, MIXED) == {"Source Sans Pro": ("ŋ", "ɔ")}
    assert missing(SERIF, "a \U0001f56f") == ("\U0001f56f",)


def label_of(text: str, turn_deg: float = 0.0) -> LabelDesign:
    box = {"x_mm": 5.0, "y_mm": 20.0, "w_mm": 50.0, "h_mm": 20.0}
    one = TextElement(**box, text=text, family="Source Serif Pro", turn_deg=turn_deg)
    return LabelDesign(width_mm=60, height_mm=60, elements=(one,), kind="lid")


def test_lent_letters_are_read_back_from_the_paper_and_said() -> None:
    laid = lay_out_label(label_of(MIXED), {}, shelf().nearest)
    surface = PdfSurface()
    surface.begin_page(60, 60)
    draw_label(laid, surface)
    document = pdfium.PdfDocument(surface.finish())
    assert document[0].get_textpage().get_text_range().strip() == MIXED
    document.close()
    assert [one.key for one in laid.findings] == ["label.letters-lent"]
    assert laid.findings[0].data["characters"] == "ŋ ɔ"


@given(st.floats(0, 360))
def test_pieces_of_a_turned_line_stay_on_its_base_line(turn_deg: float) -> None:
    surface = RecordingSurface()
    surface.begin_page(60, 60)
    draw_label(lay_out_label(label_of(MIXED, turn_deg), {}, shelf().nearest), surface)
    first, *others = surface.texts
    run = shape(SERIF, MIXED)
    angle = math.radians(turn_deg)
    for drawn, (start, _) in zip(others, list(run.pieces(first.size_pt))[1:], strict=True):
        there = (
            first.x_mm + start * math.cos(angle),
            first.y_mm + start * math.sin(angle),
        )
        assert (drawn.x_mm, drawn.y_mm) == pytest.approx(there, abs=1e-6)
