"""The starting designs on stickers of many measures."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from documents.samples import shelf
from wickbench.documents.label_layout import lay_out_label
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Rank
from wickbench.domain.starting_labels import STARTING_DESIGNS, starting_design

VALUES = {
    "candle": "Bramble & smoke",
    "identity": "scented soy candle",
    "wax": "soy",
    "lot": "26-332-A",
    "business": "Harbour Lane",
    "business_address": "4 Quay Row, Saltby",
    "net_weight": "Net wt 7.8 oz (221 g)",
    "poured_on": "28 November 2026",
    "burn_time": "Burn at most 4 hours at a time",
    "ingredients": "Limonene; linalool; coumarin",
    "price": "$24.00",
    "web": "harbour-lane.example",
}


@settings(max_examples=40)
@given(
    st.sampled_from(STARTING_DESIGNS),
    st.floats(62, 120),
    st.floats(36, 80),
    st.sampled_from(("rectangle", "rounded")),
)
def test_straight_stickers_have_no_finding(
    name: str, width: float, height: float, shape: str
) -> None:
    design = starting_design(name, width, height, shape=shape, corner_mm=3)
    assert lay_out_label(design, VALUES, shelf().nearest).findings == ()


@pytest.mark.parametrize("name", STARTING_DESIGNS)
@pytest.mark.parametrize("width", [50, 64, 80])
def test_round_stickers_lose_no_text(name: str, width: float) -> None:
    design = starting_design(name, width, width, shape="circle")
    findings = lay_out_label(design, VALUES, shelf().nearest).findings
    assert not [finding for finding in findings if finding.rank is Rank.STOPS]


def test_there_are_at_least_eight_and_no_other_names() -> None:
    assert len(STARTING_DESIGNS) >= 8
    with pytest.raises(OutOfRange):
        starting_design("nothing", 60, 40)
