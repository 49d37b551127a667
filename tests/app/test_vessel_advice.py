"""What is told of a vessel, and its drawing."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.test_vessels import SEA, TEXTS
from wickbench.app import vessels
from wickbench.app.shelf import Shelf
from wickbench.app.texts import PSEUDO, Texts, all_sentences
from wickbench.app.units import Units
from wickbench.app.vessel_advice import advice, usual_wicks
from wickbench.app.vessel_drawing import wick_places
from wickbench.app.vessel_results import box_line
from wickbench.app.vessel_texts import length, length_range, next_vessel
from wickbench.documents.stacking import spread
from wickbench.domain.catalog import Candle, Material, Vessel, WeighingRow, Wick


# -- advice ----------------------------------------------------------------------------------------
def told(**values: object) -> set[str]:
    made = Vessel(id=1, name="T", **values)  # type: ignore[arg-type]
    return {one.key for one in vessels.view_vessel(made, Shelf(), SEA, TEXTS).findings}


def test_a_jar_that_nobody_rated_is_watched_but_a_clamshell_is_not() -> None:
    assert "vessel.not-rated" in told(vessel_kind="jar")
    assert "vessel.not-rated" not in told(vessel_kind="jar", candle_rated=True, rated_by="maker")
    assert "vessel.rated-by-nobody" in told(vessel_kind="jar", candle_rated=True, rated_by=" ")
    assert "vessel.not-rated" not in told(vessel_kind="clamshell", cells=6)
    assert "vessel.can-burn" in told(vessel_kind="cup", glass="wood")


@pytest.mark.parametrize(
    ("diameter", "wicks"), [(60.0, 1), (89.0, 1), (90.0, 2), (109.0, 2), (112.0, 3)]
)
def test_how_many_wicks_are_usual(diameter: float, wicks: int) -> None:
    # Two from about 90 mm, three from about 110 mm (common practice, no source).
    made = Vessel(id=1, name="T", vessel_kind="tin")
    assert usual_wicks(made, diameter) == wicks
    keys = told(diameters=((0.0, diameter),), height_mm=60.0, fill_mm=50.0)
    assert ("vessel.two-wicks" in keys) is (wicks == 2)
    assert ("vessel.three-wicks" in keys) is (wicks == 3)
    assert usual_wicks(replace(made, vessel_kind="clamshell"), diameter) == 0


@given(st.integers(2, 3), st.floats(90.0, 200.0))
def test_wicks_stand_apart_and_away_from_the_wall(count: int, diameter: float) -> None:
    places = wick_places(count, diameter)
    assert len(places) == count
    assert sum(places) == pytest.approx(0.0)
    # At least 15 mm from the wall (common practice, no source).
    assert diameter / 2 - max(places) >= 15.0


def test_missing_data_is_asked_for() -> None:
    assert {"vessel.no-fill-line", "vessel.no-inside"} <= told()
    assert "vessel.only-the-box" in told(nominal_ml=300.0)
    assert "vessel.nothing-weighed" in told(diameters=((0.0, 70.0),), height_mm=80.0, fill_mm=60.0)


def test_little_room_above_the_line_and_an_outside_inside() -> None:
    inside = {"diameters": ((0.0, 70.0),), "height_mm": 80.0}
    assert "vessel.little-headspace" in told(**inside, fill_mm=76.0)
    assert "vessel.little-headspace" not in told(**inside, fill_mm=70.0)
    assert "vessel.outside-too-small" in told(**inside, outer_top_mm=68.0)
    assert "vessel.zone-upside-down" in told(straight_from_mm=50.0, straight_to_mm=10.0)


def test_every_finding_has_its_sentence() -> None:
    keys = set()
    for values in (
        {},
        {"nominal_ml": 300.0, "glass": "wood"},
        {"diameters": ((0.0, 95.0),), "height_mm": 60.0, "fill_mm": 57.0, "outer_top_mm": 50.0},
        {"diameters": ((0.0, 120.0),), "height_mm": 60.0, "fill_mm": 70.0, "candle_rated": True},
    ):
        keys |= told(**values)
    assert len(keys) > 9
    assert keys <= set(all_sentences())


# -- the drawing -----------------------------------------------------------------------------------
CONE = Vessel(
    id=1,
    name="Cone",
    height_mm=90.0,
    fill_mm=70.0,
    diameters=((0.0, 60.0), (90.0, 76.0)),
    outer_bottom_mm=66.0,
    outer_top_mm=82.0,
    outer_height_mm=96.0,
    straight_from_mm=10.0,
    straight_to_mm=80.0,
)


def area(points: tuple[tuple[float, float], ...]) -> float:
    """Area of a polygon by the shoelace formula."""
    pairs = zip(points, points[1:] + points[:1], strict=True)
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2


def test_the_drawing_is_to_scale() -> None:
    found = vessels.view_vessel(CONE, Shelf(), SEA, TEXTS)
    drawing = found.drawing
    assert drawing is not None
    (brim,), (fill,) = drawing.of("brim"), drawing.of("fill")
    assert brim.points[0] == (-38.0, 90.0)
    assert fill.points[0] == (pytest.approx(-(60 + 16 * 70 / 90) / 2), 70.0)
    (wax,) = drawing.of("wax")
    # A trapezium: mean of the two widths times the height.
    assert area(wax.points) == pytest.approx((60 + (60 + 16 * 70 / 90)) / 2 * 70)
    (wall,) = drawing.of("wall")
    outside = (66 + 82) / 2 * 96
    assert area(wall.points) == pytest.approx(outside - (60 + 76) / 2 * 90)
    (zone,) = drawing.of("zone")
    assert zone.points[1][1] - zone.points[0][1] == pytest.approx(70.0)
    assert drawing.bottom_mm == pytest.approx(-6.0)
    assert drawing.top_mm == 90.0


def test_the_wick_stands_its_trim_above_the_set_wax() -> None:
    wick = Wick(wick_kind="wooden", trim_mm=4.0, width_mm=13.0)
    wood = Material(id=5, kind="wick", name="Board", details=wick)
    candle = Candle(id=1, name="C", vessel_id=1, wick_ids=(5,))
    shelf = Shelf(materials={5: wood}, candles={1: candle})
    drawing = vessels.view_vessel(CONE, shelf, SEA, TEXTS).drawing
    assert drawing is not None
    (wax,) = drawing.of("wax")
    board = drawing.of("wick")[-1]
    surface = max(y for _, y in wax.points)
    assert max(y for _, y in board.points) == pytest.approx(surface + 4.0)
    assert max(x for x, _ in board.points) == pytest.approx(6.5)
    assert "wick stands 4 mm" in drawing.description


def test_nothing_is_drawn_before_the_inside_is_known() -> None:
    assert vessels.view_vessel(Vessel(id=1, name="T"), Shelf(), SEA, TEXTS).drawing is None


@given(st.lists(st.tuples(st.floats(0, 200), st.floats(5, 30)), min_size=1, max_size=7))
def test_labels_never_stand_on_each_other(boxes: list[tuple[float, float]]) -> None:
    boxes.sort()
    wanted, sizes = [at for at, _ in boxes], [size for _, size in boxes]
    places = spread(wanted, sizes, 0.0, 220.0)
    edges = [(at - size / 2, at + size / 2) for at, size in zip(places, sizes, strict=True)]
    assert edges[0][0] >= -1e-9
    assert edges[-1][1] <= 220.0 + 1e-9
    assert all(low[1] <= high[0] + 1e-9 for low, high in pairwise(edges))


# -- words -----------------------------------------------------------------------------------------
def test_a_ruler_reads_to_half_a_millimetre() -> None:
    def said(value: float) -> str:
        return length(TEXTS, value)

    assert [said(v) for v in (66.0, 61.74, 61.75, 61.2)] == ["66 mm", "61.5 mm", "62 mm", "61 mm"]
    assert length_range(TEXTS, 60, 64) == "60–64 mm"
    assert length_range(TEXTS, 64, 64) == "64 mm"
    inches = Texts("en", Units(shown={"length": ("in", "")}))
    # 1 in = 25.4 mm, exact by definition.
    assert length_range(inches, 50.8, 63.5) == "2.00–2.50 in"


def test_the_next_jar_has_no_decimals_that_nobody_knows() -> None:
    texts = [next_vessel(TEXTS, v) for v in (4.2, 1.26, 0.01)]
    assert texts == ["4 mL", "1.3 mL", "0.1 mL"]


def test_every_word_of_the_results_goes_through_the_texts() -> None:
    pseudo = Texts(PSEUDO)
    rows = (WeighingRow(id=1, empty_g=0.0, filled_g=240.0, water_c=22.0),)
    made = replace(CONE, nominal_ml=200.0, weighings=rows)
    found = vessels.view_vessel(made, Shelf(), SEA, pseudo)
    assert found.drawing is not None
    words = [line for label in found.drawing.labels for line in label.lines]
    words.append(box_line(found, pseudo))
    assert all(word.startswith("⟦") for word in words)
    assert advice(CONE, found.measures)
