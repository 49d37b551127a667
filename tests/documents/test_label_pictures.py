"""Pictures on labels: cut, fitted, turned upright, and told when they are too coarse."""

from __future__ import annotations

import io

import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from documents.samples import png, shelf
from wickbench.documents.label_draws import ImageDraw
from wickbench.documents.label_layout import LaidOutLabel, draw_label, lay_out_label
from wickbench.documents.label_pictures import fitted
from wickbench.documents.pdf import PdfSurface
from wickbench.domain.errors import OutOfRange
from wickbench.domain.labels import LabelDesign, PictureElement

RED, GREEN, BLUE, YELLOW = (255, 0, 0), (0, 255, 0), (0, 0, 255), (255, 255, 0)
PER_MM = 10


def quarters(width: int = 400, height: int = 200, turned: int = 1, kind: str = "PNG") -> bytes:
    """Red, green above; blue, yellow below, in pixels as they are stored."""
    picture = Image.new("RGB", (width, height), RED)
    picture.paste(GREEN, (width // 2, 0, width, height // 2))
    picture.paste(BLUE, (0, height // 2, width // 2, height))
    picture.paste(YELLOW, (width // 2, height // 2, width, height))
    exif = Image.Exif()
    exif[0x0112] = turned
    out = io.BytesIO()
    more = {"quality": 95} if kind == "JPEG" else {}
    picture.save(out, kind, exif=exif, **more)
    return out.getvalue()


def _laid(data: bytes, **look: object) -> LaidOutLabel:
    place = {"x_mm": 10.0, "y_mm": 10.0, "w_mm": 40.0, "h_mm": 20.0, "picture": "it"}
    element = PictureElement(**(place | look))
    design = LabelDesign(width_mm=60, height_mm=40, kind="tag", elements=(element,))
    return lay_out_label(design, {}, shelf().nearest, lambda _: data)


def _paper(laid: LaidOutLabel) -> Image.Image:
    surface = PdfSurface()
    surface.begin_page(60, 40)
    draw_label(laid, surface)
    page = pypdfium2.PdfDocument(surface.finish())[0]
    return page.render(scale=PER_MM * 25.4 / 72).to_pil().convert("RGB")


def _colour(picture: Image.Image, x_mm: float, y_mm: float) -> str:
    seen = picture.getpixel((round(x_mm * PER_MM), round(y_mm * PER_MM)))
    known = {"red": RED, "green": GREEN, "blue": BLUE, "yellow": YELLOW, "paper": (255, 255, 255)}
    return min(
        known, key=lambda one: sum(abs(a - b) for a, b in zip(known[one], seen, strict=True))
    )


def test_what_is_cut_off_is_not_on_paper_and_the_rest_fills_the_box() -> None:
    whole = _paper(_laid(quarters()))
    assert [_colour(whole, x, y) for x, y in ((15, 15), (45, 15), (15, 25), (45, 25))] == [
        "red", "green", "blue", "yellow",
    ]  # fmt: skip
    # Half of the width is gone: the rest is as high as wide, in the middle of its box.
    right = _paper(_laid(quarters(), crop_left=0.5))
    assert [_colour(right, x, 15) for x in (18, 22, 38, 42)] == ["paper", "green", "green", "paper"]
    filled = _paper(_laid(quarters(), crop_left=0.5, fit="cover"))
    assert [_colour(filled, x, 12) for x in (8, 12, 48, 52)] == ["paper", "green", "green", "paper"]
    stretched = _paper(_laid(quarters(), crop_top=0.5, crop_right=0.5, fit="stretch"))
    assert [_colour(stretched, x, 12) for x in (8, 12, 48)] == ["paper", "blue", "blue"]


def test_dots_per_inch_are_those_of_what_is_left() -> None:
    # 400 dots over 40 mm are 254 dots per inch; half of them over the same width are 127.
    assert _laid(quarters()).findings == ()
    cut = _laid(quarters(), crop_left=0.25, crop_right=0.25, fit="cover")
    assert [(one.key, one.data["dots"]) for one in cut.findings] == [("label.picture-coarse", 127)]
    # Stretched to double its height it has half the dots that way.
    tall = _laid(quarters(400, 50), fit="stretch")
    assert [one.data["dots"] for one in tall.findings] == [64]


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
@pytest.mark.parametrize(
    ("turned", "corners"),
    [
        # Exif 2.32, 4.6.4: what the first row and column of the stored picture are.
        (1, ("red", "green", "blue", "yellow")),
        (3, ("yellow", "blue", "green", "red")),
        (6, ("blue", "red", "yellow", "green")),
        (8, ("green", "yellow", "red", "blue")),
    ],
)
def test_a_photograph_stands_upright_as_its_camera_says(
    kind: str, turned: int, corners: tuple[str, ...]
) -> None:
    laid = _laid(quarters(400, 400, turned, kind), fit="stretch")
    paper = _paper(laid)
    spots = ((15, 13), (45, 13), (15, 27), (45, 27))
    assert tuple(_colour(paper, x, y) for x, y in spots) == corners
    # What is cut off is cut off the upright picture.
    left = _paper(_laid(quarters(400, 400, turned, kind), fit="stretch", crop_right=0.5))
    assert _colour(left, 45, 13) == corners[0]


def test_a_picture_over_the_edge_is_told_by_what_is_seen_of_it() -> None:
    over = {"x_mm": 30.0, "w_mm": 40.0}
    assert "label.picture-cut" in {one.key for one in _laid(png(900, 450), **over).findings}
    cut = _laid(png(900, 450), **over, crop_left=0.5)  # 20 × 20 mm in the middle, 40 to 60 mm
    assert cut.findings == ()


@settings(max_examples=30)
@given(
    st.sampled_from(["contain", "cover", "stretch"]),
    st.floats(0.2, 5),
    st.tuples(*(st.floats(0, 0.45) for _ in range(4))),
    st.floats(2, 60),
    st.floats(2, 60),
)
def test_what_is_seen_lies_in_the_box_and_keeps_its_shape(
    fit: str, aspect: float, cut: tuple[float, ...], wide: float, high: float
) -> None:
    names = ("crop_left", "crop_top", "crop_right", "crop_bottom")
    element = PictureElement(
        x_mm=3, y_mm=4, w_mm=wide, h_mm=high, fit=fit, **dict(zip(names, cut, strict=True))
    )
    place = fitted(element, aspect)
    left = place.whole.x_mm + cut[0] * place.whole.w_mm
    right = place.whole.right_mm - cut[2] * place.whole.w_mm
    top = place.whole.y_mm + cut[1] * place.whole.h_mm
    bottom = place.whole.bottom_mm - cut[3] * place.whole.h_mm
    if fit != "stretch":
        assert place.whole.w_mm / place.whole.h_mm == pytest.approx(aspect)
    if fit == "cover":
        assert left <= 3 + 1e-6
        assert right >= 3 + wide - 1e-6
        assert top <= 4 + 1e-6
        assert bottom >= 4 + high - 1e-6
    else:
        assert (left, top, right, bottom) == pytest.approx(
            (place.seen.x_mm, place.seen.y_mm, place.seen.right_mm, place.seen.bottom_mm)
        )
        assert place.seen.w_mm <= wide + 1e-6
        assert place.seen.h_mm <= high + 1e-6


def test_something_must_be_left() -> None:
    with pytest.raises(OutOfRange):
        PictureElement(x_mm=0, y_mm=0, w_mm=9, h_mm=9, crop_left=0.6, crop_right=0.4)


def test_a_clip_is_made_only_where_something_is_cut() -> None:
    def clips(**look: object) -> list[bool]:
        draws = _laid(png(400, 200), **look).draws
        return [one.clip is not None for one in draws if isinstance(one, ImageDraw)]

    assert clips() == [False]
    assert clips(crop_left=0.1) == [True]
    assert clips(fit="cover") == [True]
