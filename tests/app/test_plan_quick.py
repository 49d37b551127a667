"""A quick answer while a person types, and the settled one after it."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from app.test_pouring import bench_with_plan
from wickbench.app import plans
from wickbench.app.plan_view import PlanView, ViewMemo, view_plan
from wickbench.app.shelf import load_shelf

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.app.workspace import Workspace

    View = Callable[..., PlanView]

FEWER_WITH_TIME, NEVER_KNOWN = 11, 33


@pytest.fixture
def view(workshop: Workspace) -> View:
    """A plan of thirty jars of as many weights, a quarter to two fifths of a pot each."""
    plan = bench_with_plan(workshop, pot_ml=1500.0)
    row, shelf = plans.load_plan(workshop, plan), load_shelf(workshop)
    today = workshop.clock.today()

    def made(lots: int, *, quick: bool = False, memo: ViewMemo | None = None) -> PlanView:
        drawn = random.Random(lots)  # noqa: S311 - lots, not secrets
        lines = tuple(
            replace(
                row.lines[0], id=at, count=1, fill_to="net", net_g=float(drawn.randint(250, 420))
            )
            for at in range(30)
        )
        return view_plan(
            replace(row, lines=lines), shelf, workshop.settings, workshop.texts, today=today,
            quick=quick, memo=memo,
        )  # fmt: skip

    return made


def said(view: PlanView) -> list[object]:
    return [one.data for one in view.findings if one.key == "plan.maybe-fewer-pots"]


def test_the_settled_plan_is_the_one_computed_at_once(view: View) -> None:
    memo = ViewMemo()
    hurried = view(FEWER_WITH_TIME, quick=True, memo=memo)
    settled = view(FEWER_WITH_TIME, memo=memo)
    assert hurried.result.hurried
    assert not settled.result.hurried
    assert settled == view(FEWER_WITH_TIME)
    assert (len(hurried.pots), len(settled.pots)) == (12, 11)
    assert hurried.result.candles == settled.result.candles == 30
    assert view(FEWER_WITH_TIME, quick=True, memo=memo) == settled  # what is known is not redone


def test_pots_that_nobody_knows_to_be_the_fewest_are_told_once(
    view: View, workshop: Workspace
) -> None:
    settled = view(NEVER_KNOWN)
    assert said(settled) == [{"n": 1}]
    sentence = next(one for one in settled.findings if one.key == "plan.maybe-fewer-pots")
    assert workshop.texts.say(sentence) == (
        "These pots may be up to 1 more than needed; nobody has found a better way in time."
    )
    assert said(view(NEVER_KNOWN, quick=True)) == []  # still being looked for
    assert said(view(FEWER_WITH_TIME)) == []
