"""Frames: their corners by the area they cut off, and a second line at an even distance."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath

from documents.samples import shelf
from wickbench.documents.frame_outlines import cornered
from wickbench.documents.label_draws import PathDraw
from wickbench.documents.label_layout import lay_out_label
from wickbench.documents.svg_strokes import flattened
from wickbench.domain.label_measures import CORNERS
from wickbench.domain.labels import FrameElement, LabelDesign
from wickbench.domain.sheets import Rect
from wickbench.gui.painting import painter_path

# Plane geometry: what one corner of size s takes away from the rectangle.
LOST = {"round": 1 - math.pi / 4, "cut": 0.5, "hollow": math.pi / 4, "notched": 1.0}


def _area(path: tuple) -> float:
    """By the trapezoid rule, positive clockwise with y down."""
    points = flattened(path, 0.001)[0].points
    ends = [*points, points[0]]
    return math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(ends)) / 2


def _frame(shape: str = "rectangle", **look: object) -> list[PathDraw]:
    place = {"x_mm": 3.0, "y_mm": 4.0, "w_mm": 50.0, "h_mm": 30.0}
    element = FrameElement(**(place | {"figure": "rounded"} | look))
    design = LabelDesign(
        width_mm=60, height_mm=40, shape=shape, corner_mm=4, kind="tag", elements=(element,)
    )
    laid = lay_out_label(design, {}, shelf().nearest)
    return [one for one in laid.draws if isinstance(one, PathDraw)]


@given(st.sampled_from(CORNERS), st.floats(10, 60), st.floats(10, 60), st.floats(0.5, 5))
def test_a_corner_takes_away_the_area_of_its_figure(
    corners: str, wide: float, high: float, size: float
) -> None:
    path = cornered(Rect(2.0, 3.0, wide, high), corners, size)
    assert _area(path) == pytest.approx(wide * high - 4 * LOST[corners] * size**2, rel=1e-3)


@pytest.mark.parametrize("corners", CORNERS)
def test_the_second_line_keeps_its_distance_everywhere(corners: str) -> None:
    outer = cornered(Rect(0.0, 0.0, 50.0, 30.0), corners, 6.0)
    inner = cornered(Rect(0.0, 0.0, 50.0, 30.0), corners, 6.0, 1.5)
    rim = flattened(outer, 0.001)[0].points
    sides = list(pairwise([*rim, rim[0]]))
    points = flattened(inner, 0.001)[0].points
    for (x1, y1), (x2, y2) in pairwise([*points, points[0]]):
        spot = ((x1 + x2) / 2, (y1 + y2) / 2)  # a mitred point lies farther out
        assert min(_distance(spot, a, b) for a, b in sides) == pytest.approx(1.5, abs=0.01)


def _distance(p: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    """From a point to a straight piece, by projection."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    size = dx * dx + dy * dy
    t = 0.0 if size == 0 else ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / size
    t = min(max(t, 0.0), 1.0)
    return math.dist(p, (a[0] + t * dx, a[1] + t * dy))


@pytest.mark.parametrize("corners", CORNERS)
def test_too_large_a_corner_ends_at_half_the_shorter_side(corners: str) -> None:
    path = cornered(Rect(0.0, 0.0, 50.0, 20.0), corners, 99.0)
    assert path == cornered(Rect(0.0, 0.0, 50.0, 20.0), corners, 10.0)
    xs = [float(one[-2]) for one in path if len(one) > 1]
    assert (min(xs), max(xs)) == pytest.approx((0.0, 50.0))


def test_a_round_corner_is_qts_rounded_rectangle() -> None:
    ours = painter_path(_frame(corner_mm=5.0)[0].path)
    theirs = QPainterPath()
    theirs.addRoundedRect(QRectF(3, 4, 50, 30), 5, 5)
    assert ours.boundingRect() == theirs.boundingRect()
    for at in range(50):
        spot = theirs.pointAtPercent(at / 50)
        middle = QPointF(28, 19)
        assert ours.contains(spot + (middle - spot) * 0.002)
        assert not ours.contains(spot - (middle - spot) * 0.002)


def test_the_second_line_is_finer_and_lies_inside_whatever_the_figure() -> None:
    for figure in ("rectangle", "rounded", "oval", "sticker"):
        first, second = _frame(figure=figure, line_mm=0.8, second_mm=1.2)
        assert second.width_mm < first.width_mm
        assert second.fill is None
        assert painter_path(first.path).contains(painter_path(second.path))
    assert len(_frame(second_mm=0.0)) == 1
    assert len(_frame(second_mm=20.0)) == 1  # no room for it
    assert len(_frame(line_mm=0.0, second_mm=1.0, fill="#aabbcc")) == 1


def test_a_frame_that_follows_the_sticker_takes_its_shape() -> None:
    outer, inner = _frame("oval", figure="sticker", inset_mm=1.0, second_mm=1.0)
    assert painter_path(outer.path).boundingRect() == QRectF(1, 1, 58, 38)
    assert painter_path(inner.path).boundingRect() == QRectF(2, 2, 56, 36)
