"""Colours, clips and rules of style in SVG drawings, and what is told of the rest."""

from __future__ import annotations

import math

import pytest

from documents.samples import shelf
from documents.test_svg_paths import SIDE, _by_qt, _by_us, _spots, svg
from wickbench.app.resources import resource_path
from wickbench.app.texts import all_sentences
from wickbench.documents import svg_walk
from wickbench.documents.label_draws import PathDraw
from wickbench.documents.label_layout import lay_out_label
from wickbench.documents.pictograms import path_bounds
from wickbench.documents.svg_paths import LEFT_OUT, is_svg, svg_drawing
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Rank
from wickbench.domain.labels import LabelDesign, PictureElement


def test_rules_of_style_follow_their_weight() -> None:
    # CSS Cascading 4, 6.4: the style attribute over names over classes over tags over attributes.
    sheet = "<style>rect{fill:#010101} .c{fill:#020202} #n{fill:#030303} * {stroke:none}</style>"
    shapes = (
        '<rect width="9" height="9" fill="#090909"/><rect class="c" width="9" height="9"/>'
        '<rect id="n" class="c" width="9" height="9"/>'
        '<rect class="c" style="fill:#040404" width="9" height="9"/>'
        '<circle class="x" r="3" fill="#050505"/>'
    )
    drawing = svg_drawing(svg(sheet + shapes))
    assert [one.fill for one in drawing.draws] == [f"#0{n}0{n}0{n}" for n in (1, 2, 3, 4, 5)]
    assert drawing.left_out == ()
    told = svg_drawing(svg("<style>g rect{fill:red}</style>" + shapes))
    assert told.left_out == ("style",)


@pytest.mark.parametrize(
    ("said", "wanted"),
    [
        # CSS Color 4, 5 and 6: names, hexadecimal digits, rgb with numbers, percentages and slash.
        ("rebeccapurple", "#663399"), ("#abc", "#aabbcc"), ("RGB(1, 2, 3)", "#010203"),
        ("rgb(100% 0% 50%)", "#ff0080"), ("hsl(120,100%,25%)", "#008000"), ("#000000ff", "#000000"),
        ("rgb(0 0 0 / 50%)", "#808080"), ("#ff000080", "#ff7f7f"), ("transparent", None),
        ("none", None),
    ],
)  # fmt: skip
def test_colours_are_read_in_every_spelling(said: str, wanted: str | None) -> None:
    drawing = svg_drawing(svg(f'<rect width="9" height="9" fill="{said}" stroke="black"/>'))
    fills = [one.fill for one in drawing.draws if one.fill]
    assert fills == ([wanted] if wanted else [])


def test_clips_cut_and_are_kept_with_what_they_cut() -> None:
    inside = (
        '<clipPath id="a"><circle cx="50" cy="50" r="20"/></clipPath>'
        '<clipPath id="b" clipPathUnits="objectBoundingBox"><rect width=".5" height="1"/>'
        "</clipPath>"
        '<rect width="100" height="100" fill="red" clip-path="url(#a)"/>'
        '<rect y="80" width="100" height="20" fill="navy" clip-path="url(#b)"/>'
    )
    picture = _by_us(svg_drawing(svg(inside)))
    for (x, y), colour in {
        (50, 50): (0, 0, 255), (50, 32): (0, 0, 255), (36, 36): (0, 0, 255), (34, 34): None,
        (28, 50): None, (25, 90): (128, 0, 0), (75, 90): None,
    }.items():  # fmt: skip
        at = tuple(picture[round(y * SIDE / 100), round(x * SIDE / 100)])
        assert at == (colour or (255, 255, 255)), (x, y)


LOST = {
    "text": "<text x='5' y='5'>Wax</text>",
    "image": "<image href='data:image/png;base64,AAAA' width='5' height='5'/>",
    "gradient": "<linearGradient id='g'><stop stop-color='red'/><stop stop-color='blue'/>"
    "</linearGradient><rect width='5' height='5' fill='url(#g)'/>",
    "pattern": "<pattern id='p'/><rect width='5' height='5' fill='url(#p)'/>",
    "filter": "<filter id='f'/><rect width='5' height='5' filter='url(#f)'/>",
    "mask": "<mask id='m'/><rect width='5' height='5' mask='url(#m)'/>",
    "clip": "<rect width='5' height='5' clip-path='url(#none)'/>",
    "marker": "<marker id='k'/><path d='M0 0h5' stroke='red' marker-end='url(#k)'/>",
    "animation": "<rect width='5' height='5'><animate attributeName='x'/></rect>",
    "script": "<script>alert(1)</script>",
    "style": "<style>@media print{rect{fill:red}}</style>",
    "link": "<use href='elsewhere.svg#a'/>",
    "transparent": "<rect width='5' height='5' opacity='.5'/>",
    "colour": "<rect width='5' height='5' fill='blurple'/>",
    "path": "<path d='M0 0 L5 5 ?'/>",
    "blend": "<rect width='5' height='5' style='mix-blend-mode:multiply'/>",
    "stroke": "<path d='M0 0" + "h1v1" * 5000 + "' stroke='red' fill='none'/>",
    "other": "<foreignObject width='5' height='5'/>",
}  # fmt: skip


@pytest.mark.parametrize("word", LEFT_OUT)
def test_what_cannot_be_turned_is_told_and_the_rest_is_drawn(word: str) -> None:
    data = svg("<rect width='90' height='90' fill='#123456'/>" + LOST[word])
    drawing = svg_drawing(data)
    assert drawing.left_out == (word,)
    assert drawing.draws[0].fill == "#123456"
    element = PictureElement(x_mm=0, y_mm=0, w_mm=20, h_mm=20, picture="it")
    design = LabelDesign(width_mm=40, height_mm=40, kind="tag", elements=(element,))
    laid = lay_out_label(design, {}, shelf().nearest, lambda _: data)
    told = [one for one in laid.findings if one.key == f"svg.left-out-{word}"]
    assert len(told) == 1
    assert told[0].about == ("element", 0)
    assert told[0].key in all_sentences()


@pytest.mark.parametrize(
    ("data", "key"),
    [
        (b"<svg", "svg.damaged"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'><g></svg>", "svg.damaged"),
        (b"<html><svg/></html>", "svg.damaged"),
        (svg("<rect width='1' height='1'/>", "0 0 1e400 5"), "svg.damaged"),
        (svg("<text>only letters</text>"), "svg.nothing-drawn"),
        (b"<!DOCTYPE svg [<!ENTITY a 'x'>]>" + svg("<rect/>"), "svg.entities"),
        (b"<!DOCTYPE svg [<!ENTITY a SYSTEM 'file:///etc/hostname'>]>" + svg("&a;"),
         "svg.entities"),
        (svg("<g>" * 200 + "</g>" * 200), "svg.too-large"),
        (svg("<rect/>" * 60_000), "svg.too-large"),
        (svg("<desc>" + "x" * 4_000_000 + "</desc>"), "svg.too-large"),
    ],
)  # fmt: skip
def test_a_file_that_cannot_be_trusted_or_drawn_is_refused(data: bytes, key: str) -> None:
    with pytest.raises(DomainError) as refused:
        svg_drawing(data)
    assert refused.value.key == key
    assert key in all_sentences()


def test_a_plain_document_type_is_read_but_never_fetched() -> None:
    kind = (
        b'<?xml version="1.0"?><!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" '
        b'"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">'
    )
    data = kind + svg("<rect width='9' height='9'/>")
    assert is_svg(data)
    assert len(svg_drawing(data).draws) == 1


@pytest.mark.parametrize(
    "said", ["M0 0L1e400 5", "M0 0L5 5L1e9 3", f"M0 0L{'9' * 400} 1", "M0 0L5 5L1e-400 3"]
)
def test_a_coordinate_beyond_measure_is_left_out(said: str) -> None:
    drawing = svg_drawing(svg(f'<rect width="5" height="5"/><path d="{said}" fill="red"/>'))
    for draw in drawing.draws:
        assert all(math.isfinite(side) and abs(side) < 1e7 for side in path_bounds(draw.path))
    assert (len(drawing.draws) == 1) == (drawing.left_out == ("path",))


def test_what_uses_itself_ends(monkeypatch: pytest.MonkeyPatch) -> None:
    loop = "<g id='a'><rect width='5' height='5'/><use href='#a'/></g>"
    drawing = svg_drawing(svg(loop))
    assert drawing.left_out == ("link",)
    inner = ['<rect width="1" height="1"/>', *(f'<use href="#g{n}"/>' * 10 for n in range(8))]
    many = "".join(f'<g id="g{n}">{one}</g>' for n, one in enumerate(inner))
    monkeypatch.setattr(svg_walk, "MOST_DRAWS", 500)  # the same end, sooner
    with pytest.raises(DomainError) as refused:
        svg_drawing(svg(many))
    assert refused.value.key == "svg.too-large"


def test_one_colour_paints_all_but_white() -> None:
    data = svg("<rect width='90' height='90' fill='#c42'/><circle cx='45' cy='45' r='20'"
               " fill='#fff' stroke='blue'/>")  # fmt: skip
    element = PictureElement(x_mm=0, y_mm=0, w_mm=20, h_mm=20, picture="it", ink="#224466")
    design = LabelDesign(width_mm=40, height_mm=40, kind="tag", elements=(element,))
    laid = lay_out_label(design, {}, shelf().nearest, lambda _: data)
    draws = [one for one in laid.draws if isinstance(one, PathDraw)]
    assert [(one.fill, one.stroke) for one in draws] == [
        ("#224466", None),
        ("#ffffff", None),
        (None, "#224466"),
    ]


def test_a_line_too_fine_for_paper_is_told() -> None:
    data = svg("<path d='M0 0H100' stroke='black' stroke-width='.3'/>")
    element = PictureElement(x_mm=0, y_mm=0, w_mm=20, h_mm=20, picture="it")
    design = LabelDesign(width_mm=40, height_mm=40, kind="tag", elements=(element,))
    found = lay_out_label(design, {}, shelf().nearest, lambda _: data).findings
    assert [(one.key, one.rank) for one in found] == [("ornament.too-fine", Rank.WATCH)]
    assert found[0].data["line_mm"] == pytest.approx(0.06)  # 0.3 of 100 units on 20 mm


def test_our_own_icons_look_as_qt_draws_them() -> None:
    """Line icons with round ends and corners; Qt's arcs are off by up to two dots here."""
    for path in sorted(resource_path("icons").glob("*.svg"))[::4]:
        data = path.read_bytes().replace(b"currentColor", b"#000000")
        drawing = svg_drawing(data)
        assert drawing.left_out == (), path.name
        assert _spots(_by_us(drawing), _by_qt(data)) <= 4, path.name
