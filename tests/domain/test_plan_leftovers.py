"""Leftovers in a plan: nothing is lost or made up between leftovers, pots and vessels."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.plan_cases import FACTS, FIG, FIG_SOY, closes, inputs, keys, tins, tumblers
from wickbench.domain.findings import Rank
from wickbench.domain.leftover_lines import LeftoverWanted
from wickbench.domain.leftover_room import counts_towards, most_of
from wickbench.domain.leftovers import Leftover, work_in
from wickbench.domain.plan import PlanInputs, PotPlan, plan_pour
from wickbench.domain.recipes import Load, Recipe, Role, mix_parts

if TYPE_CHECKING:
    from wickbench.domain.plan import PourPlan

STRONG = replace(FIG_SOY, load=Load(10), name="strong")
OTHER = Recipe(wax={"para": 3, "soy": 1}, fragrance={"rose": 1}, load=Load(6), name="other")
KNOWN = replace(FACTS, oils={**FACTS.oils, "rose": replace(FIG, name="Rose", ifra_percent=4)})


def worked(mix: Recipe, mass_g: float | None, there_g: float = 5000.0) -> PlanInputs:
    wanted = LeftoverWanted(key=7, name="rest", leftover=Leftover(mix, there_g), mass_g=mass_g)
    return replace(inputs(tumblers(18), tins(12)), facts=KNOWN, leftovers={1: (wanted,)})


def in_pots(plan: PourPlan) -> dict[tuple[Role, object], float]:
    held: defaultdict[tuple[Role, object], float] = defaultdict(float)
    for pot in plan.pots:
        for line in pot.weigh:
            held[line.role, line.material] += line.weigh_g
        for old in pot.leftovers:
            for key, share in old.brings.shares.items():
                held[key] += share * old.weigh_g
    return dict(held)


def balanced(pot: PotPlan) -> None:
    """Leftovers and new together are what was filled and what is left, to the milligram."""
    weighed = sum(round(one.weigh_g * 1000) for one in (*pot.weigh, *pot.leftovers))
    filled = sum(round(fill.each_g * 1000) * fill.count for fill in pot.fills)
    assert weighed == round(pot.total_g * 1000) == filled + round(pot.leftover_g * 1000)
    assert pot.leftover_g >= 0


@given(st.floats(1, 9000), st.sampled_from([FIG_SOY, STRONG, OTHER]))
def test_mass_is_kept_from_leftover_and_shelf_to_pots(mass_g: float, mix: Recipe) -> None:
    plan = plan_pour(worked(mix, mass_g, there_g=9000))
    for pot in plan.pots:
        balanced(pot)
    used = math.fsum(old.weigh_g for pot in plan.pots for old in pot.leftovers)
    assert used <= mass_g + 1e-9
    new = math.fsum(line.weigh_g for pot in plan.pots for line in pot.weigh)
    assert math.fsum(in_pots(plan).values()) == pytest.approx(used + new, abs=1e-6)
    assert math.fsum(in_pots(plan).values()) == pytest.approx(plan.total_g, abs=1e-6)
    # only what is new leaves the shelf
    needs = {line.material for pot in plan.pots for line in pot.weigh}
    assert math.fsum(plan.needs[one] for one in needs) == pytest.approx(new)


@given(st.floats(1, 4000), st.sampled_from([FIG_SOY, STRONG]))
def test_the_load_of_the_recipe_holds_whatever_is_worked_in(mass_g: float, mix: Recipe) -> None:
    for pot in plan_pour(worked(mix, mass_g)).pots:
        # each scale rounds by half a step: 1 g and 0.1 g here, three waxes and oils at most
        slack = 100 * (0.5 + 2 * 0.05) / (pot.total_g * 0.9)
        assert pot.load.of_wax == pytest.approx(8.0, abs=slack + 0.02)


def test_a_leftover_of_the_same_recipe_saves_its_own_wax_and_oil() -> None:
    # 500 g of a mix with 8 % of wax hold 500/1.08 = 463.0 g of wax and 37.0 g of oil; by hand
    plain, with_it = plan_pour(inputs(tumblers(9))), plan_pour(
        replace(inputs(tumblers(9)), leftovers=worked(FIG_SOY, 500.0).leftovers)
    )  # fmt: skip
    (old,), (new,) = plain.pots, with_it.pots
    assert new.leftovers[0].weigh_g == 500.0
    assert plain.needs["soy"] - with_it.needs["soy"] == pytest.approx(463.0, abs=1.0)
    saved = sum(plain.needs[oil] - with_it.needs[oil] for oil in ("fig", "cedar"))
    assert saved == pytest.approx(37.0, abs=0.2)
    assert new.fills == old.fills
    assert new.foreign == ()


def test_materials_of_others_make_it_a_candle_of_its_own_and_are_named() -> None:
    plan = plan_pour(worked(OTHER, 300.0))
    assert set(plan.pots[0].foreign) == {"para", "rose"}
    assert "leftovers.own-kind" in keys(plan)
    made = plan.pots[0].made
    assert made is not None
    rose = sum(part.share for part in mix_parts(made) if part.material == "rose")
    assert rose * plan.pots[0].total_g == pytest.approx(300 * 6 / 106, abs=1e-6)
    # later pots have none of it and stay what they were
    assert all(not pot.foreign and pot.made is None for pot in plan.pots[1:])


def test_what_does_not_fit_is_refused_with_what_would() -> None:
    whole_g = plan_pour(worked(STRONG, 1.0)).total_g
    asked_g = 0.95 * whole_g
    plan = plan_pour(worked(STRONG, asked_g, there_g=9000.0))
    said = next(one for one in plan.findings if one.key == "leftovers.too-much")
    assert said.rank is Rank.STOPS
    total = plan.total_g
    # as much as the oil allows: by wax 8 of 108 in the batch, 10 of 110 in the leftover
    assert said.data["most_g"] == pytest.approx(total * (8 / 108) / (10 / 110), rel=1e-6)
    assert said.data["least_g"] == pytest.approx(asked_g * (10 / 110) / (8 / 108), rel=1e-6)


def test_more_than_is_there_is_refused() -> None:
    plan = plan_pour(worked(FIG_SOY, 600.0, there_g=400.0))
    assert "leftovers.not-so-much-there" in keys(plan, Rank.STOPS)
    assert plan.pots[0].leftovers[0].weigh_g == 400.0


def test_as_much_as_fits_fills_pot_after_pot_and_needs_nothing_new() -> None:
    plan = plan_pour(worked(FIG_SOY, None, there_g=50_000.0))
    assert len(plan.pots) > 1
    for pot in plan.pots:
        balanced(pot)
        assert sum(line.weigh_g for line in pot.weigh) <= 1.0


def test_a_plan_without_leftovers_is_as_it_was() -> None:
    closes(plan_pour(inputs(tumblers(18), tins(12))))


@given(st.floats(10, 5000), st.sampled_from([STRONG, OTHER, FIG_SOY]))
def test_the_most_that_fits_is_the_most(total_g: float, mix: Recipe) -> None:
    most = most_of(mix, FIG_SOY, total_g)
    work_in([Leftover(mix, most * (1 - 1e-9))], FIG_SOY, total_g)
    if most < total_g * (1 - 1e-6):
        with pytest.raises(Exception, match=r"leftovers\."):
            work_in([Leftover(mix, most * 1.001)], FIG_SOY, total_g)


@given(st.sampled_from([FIG_SOY, STRONG, OTHER]), st.floats(0.1, 1))
def test_each_gram_of_a_leftover_saves_a_gram(mix: Recipe, part: float) -> None:
    gives = counts_towards(mix, FIG_SOY)
    assert math.fsum(gives.values()) == pytest.approx(1.0)
    mass_g = part * most_of(mix, FIG_SOY, 1000.0)
    add = {(one.role, one.material): one.mass_g
           for one in work_in([Leftover(mix, mass_g)], FIG_SOY, 1000.0).add}  # fmt: skip
    for one in mix_parts(FIG_SOY):
        whole = one.share * 1000
        key = (one.role, one.material)
        assert add.get(key, 0.0) == pytest.approx(whole - mass_g * gives[key], abs=1e-6)
