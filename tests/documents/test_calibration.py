"""Calibration: the fitted map against numpy's least squares; the page against its measures."""

from __future__ import annotations

import io
import math

import numpy as np
import pdfplumber
import pytest
from hypothesis import given
from hypothesis import strategies as st

from documents.samples import MM, sample_face
from wickbench.documents.affine import Affine, shift, turn
from wickbench.documents.calibration import calibrate, check_calibration, crosshairs
from wickbench.documents.calibration_page import CalibrationTexts, draw_calibration_page
from wickbench.documents.pdf_file import pdf_bytes
from wickbench.domain.errors import OutOfRange

MEANT = crosshairs(210, 297)
TEXTS = CalibrationTexts("Check", ("Print.", "Measure."), "100 mm", ("tl", "tr", "bl", "br"))
off = st.floats(-3, 3)


@given(st.lists(st.tuples(off, off), min_size=4, max_size=4))
def test_the_fit_is_the_least_squares_one(errors: list[tuple[float, float]]) -> None:
    measured = [(x + dx, y + dy) for (x, y), (dx, dy) in zip(MEANT, errors, strict=True)]
    fitted = calibrate(MEANT, measured)
    matrix = np.array([[x, y, 1.0] for x, y in MEANT])
    wanted, *_ = np.linalg.lstsq(matrix, np.array(measured), rcond=None)
    got = fitted.measured
    assert [[got.a, got.b], [got.c, got.d], [got.e, got.f]] == [
        pytest.approx(row, abs=1e-9) for row in wanted.tolist()
    ]
    rest = matrix @ wanted - np.array(measured)
    assert fitted.residual_mm == pytest.approx(math.sqrt((rest**2).sum() / 4), abs=1e-9)


@given(
    st.floats(-5, 5),
    st.floats(-5, 5),
    st.floats(0.99, 1.01),
    st.floats(0.99, 1.01),
    st.floats(-2, 2),
)
def test_a_known_distortion_is_found_and_undone(
    right: float, down: float, wide: float, high: float, degrees: float
) -> None:
    printer = shift(right, down).after(turn(degrees)).after(Affine(wide, 0, 0, high))
    found = calibrate(MEANT, [printer.apply(*point) for point in MEANT])
    assert found.scale_x == pytest.approx(wide, abs=1e-9)
    assert found.scale_y == pytest.approx(high, abs=1e-9)
    assert found.turn_deg == pytest.approx(degrees, abs=1e-7)
    assert found.skew_deg == pytest.approx(0, abs=1e-7)
    for point in ((0, 0), (105, 148), (210, 297)):
        assert printer.apply(*found.correction.apply(*point)) == pytest.approx(point, abs=1e-9)


def _keys(printer: Affine) -> list[str]:
    found = check_calibration(calibrate(MEANT, [printer.apply(*point) for point in MEANT]))
    return [finding.key for finding in found]


def test_what_the_measures_say_about_the_printer() -> None:
    assert _keys(shift(0.8, -0.4)) == []
    assert _keys(Affine(0.991, 0, 0, 0.991)) == []
    assert _keys(Affine(0.97, 0, 0, 0.97)) == ["calibration.fit-to-page"]
    assert _keys(Affine(1, 0, 0, 1.02)) == ["calibration.fit-to-page"]
    assert _keys(shift(25, 0)) == ["calibration.large-shift"]
    slip = [*MEANT[:3], (MEANT[3][0] + 4, MEANT[3][1])]
    assert "calibration.measure-again" in {f.key for f in check_calibration(calibrate(MEANT, slip))}


def test_useless_measures_are_refused() -> None:
    for measured in (
        MEANT[:3],
        [(50.0, 50.0)] * 4,
        [(1.0, 1.0), (2.0, 2.0), (3.0, 3.0), (4.0, 4.0)],
        [*MEANT[:3], (math.nan, 1.0)],
    ):
        with pytest.raises(OutOfRange):
            calibrate(MEANT, measured)


@pytest.mark.parametrize("page", [(210, 297), (215.9, 279.4), (297, 210)])
def test_the_page_holds_a_bar_of_100_mm_and_crosshairs_in_place(page: tuple[float, float]) -> None:
    data = pdf_bytes(
        lambda s: draw_calibration_page(s, *page, sample_face("sans"), TEXTS), title="Check"
    )
    with pdfplumber.open(io.BytesIO(data)) as document:
        sheet = document.pages[0]
        level = [one for one in sheet.lines if abs(one["top"] - one["bottom"]) < 0.01]
        words = sheet.extract_text()
    bar = max(level, key=lambda one: one["width"])
    assert bar["width"] * MM == pytest.approx(100, abs=0.01)
    arms = sorted(
        ((one["x0"] + one["x1"]) / 2 * MM, one["top"] * MM) for one in level if one is not bar
    )
    assert arms == [pytest.approx(point, abs=0.05) for point in sorted(crosshairs(*page))]
    assert "Measure." in words
