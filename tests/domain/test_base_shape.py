"""Outlines of a rounded and a bulging base, against the volumes that they take away."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from wickbench.domain.base_shape import (
    cap_mm3,
    fillet_inset_mm,
    fillet_missing_mm3,
    push_up_at_mm,
)


@given(st.floats(20, 60), st.floats(0.5, 15), st.floats(0.1, 1.0))
def test_the_drawn_rounding_encloses_the_counted_volume(
    radius: float, fillet: float, share: float
) -> None:
    # What a solid of revolution loses to the rounding, by scipy's quadrature of the outline.
    level = fillet * share

    def lost(z: float) -> float:
        return math.pi * (radius**2 - (radius - fillet_inset_mm(z, fillet)) ** 2)

    reference = quad(lost, 0.0, level)[0]
    assert fillet_missing_mm3(level, radius, fillet) == pytest.approx(reference, rel=1e-6)


@given(st.floats(15, 60), st.floats(0.5, 14))
def test_the_drawn_bulge_encloses_the_counted_volume(rim: float, push_up: float) -> None:
    # Shells of a solid of revolution, by scipy's quadrature of the outline.
    reference = quad(lambda x: 2 * math.pi * x * push_up_at_mm(x, rim, push_up), 0.0, rim)[0]
    sphere = (rim**2 + push_up**2) / (2 * push_up)
    assert cap_mm3(sphere, push_up) == pytest.approx(reference, rel=1e-6)
    assert push_up_at_mm(0.0, rim, push_up) == pytest.approx(push_up)
    assert push_up_at_mm(rim, rim, push_up) == 0.0


def test_a_flat_base_with_sharp_corners_takes_nothing() -> None:
    assert push_up_at_mm(3.0, 30.0, 0.0) == 0.0
    assert fillet_inset_mm(3.0, 0.0) == 0.0
    assert fillet_inset_mm(12.0, 10.0) == 0.0
