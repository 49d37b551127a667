"""Filling so that the set wax meets the line, and what is poured once the first pour has set."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from domain.plan_cases import closes, inputs, keys, tumblers
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Rank
from wickbench.domain.mixes import (
    Density,
    MixDensities,
    fill_until_set,
    later_share,
    later_share_range,
)
from wickbench.domain.plan import PourPlan, plan_pour
from wickbench.domain.recipe_checks import Facts, OilFacts, WaxFacts
from wickbench.domain.recipes import Load, Recipe
from wickbench.domain.shapes import Profile
from wickbench.domain.shrinkage import hot_room_ml, set_level_mm, top_up_ml
from wickbench.domain.wax_classes import WAX_CLASSES

RECIPE = Recipe(wax={"soy": 1}, fragrance={"fig": 1}, load=Load(8, "total"), pour_c=70)
OIL = OilFacts(name="Fig", density_g_per_ml=0.970)
CONE = Profile(((0, 60), (90, 76)))


def exact(hot: float, cold: float) -> MixDensities:
    return MixDensities(
        hot=Density(g_per_ml=hot, low=hot, high=hot, estimate=False),
        set=Density(g_per_ml=cold, low=cold, high=cold, estimate=False),
        pour_c=70.0,
    )


def facts(wax: WaxFacts) -> Facts:
    return Facts(waxes={"soy": wax}, oils={"fig": OIL})


MEASURED = WaxFacts(name="Soy", liquid_70_g_per_ml=0.870, set_g_per_ml=0.900, max_load=Load(12))
GUESSED = replace(
    MEASURED,
    density_is_estimate=True,
    liquid_range_g_per_ml=(0.855, 0.885),
    set_is_estimate=True,
    set_range_g_per_ml=(0.89, 0.97),
)


def planned(wax: WaxFacts, **line: object) -> PourPlan:
    given = {"fill_ml": 237.6, "brim_ml": 270.0, "most_ml": 261.9, "fill_to": "set"} | line
    return plan_pour(inputs(tumblers(12, RECIPE, **given), facts=facts(wax)))


def test_worked_vessel_until_set() -> None:
    """Brim 270 mL, line at 237.60 mL, 8 % of total; worked by hand with 1/ρ = Σ w/ρ.

    Hot 0.92/0.870 + 0.08/0.955, set 0.92/0.900 + 0.08/0.970: 215.082 g of mix, hot 245.460 mL,
    which is 90.91 % of the brim.
    """
    hot, cold = 1 / (0.92 / 0.870 + 0.08 / 0.955), 1 / (0.92 / 0.900 + 0.08 / 0.970)
    full = fill_until_set(237.6, exact(hot, cold))
    assert full.mass_g == pytest.approx(215.082, abs=5e-4)
    assert full.hot_ml == pytest.approx(245.460, abs=5e-4)
    assert 100 * full.hot_ml / 270 == pytest.approx(90.91, abs=5e-3)
    plan = planned(MEASURED)
    closes(plan)
    assert plan.lines[0].exact_g == pytest.approx(215.082, abs=5e-4)
    assert plan.lines[0].each_g == 215.1
    assert keys(plan) == []


def test_hot_wax_that_would_run_over_stops() -> None:
    # 237.6 mL × 0.905226 / 0.874704 (oil at 0.970/1.04 when hot) = 245.891 mL by hand.
    plan = planned(MEASURED, brim_ml=250.0, most_ml=242.5)
    (stopped,) = [said for said in plan.findings if said.rank is Rank.STOPS]
    assert stopped.key == "plan.set-passes-brim"
    assert stopped.data["hot_ml"] == pytest.approx(245.891, abs=1e-3)
    assert stopped.data["share_percent"] == pytest.approx(98.36, abs=0.01)
    assert "plan.set-passes-brim" not in keys(planned(MEASURED, brim_ml=250.0, most_ml=246.0))


def test_an_estimate_is_told_as_a_range() -> None:
    plan = planned(GUESSED)
    (line,) = plan.lines
    assert line.low_g < 215.1 < line.high_g
    # Worked by hand: 237.6 / (0.92/0.97 + 0.08/0.97) at most.
    assert line.high_g == pytest.approx(230.47, abs=0.01)
    assert keys(plan) == ["plan.set-may-pass-brim"]
    assert "plan.set-range" in keys(plan, Rank.NOTE)
    assert "plan.set-range" not in keys(planned(MEASURED), Rank.NOTE)


def test_a_vessel_without_a_brim_is_told() -> None:
    assert keys(planned(MEASURED, brim_ml=None, most_ml=None)) == ["plan.set-brim-unknown"]


def test_set_wax_lighter_than_liquid_is_refused() -> None:
    wrong = replace(MEASURED, set_g_per_ml=0.80)
    plan = planned(wrong)
    assert plan.lines == ()
    assert keys(plan) == ["shrinkage.set-lighter"]
    with pytest.raises(OutOfRange, match="set-lighter"):
        later_share(exact(0.9, 0.8))


def test_a_top_up_of_a_cone() -> None:
    """60→76 mm over 90 mm filled to 70 mm, soy 0.870 → 0.900: 8.060 mL and 7.254 g are missing.

    Volumes of frusta, checked by quadrature.
    """
    full_ml = CONE.volume_ml(70.0)
    assert full_ml == pytest.approx(241.809, abs=5e-4)
    assert top_up_ml(CONE, 70.0, 0.870, 0.900) == pytest.approx(8.060, abs=5e-4)
    mix = exact(0.870, 0.900)
    whole_g = fill_until_set(full_ml, mix).mass_g
    assert whole_g * later_share(mix) == pytest.approx(7.254, abs=5e-4)


def test_a_second_pour_waits_in_the_pot_and_everything_closes() -> None:
    plan = planned(replace(MEASURED, finish="second"), fill_to="line")
    closes(plan)
    (line,), (pot,) = plan.lines, plan.pots
    # The first pour reaches the line hot: 237.6 mL × 0.874704 g/mL, worked by hand.
    hot = 1 / (0.92 / 0.870 + 0.08 / (0.970 / 1.04))
    assert line.each_g - line.held_g == pytest.approx(237.6 * hot, abs=0.1)
    assert line.each_g == 215.1
    assert pot.finish == "second"
    assert pot.held_g == pytest.approx(12 * line.held_g)
    single = planned(MEASURED, fill_to="line")
    assert single.pots[0].held_g == 0
    assert plan.filled_g - single.filled_g == pytest.approx(pot.held_g, abs=12 * 0.1)


def test_a_second_pour_never_passes_the_line() -> None:
    plan = planned(replace(MEASURED, finish="second"), brim_ml=240.0, most_ml=238.0)
    assert keys(plan) == []


def test_a_net_weight_is_kept_and_part_of_it_comes_later() -> None:
    plan = planned(replace(MEASURED, finish="top_up"), fill_to="net", net_g=200.0)
    (line,) = plan.lines
    assert line.each_g == 200.0
    assert line.held_g == pytest.approx(200 * (1 - 0.874704 / 0.905226), abs=0.06)


def test_an_estimated_second_pour_is_told_as_a_range() -> None:
    plan = planned(replace(GUESSED, finish="second"), fill_to="line")
    (line,) = plan.lines
    assert line.held_low_g <= line.held_g <= line.held_high_g
    assert "plan.held-range" in keys(plan, Rank.NOTE)


def test_the_chief_wax_of_a_blend_says_how_it_is_finished() -> None:
    known = {"soy": MEASURED, "paraffin": replace(MEASURED, finish="second")}
    for parts, expected in ((3.0, "single"), (0.3, "second")):
        recipe = Recipe(wax={"soy": parts, "paraffin": 1.0}, pour_c=70)
        plan = plan_pour(inputs(tumblers(2, recipe), facts=Facts(waxes=known)))
        assert plan.pots[0].finish == expected


def test_usual_finishes() -> None:
    # Common practice, no source.
    finishes = {name: one.finish for name, one in WAX_CLASSES.items()}
    assert finishes["paraffin"] == finishes["stearin"] == "second"
    assert finishes["beeswax"] == "top_up"
    assert finishes["soy"] == finishes["coconut"] == finishes["coconut_soy"] == "single"


densities = st.tuples(st.floats(0.7, 0.95), st.floats(0.0, 0.2))


@given(densities, st.floats(10, 70))
def test_hot_fill_and_what_comes_later_meet_the_line(
    density: tuple[float, float], line_mm: float
) -> None:
    """Mass is kept: what stands at the line once set is the first pour and the later one."""
    hot, more = density
    mix = exact(hot, hot + more)
    line_ml = CONE.volume_ml(line_mm)
    full = fill_until_set(line_ml, mix)
    later_g = full.mass_g * later_share(mix)
    first_g = full.mass_g - later_g
    assert first_g / hot == pytest.approx(line_ml)
    assert full.mass_g / (hot + more) == pytest.approx(line_ml)
    drop_ml = line_ml - CONE.volume_ml(set_level_mm(CONE, line_mm, hot, hot + more))
    assert later_g == pytest.approx(drop_ml * (hot + more), abs=1e-3)
    assert later_share_range(mix) == pytest.approx((later_share(mix),) * 2)


@settings(max_examples=30)
@given(
    st.integers(1, 30),
    st.floats(20, 400),
    st.sampled_from(["line", "set", "net"]),
    st.sampled_from(["single", "top_up", "second"]),
)
def test_whatever_is_held_back_the_plan_closes(
    count: int, amount: float, fill_to: str, finish: str
) -> None:
    wax = replace(MEASURED, finish=finish)
    line = tumblers(count, RECIPE, fill_ml=amount, net_g=amount, fill_to=fill_to)
    plan = plan_pour(inputs(line, facts=facts(wax)))
    closes(plan)
    held_mg = sum(round(pot.held_g * 1000) for pot in plan.pots)
    assert held_mg == round(plan.lines[0].held_g * 1000) * count
    assert (held_mg > 0) == (finish != "single" and plan.lines[0].each_g > 2)


@given(st.floats(50, 100))
def test_room_stays_below_the_brim(height: float) -> None:
    jar = Profile(((0, 70), (height, 70)))
    # π/4 · 7.0² cm² over 0.3 cm.
    assert jar.brim_ml - hot_room_ml(jar.brim_ml, jar) == pytest.approx(11.545, abs=1e-3)
    assert hot_room_ml(100.0) == pytest.approx(97.0)
