"""Jars layered from leftovers: even heights, limits, and a candle of its own kind."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.test_pouring import bench_with_plan
from wickbench.app import leftover_keeping as keeping
from wickbench.app import plans, shelf_edit, stock
from wickbench.app.candle_state import state_of
from wickbench.app.candles import view_candle
from wickbench.app.label_findings import candle_findings
from wickbench.app.layered_jars import JarDraft, LayerDraft, view_jar
from wickbench.app.layered_making import make_jar
from wickbench.app.leftover_recipes import write_mix
from wickbench.app.leftovers import leftover_rows, view_leftover
from wickbench.app.mixes import recipe_of
from wickbench.app.plan_view import view_plan
from wickbench.app.shelf import load_shelf
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Rank
from wickbench.domain.leftover_heights import bands, even_volumes
from wickbench.domain.recipes import mix_parts
from wickbench.domain.shapes import Profile
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.layered_jars import JarView
    from wickbench.app.workspace import Workspace


@given(
    st.integers(1, 6),
    st.floats(30, 90),
    st.floats(30, 90),
    st.floats(0.2, 0.95),
)
def test_layers_of_even_heights_fill_the_room(
    count: int, bottom_mm: float, top_mm: float, part: float
) -> None:
    profile = Profile(points=((0.0, bottom_mm), (80.0, top_mm)))
    room = profile.brim_ml * part
    volumes = even_volumes([math.inf] * count, room, profile)
    assert math.fsum(volumes) == pytest.approx(room)
    heights = [high - low for low, high in bands(volumes, profile)]
    assert heights == pytest.approx([profile.height_mm(room) / count] * count, abs=1e-6)


def test_a_layer_of_which_there_is_little_leaves_its_height_to_the_others() -> None:
    # straight walls of 1000 mm2 inside: 10 mm are 10 mL
    profile = Profile(points=((0.0, 35.6825), (80.0, 35.6825)))
    volumes = even_volumes([math.inf, 5.0, math.inf], 65.0, profile)
    assert volumes == pytest.approx([30.0, 5.0, 30.0], abs=1e-3)
    fixed = even_volumes([math.inf, 45.0, math.inf], 65.0, profile, fixed=[1])
    assert fixed == pytest.approx([10.0, 45.0, 10.0], abs=1e-3)
    assert even_volumes([10.0, 5.0], 65.0) == pytest.approx([10.0, 5.0], abs=1e-3)


def jar_workshop(workspace: Workspace, *, certificate: float | None = 20.0) -> tuple[int, int, int]:
    """A jar that holds 250 mL to its line and two leftovers of one recipe: 300 g and 150 g."""
    plan = bench_with_plan(workspace)
    row = plans.load_plan(workspace, plan).lines[0]
    assert row.vessel_id is not None
    assert row.version_id is not None
    shelf = load_shelf(workspace)
    oil = next(key for key, one in shelf.materials.items() if one.kind == "fragrance")
    with workspace.step("set") as connection:
        records.update(connection, "fragrance", oil, {"ifra_12_percent": certificate})
        records.update(connection, "vessel", row.vessel_id, {"height_mm": 90.0, "fill_mm": 75.0})
    one = keeping.keep_other(workspace, row.version_id, 300.0, "First")
    other = keeping.keep_other(workspace, row.version_id, 150.0, "Second")
    return row.vessel_id, one, other


def seen(workspace: Workspace, draft: JarDraft) -> JarView:
    return view_jar(draft, load_shelf(workspace), workspace.settings, workspace.texts)


def two_layers(vessel: int, one: int, other: int, **more: object) -> JarDraft:
    layers = (LayerDraft(leftover_id=one), LayerDraft(leftover_id=other))
    return JarDraft(name="Striped", vessel_id=vessel, layers=layers, **more)  # type: ignore[arg-type]


def test_even_layers_are_proposed_up_to_the_line(workshop: Workspace) -> None:
    vessel, one, other = jar_workshop(workshop)
    view = seen(workshop, two_layers(vessel, one, other))
    first, second = view.layers
    assert first.proposed
    assert first.mass_g == pytest.approx(second.mass_g, abs=1.0)
    assert view.for_sale
    assert "untested" in view.verdict
    assert "leftovers.layers-untested" in [found.key for found in view.findings]


def test_an_oil_without_a_limit_keeps_it_from_being_sold_and_is_named(workshop: Workspace) -> None:
    vessel, one, other = jar_workshop(workshop, certificate=None)
    view = seen(workshop, two_layers(vessel, one, other))
    assert not view.for_sale
    assert view.verdict == "Not for sale, because of Oil."


def test_an_oil_over_its_limit_is_told_with_the_figures(workshop: Workspace) -> None:
    vessel, one, other = jar_workshop(workshop, certificate=5.0)
    view = seen(workshop, two_layers(vessel, one, other))
    over = next(found for found in view.findings if found.key == "leftovers.oil-over")
    assert over.rank is Rank.STOPS
    # 8 % of wax is 8/108 = 7.41 % of the whole, kept in whole milligrams
    assert over.data["share_percent"] == pytest.approx(800 / 108, abs=1e-3)


def test_making_it_is_one_act_and_the_leftovers_go_down(workshop: Workspace) -> None:
    vessel, one, other = jar_workshop(workshop)
    wick = shelf_edit.new_item(workshop, "wick", {"name": "Wick"})
    stock.buy(workshop, wick, 10, 1.0)
    draft = two_layers(vessel, one, other, wick_id=wick)
    view = seen(workshop, draft)
    before = load_shelf(workshop)
    candle = make_jar(workshop, before, draft)
    after = load_shelf(workshop)
    assert workshop.undo_label is not None
    made = after.candles[candle]
    assert state_of(made, after).state == "untested"
    assert made.wick_ids == (wick,)
    assert after.leftovers[one].left_g == pytest.approx(300.0 - view.layers[0].mass_g)
    assert after.leftovers[other].left_g == pytest.approx(150.0 - view.layers[1].mass_g)
    for item in (vessel, wick):
        assert after.on_hand[item] == (before.on_hand[item] or 0) - 1
    version = after.versions[made.version_id or 0]
    assert view.made is not None
    wanted = {(part.role, part.material): part.share for part in mix_parts(view.made.recipe)}
    written = {
        (part.role, part.material): part.share for part in mix_parts(recipe_of(version, after))
    }
    assert written == pytest.approx(wanted, abs=2e-5)
    use = after.leftovers[one].uses[0]
    assert (use.kind, use.candle_id) == ("layered", candle)
    workshop.undo()
    assert load_shelf(workshop) == before
    workshop.redo()
    assert load_shelf(workshop) == after


def test_more_than_there_is_or_than_fits_is_refused(workshop: Workspace) -> None:
    vessel, one, other = jar_workshop(workshop)
    for mass_g, key in ((400.0, "not-so-much-there"), (290.0, "layers-over-brim")):
        layers = (LayerDraft(leftover_id=one, mass_g=mass_g), LayerDraft(leftover_id=other))
        draft = JarDraft(vessel_id=vessel, layers=layers, count=1)
        view = seen(workshop, draft)
        assert f"leftovers.{key}" in [found.key for found in view.findings]
        with pytest.raises(DomainError, match=key):
            make_jar(workshop, load_shelf(workshop), draft)
    with pytest.raises(DomainError, match=r"leftovers\.no-layer"):
        make_jar(workshop, load_shelf(workshop), JarDraft(vessel_id=vessel))
    with pytest.raises(DomainError, match=r"leftovers\.choose-vessel"):
        make_jar(workshop, load_shelf(workshop), JarDraft())


def test_a_mix_is_written_as_a_recipe_to_be_tested(workshop: Workspace) -> None:
    vessel, one, other = jar_workshop(workshop)
    made = seen(workshop, two_layers(vessel, one, other)).made
    assert made is not None
    recipe = write_mix(workshop, made.recipe, "New mix")
    shelf = load_shelf(workshop)
    version = next(v for v in shelf.versions.values() if v.recipe_id == recipe)
    assert (version.name, version.state) == ("New mix", "testing")


def test_the_list_and_what_one_is_made_of(workshop: Workspace) -> None:
    _, one, _ = jar_workshop(workshop)
    shelf = load_shelf(workshop)
    shown = next(row for row in leftover_rows(shelf, workshop.texts) if row.id == one)
    assert shown.left == "300.0 g"
    assert shown.oils == "Oil"
    # 8 % of wax is 7.41 % of total
    assert shown.load.startswith("7.41")
    view = view_leftover(shelf.leftovers[one], shelf, workshop.texts)
    assert math.fsum(part.mass_g for part in view.parts) == pytest.approx(300.0)


def test_not_for_sale_is_told_where_it_is_planned_and_labelled(workshop: Workspace) -> None:
    vessel, one, other = jar_workshop(workshop, certificate=5.0)
    candle = make_jar(workshop, load_shelf(workshop), two_layers(vessel, one, other))
    shelf, texts = load_shelf(workshop), workshop.texts
    made = shelf.candles[candle]
    view = view_candle(made, shelf, workshop.settings, texts)
    assert "leftovers.oil-over" in [said.key for said in view.findings]
    labels = candle_findings(made, "jar", shelf, workshop.settings, texts)
    assert {"leftovers.oil-over", "print.not-passed"} <= {said.key for said in labels}
    plan = plans.new_plan(workshop)
    plans.add_line(workshop, plan, {"candle_id": candle, "count": 1})
    row = plans.load_plan(workshop, plan)
    today = workshop.clock.today()
    planned = view_plan(row, load_shelf(workshop), workshop.settings, texts, today=today)
    assert {"leftovers.oil-over", "plan.candle-untested"} <= {one.key for one in planned.findings}
    assert "Not for sale, because of Oil." in (made.note or "")
