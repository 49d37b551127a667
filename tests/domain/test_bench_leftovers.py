"""A leftover at the bench: what was really weighed of it moves what is new, and the load holds."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.plan_cases import FACTS, FIG_SOY, inputs, tumblers
from wickbench.domain.bench import BenchState, Place, begin, next_place, target_g, weigh
from wickbench.domain.bench_findings import bench_findings
from wickbench.domain.bench_outcome import outcome, wax_offer
from wickbench.domain.leftover_lines import LeftoverWanted
from wickbench.domain.leftovers import Leftover
from wickbench.domain.plan import plan_pour
from wickbench.domain.recipes import Load, Recipe

OTHER = Recipe(wax={"para": 1}, fragrance={"rose": 1}, load=Load(6), name="other")


def session(mix: Recipe = FIG_SOY, mass_g: float = 500.0) -> BenchState:
    wanted = LeftoverWanted(key=7, name="rest", leftover=Leftover(mix, mass_g), mass_g=mass_g)
    plan = plan_pour(replace(inputs(tumblers(9)), leftovers={1: (wanted,)}))
    return begin(plan.pots, FACTS)


def weigh_all(state: BenchState) -> BenchState:
    while (place := next_place(state)) is not None:
        state = weigh(state, place, target_g(state, place))
    return state


def test_the_leftover_is_weighed_first() -> None:
    state = session()
    assert state.pots[0].steps[0].name == "rest"
    assert target_g(state, (0, 0)) == 500.0


@given(st.floats(0, 900))
def test_less_or_more_of_a_leftover_is_made_up_with_new(weighed_g: float) -> None:
    state = session()
    planned = outcome(state.pots[0])
    done = outcome(weigh_all(weigh(state, (0, 0), weighed_g)).pots[0])
    # one kitchen scale to 1 g, two oils to 0.1 g: half a step each
    assert done.total_g == pytest.approx(planned.total_g, abs=0.5 + 0.1 + 1e-6)
    assert done.load.of_wax == pytest.approx(8.0, abs=0.03)


@given(st.floats(0.7, 1.4))
def test_oil_follows_the_wax_with_the_leftover_counted_in(factor: float) -> None:
    state = weigh(session(), (0, 0), 500.0)
    state = weigh(state, (0, 1), target_g(state, (0, 1)) * factor)
    assert outcome(weigh_all(state).pots[0]).load.of_wax == pytest.approx(8.0, abs=0.02)


def test_foreign_oil_is_traced_by_itself() -> None:
    now = outcome(weigh_all(session(OTHER, 300.0)).pots[0])
    # 300 g at 6 % of wax bring 300 × 6/106 = 16.98 g of rose; by hand
    assert now.oils_percent["rose"] == pytest.approx(100 * 300 * 6 / 106 / now.total_g)
    assert math.fsum(now.oils_percent.values()) == pytest.approx(100 * now.oil_g / now.total_g)
    assert now.load.of_wax == pytest.approx(8.0, abs=0.03)


def test_too_much_oil_is_brought_back_with_wax_as_without_leftovers() -> None:
    state = weigh_all(session())
    at = len(state.pots[0].steps) - 1
    state = weigh(state, (0, at), (state.at(Place(0, at)).weighed_g or 0.0) + 20.0)
    offer = wax_offer(state.pots[0])
    assert offer is not None
    assert offer.wax_g > 0
    assert any(one.key.startswith("bench.load-high") for one in bench_findings(state))


def test_a_leftover_may_be_left_out() -> None:
    state = weigh(session(), (0, 0), 0.0)
    assert outcome(weigh_all(state).pots[0]).load.of_wax == pytest.approx(8.0, abs=0.03)
