"""Designs of every kind of element at random, sensible and senseless ones alike."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from hypothesis import strategies as st

from documents.samples import png
from wickbench.documents.ornaments import ornament_names
from wickbench.documents.pictograms import names as pictogram_names
from wickbench.domain.label_measures import (
    ALIGNMENTS,
    CORNERS,
    CURVES,
    FACTS,
    FITS,
    FRAMES,
    LABEL_SHAPES,
    QR_LEVELS,
    SYMBOLS,
    VERTICALS,
)
from wickbench.domain.labels import (
    AnyElement,
    CodeElement,
    FactsElement,
    FrameElement,
    LabelDesign,
    LineElement,
    OrnamentElement,
    PictogramElement,
    PictureElement,
    TextElement,
)

if TYPE_CHECKING:
    from hypothesis.strategies import SearchStrategy

VALUES = {
    "candle": "Saltmarsh & cedar",
    "identity": "scented soy candle",
    "lot": "Lot 26-332-A1",
    "net_weight": "Net wt 7.8 oz (221 g)",
    "business": "Harbour Lane",
    "business_address": "4 Quay Row, Saltby",
    "ingredients": "Contains: linalool, limonene. May produce an allergic reaction.",
    "burn_time": "Burn at most 4 hours at a time",
    "code": "629104150021",
}
DRAWING = (
    b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30">'
    b'<path d="M2 2 L38 4 L20 28 Z" fill="#402010"/><circle cx="20" cy="15" r="6" fill="none"'
    b' stroke="#000" stroke-width="2"/></svg>'
)
PICTURES = {
    "wide": png(300, 120),
    "clear": png(40, 90, colour=(20, 90, 30, 120)),
    "drawing": DRAWING,
    "broken": b"\x89PNG broken",
}
TEXTS = (
    "{candle}",
    "{identity} {lot}",
    "Wickwood",
    "{business}, {business address}\n{net weight}",
    "Süßholz für Größe",
    "Longwordwithoutanyblankthatcannotbebroken",
    "{sent}",
    "  spaced\n\nlines ",
    "Fig 字 \U0001f56f",
    "office, ﬁx",
    "{wax}",
    "",
    "629104150021",
    "23456",
    "36000291452",
)


def _measure(least: float, most: float) -> SearchStrategy[float]:
    """Round numbers often, as people type them, and any other."""
    return st.one_of(
        st.integers(int(least), int(most)).map(float), st.floats(least, most, allow_nan=False)
    )


def _box() -> dict[str, SearchStrategy[Any]]:
    return {
        "x_mm": _measure(-15, 70),
        "y_mm": _measure(-15, 50),
        "w_mm": _measure(0, 80),
        "h_mm": _measure(0, 60),
        "turn_deg": st.sampled_from((0.0, 0.0, 0.0, 90.0, 180.0, 270.0, 33.0, -7.5, 360.0)),
    }


COLOURS = st.sampled_from(("#000000", "#7a4a10", "#ffffff", "#c8d0b0"))
FAMILIES = st.sampled_from(("Source Sans Pro", "Source Serif Pro", "Nowhere Grotesk"))
ELEMENTS: tuple[SearchStrategy[AnyElement], ...] = (
    st.builds(
        TextElement,
        **_box(),
        text=st.sampled_from(TEXTS),
        family=FAMILIES,
        style=st.sampled_from(("Regular", "Bold Italic", "Semibold")),
        size_pt=_measure(1, 40),
        min_size_pt=_measure(1, 12),
        align=st.sampled_from(ALIGNMENTS),
        vertical=st.sampled_from(VERTICALS),
        colour=COLOURS,
        letter_spacing_em=st.sampled_from((0.0, 0.0, 0.15, 0.5)),
        leading=_measure(1, 2),
        upper=st.booleans(),
        wrap=st.booleans(),
        curve=st.sampled_from(CURVES),
    ),
    st.builds(
        PictureElement,
        **_box(),
        picture=st.sampled_from(("", "gone", *PICTURES)),
        fit=st.sampled_from(FITS),
        crop_left=st.sampled_from((0.0, 0.3)),
        crop_top=st.sampled_from((0.0, 0.6)),
    ),
    st.builds(
        FrameElement,
        **_box(),
        figure=st.sampled_from(FRAMES),
        line_mm=st.sampled_from((0.0, 0.1, 0.3, 1.5)),
        fill=st.sampled_from(("", "", "#f0e8d8")),
        inset_mm=st.sampled_from((0.0, 0.5, 2.0)),
        corner_mm=_measure(0, 8),
        corners=st.sampled_from(CORNERS),
        second_mm=st.sampled_from((0.0, 0.8)),
    ),
    st.builds(LineElement, **_box(), line_mm=st.sampled_from((0.1, 0.3, 1.5))),
    st.builds(
        CodeElement,
        **_box(),
        text=st.sampled_from(TEXTS),
        symbol=st.sampled_from(SYMBOLS),
        module_mm=st.sampled_from((0.0, 0.0, 0.33, 0.5)),
        signs=st.booleans(),
        level=st.sampled_from(QR_LEVELS),
        ground=st.sampled_from(("", "#ffffff")),
    ),
    st.builds(
        OrnamentElement, **_box(), ornament=st.sampled_from((*ornament_names(), "no such one"))
    ),
    st.builds(
        PictogramElement, **_box(), pictogram=st.sampled_from((*pictogram_names(), "no such one"))
    ),
    st.builds(
        FactsElement,
        **_box(),
        facts=st.lists(st.sampled_from(FACTS), max_size=5).map(tuple),
        words=st.booleans(),
        size_pt=_measure(3, 14),
        align=st.sampled_from(ALIGNMENTS),
    ),
)


@st.composite
def designs(
    draw: Any,  # noqa: ANN401 - hypothesis gives it
    *,
    shapes: tuple[str, ...] = LABEL_SHAPES,
    most: int = 5,
) -> LabelDesign:
    """A label of some shape and size with a few elements."""
    shape = draw(st.sampled_from(shapes))
    width, height = draw(_measure(18, 90)), draw(_measure(12, 60))
    bottom = draw(st.sampled_from((0.0, 60.0, 72.5))) if shape == "wrap" else 0.0
    return LabelDesign(
        width_mm=width,
        height_mm=width if shape == "circle" else height,
        shape=shape,
        corner_mm=draw(st.sampled_from((0.0, 2.0, 6.0))),
        safe_mm=draw(st.sampled_from((0.0, 1.0, 2.0))),
        bleed_mm=draw(st.sampled_from((0.0, 1.5))),
        background=draw(st.sampled_from(("", "#f0e8d8"))),
        elements=tuple(draw(st.lists(st.one_of(*ELEMENTS), min_size=1, max_size=most))),
        kind=draw(st.sampled_from(("jar", "lid", "tag"))),
        wrap_bottom_mm=bottom,
        wrap_top_mm=draw(st.sampled_from((bottom, bottom * 1.15))) if bottom else 0.0,
    )
