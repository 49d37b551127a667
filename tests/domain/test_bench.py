"""The pouring session: what was really weighed moves the rest, and the load holds."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.bench import (
    BenchState,
    Place,
    begin,
    is_done,
    next_place,
    resume,
    target_g,
    unweigh,
    weigh,
    with_top_ups_marked,
)
from wickbench.domain.bench_findings import bench_findings
from wickbench.domain.bench_outcome import accept_wax, outcome, wax_offer
from wickbench.domain.equipment import Pot, Scale
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Rank
from wickbench.domain.plan import PlanInputs, PlanLine, plan_pour
from wickbench.domain.recipe_checks import Facts, OilFacts, WaxFacts
from wickbench.domain.recipes import Load, Recipe

RECIPE = Recipe(
    name="Fig",
    wax={"soy": 3, "coconut": 1},
    fragrance={"fig": 7, "cedar": 3},
    load=Load(8, "wax"),
    dye={"plum": 0.1},
    pour_c=57,
)
FACTS = Facts(
    waxes={
        "soy": WaxFacts(name="Soy", liquid_70_g_per_ml=0.87, max_load=Load(10)),
        "coconut": WaxFacts(name="Coconut", liquid_70_g_per_ml=0.885, max_load=Load(12)),
    },
    oils={"fig": OilFacts(name="Fig", ifra_percent=7), "cedar": OilFacts(name="Cedar")},
    names={"plum": "Plum dye"},
)
SOY, COCONUT, DYE, FIG, CEDAR = (Place(0, step) for step in range(5))
FINEST = Scale("finest", 20_000, 0.001)


def _state(count: int = 10, scale: Scale = FINEST, extra_g: float = 20, **pot: float) -> BenchState:
    line = PlanLine(
        key="t",
        recipe_key=1,
        recipe=RECIPE,
        vessel_name="tumbler",
        count=count,
        fill_to="net",
        net_g=220,
    )
    size = {"brim_ml": 5000.0, "empty_g": 900.0} | pot
    plan = plan_pour(
        PlanInputs(
            lines=(line,),
            pots=(Pot("pitcher", **size),),
            scales=(scale,),
            facts=FACTS,
            extra_g=extra_g,
        )
    )
    return begin(plan.pots, FACTS)


def _weigh_as_told(state: BenchState) -> BenchState:
    while (place := next_place(state)) is not None:
        state = weigh(state, place, target_g(state, place))
    return state


def _keys(state: BenchState) -> list[str]:
    return [said.key for said in bench_findings(state)]


def test_weighed_as_planned_nothing_moves() -> None:
    state = _state()
    planned = [step.planned_g for step in state.pots[0].steps]
    assert [target_g(state, Place(0, step)) for step in range(5)] == planned
    done = _weigh_as_told(state)
    assert is_done(done)
    assert [step.weighed_g for step in done.pots[0].steps] == planned
    now = outcome(done.pots[0])
    assert now.done
    assert now.load.of_wax == pytest.approx(8, abs=1e-3)
    assert now.leftover_g == pytest.approx(20, abs=0.01)
    assert (now.filled[0].count, now.unfilled) == (10, ())
    assert _keys(done) == []


def test_the_order_is_wax_dye_oil() -> None:
    state = _state()
    assert [step.name for step in state.pots[0].steps] == [
        "Soy",
        "Coconut",
        "Plum dye",
        "Fig",
        "Cedar",
    ]
    assert next_place(state) == SOY
    assert next_place(weigh(state, SOY, 1500)) == COCONUT


def test_over_poured_wax_takes_the_rest_with_it() -> None:
    """Five percent more wax, five percent more of everything: load and blend hold."""
    state = _state()
    plan = [step.planned_g for step in state.pots[0].steps]
    state = weigh(state, SOY, plan[0] * 1.05)
    for place in (COCONUT, DYE, FIG, CEDAR):
        assert target_g(state, place) == pytest.approx(plan[place.step] * 1.05, abs=0.001)
    now = outcome(_weigh_as_told(state).pots[0])
    assert now.load.of_wax == pytest.approx(8, abs=1e-3)
    assert now.total_g == pytest.approx(2220 * 1.05, abs=0.01)
    assert now.leftover_g == pytest.approx(2220 * 1.05 - 2200, abs=0.01)


def test_one_wax_only_over_poured_the_load_still_holds() -> None:
    state = _state()
    plan = [step.planned_g for step in state.pots[0].steps]
    state = weigh(weigh(state, SOY, plan[0]), COCONUT, plan[1] + 50)
    assert target_g(state, FIG) == pytest.approx((plan[0] + plan[1] + 50) * 0.08 * 0.7, abs=0.001)


def test_too_little_wax_leaves_vessels_unfilled() -> None:
    state = _state()
    plan = state.pots[0].steps[0].planned_g
    state = weigh(state, SOY, plan * 0.85)
    now = outcome(state.pots[0])
    assert now.total_g == pytest.approx(2220 * 0.85, abs=0.01)
    assert (now.filled[0].count, now.unfilled[0].count) == (8, 2)
    (said,) = bench_findings(state)
    assert (said.key, said.data) == ("bench.not-enough", {"vessel": "tumbler", "n": 2})
    assert said.about == ("pot", 0, "line", "t")


def test_too_much_oil_is_offered_wax_and_the_offer_mends_it() -> None:
    state = _state()
    for place in (SOY, COCONUT, DYE):
        state = weigh(state, place, target_g(state, place))
    planned = target_g(state, FIG)
    state = weigh(state, FIG, planned * 1.10)
    now = outcome(state.pots[0])
    assert now.load.of_wax == pytest.approx(8 * (0.7 * 1.1 + 0.3), abs=1e-3)
    offer = wax_offer(state.pots[0])
    assert offer is not None
    assert offer.wax_g == pytest.approx(now.wax_g * 0.10, abs=0.01)
    assert offer.total_g == pytest.approx(2220 * 1.10, abs=0.01)
    assert offer.fits is True
    assert _keys(state) == ["bench.load-high-add-wax"]
    untouched = _weigh_as_told(state)
    assert outcome(untouched.pots[0]).load.of_wax == pytest.approx(now.load.of_wax)

    mended = accept_wax(state, 0)
    assert [step.name for step in mended.pots[0].steps if step.top_up] == [
        "Soy",
        "Coconut",
        "Plum dye",
    ]
    assert next_place(mended) == Place(0, 4)
    mended = _weigh_as_told(mended)
    now = outcome(mended.pots[0])
    assert now.load.of_wax == pytest.approx(8, abs=1e-3)
    assert now.total_g == pytest.approx(2220 * 1.10, abs=0.01)
    shares = list(now.oils_percent.values())
    assert shares[0] / shares[1] == pytest.approx(7 / 3, abs=1e-3)
    assert _keys(mended) == []
    assert wax_offer(mended.pots[0]) is None


def test_wax_that_has_no_room_is_said_not_forced() -> None:
    state = _state(brim_ml=3300.0)
    for place in (SOY, COCONUT, DYE):
        state = weigh(state, place, target_g(state, place))
    state = weigh(state, FIG, target_g(state, FIG) * 1.2)
    offer = wax_offer(state.pots[0])
    assert offer is not None
    assert offer.fits is False
    assert "bench.load-high-no-room" in _keys(state)


def test_limits_are_checked_with_what_is_really_in_the_pot() -> None:
    state = _weigh_as_told(_state())
    state = weigh(state, FIG, state.at(FIG).planned_g * 1.4)
    keys = _keys(state)
    assert "bench.over-wax-limit-of-wax" in keys
    assert keys[0] == "bench.oil-over-certificate"
    assert bench_findings(state)[0].rank is Rank.STOPS


def test_a_certificate_without_a_limit_sets_none() -> None:
    free = {"fig": OilFacts(name="Fig", ifra_percent=100), "cedar": OilFacts(ifra_percent=0.5)}
    line = PlanLine(key=1, recipe_key=1, recipe=RECIPE, count=1, fill_to="net", net_g=200)
    facts = replace(FACTS, oils=free)
    state = begin(plan_pour(PlanInputs(lines=(line,), facts=facts)).pots, facts)
    assert dict(state.pots[0].certificate_percent) == {"cedar": 0.5}


def test_too_little_oil_says_how_much_more() -> None:
    state = _weigh_as_told(_state())
    planned = state.at(FIG).planned_g
    state = weigh(state, FIG, planned * 0.9)
    (said,) = bench_findings(state)
    assert said.key == "bench.load-low"
    assert said.data["add_g"] == pytest.approx(planned * 0.1, abs=0.01)


def test_a_drop_more_or_less_is_not_a_finding() -> None:
    """One and a half percent of the oil; from two it is said."""
    state = _weigh_as_told(_state())
    fig, cedar = state.at(FIG).planned_g, state.at(CEDAR).planned_g
    for factor, said in ((1.015, []), (0.985, []), (0.97, ["bench.load-low"])):
        now = weigh(weigh(state, FIG, fig * factor), CEDAR, cedar * factor)
        assert _keys(now) == said


def test_a_reading_within_the_scales_step_is_no_over_pour() -> None:
    state = _weigh_as_told(_state(scale=Scale("kitchen", 5000, 1)))
    assert wax_offer(weigh(state, FIG, state.at(FIG).planned_g + 0.5).pots[0]) is None
    assert wax_offer(weigh(state, FIG, state.at(FIG).planned_g + 1).pots[0]) is not None


def test_without_a_pot_there_is_no_limit_of_room() -> None:
    line = PlanLine(key=1, recipe_key=1, recipe=RECIPE, count=1, fill_to="net", net_g=200)
    plan = plan_pour(PlanInputs(lines=(line,), facts=FACTS))
    state = begin(plan.pots, FACTS, ["26-332-A1"])
    assert (state.pots[0].name, state.pots[0].holds_g) == ("26-332-A1", None)
    state = weigh(_weigh_as_told(state), FIG, 20)
    offer = wax_offer(state.pots[0])
    assert offer is not None
    assert offer.fits is None


def test_rounding_to_the_scale_is_not_a_finding() -> None:
    state = _state(count=1, scale=Scale("kitchen", 5000, 1), extra_g=0)
    state = weigh(state, SOY, state.at(SOY).planned_g + 3)
    assert "bench.load-high" not in " ".join(_keys(_weigh_as_told(state)))
    assert "bench.load-low" not in _keys(_weigh_as_told(state))


def test_a_blend_that_is_off_is_noted() -> None:
    """300 g of 1538 + 512 g of wax swapped; the load is what it was."""
    state = _state()
    soy, coconut = state.at(SOY).planned_g, state.at(COCONUT).planned_g
    state = weigh(weigh(state, SOY, soy - 300), COCONUT, coconut + 300)
    state = _weigh_as_told(state)
    assert outcome(state.pots[0]).load.of_wax == pytest.approx(8, abs=1e-3)
    assert _keys(state) == ["bench.blend-of-wax", "bench.blend-of-wax"]
    one = bench_findings(state)[0]
    assert one.rank is Rank.NOTE
    assert one.data["planned_percent"] == pytest.approx(75, abs=0.01)
    assert one.data["share_percent"] == pytest.approx(100 * (soy - 300) / (soy + coconut))


def test_oils_that_were_swapped_are_noted() -> None:
    state = _weigh_as_told(_state())
    fig, cedar = state.at(FIG).planned_g, state.at(CEDAR).planned_g
    state = weigh(weigh(state, FIG, cedar), CEDAR, fig)
    assert _keys(state) == ["bench.blend-of-fragrance", "bench.blend-of-fragrance"]


def test_more_than_the_pot_carries() -> None:
    state = _state(brim_ml=3300.0)
    assert _keys(weigh(state, SOY, state.at(SOY).planned_g * 1.3)) == ["bench.over-pot"]


def test_a_reading_can_be_replaced_and_taken_back() -> None:
    state = weigh(_state(), SOY, 5000)
    state = weigh(state, SOY, _state().at(SOY).planned_g)
    assert target_g(state, FIG) == _state().at(FIG).planned_g
    assert unweigh(state, SOY) == _state()


def test_a_session_resumes_from_its_readings() -> None:
    state = weigh(weigh(_state(), SOY, 1600), COCONUT, 510)
    assert resume(_state(), {SOY: 1600, COCONUT: 510}) == state
    assert next_place(state) == DYE


@pytest.mark.parametrize(
    ("place", "actual_g", "key"),
    [
        (SOY, -1, "bench.weight"),
        (SOY, math.nan, "bench.weight"),
        (SOY, math.inf, "bench.weight"),
        (SOY, 1e9, "bench.weight"),
        (SOY, 0, "bench.no-wax"),
        (Place(0, 5), 1, "bench.no-such-step"),
        (Place(1, 0), 1, "bench.no-such-step"),
        (Place(-1, 0), 1, "bench.no-such-step"),
    ],
)
def test_senseless_readings_are_refused(place: Place, actual_g: float, key: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        weigh(_state(), place, actual_g)
    assert refused.value.key == key


def test_no_wax_is_added_when_none_is_needed() -> None:
    with pytest.raises(OutOfRange) as refused:
        accept_wax(_weigh_as_told(_state()), 0)
    assert refused.value.key == "bench.nothing-offered"


def test_pots_do_not_move_each_other() -> None:
    state = _state(count=30)
    assert len(state.pots) == 2
    moved = weigh(state, SOY, state.at(SOY).planned_g * 1.2)
    assert moved.pots[1] == state.pots[1]
    assert target_g(moved, Place(1, 3)) == target_g(state, Place(1, 3))


@given(st.floats(0.5, 1.6), st.floats(0.8, 1.3))
def test_the_load_holds_whatever_wax_was_poured(one: float, other: float) -> None:
    state = _state()
    state = weigh(state, SOY, state.at(SOY).planned_g * one)
    state = weigh(state, COCONUT, state.at(COCONUT).planned_g * other)
    now = outcome(_weigh_as_told(state).pots[0])
    assert now.load.of_wax == pytest.approx(8, abs=2e-3)
    assert now.oil_g / now.wax_g == pytest.approx(0.08, abs=2e-5)
    poured = math.fsum(fill.each_g * fill.count for fill in now.filled)
    assert poured + now.leftover_g == pytest.approx(now.total_g, abs=0.06)


@given(st.floats(1.05, 1.5), st.floats(1.0, 1.2))
def test_an_accepted_offer_restores_load_and_blend(oil: float, wax: float) -> None:
    state = _state()
    state = weigh(state, SOY, state.at(SOY).planned_g * wax)
    for place in (COCONUT, DYE):
        state = weigh(state, place, target_g(state, place))
    state = accept_wax(weigh(state, FIG, target_g(state, FIG) * oil), 0)
    done = _weigh_as_told(state)
    assert outcome(done.pots[0]).load.of_wax == pytest.approx(8, abs=2e-3)
    readings = {
        Place(0, index): step.weighed_g
        for index, step in enumerate(done.pots[0].steps)
        if step.weighed_g is not None
    }
    stored = (replace(step, weighed_g=None, top_up=False) for step in done.pots[0].steps)
    emptied = replace(done.pots[0], steps=with_top_ups_marked(stored))
    assert resume(BenchState((emptied,)), readings) == done
