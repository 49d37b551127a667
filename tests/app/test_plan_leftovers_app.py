"""Leftovers beside the plan: tried while typing, refused with the numbers, worked in, taken out."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from app.test_leftovers_app import another_plan, poured
from app.test_pouring import bench_with_plan, seen
from wickbench.app import leftover_keeping as keeping
from wickbench.app import plans, shelf_edit
from wickbench.app.plan_leftovers import card_view, plan_leftover, take_out, tried
from wickbench.app.shelf import load_shelf
from wickbench.app.weigh_sheets import paper_texts, sheets_of
from wickbench.domain.errors import OutOfRange
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace


def with_rest(workspace: Workspace) -> tuple[int, int, int]:
    """A plan, its recipe version and 400 g of the same mix."""
    plan = bench_with_plan(workspace)
    key = keeping.keep_from_pot(workspace, poured(workspace, plan), 400.0, "Rest")
    again = another_plan(workspace, plan)
    version = plans.load_plan(workspace, again).lines[0].version_id
    assert version is not None
    return again, version, key


def foreign(workspace: Workspace) -> int:
    """300 g of a mix with an oil and a wax that the plan's recipe does not have."""
    wax = shelf_edit.new_item(workspace, "wax", {"name": "Rape"}, {"wax_class": "soy"})
    oil = shelf_edit.new_item(workspace, "fragrance", {"name": "Rose"})
    recipe = shelf_edit.new_recipe(workspace, "Roses")
    with workspace.step("set") as connection:
        version = records.fetch_all(connection, "recipe_version", {"recipe_id": recipe})[0]["id"]
        key = int(str(version))
        records.update(connection, "recipe_version", key, {"load_percent": 6.0})
        for role, item in (("wax", wax), ("fragrance", oil)):
            row = {"version_id": version, "role": role, "item_id": item, "parts": 1.0}
            records.insert(connection, "recipe_part", row)
    return keeping.keep_other(workspace, key, 300.0, "Roses, rest")


def test_what_would_be_weighed_is_shown_and_nothing_is_stored(workshop: Workspace) -> None:
    plan, version, key = with_rest(workshop)
    view, shelf = seen(workshop, plan), load_shelf(workshop)
    result, refusal = tried(view, shelf, key, version, 300.0)
    assert refusal is None
    assert result.pots[0].leftovers[0].weigh_g == 300.0
    assert not plans.load_plan(workshop, plan).leftovers


def test_too_much_is_refused_with_what_is_there(workshop: Workspace) -> None:
    plan, version, key = with_rest(workshop)
    view, shelf = seen(workshop, plan), load_shelf(workshop)
    with pytest.raises(OutOfRange, match=r"leftovers\.not-so-much-there") as refused:
        plan_leftover(workshop, view, shelf, key, version, mass_g=500.0)
    assert refused.value.data["left_g"] == 400.0
    assert not plans.load_plan(workshop, plan).leftovers


def test_a_foreign_mix_is_named_and_can_be_too_much(workshop: Workspace) -> None:
    plan, version, _ = with_rest(workshop)
    roses = foreign(workshop)
    plan_leftover(workshop, seen(workshop, plan), load_shelf(workshop), roses, version)
    shelf = load_shelf(workshop)
    view = seen(workshop, plan)
    (pot,) = card_view(view, shelf, workshop.texts).pots
    assert pot.foreign == "Rape, Rose"
    assert "leftovers.own-kind" in [one.key for one in view.findings]
    # the certificate of the foreign oil is not entered: it is told that it is not for sale
    assert "leftovers.oil-unknown" in [one.key for one in view.findings]


def test_worked_in_again_replaces_the_mass_and_undo_takes_it_back(workshop: Workspace) -> None:
    plan, version, key = with_rest(workshop)
    for mass_g in (100.0, None):
        shelf = load_shelf(workshop)
        plan_leftover(workshop, seen(workshop, plan), shelf, key, version, mass_g=mass_g)
    (row,) = plans.load_plan(workshop, plan).leftovers
    assert row.mass_g is None
    workshop.undo()
    assert plans.load_plan(workshop, plan).leftovers[0].mass_g == 100.0
    take_out(workshop, row.id)
    assert not plans.load_plan(workshop, plan).leftovers


def test_the_weigh_sheet_says_the_leftover_first(workshop: Workspace) -> None:
    plan, version, key = with_rest(workshop)
    plan_leftover(workshop, seen(workshop, plan), load_shelf(workshop), key, version)
    view, shelf = seen(workshop, plan), load_shelf(workshop)
    sheet = sheets_of(view, shelf, workshop.settings, paper_texts(workshop))[0]
    assert sheet.lines[0].name == "Leftover: Rest"
    assert sheet.lines[0].amount == "400 g"
