"""Arranging what stands on a label: geometry by properties and against another library (numpy)."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from wickbench.domain.arranging import (
    HANDLES,
    Box,
    aligned,
    bounds,
    box_of,
    distributed,
    handle_at,
    is_in,
    moved,
    resized,
    snap_lines,
    snapped,
    tidy_turn,
    turned_to,
)
from wickbench.domain.errors import OutOfRange
from wickbench.domain.labels import LabelDesign, LineElement

places = st.floats(-50, 150)
sizes = st.floats(0.5, 80)
turns = st.sampled_from([0.0, 15.0, 33.3, 90.0, 180.0, 270.0, 359.0])


@st.composite
def elements(draw: st.DrawFn) -> LineElement:
    return LineElement(
        x_mm=draw(places), y_mm=draw(places), w_mm=draw(sizes), h_mm=draw(sizes),
        turn_deg=draw(turns),
    )  # fmt: skip


def corners(one: LineElement) -> np.ndarray:
    """Corners by a rotation matrix; y points down, so a positive angle is clockwise."""
    half = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * [one.w_mm / 2, one.h_mm / 2]
    a = math.radians(one.turn_deg)
    matrix = np.array([[math.cos(a), -math.sin(a)], [math.sin(a), math.cos(a)]])
    return half @ matrix.T + [one.x_mm + one.w_mm / 2, one.y_mm + one.h_mm / 2]


@given(elements())
def test_the_box_round_a_turned_element_is_that_of_its_corners(one: LineElement) -> None:
    points, box = corners(one), box_of(one)
    assert (box.left, box.top) == pytest.approx(points.min(axis=0), abs=1e-9)
    assert (box.right, box.bottom) == pytest.approx(points.max(axis=0), abs=1e-9)


@given(elements(), st.sampled_from(["nw", "ne", "se", "sw"]))
def test_handles_lie_on_the_corners(one: LineElement, handle: str) -> None:
    at = {"nw": 0, "ne": 1, "se": 2, "sw": 3}[handle]
    assert handle_at(one, handle) == pytest.approx(corners(one)[at], abs=1e-9)


@given(
    elements(), st.sampled_from(sorted(HANDLES)), places, places, st.sampled_from(["keep", "free"])
)
def test_the_opposite_side_stays_while_a_handle_is_drawn(
    one: LineElement, handle: str, x: float, y: float, shape: str
) -> None:
    opposite = handle.translate(str.maketrans("nswe", "snew"))
    done = resized(one, handle, (x, y), keep_shape=shape == "keep")
    assert handle_at(done, opposite) == pytest.approx(handle_at(one, opposite), abs=1e-6)
    assert done.turn_deg == one.turn_deg
    assert done.w_mm >= 0.1 - 1e-9
    if shape == "keep":
        assert done.w_mm / done.h_mm == pytest.approx(one.w_mm / one.h_mm)


@given(elements(), st.sampled_from(sorted(HANDLES)))
def test_a_handle_drawn_to_where_it_is_changes_nothing(one: LineElement, handle: str) -> None:
    done = resized(one, handle, handle_at(one, handle))
    assert (done.x_mm, done.y_mm, done.w_mm, done.h_mm) == pytest.approx(
        (one.x_mm, one.y_mm, one.w_mm, one.h_mm), abs=1e-6
    )


@given(elements(), st.floats(0.2, 60), st.floats(0.2, 60))
def test_a_corner_drawn_lands_under_the_pointer(one: LineElement, u: float, v: float) -> None:
    assume(u > 0.2 and v > 0.2)
    wanted = handle_at(replace(one, w_mm=one.w_mm, h_mm=one.h_mm), "nw")
    a = math.radians(one.turn_deg)
    pointer = (
        wanted[0] + u * math.cos(a) - v * math.sin(a),
        wanted[1] + u * math.sin(a) + v * math.cos(a),
    )
    done = resized(one, "se", pointer)
    assert handle_at(done, "se") == pytest.approx(pointer, abs=1e-6)
    assert (done.w_mm, done.h_mm) == pytest.approx((u, v), abs=1e-6)


@given(elements(), places, places)
def test_a_point_is_in_an_element_when_it_is_inside_its_corners(
    one: LineElement, x: float, y: float
) -> None:
    points = corners(one)
    edges = np.roll(points, -1, axis=0) - points
    across = edges[:, 0] * (y - points[:, 1]) - edges[:, 1] * (x - points[:, 0])
    assume(np.abs(across).min() > 1e-6)
    assert is_in(one, x, y) == bool((across > 0).all())


def test_turning_follows_the_pointer_clockwise_from_the_top() -> None:
    one = LineElement(x_mm=0, y_mm=0, w_mm=10, h_mm=10)
    assert turned_to(one, (5, -20)).turn_deg == 0
    assert turned_to(one, (30, 5)).turn_deg == 90
    assert turned_to(one, (5, 40)).turn_deg == 180
    assert turned_to(one, (-20, 5)).turn_deg == 270
    assert turned_to(one, (7, -20), 15.0).turn_deg == 0
    assert turned_to(one, (5, 5)) == one


@given(st.floats(-2000, 2000), st.sampled_from([0.0, 5.0, 15.0]))
def test_a_turn_is_tidy(degrees: float, step: float) -> None:
    turn = tidy_turn(degrees, step)
    assert 0 <= turn < 360
    nearest = math.remainder(turn - degrees, 360)
    assert abs(nearest) <= (step or 0.1) / 2 + 1e-6


boxes = st.builds(
    lambda x, y, w, h: Box(x, y, x + w, y + h), places, places, sizes, sizes
)  # fmt: skip


@given(st.lists(boxes, min_size=1, max_size=6), st.sampled_from(["left", "right", "top", "bottom"]))
def test_aligned_boxes_share_an_edge(every: list[Box], edge: str) -> None:
    numbered, within = dict(enumerate(every)), bounds(every)
    moves = aligned(numbered, edge, within)
    done = [getattr(box.moved(*moves[at]), edge) for at, box in numbered.items()]
    assert done == pytest.approx([getattr(within, edge)] * len(done))


@given(st.lists(boxes, min_size=3, max_size=6), st.sampled_from(["across", "down"]))
def test_distributed_boxes_have_equal_gaps_and_keep_their_bounds(
    every: list[Box], way: str
) -> None:
    near, far = ("left", "right") if way == "across" else ("top", "bottom")
    numbered = dict(enumerate(every))
    moves = distributed(numbered, across=way == "across")
    done = [box.moved(*moves[at]) for at, box in numbered.items()]
    order = sorted(numbered, key=lambda at: getattr(every[at], near))
    gaps = [getattr(done[b], near) - getattr(done[a], far) for a, b in itertools.pairwise(order)]
    assert gaps == pytest.approx([gaps[0]] * len(gaps), abs=1e-6)
    if gaps[0] >= 0:  # boxes that overlap are wider together than what they stand in
        assert min(getattr(box, near) for box in done) == pytest.approx(
            getattr(bounds(every), near)
        )


def test_two_boxes_have_nothing_to_distribute_and_none_no_bounds() -> None:
    two = {0: Box(0, 0, 1, 1), 1: Box(5, 5, 6, 6)}
    assert set(distributed(two, across=True).values()) == {(0.0, 0.0)}
    with pytest.raises(OutOfRange):
        bounds(())


def test_a_box_snaps_to_the_middle_the_safe_zone_and_to_others() -> None:
    design = LabelDesign(width_mm=60, height_mm=40, safe_mm=2)
    lines = snap_lines(design, [Box(10, 5, 20, 15)])
    snap = snapped(Box(24.6, 18, 34.6, 28), *lines, 0.8)
    assert (snap.dx, snap.upright) == (pytest.approx(0.4), 30.0)  # the middle of the label
    assert snap.level is None
    beside = snapped(Box(20.3, 5.2, 28, 11), *lines, 0.8)
    assert (beside.dx, beside.dy) == pytest.approx((-0.3, -0.2))
    assert (beside.upright, beside.level) == (20, 5)
    assert snapped(Box(40.9, 29.9, 50, 36), *lines, 0.8).upright is None


@given(boxes, st.floats(0.1, 3))
def test_a_snap_never_reaches_further_than_asked(box: Box, reach: float) -> None:
    lines = snap_lines(LabelDesign(width_mm=60, height_mm=40), [])
    snap = snapped(box, *lines, reach)
    assert abs(snap.dx) <= reach
    assert abs(snap.dy) <= reach
    if snap.upright is not None:
        there = box.moved(snap.dx, snap.dy)
        assert min(abs(x - snap.upright) for x in (there.left, there.middle[0], there.right)) < 1e-9


def test_moving_is_by_so_much() -> None:
    one = LineElement(x_mm=1, y_mm=2, w_mm=3, h_mm=0)
    assert (moved(one, 0.5, -1).x_mm, moved(one, 0.5, -1).y_mm) == (1.5, 1)
