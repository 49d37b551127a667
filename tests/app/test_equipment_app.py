"""What is said about the equipment, and a brim measured with water."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app import equipment, plans, shelf_edit
from wickbench.app.equipment import TABLES, view_equipment, with_typed
from wickbench.app.equipment_shown import ADD_ONE, NO_NAME, WHAT_FOR, cell, heads, named
from wickbench.app.settings import UNIT_PRESETS, Settings
from wickbench.app.texts import Texts, all_sentences
from wickbench.domain.catalog import Equipment
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Rank
from wickbench.storage import records
from wickbench.storage.refusals import InUse

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

BENCH = {"id": 1, "name": "Bench", "maximum_g": 5000.0, "step_g": 1.0}
FINE = {"id": 2, "name": "Fine", "maximum_g": 500.0, "step_g": 0.1}
POT: dict[str, Any] = {
    "id": 1, "name": "Blue", "brim_ml": 2500.0, "empty_g": 400.0, "safe_fill_percent": 78.0,
}  # fmt: skip


def keys(found: Equipment) -> list[str]:
    return [one.key.removeprefix("equipment.") for one in view_equipment(found).findings]


def with_pot(**changed: object) -> Equipment:
    return Equipment(scales=(BENCH, FINE), pots=({**POT, **changed},))


def test_a_complete_bench_has_nothing_amiss() -> None:
    assert keys(with_pot()) == []


def test_an_empty_workshop_asks_for_a_scale_and_a_pot() -> None:
    assert keys(Equipment()) == ["no-scale", "no-pot"]


@pytest.mark.parametrize(
    ("maximum_g", "step_g", "said"),
    [
        (500.0, 500.0, []),
        (0.1, 500.0, ["scale-step-above-maximum"]),
        (None, 0.1, ["scale-unfinished"]),
        (500.0, None, ["scale-unfinished"]),
    ],
)
def test_a_scale_cannot_read_to_more_than_it_carries(
    maximum_g: float | None, step_g: float | None, said: list[str]
) -> None:
    odd = {"id": 9, "name": "Odd", "maximum_g": maximum_g, "step_g": step_g}
    assert keys(Equipment(scales=(BENCH, FINE, odd), pots=(POT,))) == said


@pytest.mark.parametrize(
    ("step_g", "coarse"), [(0.01, False), (0.1, False), (0.11, True), (0.2, True), (1.0, True)]
)
def test_without_a_scale_that_reads_a_tenth_of_a_gram_oils_are_watched(
    step_g: float,
    coarse: bool,  # noqa: FBT001 - a column of the table
) -> None:
    scale = {"id": 3, "name": "Only", "maximum_g": 5000.0, "step_g": step_g}
    assert ("no-fine-scale" in keys(Equipment(scales=(scale,), pots=(POT,)))) == coarse


def test_a_pot_without_its_brim_cannot_be_planned() -> None:
    view = view_equipment(with_pot(brim_ml=None))
    assert [(one.rank, one.key) for one in view.findings] == [(Rank.STOPS, "equipment.pot-no-brim")]
    assert view.of("pot", 1) == view.findings
    assert view.worst("pot") == Rank.STOPS
    assert view.worst("scale") is None


@pytest.mark.parametrize(("fill", "said"), [(80.0, []), (80.01, ["pot-too-full"]), (None, [])])
def test_a_pot_filled_above_four_fifths_is_watched(fill: float | None, said: list[str]) -> None:
    """75 to 80 % of the brim: common practice, no source."""
    assert keys(with_pot(safe_fill_percent=fill)) == said


def test_a_pot_that_no_scale_carries_is_watched_unless_it_has_its_own_heating() -> None:
    assert keys(with_pot(empty_g=5200.0)) == ["pot-over-scales"]
    assert keys(with_pot(empty_g=5200.0, with_heat=1)) == []
    assert keys(with_pot(empty_g=None)) == ["pot-not-weighed"]
    assert keys(with_pot(empty_g=3500.0)) == ["pot-heavy-when-full"]


def test_heat_thermometers_and_printers_bring_their_cautions() -> None:
    found = Equipment(
        scales=(FINE,),
        pots=(POT,),
        heat_sources=({"id": 1, "name": "Ring", "open_flame": 1, "left_on_heat": 1},),
        thermometers=(
            {"id": 1, "name": "Gun", "thermometer_kind": "infrared"},
            {"id": 2, "name": "Stick", "thermometer_kind": "probe"},
        ),
        printers=({"id": 1, "name": "Laser"}, {"id": 2, "name": "Ink", "edge_mm": 3.0}),
    )
    said = keys(found)
    for key in ("open-flame", "left-on-heat", "infrared", "printer-no-edge"):
        assert said.count(key) == 1, key


def test_two_of_one_name_are_told_apart_by_their_tray_only() -> None:
    twins = ({**POT, "id": 1}, {**POT, "id": 2, "name": "  blue "})
    assert "same-name" in keys(Equipment(scales=(BENCH, FINE), pots=twins))
    trays: tuple[dict[str, object], ...] = tuple(
        {"id": n, "name": "Laser", "tray": str(n), "edge_mm": 4.0} for n in (1, 2)
    )
    assert keys(Equipment(scales=(BENCH, FINE), pots=(POT,), printers=trays)) == []


def test_every_finding_has_its_sentence_and_names_the_thing() -> None:
    found = Equipment(
        scales=({"id": 1, "name": "Tiny", "maximum_g": 1.0, "step_g": 2.0}, BENCH, {"id": 7}),
        pots=({**POT, "empty_g": 9000.0, "safe_fill_percent": 95.0}, {"id": 8}),
        heat_sources=({"id": 1, "name": "Ring", "open_flame": 1, "left_on_heat": 1},),
        thermometers=({"id": 1, "name": "Gun", "thermometer_kind": "infrared"},),
        printers=({"id": 1, "name": "Laser"},),
    )
    texts = Texts()
    for finding in view_equipment(found).findings:
        assert finding.key in all_sentences()
        assert "{" not in texts.say(finding)
        if "name" in finding.data:
            assert str(finding.data["name"]) in texts.say(finding)


def test_findings_follow_what_is_being_typed() -> None:
    assert keys(with_typed(with_pot(), "pot", 1, {"safe_fill_percent": 92.0})) == ["pot-too-full"]
    assert keys(with_typed(with_pot(), "pot", 2, {"safe_fill_percent": 92.0})) == []


@pytest.mark.parametrize(("celsius", "z"), [(15.0, 1.0020), (20.0, 1.0029), (25.0, 1.0040)])
def test_a_brim_follows_the_z_factors_of_iso_8655_6(celsius: float, z: float) -> None:
    """ISO 8655-6, table of Z at 101.3 kPa: 1.0020, 1.0029, 1.0040 mL/g."""
    assert equipment.brim_of_water(2500.0, celsius) == pytest.approx(2500.0 * z, abs=0.3)


def test_thin_air_buoys_water_less() -> None:
    """ISO 8655-6, table of Z at 20 °C: 1.0026 mL/g at 80 kPa."""
    # 80 kPa stand at 1949 m in the standard atmosphere (ISO 2533).
    assert equipment.brim_of_water(1000.0, 20.0, 1949.0) == pytest.approx(1002.6, abs=0.05)
    # A pressure that was read goes before the one of the height.
    read = equipment.brim_of_water(1000.0, 20.0, hectopascal=800.0)
    assert read == pytest.approx(1002.6, abs=0.05)


@given(st.floats(1, 200_000), st.floats(1, 40))
def test_water_fills_more_than_its_weight_says_and_never_one_percent_more(
    water_g: float, celsius: float
) -> None:
    volume = equipment.brim_of_water(water_g, celsius)
    assert water_g < volume < 1.01 * water_g


@pytest.mark.parametrize("water_g", [0.0, -1.0, float("nan"), float("inf")])
def test_no_water_measures_nothing(water_g: float) -> None:
    with pytest.raises(OutOfRange) as refused:
        equipment.brim_of_water(water_g, 20.0)
    assert "Enter" in Texts().say(refused.value)


def test_every_kind_has_its_words() -> None:
    for table in TABLES:
        for words in (ADD_ONE, NO_NAME, WHAT_FOR):
            assert words[table]
        for column, _ in heads(table):
            assert cell(Texts(), table, {"id": 1}, column) in {"", "no"}


def test_cells_speak_in_the_persons_units() -> None:
    texts = Texts()
    assert cell(texts, "pot", POT, "safe_ml").replace("\xa0", " ") == "1950 mL · 78 %"
    edges = cell(texts, "printer", {"edge_mm": 4.2, "bottom_edge_mm": 7.0}, "edge_mm")
    assert edges.replace("\xa0", " ") == "4.2 mm, 7 mm at the bottom"
    ounces = texts.with_units(Settings(UNIT_PRESETS["customary"]).units)
    # 1 oz is 28.349523125 g (NIST SP 811, B.8).
    shown = [cell(ounces, "scale", BENCH, name) for name in ("maximum_g", "step_g")]
    assert [one.replace("\xa0", " ") for one in shown] == ["176.37 oz", "0.0353 oz"]
    assert cell(texts, "pot", POT, "empty_g").replace("\xa0", " ") == "400 g"
    assert cell(texts, "thermometer", {"thermometer_kind": "glass"}, "thermometer_kind") == "glass"


def test_the_heat_of_a_plan_stays_and_says_why(workshop: Workspace) -> None:
    heat = shelf_edit.new_equipment(workshop, "heat_source", {"name": "Ring"})
    plan = plans.new_plan(workshop)
    with workshop.step("heat") as connection:
        records.update(connection, "plan", plan, {"heat_source_id": heat})
    with pytest.raises(InUse) as refused:
        equipment.remove_equipment(workshop, "heat_source", heat)
    assert "still names this" in workshop.texts.say(refused.value)
    assert equipment.load_equipment(workshop).heat_sources


def test_a_pot_leaves_its_plans_and_comes_back_with_them(workshop: Workspace) -> None:
    pot = shelf_edit.new_equipment(workshop, "pot", {"name": "Blue", "brim_ml": 2500.0})
    plan = plans.new_plan(workshop)
    plans.choose_pots(workshop, plan, (pot,))
    equipment.remove_equipment(workshop, "pot", pot)
    assert plans.load_plan(workshop, plan).pot_ids == ()
    workshop.undo()
    assert plans.load_plan(workshop, plan).pot_ids == (pot,)


def test_a_piece_without_a_name_is_called_something() -> None:
    found = view_equipment(Equipment(scales=({"id": 4},))).findings
    said = [Texts().say(one) for one in named(Texts(), "scale", found)]
    assert said[0].startswith("Scale without a name: enter how much")
    assert [one.key for one in named(Texts(), "scale", found)] == [one.key for one in found]
