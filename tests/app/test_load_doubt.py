"""How a load came about: on the plan by the scales chosen, at the bench by what was weighed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from uncertainties import ufloat

from app.test_pouring import bench_with_plan, seen, weigh_all
from wickbench.app import pouring
from wickbench.app.bench_view import view_bench
from wickbench.app.load_doubt import how_planned_load, load_now, weighed_doubt
from wickbench.app.plan_cards import planned_cards, session_cards
from wickbench.app.shelf import load_shelf
from wickbench.domain.bench import next_place, target_g

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

TARED = 1 / 6**0.5  # JCGM 100:2008, 4.3.7, for a difference of two readings


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


def test_the_plan_says_why_each_scale_and_how_sure_the_load_is(workshop: Workspace) -> None:
    view = seen(workshop, bench_with_plan(workshop))
    pot = view.result.pots[0]
    wax, oil = pot.weigh
    said = [plain(one) for one in how_planned_load(pot, workshop.texts)]
    assert "Wax: S is the finest that carries the pot with its whole mix." in said
    assert "Oil: F is the finest that carries it in a cup." in said
    load = 100 * ufloat(oil.weigh_g, 0.1 * TARED) / ufloat(wax.weigh_g, 1.0 * TARED)
    assert pot.reach is not None
    assert pot.reach.standard_uncertainty_percent == pytest.approx(load.std_dev, rel=1e-9)
    assert f"{load.std_dev:.3f} % of wax (JCGM 100:2008" in " ".join(said)
    (card, *_) = planned_cards(view, load_shelf(workshop), workshop.texts)
    assert card.how == how_planned_load(pot, workshop.texts)


def test_the_bench_says_it_of_what_was_really_weighed(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    session = pouring.start_pour(workshop, plan)
    first = next_place(session.state)
    assert first is not None
    over = target_g(session.state, first) + 40.0
    session = weigh_all(workshop, pouring.weigh(workshop, session, first, over), 0)
    pot = session.state.pots[0]
    wax_g, oil_g = (step.weighed_g or 0.0 for step in pot.steps)
    assert wax_g == over
    found = weighed_doubt(pot)
    assert found is not None
    load = 100 * ufloat(oil_g, 0.1 * TARED) / ufloat(wax_g, 1.0 * TARED)
    assert found.standard_uncertainty_percent == pytest.approx(load.std_dev, rel=1e-9)
    # both a whole step off, by arithmetic
    assert found.above_percent == pytest.approx(100 * ((oil_g + 0.1) / (wax_g - 1) - oil_g / wax_g))
    said = load_now(pot, workshop.texts)
    assert "give or take" in said
    assert view_bench(session, workshop.texts).load == said
    (card, *_) = session_cards(session, workshop.texts)
    assert f"{wax_g:.0f} g" in plain(card.how[0])
