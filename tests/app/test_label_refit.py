"""A label put on another sheet: drawn anew while nothing on it was moved (no source: our rule)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.label_workshop import fill_workshop, sheet_in
from wickbench.app import label_elements, labels
from wickbench.app.label_refit import drawn_anew
from wickbench.app.label_store import stored_label
from wickbench.domain.labels import TextElement
from wickbench.domain.sheets import StickerSheet
from wickbench.domain.starting_labels import STARTING, starting_design

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace


def sheet(width: float, height: float, shape: str = "rectangle") -> StickerSheet:
    return StickerSheet(210.0, 297.0, 5.0, 5.0, 1, 1, width, height, width, height, shape)


@pytest.mark.parametrize("name", list(STARTING))
def test_an_untouched_design_is_that_of_the_new_sticker(name: str) -> None:
    begun = starting_design(name, 62.0, 36.0)
    anew = drawn_anew(begun, sheet(50.0, 50.0, "circle"))
    assert anew is not None
    assert anew.elements == starting_design(name, 50.0, 50.0, shape="circle").elements


@given(name=st.sampled_from(sorted(STARTING)), width=st.floats(40, 120), height=st.floats(40, 90))
def test_there_and_back_is_the_design_again(name: str, width: float, height: float) -> None:
    begun = starting_design(name, 62.0, 40.0)
    there = drawn_anew(begun, sheet(width, height))
    assert there is not None
    assert drawn_anew(there, sheet(62.0, 40.0)) == begun


def test_words_typed_over_go_along_and_something_moved_is_left_to_be_scaled() -> None:
    begun = starting_design("hush", 62.0, 36.0)
    at = next(k for k, one in enumerate(begun.elements) if isinstance(one, TextElement))
    title = begun.elements[at]
    assert isinstance(title, TextElement)
    typed = replace(title, text="Fig & cedar")
    named = replace(begun, elements=(*begun.elements[:at], typed, *begun.elements[at + 1 :]))
    anew = drawn_anew(named, sheet(90.0, 50.0))
    assert anew is not None
    said = [one.text for one in anew.elements if isinstance(one, TextElement)]
    assert "Fig & cedar" in said
    assert title.text not in said
    moved = replace(title, x_mm=title.x_mm + 1.0)
    other = replace(begun, elements=(*begun.elements[:at], moved, *begun.elements[at + 1 :]))
    assert drawn_anew(other, sheet(90.0, 50.0)) is None


def test_in_the_file_it_is_one_act(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    label = labels.new_label(workshop, "crest", sheet_in(workshop, kept.three_by_seven))
    before = stored_label(workshop, label)
    circles = sheet_in(workshop, kept.circles)
    labels.fit_to_sheet(workshop, label, circles)
    after = stored_label(workshop, label).design
    wanted = starting_design(
        "crest", circles.sticker_w_mm, circles.sticker_h_mm, shape="circle",
        corner_mm=circles.corner_mm,
    )  # fmt: skip
    assert len(after.elements) == len(wanted.elements)
    for one, other in zip(after.elements, wanted.elements, strict=True):
        assert one.x_mm == pytest.approx(other.x_mm, abs=0.001)
        assert one.w_mm == pytest.approx(other.w_mm, abs=0.001)
    workshop.undo()
    assert stored_label(workshop, label) == before
    workshop.redo()
    label_elements.change_element(workshop, label, 0, {"x_mm": 3.0})
    stretched = stored_label(workshop, label).design.elements[0].w_mm
    labels.fit_to_sheet(workshop, label, sheet_in(workshop, kept.three_by_seven))
    grown = stored_label(workshop, label).design.elements[0].w_mm
    assert grown == pytest.approx(stretched * 62.0 / circles.sticker_w_mm, abs=0.01)
