"""Net weight of a candle, what it lacks, its wicks and packaging."""

from __future__ import annotations

import pytest

from app.test_candles import TEXTS, StandingClock, change, give, ids, keys, now, view, workspace
from wickbench.app import candles, edit, recipe_parts, shelf_edit
from wickbench.app.candle_net import declared_lines, proposed_mg
from wickbench.app.candle_shown import how_net, net_text
from wickbench.app.candle_state import made_of, state_of
from wickbench.app.questions import Silent
from wickbench.app.recipe_fields import CANDLE_FIELDS
from wickbench.app.settings import Settings
from wickbench.app.shelf import load_shelf
from wickbench.app.workspace import Services, Workspace
from wickbench.domain.errors import CannotRead
from wickbench.storage import records

__all__ = ["ids", "workspace"]


def hot_density() -> float:
    """Mix of 8 % of wax poured at 70 °C, volumes added up; oil grows 0.08 % per °C (usual)."""
    oil = 0.08 / 1.08
    return 1 / ((1 - oil) / 0.87 + oil / (0.97 / (1 + 0.0008 * 50)))


# 1 g of water weighed in air at 20 °C and 1013 hPa fills 1.0029 mL (ISO 8655-6, table A.1).
LINE_ML = 238.0 * 1.0029


def test_net_weight_is_the_measured_volume_times_the_hot_density(
    workspace: Workspace, ids: dict[str, int]
) -> None:
    net = view(workspace, ids).net
    assert net is not None
    assert net.net_g == pytest.approx(LINE_ML * hot_density(), rel=2e-4)
    assert not net.estimate
    assert "estimate" not in net_text(TEXTS, net)
    assert len(how_net(TEXTS, net)) == 2


def test_additives_are_no_net_weight_but_dye_is(workspace: Workspace, ids: dict[str, int]) -> None:
    plain_net = view(workspace, ids).net
    for table, kind in ((2, "dye"), (3, "additive")):
        item = shelf_edit.new_item(workspace, kind, {"name": kind})
        recipe_parts.add_line(
            workspace, recipe_parts.RECIPE_TABLES[table], ids["version"], load_shelf(workspace),
            {"item_id": str(item), "of_wax_percent": "1"},
        )  # fmt: skip
    net = view(workspace, ids).net
    assert plain_net is not None
    assert net is not None
    # Of 1 + 0.08 + 0.01 + 0.01 parts the last does not count.
    assert net.net_share == pytest.approx(1.09 / 1.10)
    assert net.net_g == pytest.approx(plain_net.net_g * 1.09 / 1.10, rel=1e-9)


def test_the_proposal_never_overstates_in_any_region(
    workspace: Workspace, ids: dict[str, int]
) -> None:
    found = view(workspace, ids, sold_in_eu=1, sold_in_uk=1)
    assert found.net is not None
    texts = {one.region: one.declared.text for one in found.proposals}
    grams = int(found.net.net_g)  # whole grams, rounded down
    ounces = int(found.net.net_g / 28.349523125 * 100) / 100  # NIST Handbook 44, Appendix C
    assert texts == {
        "US": f"Net Wt {ounces:g} oz ({grams} g)",
        "EU": f"Net weight {grams} g",
        "UK": f"Net weight {grams} g",
    }
    mass_mg = proposed_mg(found.proposals)
    assert mass_mg is not None
    assert mass_mg <= found.net.net_g * 1000
    candles.declare(workspace, ids["candle"], mass_mg)
    candle, _ = now(workspace, ids)
    lines = dict(declared_lines(candle, Settings({"sold_in_eu": 1})))
    assert lines["EU"] == f"Net weight {grams} g"
    assert keys(view(workspace, ids, sold_in_eu=1)) == []
    assert workspace.undo_label == "Declare the net weight"


def test_of_an_estimate_the_lower_end_may_be_declared(
    workspace: Workspace, ids: dict[str, int]
) -> None:
    change(workspace, "wax", ids["soy"], liquid_measured=0, liquid_g_per_ml=None)
    found = view(workspace, ids)
    assert found.net is not None
    assert found.net.estimate
    assert "(estimate)" in net_text(TEXTS, found.net)
    assert found.net.low_g < found.net.net_g < found.net.high_g
    mass_mg = proposed_mg(found.proposals)
    assert mass_mg is not None
    assert found.net.low_g * 1000 - 1000 < mass_mg <= found.net.low_g * 1000
    assert "candle.net-is-estimate" in keys(found)


@pytest.mark.parametrize(
    ("declared_g", "key"),
    [(230.0, "net-weight.below-declared"), (150.0, "net-weight.far-above"), (205.0, None)],
)
def test_what_is_declared_is_checked_against_the_plan(
    workspace: Workspace, ids: dict[str, int], declared_g: float, key: str | None
) -> None:
    change(workspace, "candle", ids["candle"], declared_net_g=declared_g)
    found = [one for one in keys(view(workspace, ids)) if one.startswith("net-weight")]
    assert found == ([key] if key else [])


def test_a_net_weight_weighed_in_needs_room(workspace: Workspace, ids: dict[str, int]) -> None:
    change(workspace, "candle", ids["candle"], declared_net_g=200.0, fill_to="net")
    found = view(workspace, ids)
    assert found.net is not None
    assert (found.net.net_g, found.net.estimate, keys(found)) == (200.0, False, [])
    change(workspace, "candle", ids["candle"], declared_net_g=230.0)
    assert "candle.net-over-line" in keys(view(workspace, ids))
    with workspace.step("brim") as connection:
        values = {"vessel_id": ids["jar"], "level": "brim", "vessel_no": 1, "empty_g": 310.0}
        records.insert(connection, "weighing", {**values, "filled_g": 560.0, "water_c": 20.0})
    # To the brim 250 g × 1.0029 mL/g × 0.876 g/mL: less than 230 g.
    assert "candle.net-over-brim" in keys(view(workspace, ids))
    assert "candle.net-over-line" not in keys(view(workspace, ids))


# ── the rest of a candle ──────────────────────────────────────────────────────────────────────


def test_an_empty_candle_says_what_to_choose_next(
    workspace: Workspace, ids: dict[str, int]
) -> None:
    empty = shelf_edit.new_candle(workspace)
    found = view(workspace, ids | {"candle": empty})
    assert keys(found) == ["candle.no-recipe", "candle.no-vessel"]
    assert (found.net, found.proposals, found.drawing) == (None, (), None)
    change(workspace, "candle", empty, vessel_id=ids["tin"], version_id=ids["version"])
    assert "candle.no-line" in keys(view(workspace, ids | {"candle": empty}))


def test_a_code_is_told_when_another_candle_has_it(
    workspace: Workspace, ids: dict[str, int]
) -> None:
    change(workspace, "candle", ids["candle"], code="B-1")
    other = shelf_edit.new_candle(workspace, {"name": "Other", "code": " b-1 "})
    assert "candle.code-taken" in keys(view(workspace, ids))
    assert shelf_edit.remove_candle(workspace, other)
    assert "candle.code-taken" not in keys(view(workspace, ids))


def test_a_jar_without_a_wick_and_a_newer_version_are_told(
    workspace: Workspace, ids: dict[str, int]
) -> None:
    candles.set_wicks(workspace, ids["candle"], [])
    shelf_edit.new_version(workspace, ids["version"])
    change(workspace, "recipe_version", ids["version"], state="retired")
    found = keys(view(workspace, ids))
    assert {"candle.no-wick", "candle.newer-version", "candle.recipe-retired"} <= set(found)


def test_up_to_three_wicks_in_their_order(workspace: Workspace, ids: dict[str, int]) -> None:
    wanted = [ids["wick_2"], ids["wick"], ids["wick_2"]]
    candles.set_wicks(workspace, ids["candle"], wanted)
    candle, shelf = now(workspace, ids)
    assert list(candle.wick_ids) == wanted
    (row,) = candles.candle_rows(shelf, TEXTS)
    assert row.wicks == "2 × Flat cotton 8, Flat cotton 6"
    assert made_of(candle, shelf)["wick_ids"] == sorted(wanted)
    candles.set_wicks(workspace, ids["candle"], [])
    assert candles.candle_rows(now(workspace, ids)[1], TEXTS)[0].wicks == "no wick"
    workspace.undo()
    assert list(now(workspace, ids)[0].wick_ids) == wanted
    with pytest.raises(ValueError, match=str(ids["wick"])):
        candles.set_wicks(workspace, ids["candle"], [ids["wick"]] * 4)


def test_packaging_goes_with_it_piece_by_piece(workspace: Workspace, ids: dict[str, int]) -> None:
    box = shelf_edit.new_item(workspace, "packaging", {"name": "Kraft box"})
    shelf = load_shelf(workspace)
    line = recipe_parts.add_line(
        workspace, recipe_parts.EXTRAS, ids["candle"], shelf, {"item_id": str(box)}
    )
    assert now(workspace, ids)[0].extras == ((box, 1),)
    recipe_parts.write_line(workspace, recipe_parts.EXTRAS, line, "count", "2")
    assert now(workspace, ids)[0].extras == ((box, 2),)
    with pytest.raises(CannotRead):
        recipe_parts.write_line(workspace, recipe_parts.EXTRAS, line, "count", "half")
    recipe_parts.remove_lines(workspace, recipe_parts.EXTRAS, [line])
    assert now(workspace, ids)[0].extras == ()


def test_a_drawing_has_as_many_wicks_as_the_candle(
    workspace: Workspace, ids: dict[str, int]
) -> None:
    change(workspace, "vessel", ids["jar"], height_mm=90.0, fill_mm=75.0)
    with workspace.step("shape") as connection:
        for height, wide in ((0.0, 62.0), (90.0, 64.0)):
            values = {"vessel_id": ids["jar"], "height_mm": height, "diameter_mm": wide}
            records.insert(connection, "vessel_diameter", values)
    for count in (0, 1, 2):
        candles.set_wicks(workspace, ids["candle"], [ids["wick"]] * count)
        drawing = view(workspace, ids).drawing
        assert drawing is not None
        tablets_and_wicks = len(drawing.of("wick"))
        assert tablets_and_wicks == 2 * count


def test_all_is_there_after_closing_and_opening(workspace: Workspace, ids: dict[str, int]) -> None:
    give(workspace, ids, tested_by="Ida")
    for spec, typed in ((CANDLE_FIELDS[1], "BS-30"), (CANDLE_FIELDS[6], "7 oz")):
        edit.set_field(workspace, spec, ids["candle"], typed)
    path = workspace.path
    workspace.close()
    again = Workspace.open(path, Services(StandingClock(), TEXTS, Silent()))
    candle, shelf = now(again, ids)
    again.close()
    assert candle.code == "BS-30"
    # 7 oz = 198.447 g (NIST Handbook 44, Appendix C), kept to the milligram
    assert candle.declared_net_g == pytest.approx(198.447, abs=5e-4)
    assert state_of(candle, shelf).state == "passed"
