"""A plan computed from the one before is the plan computed anew."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from hypothesis import given
from hypothesis import strategies as st

from domain.plan_cases import DYED, FIG_SOY, inputs, tins, tumblers
from wickbench.domain import plan_pots as planning
from wickbench.domain.plan import PlanInputs, PlanMemo, plan_pour

if TYPE_CHECKING:
    import pytest

RECIPES = (FIG_SOY, DYED, replace(FIG_SOY, pour_c=60.0))
counts = st.lists(st.integers(0, 30), min_size=3, max_size=6)
keys_pressed = st.lists(
    st.tuples(counts, st.sampled_from([0.0, 20.0]), st.sampled_from([{}, {"soy": 900.0}])),
    min_size=2,
    max_size=5,
)


def typed(numbers: list[int], extra_g: float, stock: dict[str, float]) -> PlanInputs:
    lines = [
        (tumblers, tins)[at % 2](count, RECIPES[at % 3], key=at, recipe_key=at % 3)
        for at, count in enumerate(numbers)
    ]
    return inputs(*lines, extra_g=extra_g, stock=stock)


@given(keys_pressed)
def test_key_by_key_comes_to_the_same_as_at_once(
    keys: list[tuple[list[int], float, dict[str, float]]],
) -> None:
    memo = PlanMemo()
    for key in keys:
        asked = typed(*key)
        assert plan_pour(asked, memo) == plan_pour(asked)


def test_a_key_in_one_line_computes_its_recipe_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[object] = []
    bare = planning.plan_pots

    def counted(index: int, *rest: object, **named: object) -> object:
        made.append(index)
        return bare(index, *rest, **named)  # type: ignore[arg-type]

    monkeypatch.setattr("wickbench.domain.plan.plan_pots", counted)
    memo = PlanMemo()
    plan_pour(typed([5, 6, 7], 20.0, {}), memo)
    assert made == [0, 1, 2]
    plan_pour(typed([5, 6, 8], 20.0, {}), memo)
    assert made == [0, 1, 2, 2]
    plan_pour(typed([5, 6, 8], 30.0, {}), memo)
    assert made == [0, 1, 2, 2, 0, 1, 2]
