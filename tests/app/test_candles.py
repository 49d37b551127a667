"""Candles: what was tested and what changed since, the net weight and what may be declared."""

from __future__ import annotations

import datetime as dt
from copy import deepcopy
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app import candles, edit, recipe_parts, shelf_edit
from wickbench.app.candle_net import declared_lines, proposed_mg
from wickbench.app.candle_shown import given_on_text, how_net, net_text, passed_text, state_text
from wickbench.app.candle_state import changed_since, made_of, record_test, state_of
from wickbench.app.candles import CandleView, view_candle
from wickbench.app.questions import Silent
from wickbench.app.recipe_fields import CANDLE_FIELDS
from wickbench.app.recipe_view import Wanted, view_recipe
from wickbench.app.settings import Settings
from wickbench.app.shelf import Shelf, load_shelf
from wickbench.app.texts import Texts
from wickbench.app.workspace import Services, Workspace
from wickbench.domain.errors import CannotRead
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from wickbench.domain.catalog import Candle

TEXTS = Texts()


class StandingClock:
    def __init__(self) -> None:
        self.ms = 1_795_600_000_000

    def now_ms(self) -> int:
        self.ms += 1000
        return self.ms

    def today(self) -> dt.date:
        return dt.date(2026, 11, 25)

    def monotonic(self) -> float:
        return 0.0


@pytest.fixture
def workspace(tmp_path: Path) -> Iterator[Workspace]:
    made = Workspace.create(tmp_path / "w.wickbench", Services(StandingClock(), TEXTS, Silent()))
    yield made
    made.close()


@pytest.fixture
def ids(workspace: Workspace) -> dict[str, int]:
    """A candle of measured parts: a straight glass, a soy wax, an oil, one wick."""

    def item(kind: str, name: str, /, **details: object) -> int:
        supplier = details.pop("supplier", None)
        values = {"name": name, "supplier": supplier}
        return shelf_edit.new_item(workspace, kind, values, details)

    found = {
        "soy": item(
            "wax", "Meadow soy", wax_class="soy", liquid_g_per_ml=0.87, liquid_measured=1,
            set_g_per_ml=0.9, set_measured=1, pour_c=70,
        ),
        "oil": item("fragrance", "Bramble", supplier="Hedge & Co", density_g_per_ml=0.97),
        "other_oil": item("fragrance", "Woodsmoke", density_g_per_ml=0.97),
        "jar": item("vessel", "Amber tumbler", vessel_kind="jar", candle_rated=1, rated_by="maker"),
        "tin": item("vessel", "Seamless tin", vessel_kind="tin", candle_rated=1),
        "wick": item("wick", "Flat cotton 6", wick_kind="cotton"),
        "wick_2": item("wick", "Flat cotton 8", wick_kind="cotton"),
        "lid": item("lid", "Cork lid"),
    }  # fmt: skip
    found["recipe"] = shelf_edit.new_recipe(workspace, "Bramble")
    found["version"] = next(iter(load_shelf(workspace).versions))
    shelf = load_shelf(workspace)
    for table, key in ((0, "soy"), (1, "oil")):
        recipe_parts.add_line(
            workspace, recipe_parts.RECIPE_TABLES[table], found["version"], shelf,
            {"item_id": str(found[key])},
        )  # fmt: skip
    with workspace.step("load and shape") as connection:
        records.update(connection, "recipe_version", found["version"], {"load_percent": 8.0})
        weigh(connection, found["jar"])
    found["candle"] = shelf_edit.new_candle(
        workspace,
        {"name": "Bramble, tumbler", "version_id": found["version"], "vessel_id": found["jar"]},
    )
    candles.set_wicks(workspace, found["candle"], [found["wick"]])
    return found


def weigh(connection: Any, jar: int) -> None:  # noqa: ANN401 - the door of a step
    """The jar holds 238 g of water at 20 °C to the line, by a scale that reads to a gram."""
    for empty_g in (310.0, 311.0, 309.0):
        values = {
            "vessel_id": jar, "level": "line", "vessel_no": int(empty_g - 308),
            "empty_g": empty_g, "filled_g": empty_g + 238.0, "water_c": 20.0,
        }  # fmt: skip
        records.insert(connection, "weighing", values)


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


def now(workspace: Workspace, ids: dict[str, int]) -> tuple[Candle, Shelf]:
    shelf = load_shelf(workspace)
    return shelf.candles[ids["candle"]], shelf


def view(workspace: Workspace, ids: dict[str, int], **settings: object) -> CandleView:
    candle, shelf = now(workspace, ids)
    return view_candle(candle, shelf, Settings({"room_c": 20.0, **settings}), TEXTS)


def give(workspace: Workspace, ids: dict[str, int], verdict: str = "passed", **more: str) -> int:
    candle, shelf = now(workspace, ids)
    return record_test(workspace, shelf, candle, verdict, **more)


def change(workspace: Workspace, table: str, key: int, **values: object) -> None:
    with workspace.step("change") as connection:
        records.update(connection, table, key, values)


def keys(found: CandleView) -> list[str]:
    return [finding.key for finding in found.findings]


# ── tested state ──────────────────────────────────────────────────────────────────────────────


def test_untested_then_in_test_then_passed_with_who_and_when(
    workspace: Workspace, ids: dict[str, int]
) -> None:
    assert state_of(*now(workspace, ids)).state == "untested"
    give(workspace, ids, "in_test")
    assert state_of(*now(workspace, ids)).state == "in_test"
    give(workspace, ids, tested_by="Ida", tested_on="2026-09-29", note="nine burns")
    found = state_of(*now(workspace, ids))
    assert state_text(TEXTS, found) == "passed · 29 September 2026 · Ida"
    assert found.record is not None
    assert given_on_text(TEXTS, found.record) == "Bramble v1 · Amber tumbler · Flat cotton 6"
    assert [one.state for one in now(workspace, ids)[0].tests] == ["in_test", "passed"]


def test_a_test_freezes_its_version_and_undo_takes_both_back(
    workspace: Workspace, ids: dict[str, int]
) -> None:
    give(workspace, ids, "in_test")
    assert load_shelf(workspace).versions[ids["version"]].frozen
    assert workspace.undo_label == "Record a test"
    workspace.undo()
    assert not load_shelf(workspace).versions[ids["version"]].frozen
    assert state_of(*now(workspace, ids)).state == "untested"


def swap_oil(workspace: Workspace, ids: dict[str, int]) -> None:
    part = load_shelf(workspace).versions[ids["version"]].parts[1]
    change(workspace, "recipe_part", part.id, item_id=ids["other_oil"])


REOPENING: dict[str, Callable[[Workspace, dict[str, int]], object]] = {
    "candle.version-changed": lambda w, i: change(
        w, "candle", i["candle"], version_id=shelf_edit.new_version(w, i["version"])
    ),
    "candle.load-changed": lambda w, i: change(w, "recipe_version", i["version"], load_percent=9.0),
    "candle.oil-changed": swap_oil,
    "candle.supplier-changed": lambda w, i: change(w, "item", i["oil"], supplier="Other house"),
    "candle.vessel-changed": lambda w, i: change(w, "candle", i["candle"], vessel_id=i["tin"]),
    "candle.wicks-changed": lambda w, i: candles.set_wicks(w, i["candle"], [i["wick_2"]]),
}


@pytest.mark.parametrize("key", REOPENING)
def test_any_of_these_after_it_passed_asks_for_a_new_test(
    workspace: Workspace, ids: dict[str, int], key: str
) -> None:
    give(workspace, ids)
    assert state_of(*now(workspace, ids)).state == "passed"
    REOPENING[key](workspace, ids)
    found = state_of(*now(workspace, ids))
    assert (found.state, [one.key for one in found.reasons]) == ("test_again", [key])
    assert "{" not in TEXTS.say(found.reasons[0])
    workspace.undo()
    assert state_of(*now(workspace, ids)).state == "passed"


def test_what_does_not_burn_does_not_reopen_it(workspace: Workspace, ids: dict[str, int]) -> None:
    give(workspace, ids)
    change(workspace, "item", ids["oil"], name="Bramble, new label")
    change(workspace, "candle", ids["candle"], name="Bramble", price_money=24.0, code="B-1")
    change(workspace, "recipe_version", ids["version"], state="for_sale", note="sells well")
    assert state_of(*now(workspace, ids)).state == "passed"


def test_a_new_verdict_closes_it_again(workspace: Workspace, ids: dict[str, int]) -> None:
    give(workspace, ids)
    change(workspace, "item", ids["oil"], supplier="Other house")
    give(workspace, ids)
    assert state_of(*now(workspace, ids)).state == "passed"
    give(workspace, ids, "test_again", note="glass too hot")
    assert state_of(*now(workspace, ids)).state == "test_again"


def test_a_test_needs_a_recipe_a_vessel_and_a_day_that_came(
    workspace: Workspace, ids: dict[str, int]
) -> None:
    with pytest.raises(CannotRead) as raised:
        give(workspace, ids, tested_on="2026-11-26")
    assert raised.value.key == "candle.tested-in-future"
    change(workspace, "candle", ids["candle"], vessel_id=None)
    with pytest.raises(CannotRead) as raised:
        give(workspace, ids)
    assert raised.value.key == "candle.test-needs-recipe-and-vessel"
    assert state_of(*now(workspace, ids)).state == "untested"


NAMES = st.text("abcdefg ", max_size=6)
KEYS = st.integers(1, 4)
OIL = st.fixed_dictionaries({"id": KEYS, "name": NAMES, "supplier": NAMES})
MADE = st.fixed_dictionaries(
    {
        "version_id": KEYS,
        "version": NAMES,
        "load_percent": st.sampled_from([6.0, 8.0]),
        "load_basis": st.sampled_from(["wax", "total"]),
        "oils": st.lists(OIL, max_size=2, unique_by=lambda oil: oil["id"]),
        "vessel_id": KEYS,
        "vessel": NAMES,
        "wick_ids": st.lists(KEYS, max_size=3).map(sorted),
        "wicks": st.lists(NAMES, max_size=3),
    }
)


def burning(made: dict[str, Any]) -> tuple[object, ...]:
    """What decides how it burns; names alone do not."""
    oils = sorted((oil["id"], oil["supplier"]) for oil in made["oils"])
    load = made["load_percent"], made["load_basis"]
    return made["version_id"], load, oils, made["vessel_id"], made["wick_ids"]


@given(MADE, MADE)
def test_it_is_reopened_when_and_only_when_something_that_burns_changed(
    was: dict[str, Any], is_now: dict[str, Any]
) -> None:
    assert bool(changed_since(was, is_now)) == (burning(was) != burning(is_now))


@given(MADE, st.sampled_from(["version_id", "load_percent", "oils", "vessel_id", "wick_ids"]))
def test_a_record_that_does_not_say_is_taken_at_its_word(made: dict[str, Any], gone: str) -> None:
    was = deepcopy(made)
    del was[gone]
    assert changed_since(was, made) == ()
    assert changed_since({}, made) == ()


@given(MADE, MADE)
def test_every_reason_has_a_sentence_without_holes(
    was: dict[str, Any], new: dict[str, Any]
) -> None:
    assert all("{" not in TEXTS.say(one) for one in changed_since(was, new))


def test_which_wicks_passed_before_in_this_vessel(
    workspace: Workspace, ids: dict[str, int]
) -> None:
    assert view(workspace, ids).passed_before == ()
    give(workspace, ids)
    other = shelf_edit.new_candle(
        workspace, {"name": "Another", "version_id": ids["version"], "vessel_id": ids["jar"]}
    )
    found = view(workspace, ids | {"candle": other})
    assert passed_text(TEXTS, found.passed_before) == (
        "Passed before in this vessel: Flat cotton 6 with Bramble v1."
    )
    change(workspace, "candle", other, vessel_id=ids["tin"])
    assert view(workspace, ids | {"candle": other}).passed_before == ()


def test_a_recipe_for_sale_names_its_candles_that_have_not_passed(
    workspace: Workspace, ids: dict[str, int]
) -> None:
    def told() -> list[str]:
        shelf = load_shelf(workspace)
        found = view_recipe(shelf.versions[ids["version"]], shelf, Wanted()).findings
        return [TEXTS.say(one) for one in found if one.key == "recipe-dock.for-sale-not-passed"]

    assert told() == []
    change(workspace, "recipe_version", ids["version"], state="for_sale")
    assert len(told()) == 1
    assert "Bramble, tumbler" in told()[0]
    give(workspace, ids)
    assert told() == []


# ── net weight ────────────────────────────────────────────────────────────────────────────────


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
