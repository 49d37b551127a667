"""Candles: what was tested and what changed since, the net weight and what may be declared."""

from __future__ import annotations

import datetime as dt
from copy import deepcopy
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app import candles, recipe_parts, shelf_edit
from wickbench.app.candle_shown import given_on_text, passed_text, state_text
from wickbench.app.candle_state import changed_since, record_test, state_of
from wickbench.app.candles import CandleView, view_candle
from wickbench.app.questions import Silent
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
