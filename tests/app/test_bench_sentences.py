"""Every key of plans, recipes and the bench has a sentence that its data can fill."""

from __future__ import annotations

import datetime as dt
import random
import re
from dataclasses import replace
from pathlib import Path
from string import Formatter

import pytest

import wickbench.domain
from domain.plan_cases import DYED, FACTS, FIG_SOY, inputs, tins, tumblers
from wickbench.app.sentences.plan import SENTENCES as PLAN
from wickbench.app.sentences.recipes import SENTENCES as RECIPES
from wickbench.app.texts import Texts
from wickbench.domain.bench import begin, target_g, weigh
from wickbench.domain.bench_findings import bench_findings
from wickbench.domain.equipment import HeatSource, Pot, Scale
from wickbench.domain.errors import OutOfRange
from wickbench.domain.lot_codes import check_pattern, lot_codes
from wickbench.domain.plan import PlanInputs, plan_pour
from wickbench.domain.pours import blend_leftover, split_into_pots
from wickbench.domain.recipe_checks import OilFacts, WaxFacts
from wickbench.domain.recipes import Load, Recipe

SENTENCES = PLAN | RECIPES
TOPICS = ("recipe", "plan", "pour", "equipment", "cost", "bench", "lot")
ROOMS = (
    *("recipes", "recipe_checks", "equipment", "pours", "shortages", "lot_codes", "costs"),
    *("plan", "plan_fill", "plan_pots", "plan_weighing", "plan_values", "bench", "bench_outcome"),
    "bench_findings",
)


def _keys_in_the_domain() -> set[str]:
    folder = Path(wickbench.domain.__file__).parent
    source = "".join((folder / f"{room}.py").read_text(encoding="utf-8") for room in ROOMS)
    written = re.findall(rf'"((?:{"|".join(TOPICS)})\.[a-z-]+[a-z])"', source)
    return {key for key in written if not key.endswith("of")}


MADE_FROM_PARTS = {
    "plan.pot-over-scale-in-portions",
    "plan.pot-and-mix-over-scale-in-portions",
    "recipe.over-wax-limit-of-wax",
    "recipe.over-wax-limit-of-total",
    "bench.blend-of-wax",
    "bench.blend-of-fragrance",
    "bench.over-wax-limit-of-wax",
    "bench.over-wax-limit-of-total",
    "plan.short-mass-or-fewer",
    "plan.short-pieces-or-fewer",
    "lot.no-letter",
    "lot.no-pot",
}


def test_each_key_has_a_sentence_and_each_sentence_a_key() -> None:
    assert _keys_in_the_domain() | MADE_FROM_PARTS == set(SENTENCES)


_LOTS = random.Random(33)  # noqa: S311 - lots, not secrets
UNPROVEN = [float(_LOTS.randint(250, 420)) for _ in range(30)]
"""Vessels for which nobody knows in time how few pots would do."""

PLANS: list[PlanInputs] = [
    inputs(tumblers(60), tins(3, fill_ml=None, key="a"), tins(3, fill_to="net", key="b")),
    inputs(tumblers(2, fill_ml=4200)),
    inputs(tumblers(2), extra_g=5000.0),
    inputs(
        *(tins(1, fill_to="net", key=key, net_g=net_g) for key, net_g in enumerate(UNPROVEN)),
        pots=(Pot("small", 1400, 200),),
    ),
    inputs(tumblers(2), pots=(), scales=()),
    inputs(tumblers(4), pots=(Pot("cauldron", 5000, 5200),)),
    inputs(tumblers(18), pots=(Pot("melter", 6000, 1200),)),
    inputs(tumblers(18), pots=(Pot("melter", 6000, 1200),), scales=(Scale("small", 2000, 1),)),
    inputs(tumblers(18), pots=(Pot("melter", 6000, 2200),), scales=(Scale("small", 2000, 1),)),
    inputs(tumblers(18), pots=(Pot("melter", 6000, 4000),)),
    inputs(tumblers(14, DYED), scales=(Scale("kitchen", 5000, 1),)),
    inputs(tumblers(1, declared_net_g=300), tins(1, key="c", fill_to="net", net_g=500)),
    inputs(tumblers(9, items={"jar": 1}), stock={"fig": 10, "soy": 1900, "jar": 8}),
    inputs(tumblers(9), tins(1, Recipe(), key="d", recipe_key=5), stock={"fig": 0, "cedar": 0}),
    inputs(tumblers(2, items={"lid": 1}), tins(2, items={"lid": 1}), stock={"lid": 0}),
    inputs(
        tumblers(1, replace(FIG_SOY, load=Load(13), heat_to_c=50, add_c=55)),
        tumblers(1, replace(FIG_SOY, heat_to_c=250), key="e", recipe_key=2),
        tumblers(1, replace(FIG_SOY, heat_to_c=120), key="f", recipe_key=3),
        facts=replace(
            FACTS,
            waxes={
                "soy": WaxFacts(
                    name="Soy",
                    max_load=Load(9, "total"),
                    flash_c=200,
                    heat_to_c=85,
                    liquid_70_g_per_ml=0.87,
                    density_is_estimate=True,
                )
            },
            oils={"fig": OilFacts(name="Fig", flash_c=50, ifra_percent=1)},
            heat=HeatSource(open_flame=True),
        ),
    ),
    inputs(
        tumblers(1, fill_to="set"),
        tumblers(1, fill_to="set", key="i", brim_ml=256.0, most_ml=250.0),
        tumblers(1, fill_to="set", key="j", brim_ml=300.0, most_ml=265.0),
    ),
    inputs(tumblers(1), facts=replace(FACTS, waxes={"soy": WaxFacts(finish="second")})),
    inputs(
        tumblers(1, replace(FIG_SOY, wax={"soy": 1, "palm": 1})),
        facts=replace(FACTS, waxes={"soy": WaxFacts(max_load=Load(12)), "palm": WaxFacts()}),
    ),
    inputs(
        tumblers(1, replace(FIG_SOY, add_c=90)),
        tumblers(1, replace(FIG_SOY, load=None), key="g", recipe_key=2),
        tumblers(1, replace(FIG_SOY, fragrance={}), key="h", recipe_key=3),
        facts=replace(
            FACTS,
            waxes={},
            oils={"fig": OilFacts(name="Fig", flash_c=80, ifra_percent=0)},
            heat=HeatSource(pot_stays_on=True),
        ),
    ),
]


@pytest.mark.parametrize("plan", PLANS)
def test_findings_of_plans_can_be_said(plan: PlanInputs) -> None:
    texts = Texts()
    findings = plan_pour(plan).findings
    assert findings
    for finding in findings:
        said = texts.say(finding)
        assert "{" not in said
        assert finding.key not in said


def test_findings_of_plans_cover_the_sentences() -> None:
    """The plans above bring up nearly all that a plan can say."""
    said = {finding.key for plan in PLANS for finding in plan_pour(plan).findings}
    kinds = {key for key in SENTENCES if key.split(".")[0] in {"plan", "recipe"}}
    refusals = {"plan.count", "plan.fill-to", "recipe.number"}
    unsaid = {key for key in kinds - said - refusals if not key.startswith("recipe.load-")}
    assert unsaid <= {"recipe.flash-low", "recipe.over-wax-limit-of-wax"}


def test_findings_of_the_bench_can_be_said() -> None:
    texts = Texts()
    plan = plan_pour(inputs(tumblers(17)))
    facts = replace(FACTS, waxes={"soy": WaxFacts(name="Soy", max_load=Load(9, "total"))})
    state = begin(plan.pots, replace(facts, oils={"fig": OilFacts(name="Fig", ifra_percent=6)}))
    for factor, wax in ((1.02, 1.0), (1.8, 1.0), (0.5, 1.0), (1.0, 0.7), (1.0, 1.4)):
        now = weigh(state, (0, 0), plan.pots[0].weigh[0].weigh_g * wax)
        now = weigh(now, (0, 1), target_g(now, (0, 1)) * factor)
        for finding in bench_findings(now):
            assert "{" not in texts.say(finding)
            assert finding.key not in texts.say(finding)


REFUSALS = [
    lambda: Load(100, "total"),
    lambda: Load(-1),
    lambda: Scale("s", 1, 5),
    lambda: blend_leftover(1000, 5, 800, 10),
    lambda: blend_leftover(1000, 50, 900, 10),
    lambda: blend_leftover(1000, 5, 1100, 5),
    lambda: split_into_pots([3000], 2000),
    lambda: check_pattern("{yy}{ddd}{letter}"),
    lambda: check_pattern("{yy}"),
    lambda: check_pattern("{yy}{ddd}{week}"),
    lambda: check_pattern("{yy}-{ddd}-X{letter}{pot}"),
    lambda: check_pattern("{yy}-{ddd}-{letter}{pot} of our workshop"),
    lambda: lot_codes("{yy}{ddd}{letter}{pot}", dt.date(2026, 1, 1), [(0, 1), (0, 1)]),
]


@pytest.mark.parametrize("refusal", REFUSALS)
def test_refusals_can_be_said(refusal: object) -> None:
    assert callable(refusal)
    with pytest.raises(OutOfRange) as refused:
        refusal()
    said = Texts().say(refused.value)
    assert refused.value.key not in said


@pytest.mark.parametrize("key", sorted(SENTENCES))
def test_sentences_are_sentences(key: str) -> None:
    sentence = SENTENCES[key]
    assert sentence[-1] in ".?"
    assert "nvalid" not in sentence
    for _, name, _, _ in Formatter().parse(sentence):
        assert name is None or name.isidentifier()
