"""How far the shelf reaches: by hand, by counting upwards in fractions, and by the plan."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wickbench.app.texts import Texts
from wickbench.domain.equipment import Pot, Scale
from wickbench.domain.errors import OutOfRange
from wickbench.domain.from_the_shelf import from_the_shelf, use_of, vessels_in_pot
from wickbench.domain.plan import PlanInputs, PlanLine, PourPlan, plan_pour
from wickbench.domain.recipe_checks import Facts, WaxFacts
from wickbench.domain.recipes import Load, Recipe
from wickbench.domain.shelf_purchases import freed_by_one, purchases, shelf_findings
from wickbench.domain.shelf_values import Making, Shelf

if TYPE_CHECKING:
    from collections.abc import Callable

SOY = Recipe(wax={"soy": 1}, fragrance={"fig": 1}, load=Load(10, "total"))
JAR = Making(key="jar", name="jar", recipe=SOY, each_g=200, items={"glass": 1, "wick": 1})
TWIN = replace(JAR, key="twin", name="twin", each_g=400, items={"bowl": 1, "wick": 2})
FULL = {"soy": 10_000.0, "fig": 500.0, "glass": 30, "wick": 100, "bowl": 8}


def test_one_candle_from_the_shelf() -> None:
    """By hand: 180 g wax and 20 g oil each: 55 by wax, 25 by oil, 30 by glass, 100 by wick."""
    reach = from_the_shelf([JAR], Shelf(stock=FULL))
    assert reach.sets == 25
    assert reach.candles == {"jar": 25}
    assert [one.material for one in reach.runs_out] == ["fig"]
    assert reach.runs_out[0].short == pytest.approx(20)
    assert reach.left == pytest.approx({"soy": 5500, "fig": 0, "glass": 5, "wick": 75})
    assert reach.uncounted == ()


def test_a_mix_by_ratio() -> None:
    """By hand: 2 jars and a twin take 720 g wax, 80 g oil, 2 glasses, 4 wicks, a bowl."""
    reach = from_the_shelf([replace(JAR, ratio=2), TWIN], Shelf(stock=FULL))
    assert reach.sets == 6
    assert reach.candles == {"jar": 12, "twin": 6}
    assert [one.material for one in reach.runs_out] == ["fig"]


def test_extra_per_pot_is_kept_back() -> None:
    """By hand: pots of 1000 g with 50 g extra hold 4 jars; a full one takes 85 g of oil.

    500 g of oil make 5 full pots (425 g) and one with 75 − 5 = 70 g: 3 jars of 20 g.
    """
    jar = replace(JAR, pot_g=1000)
    reach = from_the_shelf([jar], Shelf(stock=FULL, extra_g=50))
    assert reach.sets == 23
    assert reach.pots == 6
    assert use_of([jar], Shelf(stock={}, extra_g=50), 23)["fig"] == pytest.approx(460 + 30)


def test_steps_of_the_scale_are_kept_back_in_each_pot() -> None:
    """By hand: pots of 5 jars; 24 jars are 5 pots, so 480 + 5 g of oil; 23 are 5 pots too."""
    jar = replace(JAR, pot_g=1000)
    shelf = Shelf(stock={"fig": 484.9}, rounding_g=1)
    assert from_the_shelf([jar], replace(shelf, stock={"fig": 485})).sets == 24
    assert from_the_shelf([jar], shelf).sets == 23


def test_a_rounded_up_last_digit_is_no_shortage() -> None:
    """Two hundred thirds of a gram, three times, are 200 g though each was rounded up."""
    jar = Making(key=1, recipe=Recipe(wax={"soy": 1}), each_g=200 / 3)
    assert from_the_shelf([jar], Shelf(stock={"soy": 200})).sets == 3
    assert from_the_shelf([jar], Shelf(stock={"soy": 199.99})).sets == 2


def test_melter_holding_back_for_topping_up() -> None:
    """By hand: ⌊(4000 − 15)/(208.2·1.03)⌋ = 18, 124.972 g left; 20 jars take 4303.920 g."""
    count, left_g = vessels_in_pot(4000, 208.2, extra_g=15, extra_percent=3)
    assert count == 18
    assert left_g == pytest.approx(124.972)
    shelf = Shelf(stock={}, extra_g=15, extra_percent=3)
    for load, wax_g, oil_g in (
        (Load(8, "wax"), 3985.111, 318.809),
        (Load(8, "total"), 3959.606, 344.314),
    ):
        jar = Making(key=1, recipe=replace(SOY, load=load), each_g=208.2)
        use = use_of([jar], shelf, 20)
        assert use == pytest.approx({"soy": wax_g, "fig": oil_g}, abs=5e-4)
        assert math.fsum(use.values()) == pytest.approx(4303.920)


@pytest.mark.parametrize("count", [3, 7, 30, 999])
def test_exactly_enough_is_enough(count: int) -> None:
    """Thirds and tenths that no float holds exactly."""
    jar = Making(key=1, recipe=SOY, each_g=100 / 3)
    stock = {"soy": 0.9 * 100 / 3 * count, "fig": 0.1 * 100 / 3 * count}
    assert from_the_shelf([jar], Shelf(stock=stock)).sets == count
    short = stock | {"fig": stock["fig"] - 0.01}
    assert from_the_shelf([jar], Shelf(stock=short)).sets == count - 1


def test_what_was_never_counted_sets_no_limit_and_is_told() -> None:
    shelf = Shelf(stock={"soy": 1000, "glass": None})
    reach = from_the_shelf([JAR], shelf)
    assert reach.sets == 5
    assert set(reach.uncounted) == {"fig", "glass", "wick"}
    keys = [one.key for one in shelf_findings([JAR], shelf, {})]
    assert keys == ["shelf.runs-out-mass", "shelf.buy-no-limit", "shelf.uncounted"]


def test_nothing_counted_gives_no_number() -> None:
    reach = from_the_shelf([JAR], Shelf(stock={}))
    assert reach.sets is None
    assert reach.candles == {}
    found = shelf_findings([JAR], Shelf(stock={}), {})
    assert [one.key for one in found] == ["shelf.no-limit", "shelf.uncounted"]
    assert found[1].about[0] == "material"


def test_stock_below_nothing_makes_nothing() -> None:
    """Booked out more than was counted: no stock."""
    reach = from_the_shelf([JAR], Shelf(stock={**FULL, "wick": -3}))
    assert reach.sets == 0
    assert reach.runs_out[0].material == "wick"


def test_what_to_buy_first_and_next() -> None:
    """By hand: oil stops at 25, glass at 30, wax at 55, wicks at 100."""
    rungs = purchases([JAR], Shelf(stock=FULL))
    assert [(one.materials, one.before, one.after) for one in rungs] == [
        (("fig",), 25, 30),
        (("glass",), 30, 55),
        (("soy",), 55, 100),
        (("wick",), 100, None),
    ]
    assert rungs[0].amounts == pytest.approx({"fig": 100})
    assert rungs[1].amounts == pytest.approx({"glass": 25})
    assert rungs[2].more == 45
    assert rungs[3].more is None


def test_two_that_run_out_together_are_bought_together() -> None:
    shelf = Shelf(stock={**FULL, "glass": 25})
    first = purchases([JAR], shelf)[0]
    assert set(first.materials) == {"fig", "glass"}
    assert (first.before, first.after) == (25, 55)
    assert freed_by_one([JAR], shelf) == ()
    said = [Texts().say(one) for one in shelf_findings([JAR], shelf, {"fig": "Fig"})]
    assert any("Fig, glass" in one and "30 more" in one for one in said)


def test_the_one_purchase_that_frees_most_over_several_candles() -> None:
    """By hand: oil stops jars at 25 of 30; bowls stop twins at 8, oil then at 12."""
    freed = freed_by_one([JAR, TWIN], Shelf(stock=FULL))
    assert [(one.material, one.total, dict(one.more)) for one in freed] == [
        ("fig", 5, {"jar": 5}),
        ("bowl", 4, {"twin": 4}),
    ]


def test_sentences_name_amounts() -> None:
    said = [Texts().say(one) for one in shelf_findings([JAR], Shelf(stock=FULL), {"fig": "Fig"})]
    assert said[0] == "First to run out: Fig. Missing for 1 more: 20.0 g · 0.7 oz."
    assert "100.0 g" in said[1]
    assert "5 more, 30 in all" in said[1]
    bowls = [Texts().say(one) for one in shelf_findings([TWIN], Shelf(stock=FULL), {})]
    assert bowls[0] == "First to run out: bowl. Missing for 1 more: 1."
    assert "4 of bowl. Then you can make 4 more, 12 in all." in bowls[1]
    none = shelf_findings([JAR], Shelf(stock={**FULL, "fig": 3}), {})
    assert none[0].key == "shelf.not-one-mass"


def test_a_ratio_kept_as_near_as_whole_candles_allow() -> None:
    """By hand: 18 : 12 : 7 with 15 of the first are 15 : 10 : 5.83, so 15, 10 and 6.

    31 glasses are all of them; one of the first more would be 16 : 10.67 : 6.22, 33 glasses.
    """
    makings = [
        replace(JAR, key=key, ratio=ratio) for key, ratio in zip("abc", (18, 12, 7), strict=True)
    ]
    shelf = Shelf(stock={"glass": 31})
    assert from_the_shelf(makings, shelf).sets == 0  # not one whole set of 37
    reach = from_the_shelf(makings, shelf, near=True)
    assert reach.candles == {"a": 15, "b": 10, "c": 6}
    assert (reach.total, reach.step, reach.runs_out[0].short) == (31, 2, 2)
    first = purchases(makings, Shelf(stock={"glass": 31, "wick": 37}), near=True)[0]
    assert (first.candles_before, first.candles_after, first.amounts) == (31, 37, {"glass": 6})


@given(
    st.lists(st.integers(1, 40), min_size=1, max_size=4),
    st.integers(0, 400),
)
def test_a_near_ratio_is_off_by_half_a_candle_and_uses_up_what_there_is(
    ratios: list[int], glasses: int
) -> None:
    makings = [replace(JAR, key=at, ratio=ratio) for at, ratio in enumerate(ratios)]
    reach = from_the_shelf(makings, Shelf(stock={"glass": glasses}), near=True)
    assert reach.sets is not None
    for at, ratio in enumerate(ratios):
        exact = Fraction(ratio * reach.sets, max(ratios))
        assert abs(reach.candles[at] - exact) <= Fraction(1, 2)
    assert reach.total <= glasses < reach.total + reach.step


def fewest_by_trying(sizes: list[int], room: int) -> int:
    """Fewest bins by trying every bin for every piece."""
    best = len(sizes)

    def place(rest: list[int], bins: list[int]) -> None:
        nonlocal best
        if len(bins) >= best:
            if not rest and len(bins) < best:
                best = len(bins)
            return
        if not rest:
            best = len(bins)
            return
        for number in range(len(bins)):
            if bins[number] + rest[0] <= room:
                place(rest[1:], [*bins[:number], bins[number] + rest[0], *bins[number + 1 :]])
        place(rest[1:], [*bins, rest[0]])

    place(sorted(sizes, reverse=True), [])
    return best


def counted_upwards(
    jars: tuple[int, int], ratio: tuple[int, int], stock: dict[str, int], extra: int, room: int
) -> int:
    """Sets one after another, with fractions, until one does not fit."""
    sets = 0
    while True:
        number = sets + 1
        sizes = [size for size, many in zip(jars, ratio, strict=True) for _ in range(many * number)]
        mix = Fraction(sum(sizes) + extra * fewest_by_trying(sizes, room - extra))
        use = {"soy": mix * 9 / 10, "fig": mix / 10}
        use |= {"glass": Fraction(ratio[0] * number), "bowl": Fraction(ratio[1] * number)}
        if any(use[item] > stock[item] for item in stock):
            return sets
        sets = number


@settings(max_examples=40)
@given(
    st.tuples(st.integers(100, 300), st.integers(100, 300)),
    st.tuples(st.integers(1, 2), st.integers(1, 2)),
    st.fixed_dictionaries(
        {
            "soy": st.integers(0, 1500),
            "fig": st.integers(0, 200),
            "glass": st.integers(0, 4),
            "bowl": st.integers(0, 4),
        }
    ),
    st.integers(0, 60),
)
def test_against_counting_upwards(
    jars: tuple[int, int], ratio: tuple[int, int], stock: dict[str, int], extra: int
) -> None:
    makings = [
        Making(key=0, recipe=SOY, each_g=jars[0], items={"glass": 1}, ratio=ratio[0], pot_g=700),
        Making(key=1, recipe=SOY, each_g=jars[1], items={"bowl": 1}, ratio=ratio[1], pot_g=700),
    ]
    reach = from_the_shelf(makings, Shelf(stock=stock, extra_g=extra))
    expected = counted_upwards(jars, ratio, stock, extra, 700)
    assert reach.sets == expected
    alone = {
        item: counted_upwards(
            jars, ratio, {k: v for k, v in stock.items() if k != item}, extra, 700
        )
        for item in ("glass", "bowl")
    }
    for item, found in alone.items():
        richer = from_the_shelf(makings, Shelf(stock=stock, extra_g=extra).without_limit(item))
        assert richer.sets == found
        only = [one.material for one in reach.runs_out] == [item]
        assert (found > expected) == only


stocks = st.fixed_dictionaries(
    {
        "soy": st.none() | st.floats(0, 20_000),
        "fig": st.none() | st.floats(0, 2_000),
        "glass": st.none() | st.integers(0, 60),
        "wick": st.none() | st.integers(0, 60),
    }
)


@given(stocks, st.sampled_from(["soy", "fig", "glass", "wick"]), st.floats(0, 5_000))
def test_more_stock_never_makes_fewer_and_no_number_is_beyond_it(
    stock: dict[str, float | None], item: str, more: float
) -> None:
    shelf = Shelf(stock=stock, extra_g=30, extra_percent=2)
    jar = replace(JAR, pot_g=2400)
    reach = from_the_shelf([jar], shelf)
    if reach.sets is None:
        assert set(stock.values()) == {None}
        return
    use = use_of([jar], shelf, reach.sets)
    for name, have in stock.items():
        assert have is None or use.get(name, 0) <= have + 2e-3
    have = stock[item]
    if have is not None:
        richer = from_the_shelf([jar], replace(shelf, stock={**stock, item: have + more}))
        assert richer.sets is not None
        assert richer.sets >= reach.sets


@given(st.floats(500, 9000), st.floats(20, 900), st.floats(0, 60), st.floats(0, 5))
def test_the_plan_of_what_can_be_made_has_no_shortage_and_of_one_more_has(
    wax_g: float, oil_g: float, extra_g: float, extra_percent: float
) -> None:
    """The plan of a pour, on a scale so fine that weights are not rounded, is the judge."""
    stock = {"soy": wax_g, "fig": oil_g}
    pot = Pot("pitcher", 3000, 500)
    shelf = Shelf(stock=stock, extra_g=extra_g, extra_percent=extra_percent)
    probe = plan(pot, 1, shelf)
    density = probe.pots[0].total_g / probe.pots[0].volume_ml
    jar = Making(key=1, recipe=SOY, each_g=200, pot_g=pot.safe_ml * density - 0.002)
    reach = from_the_shelf([jar], shelf)
    assert reach.sets is not None
    tight = min(abs(one.short) for one in reach.runs_out)
    if tight < 0.05:
        return
    if reach.sets:
        made = plan(pot, reach.sets, shelf)
        assert all(one.short < 0.02 for one in made.shortages)
        assert len(made.pots) == reach.pots
    assert plan(pot, reach.sets + 1, shelf).shortages


def plan(pot: Pot, count: int, shelf: Shelf) -> PourPlan:
    facts = Facts(waxes={"soy": WaxFacts(name="Soy", liquid_70_g_per_ml=1.0)})
    line = PlanLine(key=1, recipe_key=1, recipe=SOY, count=count, fill_to="net", net_g=200)
    return plan_pour(
        PlanInputs(
            lines=(line,),
            pots=(pot,),
            scales=(Scale("fine", 50_000, 0.001),),
            facts=facts,
            stock=shelf.stock,
            extra_g=shelf.extra_g,
            extra_percent=shelf.extra_percent,
        )
    )


def test_two_hundred_vessels_of_six_sizes_are_found_at_once() -> None:
    sizes = [
        replace(JAR, key=size, each_g=size, items={}, ratio=2, pot_g=3000)
        for size in (85, 120, 160, 205, 310, 420)
    ]
    reach = from_the_shelf(sizes, Shelf(stock={"soy": 45_000, "fig": 6000}, extra_g=20))
    assert reach.sets is not None
    assert sum(reach.candles.values()) > 200


@pytest.mark.parametrize(
    ("senseless", "key"),
    [
        (lambda: from_the_shelf([], Shelf(stock={})), "shelf.no-candles"),
        (lambda: replace(JAR, each_g=0), "shelf.each"),
        (lambda: replace(JAR, each_g=math.nan), "shelf.each"),
        (lambda: replace(JAR, ratio=0), "shelf.ratio"),
        (lambda: Shelf(stock={"soy": math.nan}), "recipe.number"),
        (lambda: Shelf(stock={}, extra_g=-1), "recipe.number"),
        (lambda: from_the_shelf([replace(JAR, pot_g=100)], Shelf(stock=FULL)),
         "pour.vessel-over-pot"),
        (lambda: vessels_in_pot(100, 0), "shelf.each"),
        (lambda: replace(JAR, recipe=Recipe()), "recipe.no-wax"),
    ],
)  # fmt: skip
def test_senseless_shelves_are_refused(senseless: Callable[[], object], key: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        senseless()
    assert refused.value.key == key
