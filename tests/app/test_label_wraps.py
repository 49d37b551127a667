"""Labels fitted to the vessels of a real workshop file, and what they do there, in numbers."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.label_workshop import fill_workshop, view_of
from documents.samples import shelf
from wickbench.app import labels, print_runs, shelf_edit
from wickbench.app.label_making import LabelMaker
from wickbench.app.label_on_vessel import label_on_vessel
from wickbench.app.label_shape_fields import SHAPE_FIELDS, shape_changes, shape_fields_of
from wickbench.app.label_store import stored_label
from wickbench.app.label_values import sample_values
from wickbench.app.label_vessel_findings import page_findings, vessel_findings
from wickbench.app.label_wraps import (
    curved_plan,
    fit_to_vessel,
    fitted_design,
    outside_of,
    wrap_plan,
)
from wickbench.app.measures import measure
from wickbench.app.shelf import load_shelf
from wickbench.app.texts import Texts
from wickbench.app.vessel_drawing import draw_vessel
from wickbench.app.vessel_labels import DrawnWick
from wickbench.app.wrap_words import fit_choices, how_fitted
from wickbench.documents.label_layout import lay_out_label
from wickbench.domain.catalog import Vessel
from wickbench.domain.errors import OutOfRange
from wickbench.domain.labels import (
    CodeElement,
    FrameElement,
    LabelDesign,
    OrnamentElement,
    TextElement,
)
from wickbench.domain.starting_labels import STARTING, starting_design
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace
    from wickbench.domain.findings import Finding
    from wickbench.domain.labels import AnyElement

TEXTS = Texts()
TUMBLER = Vessel(
    id=1, name="Tumbler", outer_top_mm=80.0, outer_bottom_mm=80.0, outer_height_mm=90.0,
    straight_from_mm=10.0, straight_to_mm=80.0,
)  # fmt: skip
GLASS = Vessel(
    id=2, name="Glass", outer_top_mm=82.0, outer_bottom_mm=66.0, outer_height_mm=96.0,
    straight_from_mm=10.0, straight_to_mm=88.0,
)  # fmt: skip
FRONT = LabelDesign(width_mm=62.0, height_mm=36.0)
LETTER = (215.9, 279.4)  # ANSI/ASME Y14.1: 8.5 × 11 in


def said(design: LabelDesign, vessel: Vessel) -> dict[str, Finding]:
    laid = lay_out_label(design, {}, shelf().nearest)
    return {one.key: one for one in vessel_findings(laid, vessel, TEXTS)}


# -- the outside of a vessel -----------------------------------------------------------------------
def test_what_is_missing_is_named_and_nothing_is_guessed() -> None:
    bare = replace(GLASS, outer_top_mm=None, outer_height_mm=None)
    with pytest.raises(OutOfRange) as refused:
        wrap_plan(bare, TEXTS)
    assert TEXTS.say(refused.value) == (
        "To fit a label to Glass, measure first: outer diameter at the top, outer height. A "
        "calliper, or a strip of paper round the vessel and a ruler, will do."
    )


def test_a_straight_wall_needs_no_height_where_its_straight_part_is_measured() -> None:
    plan = wrap_plan(replace(TUMBLER, outer_height_mm=None), TEXTS)
    assert plan.size.width_mm == pytest.approx(math.pi * 80 + 5, abs=0.051)
    assert outside_of(replace(GLASS, outer_height_mm=None)).zone is None


def test_without_a_straight_part_the_whole_wall_counts_as_an_estimate_with_a_wider_margin() -> None:
    unsure = replace(GLASS, straight_from_mm=None)
    plan = wrap_plan(unsure, TEXTS)
    assert (plan.zone.from_mm, plan.zone.to_mm, plan.sure) == (6.0, 90.0, False)
    choices = fit_choices(unsure, TEXTS, FRONT, LETTER)
    assert all(words.endswith("(estimate)") for words, _ in choices)
    assert any("estimate" in step for step in how_fitted(TEXTS, plan, FRONT))
    assert "wrap.zone-unsure" in said(fitted_design(FRONT, plan), unsure)


# -- sizes and what stands on them -----------------------------------------------------------------
def test_the_choices_tell_their_size_and_that_they_are_curved() -> None:
    around = math.pi * (66 + 16 * 49 / 96)  # by similar triangles
    words = [words for words, _ in fit_choices(GLASS, TEXTS, FRONT, LETTER)]
    assert words == [
        f"All the way round: {around + 5:.0f} mm × 74.2 mm, curved",
        f"Over the front: {0.4 * around:.1f} mm × 74.2 mm, curved",
        "As large as it is, but curved: 62 mm × 36 mm, curved",
    ]
    flat = [words for words, _ in fit_choices(TUMBLER, TEXTS, FRONT, LETTER)]
    assert flat == [
        f"All the way round: {math.pi * 80 + 5:.1f} mm × 66 mm",
        f"Over the front: {0.4 * math.pi * 80:.1f} mm × 66 mm",
    ]


def test_the_overlap_that_a_person_chose_is_kept_when_a_wrap_is_fitted_again() -> None:
    wrap = replace(FRONT, shape="wrap", overlap_mm=8.0)
    _, plan = fit_choices(TUMBLER, TEXTS, wrap, LETTER)[0]
    assert plan.size.overlap_mm == 8.0
    assert plan.size.width_mm == pytest.approx(math.pi * 80 + 8, abs=0.051)


def test_a_front_label_on_a_straight_wall_stays_a_plain_rectangle() -> None:
    made = fitted_design(replace(FRONT, shape="rounded"), wrap_plan(TUMBLER, TEXTS, share=0.4))
    assert (made.shape, made.overlap_mm, made.wrap_top_mm) == ("rounded", 0.0, 0.0)
    curved = fitted_design(FRONT, wrap_plan(GLASS, TEXTS, share=0.4))
    assert (curved.shape, curved.overlap_mm) == ("wrap", 0.0)
    assert curved.wrap_bottom_mm < curved.wrap_top_mm


@pytest.mark.parametrize("name", [one for one, kept in STARTING.items() if kept.kind == "jar"])
@pytest.mark.parametrize("vessel", [TUMBLER, GLASS])
def test_every_starting_design_keeps_all_of_it_on_every_vessel(name: str, vessel: Vessel) -> None:
    design = starting_design(name, 62.0, 36.0)
    for share in (None, 0.4):
        plan = wrap_plan(vessel, TEXTS, share=share)
        made = fitted_design(design, plan)
        assert len(made.elements) == len(design.elements)
        for old, new in zip(design.elements, made.elements, strict=True):
            assert type(old) is type(new)
            assert getattr(old, "text", "") == getattr(new, "text", "")
            if isinstance(old, TextElement):
                assert 1.9 <= new.x_mm <= new.x_mm + new.w_mm <= plan.size.seen_mm - 1.9
                assert 1.9 <= new.y_mm <= new.y_mm + new.h_mm <= made.height_mm - 1.9


boxes = st.builds(
    lambda x, y, w, h: (2 + 58 * x * (1 - w), 2 + 32 * y * (1 - h), 58 * w, 32 * h),
    *(st.floats(0.05, 0.95) for _ in range(4)),
)


@settings(max_examples=60)
@given(
    st.lists(boxes, min_size=1, max_size=5),
    st.sampled_from([TextElement, CodeElement, OrnamentElement]),
    st.sampled_from([TUMBLER, GLASS]),
    st.sampled_from([None, 0.1, 0.4, 0.9]),
)
def test_what_was_inside_stays_inside_in_its_proportions(
    places: list[tuple[float, float, float, float]],
    kind: type[AnyElement],
    vessel: Vessel,
    share: float | None,
) -> None:
    more = {"text": "x"} if kind is not OrnamentElement else {}
    one = tuple(kind(x_mm=x, y_mm=y, w_mm=w, h_mm=h, **more) for x, y, w, h in places)
    plan = wrap_plan(vessel, TEXTS, share=share)
    made = fitted_design(replace(FRONT, elements=one), plan)
    scale = {round(new.w_mm / old.w_mm, 6) for old, new in zip(one, made.elements, strict=True)}
    assert len(scale) == 1
    for old, new in zip(one, made.elements, strict=True):
        assert new.w_mm / old.w_mm == pytest.approx(new.h_mm / old.h_mm)
        assert min(new.x_mm, new.y_mm) >= 2 - 1e-6
        assert new.x_mm + new.w_mm <= plan.size.seen_mm - 2 + 1e-6
        assert new.y_mm + new.h_mm <= made.height_mm - 2 + 1e-6


def test_what_reaches_the_edges_still_does() -> None:
    band = FrameElement(x_mm=-2, y_mm=-2, w_mm=66, h_mm=14, line_mm=0.0, fill="#a8540f")
    made = fitted_design(replace(FRONT, elements=(band,)), wrap_plan(TUMBLER, TEXTS))
    (new,) = made.elements
    assert (new.x_mm, new.y_mm) == (-2, -2)
    assert new.x_mm + new.w_mm == pytest.approx(made.width_mm + 2)


# -- what a label does on its vessel ---------------------------------------------------------------
def test_a_straight_label_on_a_tapered_glass_is_told_with_its_rise() -> None:
    """By the sagitta: r = d/2 ÷ sin(lean), rise = r − √(r² − (l/2)²)."""
    lean = math.atan(8 / 96)
    radius = (66 + 16 * 49 / 96) / 2 / math.sin(lean)
    found = said(FRONT, GLASS)["wrap.straight-rises"]
    assert found.data["rise_mm"] == pytest.approx(radius - math.sqrt(radius**2 - 31**2))
    assert found.data["longest_mm"] == pytest.approx(2 * math.sqrt(radius**2 - (radius - 1) ** 2))
    assert not said(FRONT, TUMBLER)
    curved = fitted_design(FRONT, curved_plan(GLASS, TEXTS, FRONT))
    assert not said(curved, GLASS)
    assert (curved.width_mm, curved.height_mm) == (62.0, 36.0)


def test_too_tall_too_long_and_turned_away_are_told_in_millimetres() -> None:
    tall = said(replace(FRONT, height_mm=74.0), TUMBLER)["wrap.taller-than-zone"]
    assert (tall.data["high_mm"], tall.data["zone_mm"]) == (74.0, 70.0)
    around = math.pi * 80
    long = said(replace(FRONT, width_mm=260.0), TUMBLER)["wrap.longer-than-round"]
    assert long.data["over_mm"] == pytest.approx(260 - around)
    away = said(replace(FRONT, width_mm=150.0), TUMBLER)["wrap.turns-away"]
    assert away.data["away_mm"] == pytest.approx((150 - around / 2) / 2)


def test_a_wrap_for_another_vessel_is_told_by_its_gap_or_what_it_covers() -> None:
    made = fitted_design(FRONT, wrap_plan(TUMBLER, TEXTS))
    assert not said(made, TUMBLER)
    wider, narrower = (replace(TUMBLER, outer_top_mm=d, outer_bottom_mm=d) for d in (84.0, 77.0))
    gap = said(made, wider)["wrap.gap"]
    assert gap.data["gap_mm"] == pytest.approx(math.pi * 4 - 5, abs=0.051)
    over = said(made, narrower)["wrap.overlap-differs"]
    assert over.data["hidden_mm"] == pytest.approx(math.pi * 3, abs=0.051)
    assert "wrap.ends-askew" in said(made, GLASS)
    for found in (*said(made, GLASS).values(), gap, over):
        assert "{" not in TEXTS.say(found)


def test_a_curved_front_label_for_another_taper_is_told() -> None:
    curved = fitted_design(FRONT, wrap_plan(GLASS, TEXTS, share=0.4))
    assert not said(curved, GLASS)
    upside_down = replace(GLASS, outer_top_mm=66.0, outer_bottom_mm=82.0)
    found = said(curved, upside_down)["wrap.bent-otherwise"]
    lean, middle = math.atan(8 / 96), (66 + 16 * 49 / 96) / 2
    one = middle / math.sin(lean)
    rise = one - math.sqrt(one**2 - (curved.width_mm / 2) ** 2)
    # It bends the other way: what rises and what hangs add up.
    assert found.data["rise_mm"] == pytest.approx(2 * rise, rel=0.02)


def test_a_wrap_longer_than_the_page_is_told_and_marked_where_it_is_chosen() -> None:
    bowl = replace(GLASS, outer_top_mm=118.0, outer_bottom_mm=92.0, outer_height_mm=70.0)
    words = [words for words, _ in fit_choices(bowl, TEXTS, FRONT, LETTER)]
    assert [one.endswith("longer than a page") for one in words] == [True, False, False]
    made = fitted_design(FRONT, wrap_plan(bowl, TEXTS))
    laid = lay_out_label(made, {}, shelf().nearest)
    (found,) = page_findings(laid, LETTER)
    # The chord of the outer arc: 2·r·sin(angle/2), with the ring of this very cone.
    size = wrap_plan(bowl, TEXTS).size
    lean = math.atan(13 / 70)
    radius = size.middle_mm / 2 / math.sin(lean) + size.height_mm / 2
    angle = size.width_mm / (size.middle_mm / 2 / math.sin(lean))
    chord = 2 * radius * math.sin(angle / 2)
    assert found.data["paper_width_mm"] == pytest.approx(chord, abs=0.1)
    assert size.paper_mm == pytest.approx((laid.width_mm, laid.height_mm), abs=0.01)
    assert "does not go onto a page" in TEXTS.say(found)
    assert not page_findings(laid, (420.0, 297.0))  # ISO 216: A3


def test_what_stands_under_the_seam_is_told_by_its_element() -> None:
    hidden = TextElement(x_mm=240, y_mm=5, w_mm=14, h_mm=8, text="Lot 7", align="right")
    made = fitted_design(FRONT, wrap_plan(TUMBLER, TEXTS))
    found = said(replace(made, elements=(hidden,)), TUMBLER)["wrap.under-seam"]
    assert found.about == ("element", 0)
    beside = replace(hidden, align="left", x_mm=230.0, w_mm=26.0, text="Lot")
    assert "wrap.under-seam" not in said(replace(made, elements=(beside,)), TUMBLER)


def test_a_wrap_on_an_unmeasured_vessel_is_watched_and_leads_to_it() -> None:
    made = fitted_design(FRONT, wrap_plan(TUMBLER, TEXTS))
    found = said(made, Vessel(id=9, name="Bowl"))["wrap.not-measured"]
    assert found.about == ("vessel", 9)
    assert "outer diameter at the top" in TEXTS.say(found)
    mould = Vessel(id=9, name="Mould", vessel_kind="mould")
    assert not said(made, mould)


# -- in a workshop ---------------------------------------------------------------------------------
def test_fitting_is_one_act_that_undo_takes_back_whole(workshop: Workspace) -> None:
    fill_workshop(workshop)
    label = labels.new_label(workshop, "ember")
    before = stored_label(workshop, label)
    fit_to_vessel(workshop, label, wrap_plan(GLASS, workshop.texts))
    fitted = stored_label(workshop, label)
    assert (fitted.design.shape, fitted.design.overlap_mm) == ("wrap", 5.0)
    assert fitted.design.wrap_top_mm == pytest.approx(80.33)
    assert len(fitted.design.elements) == len(before.design.elements)
    workshop.undo()
    assert stored_label(workshop, label) == before
    workshop.redo()
    assert stored_label(workshop, label) == fitted


def test_a_printed_label_is_fitted_in_a_new_version(workshop: Workspace) -> None:
    fill_workshop(workshop)
    label = labels.new_label(workshop, "hush")
    with workshop.step("Print") as connection:
        labels.freeze(connection, [stored_label(workshop, label)])
    fit_to_vessel(workshop, label, wrap_plan(TUMBLER, workshop.texts))
    stored = stored_label(workshop, label)
    assert (stored.number, stored.frozen, stored.design.shape) == (2, False, "wrap")


def test_a_print_run_says_what_its_labels_do_on_the_vessel(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    glass = shelf_edit.new_item(
        workshop, "vessel", {"name": "Glass"},
        {"outer_height_mm": 96.0, "outer_top_mm": 82.0, "outer_bottom_mm": 66.0},
    )  # fmt: skip
    label = labels.new_label(workshop, "hush")
    with workshop.step("Move") as connection:
        records.update(connection, "candle", kept.bramble, {"vessel_id": glass})
    run, _ = print_runs.add_line(
        workshop, None, {"label_id": label, "candle_id": kept.bramble, "count": 1}
    )
    print_runs.choose_sheet(workshop, run, kept.three_by_seven)
    assert "wrap.straight-rises" in {one.key for one in view_of(workshop, run).findings}


def test_the_shape_form_shows_what_a_shape_has_and_a_wrap_begins_with_an_overlap(
    workshop: Workspace,
) -> None:
    fill_workshop(workshop)
    label = labels.new_label(workshop, "hush")
    design = stored_label(workshop, label).design
    assert not {"overlap_mm", "corner_mm"} & shape_fields_of(design)
    labels.change_design(workshop, label, shape_changes(design, "shape", "wrap"))
    wrap = stored_label(workshop, label).design
    assert (wrap.overlap_mm, wrap.width_mm) == (5.0, design.width_mm + 5.0)
    assert {"overlap_mm", "wrap_top_mm"} <= shape_fields_of(wrap) <= {s.name for s in SHAPE_FIELDS}
    labels.change_design(workshop, label, shape_changes(wrap, "overlap_mm", 8.0))
    assert stored_label(workshop, label).design.width_mm == design.width_mm + 8.0
    back = shape_changes(stored_label(workshop, label).design, "shape", "rectangle")
    labels.change_design(workshop, label, back)
    assert stored_label(workshop, label).design == design


def test_the_label_stands_on_the_drawn_wall_in_the_middle_of_its_straight_part(
    workshop: Workspace,
) -> None:
    fill_workshop(workshop)
    stock = load_shelf(workshop)
    vessel = replace(
        next(iter(stock.vessels.values())), height_mm=84.0, diameters=((0.0, 74.0), (84.0, 74.0))
    )
    measures = measure(vessel, stock, workshop.settings)
    drawing = draw_vessel(vessel, measures, None, DrawnWick(0), workshop.texts)
    values = sample_values(workshop.settings, workshop.texts)
    laid = LabelMaker(workshop).label(starting_design("hush", 62.0, 36.0), values).laid
    on = label_on_vessel(laid, vessel, drawing)
    assert on is not None
    heights = [height for chain in on.label.outline for _, height in chain]
    assert (min(heights), max(heights)) == pytest.approx((45 - 18, 45 + 18))
    assert on.covers_share == pytest.approx(62 / (math.pi * 80))
    words = on.words(on.front(), workshop.texts)
    assert words == "The label covers 25 % of the way round."
    assert label_on_vessel(laid, vessel, None) is None
