"""A label fitted to a tapered vessel, from its measures to the line it is cut along on paper."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
import pdfplumber
import pytest

from app.label_workshop import fill_workshop, view_of
from documents.samples import MM
from wickbench.app import labels, print_runs, printing, shelf_edit
from wickbench.app.label_store import stored_label
from wickbench.app.label_wraps import fit_to_vessel, wrap_plan
from wickbench.app.shelf import load_shelf
from wickbench.storage import records

if TYPE_CHECKING:
    from pathlib import Path

    from wickbench.app.workspace import Workspace

# A page without cuts, 15 mm narrower than A3 across (ISO 216).
WHOLE_PAGE: dict[str, object] = {
    "page_w_mm": 420.0, "page_h_mm": 297.0, "columns": 1, "rows": 1, "sticker_w_mm": 405.0,
    "sticker_h_mm": 280.0, "left_mm": 7.5, "top_mm": 8.5, "pitch_x_mm": 405.0,
    "pitch_y_mm": 280.0, "shape": "rectangle",
}  # fmt: skip
BOTTOM, TOP, HIGH = 66.0, 82.0, 96.0
FROM, TO = 10.0, 88.0

Arc = list[tuple[float, float]]


def arcs_of_cut(path: Path) -> list[Arc]:
    """Places on the two arcs of the line to cut along, mm, the shorter arc first."""
    with pdfplumber.open(path) as document:
        stroked = [one for one in document.pages[0].curves if one["stroke"] and not one["fill"]]
    cut = max(stroked, key=lambda one: one["width"])
    found: list[Arc] = []
    here, arc = np.zeros(2), []
    for command, *points in cut["path"]:
        ends = np.array([here, *points]) * MM
        if command == "c" and not straight(ends):
            weights = [
                ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)  # Bernstein
                for t in np.linspace(0.0, 1.0, 9)
            ]
            arc = arc + [tuple(np.dot(each, ends)) for each in weights]
        elif arc:
            found, arc = [*found, arc], []
        here = np.array(points[-1]) if points else here
    found += [arc] if arc else []
    assert len(found) == 2
    return sorted(found, key=lambda one: math.dist(one[0], one[-1]))


def straight(ends: np.ndarray) -> bool:
    """Whether the points of a curve lie on one line: no further off it than 0.001 mm."""
    along = (ends[-1] - ends[0]) / np.linalg.norm(ends[-1] - ends[0])
    across = np.array([-along[1], along[0]])
    return bool(np.abs((ends - ends[0]) @ across).max() < 1e-3)


def circle(arc: Arc) -> tuple[np.ndarray, float]:
    """Middle and radius of the circle through places, by least squares (Kåsa's equations)."""
    spots = np.array(arc)
    table = np.column_stack([2 * spots, np.ones(len(spots))])
    x, y, rest = np.linalg.lstsq(table, (spots**2).sum(axis=1), rcond=None)[0]
    return np.array([x, y]), math.sqrt(rest + x * x + y * y)


def angle_between(arc: Arc, middle: np.ndarray) -> float:
    ends = [np.array(one) - middle for one in (arc[0], arc[-1])]
    turned = [math.atan2(x, -y) for x, y in ends]
    return abs(turned[1] - turned[0])


@pytest.mark.parametrize("share", [None, 0.4])
def test_the_piece_cut_out_of_the_pdf_closes_round_the_glass(
    workshop: Workspace, tmp_path: Path, share: float | None
) -> None:
    kept = fill_workshop(workshop)
    measures: dict[str, object] = {
        "outer_height_mm": HIGH, "outer_top_mm": TOP, "outer_bottom_mm": BOTTOM,
        "straight_from_mm": FROM, "straight_to_mm": TO,
    }  # fmt: skip
    glass = shelf_edit.new_item(workshop, "vessel", {"name": "Glass"}, measures)
    page = shelf_edit.new_item(workshop, "sheet", {"name": "A3"}, WHOLE_PAGE)
    with workshop.step("Pour into the glass") as connection:
        records.update(connection, "candle", kept.bramble, {"vessel_id": glass})
    label = labels.new_label(workshop, "hush")
    plan = wrap_plan(load_shelf(workshop).vessels[glass], workshop.texts, share=share)
    fit_to_vessel(workshop, label, plan)
    run = print_runs.choose_sheet(workshop, None, page)
    print_runs.add_line(workshop, run, {"label_id": label, "candle_id": kept.bramble, "count": 1})
    view = view_of(workshop, run)
    assert not {one.key for one in view.findings if one.key.startswith("wrap.")}
    path = tmp_path / "wrap.pdf"
    printing.export_labels(workshop, view, path)

    inner, outer = arcs_of_cut(path)
    (middle, small), (other, large) = circle(inner), circle(outer)
    assert middle == pytest.approx(other, abs=0.15)
    # The cone by hand: radius for each millimetre up, way along the wall from its tip.
    lean = math.atan((TOP - BOTTOM) / 2 / HIGH)
    low, high = FROM + 2, TO - 2  # 2 mm are kept free above and below
    wide = [BOTTOM + (TOP - BOTTOM) * one / HIGH for one in (low, high)]
    assert small == pytest.approx(wide[0] / 2 / math.sin(lean), rel=1e-3)
    assert large == pytest.approx(wide[1] / 2 / math.sin(lean), rel=1e-3)
    # Round the glass each arc is once its circle, and the overlap as an angle; or its share.
    overlap = stored_label(workshop, label).design.overlap_mm
    turns = 1 + overlap / (math.pi * (wide[0] + wide[1]) / 2) if share is None else share
    for arc, radius, diameter in ((inner, small, wide[0]), (outer, large, wide[1])):
        long = angle_between(arc, middle) * radius
        assert long == pytest.approx(turns * math.pi * diameter, abs=0.15)
