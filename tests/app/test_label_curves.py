"""The box that a text gets when it is bent for the first time."""

from __future__ import annotations

import pytest

from wickbench.app.label_curves import fields_that_act, with_oval
from wickbench.domain.labels import FrameElement, LabelDesign, TextElement

LINE = TextElement(x_mm=12, y_mm=8, w_mm=40, h_mm=7, text="Round")


def design(shape: str, w: float = 70, h: float = 60) -> LabelDesign:
    return LabelDesign(width_mm=w, height_mm=h, shape=shape, safe_mm=3)


def box(changes: object) -> tuple[float, ...]:
    assert isinstance(changes, dict)
    return tuple(changes[name] for name in ("x_mm", "y_mm", "w_mm", "h_mm"))


def test_on_a_round_label_a_line_goes_round_the_safe_zone() -> None:
    found = with_oval(design("circle", 60, 60), LINE, {"curve": "over"})
    assert box(found) == (3, 3, 54, 54)
    assert box(with_oval(design("oval"), LINE, {"curve": "under"})) == (3, 3, 64, 54)


@pytest.mark.parametrize("shape", ["rectangle", "rounded", "wrap"])
def test_elsewhere_it_keeps_its_width_and_its_edge(shape: str) -> None:
    assert box(with_oval(design(shape), LINE, {"curve": "over"})) == (12, 8, 40, 40)
    low = TextElement(x_mm=12, y_mm=48, w_mm=40, h_mm=7, text="Round")
    assert box(with_oval(design(shape), low, {"curve": "under"})) == (12, 15, 40, 40)
    wide = TextElement(x_mm=2, y_mm=20, w_mm=66, h_mm=7, text="Round")
    assert box(with_oval(design(shape), wide, {"curve": "over"})) == (8, 3, 54, 54)


def test_what_fits_already_or_is_something_else_stays() -> None:
    high = TextElement(x_mm=2, y_mm=2, w_mm=40, h_mm=30, text="Round")
    turned = TextElement(x_mm=12, y_mm=8, w_mm=40, h_mm=7, text="Round", turn_deg=30)
    bent = TextElement(x_mm=12, y_mm=8, w_mm=40, h_mm=7, text="Round", curve="over")
    frame = FrameElement(x_mm=12, y_mm=8, w_mm=40, h_mm=7)
    for element in (high, turned, bent, frame):
        assert with_oval(design("rectangle"), element, {"curve": "under"}) == {"curve": "under"}
    for changes in ({"curve": ""}, {"size_pt": 12.0}):
        assert with_oval(design("circle"), LINE, changes) == changes


def test_a_curve_offers_no_field_that_does_nothing_there() -> None:
    names = frozenset({"text", "wrap", "vertical", "align", "curve"})
    bent = TextElement(x_mm=12, y_mm=8, w_mm=40, h_mm=7, text="Round", curve="over")
    assert fields_that_act(bent, names) == {"text", "align", "curve"}
    assert fields_that_act(LINE, names) == names
    assert fields_that_act(FrameElement(x_mm=1, y_mm=1, w_mm=4, h_mm=7), names) == names
