"""Lowest part of a label by area, and what the front of a vessel shows, against geometry."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from wickbench.domain.errors import OutOfRange
from wickbench.domain.label_panel import front_part, lowest_share_mm
from wickbench.domain.labels import LabelDesign


def test_on_a_rectangle_area_goes_with_height() -> None:
    # 16 CFR 500.6(b): the lowest 30 % of the area
    assert lowest_share_mm(LabelDesign(width_mm=60, height_mm=40), 0.3) == pytest.approx(28.0)


@given(st.floats(10, 120), st.floats(10, 120), st.floats(0.05, 0.95))
def test_on_an_oval_the_area_below_is_the_share(wide: float, high: float, share: float) -> None:
    design = LabelDesign(width_mm=wide, height_mm=high, shape="oval")
    top = lowest_share_mm(design, share)

    def width(y: float) -> float:
        return wide * math.sqrt(max(0.0, 1 - ((y - high / 2) / (high / 2)) ** 2))

    below, _ = integrate.quad(width, top, high)
    assert below == pytest.approx(share * math.pi * wide * high / 4, rel=2e-4)


@pytest.mark.parametrize("share", [0.0, 1.0, -0.2, float("nan")])
def test_a_senseless_share_is_refused(share: float) -> None:
    with pytest.raises(OutOfRange):
        lowest_share_mm(LabelDesign(width_mm=60, height_mm=40), share)


def test_the_front_is_the_middle_of_the_label() -> None:
    # 40 % of the circumference of a jar 80 mm wide: 0.4 × π × 80 = 100.53 mm
    wrap = LabelDesign(width_mm=253.3, height_mm=50, shape="wrap", overlap_mm=2.0)
    left, right = front_part(wrap, 80.0, 0.4)
    assert right - left == pytest.approx(100.53, abs=0.01)
    assert (left + right) / 2 == pytest.approx((253.3 - 2.0) / 2)
    narrow = LabelDesign(width_mm=62, height_mm=36)
    assert front_part(narrow, 80.0, 0.4) == (0.0, 62.0)
