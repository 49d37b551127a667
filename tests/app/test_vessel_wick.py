"""How long to cut the wicks, from the shape of the vessel and the level of the set wax."""

from __future__ import annotations

import pytest

from wickbench.app.measures import Levels, VesselMeasures
from wickbench.app.texts import Texts
from wickbench.app.vessel_labels import DrawnWick
from wickbench.app.vessel_wick import WickCut, cut_text, how_cut, wick_cut
from wickbench.domain.shapes import straight

TEXTS = Texts("en")
MEASURED = Levels(fill_mm=66, set_mm=64.5, set_low_mm=64, set_high_mm=65, estimate=False)
ESTIMATE = Levels(fill_mm=66, set_mm=64.5, set_low_mm=63, set_high_mm=65, estimate=True)


def inside(push_up_mm: float = 0.0) -> VesselMeasures:
    return VesselMeasures(profile=straight(70, 84, push_up_mm=push_up_mm), fill_mm=66)


def cut(levels: Levels, wick: DrawnWick, push_up_mm: float = 0.0) -> WickCut:
    found = wick_cut(inside(push_up_mm), levels, wick)
    assert found is not None
    return found


def test_a_measured_level_gives_half_a_millimetre() -> None:
    # 64.5 mm of set wax and 6 mm above it (common practice, no source).
    found = cut(MEASURED, DrawnWick())
    assert found.length_mm == pytest.approx(70.5)
    assert cut_text(TEXTS, found) == ("Cut the wick to 70.5 mm: it stands 6 mm above the set wax.")


def test_an_estimate_is_a_range_and_says_so() -> None:
    said = cut_text(TEXTS, cut(ESTIMATE, DrawnWick(count=2)))
    assert said.startswith("Cut the 2 wicks to 69–71 mm (estimate): they stand 6 mm above")
    assert "longer" in said


def test_a_wick_on_a_push_up_is_shorter_by_it() -> None:
    found = cut(MEASURED, DrawnWick(), push_up_mm=5.0)
    assert found.length_mm == pytest.approx(65.5)
    assert "5 mm" in how_cut(TEXTS, found)[0]


def test_wicks_beside_the_middle_stand_lower_on_the_bulge() -> None:
    # A cap of 5 mm on a rim of 35 mm: R = (35² + 5²)/10 = 125 mm; at 17.5 mm it is still
    # √(125² − 17.5²) − 120 = 3.769 mm high.
    found = cut(MEASURED, DrawnWick(count=2), push_up_mm=5.0)
    assert found.foot_mm == pytest.approx(3.769, abs=1e-3)


def test_a_wooden_wick_stands_at_its_own_trim() -> None:
    assert cut(MEASURED, DrawnWick(trim_mm=4.0, width_mm=13.0)).length_mm == pytest.approx(68.5)


def test_nothing_is_cut_while_nothing_is_known_or_needed() -> None:
    assert wick_cut(inside(), None, DrawnWick()) is None
    assert wick_cut(inside(), MEASURED, DrawnWick(count=0)) is None
    assert wick_cut(VesselMeasures(), MEASURED, DrawnWick()) is None
    assert cut_text(TEXTS, None) == ""
    assert how_cut(TEXTS, None) == ()
