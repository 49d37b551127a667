"""The caution pictograms: whole figures, and as high as they are asked to be."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app.standards import caution_rules
from wickbench.documents.pictograms import (
    LEAST_HEIGHT_MM,
    bounds,
    draw,
    names,
    path_bounds,
    pictogram,
    placed,
    width_mm,
)
from wickbench.documents.surface import RecordingSurface
from wickbench.domain.errors import OutOfRange

ARGUMENTS = {"m": 2, "l": 2, "q": 4, "c": 6, "z": 0}


@pytest.mark.parametrize("name", names())
def test_paths_are_well_formed_and_stay_on_the_grid(name: str) -> None:
    for part in pictogram(name):
        assert part.path[0][0] == "m"
        for command, *numbers in part.path:
            assert len(numbers) == ARGUMENTS[str(command)]
    left, top, right, bottom = bounds(name)
    assert -0.01 <= left < right <= 27.7
    assert -0.01 <= top < bottom <= 24.01


def test_lines_are_thick_enough_to_print_at_the_least_height() -> None:
    # 0.15 mm is a hairline on an office printer (common practice, no source)
    for name in names():
        for part in placed(name, 0, 0, LEAST_HEIGHT_MM):
            assert part.stroke is None or part.width_mm >= 0.15, name


@given(st.sampled_from(names()), st.floats(5, 40), st.floats(-50, 50), st.floats(-50, 50))
def test_the_ink_is_as_high_as_asked_and_begins_where_asked(
    name: str, height_mm: float, x_mm: float, y_mm: float
) -> None:
    # EN 15494:2019 cl. 4.3, from summaries of it: symbols at least 5 mm high
    surface = RecordingSurface()
    surface.begin_page(100, 100)
    draw(surface, name, x_mm, y_mm, height_mm, ground="#ffffff")
    boxes = []
    for drawn in surface.paths:
        if "#ffffff" in (drawn.fill, drawn.stroke):
            continue
        left, top, right, bottom = path_bounds(drawn.path)
        half = drawn.width_mm / 2 if drawn.stroke and drawn.path[-1][0] == "z" else 0.0
        boxes.append((left - half, top - half, right + half, bottom + half))
    left, top = min(box[0] for box in boxes), min(box[1] for box in boxes)
    right, bottom = max(box[2] for box in boxes), max(box[3] for box in boxes)
    assert bottom - top == pytest.approx(height_mm, abs=1e-6)
    assert bottom - top >= LEAST_HEIGHT_MM - 1e-6
    assert right - left == pytest.approx(width_mm(name, height_mm), abs=1e-6)
    assert (left, top) == pytest.approx((x_mm, y_mm), abs=1e-6)


def test_every_pictogram_that_a_statement_names_is_drawn() -> None:
    for statements in caution_rules():
        assert statements.symbol in names()
        for statement in statements.statements:
            assert not statement.pictogram or statement.pictogram in names()


def test_unknown_names_are_refused() -> None:
    with pytest.raises(OutOfRange, match=re.escape("pictogram.unknown")):
        pictogram("rocket")
