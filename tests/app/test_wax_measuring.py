"""A wax measured by its maker, from readings typed to a density that replaces the estimate."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from wickbench.app import shelf_edit, wax_measuring
from wickbench.app.materials import stored_values
from wickbench.app.measures import levels, measure_once
from wickbench.app.mixes import mix_densities, wax_liquid
from wickbench.app.shelf import load_shelf
from wickbench.app.wax_measures import bench_for, jars_of, line_of, load_measures, work_out
from wickbench.app.wax_measuring_fields import NEEDED, fields_of
from wickbench.app.wax_measuring_words import (
    advice_text,
    how_measured,
    preview_text,
    result_lines,
    row_about,
)
from wickbench.domain.catalog import Wax
from wickbench.domain.errors import OutOfRange
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.wax_measures import WaxMeasures
    from wickbench.app.workspace import Workspace


@pytest.fixture
def wax(workshop: Workspace) -> int:
    return shelf_edit.new_item(workshop, "wax", {"name": "Orchard soy"}, {"wax_class": "soy"})


@pytest.fixture
def jar(workshop: Workspace) -> int:
    """Holds 253.4 g of water at 22 °C to its line: 254.231 mL (Z of ISO 8655-6)."""
    details = {"vessel_kind": "jar", "height_mm": 90.0, "fill_mm": 66.0}
    key = shelf_edit.new_item(workshop, "vessel", {"name": "Tumbler"}, details)
    with workshop.step("Weigh") as connection:
        row = {"vessel_id": key, "level": "line", "vessel_no": 1, "empty_g": 200.0,
               "filled_g": 453.4, "water_c": 22.0}  # fmt: skip
        records.insert(connection, "weighing", row)
    return key


def measures_of(workspace: Workspace, wax: int) -> WaxMeasures:
    found = load_measures(workspace, wax)
    assert found is not None
    return found


def hot(jar: int, mass_g: float = 221.2, wax_c: float = 70.0) -> dict[str, object]:
    return {"vessel_id": str(jar), "mass_g": mass_g, "wax_c": wax_c}


def test_jars_that_were_weighed_are_offered(workshop: Workspace, jar: int) -> None:
    shelf_edit.new_item(workshop, "vessel", {"name": "Never weighed"}, {"nominal_ml": 300.0})
    offered = jars_of(load_shelf(workshop), workshop.settings)
    assert offered == ((str(jar), "Tumbler"),)
    choice = fields_of("hot", offered)[0]
    assert [one.label for one in choice.choices] == ["Tumbler"]


@pytest.mark.parametrize("way", ["hot", "set", "drop"])
def test_every_reading_that_is_needed_is_asked(way: str) -> None:
    assert set(NEEDED[way]) <= {spec.name for spec in fields_of(way, ())}


def test_a_measured_density_replaces_the_estimate(workshop: Workspace, wax: int, jar: int) -> None:
    before = load_shelf(workshop).materials[wax].details
    assert isinstance(before, Wax)
    assert wax_liquid(before, 70).estimate
    for mass_g in (221.2, 221.4, 221.0):
        wax_measuring.write_down(workshop, wax, "hot", hot(jar, mass_g))
    found = measures_of(workshop, wax).liquid
    assert found is not None
    # 221.2 g in 254.231 mL, worked by hand.
    assert found.g_per_ml == pytest.approx(221.2 / 254.231, abs=1e-5)
    assert not measures_of(workshop, wax).in_use("liquid")
    wax_measuring.use_density(workshop, wax, "liquid")
    after = load_shelf(workshop).materials[wax].details
    assert isinstance(after, Wax)
    known = wax_liquid(after, 70)
    assert not known.estimate
    assert known.low == known.high == known.g_per_ml == pytest.approx(0.8701, abs=1e-9)
    assert measures_of(workshop, wax).in_use("liquid")
    assert "used everywhere" in "".join(
        result_lines(workshop.texts, measures_of(workshop, wax), "liquid")
    )


def test_vessel_and_mix_lose_their_estimate(workshop: Workspace, wax: int, jar: int) -> None:
    wax_measuring.write_down(workshop, wax, "hot", hot(jar))
    row = {"vessel_id": str(jar), "mass_g": 210.0, "water_g": 20.8, "water_c": 22.0}
    wax_measuring.write_down(workshop, wax, "set", row)
    recipe = shelf_edit.new_recipe(workshop, "Plain")
    with workshop.step("Write") as connection:
        (version,) = records.fetch_all(connection, "recipe_version", {"recipe_id": recipe})
        part = {"version_id": version["id"], "role": "wax", "item_id": wax, "parts": 1.0}
        records.insert(connection, "recipe_part", part)
        for height, wide in ((0.0, 70.0), (90.0, 70.0)):
            point = {"vessel_id": jar, "height_mm": height, "diameter_mm": wide}
            records.insert(connection, "vessel_diameter", point)
    key = int(str(version["id"]))
    shelf = load_shelf(workshop)
    assert mix_densities(shelf.versions[key], shelf).estimate
    for which in ("liquid", "set"):
        wax_measuring.use_density(workshop, wax, which)
    shelf = load_shelf(workshop)
    mix = mix_densities(shelf.versions[key], shelf)
    assert not mix.estimate
    measures = measure_once(shelf.vessels[jar], shelf, workshop.settings)
    shown = levels(shelf.vessels[jar], measures, mix)
    assert shown is not None
    assert not shown.estimate


def test_a_step_is_undone_and_one_may_be_left_out(workshop: Workspace, wax: int, jar: int) -> None:
    first = wax_measuring.write_down(workshop, wax, "hot", hot(jar))
    wax_measuring.write_down(workshop, wax, "hot", hot(jar, 230.0))
    wax_measuring.leave_out(workshop, first)
    found = measures_of(workshop, wax).liquid
    assert found is not None
    assert found.n == 1
    assert found.g_per_ml == pytest.approx(230 / 254.231, abs=1e-5)
    workshop.undo()
    both = measures_of(workshop, wax).liquid
    assert both is not None
    assert both.n == 2
    wax_measuring.remove_measurement(workshop, first)
    assert len(measures_of(workshop, wax).rows) == 1
    workshop.undo()
    assert len(measures_of(workshop, wax).rows) == 2


def test_set_wax_lighter_than_liquid_is_refused(workshop: Workspace, wax: int, jar: int) -> None:
    wax_measuring.write_down(workshop, wax, "hot", hot(jar, 225.0))
    row = {"vessel_id": str(jar), "mass_g": 190.0, "water_g": 25.0, "water_c": 22.0}
    wax_measuring.write_down(workshop, wax, "set", row)
    before = stored_values(workshop, wax)
    with pytest.raises(OutOfRange, match="set-lighter") as refused:
        wax_measuring.use_density(workshop, wax, "set")
    assert "cannot be lighter" in workshop.texts.say(refused.value)
    assert stored_values(workshop, wax) == before


def test_a_drop_reads_with_the_measured_liquid_density(
    workshop: Workspace, wax: int, jar: int
) -> None:
    row = {"hot_mm": 70.0, "set_mm": 67.6667, "wax_c": 70.0}
    wax_measuring.write_down(workshop, wax, "drop", row)
    guessed = measures_of(workshop, wax).set
    wax_measuring.write_down(workshop, wax, "hot", hot(jar, 254.231 * 0.87))
    measured = measures_of(workshop, wax).set
    assert guessed is not None
    assert measured is not None
    # Straight jar of 70 mm, soy 0.870 → 0.900 (mass conserved).
    assert measured.g_per_ml == pytest.approx(0.900, abs=1e-4)
    assert measured.standard_uncertainty < guessed.standard_uncertainty


def test_what_is_missing_or_cannot_be_is_said_and_nothing_kept(
    workshop: Workspace, wax: int, jar: int
) -> None:
    texts, bench = workshop.texts, bench_for(workshop, wax)
    assert bench is not None
    with pytest.raises(OutOfRange, match="missing"):
        work_out("hot", {"mass_g": 200.0, "wax_c": 70.0}, bench)
    assert preview_text(texts, "hot", {"mass_g": 200.0}, bench) == ""
    assert "g/mL" in preview_text(texts, "hot", hot(jar), bench)
    assert "Check the mass" in preview_text(texts, "hot", hot(jar, 30.0), bench)
    for wrong in (hot(jar, 30.0), hot(jar, 221.0, 12.0), {"mass_g": 200.0}):
        with pytest.raises(OutOfRange):
            wax_measuring.write_down(workshop, wax, "hot", wrong)
    assert measures_of(workshop, wax).rows == ()
    with pytest.raises(OutOfRange, match="nothing"):
        wax_measuring.use_density(workshop, wax, "liquid")


def test_a_typed_volume_counts_and_a_lost_jar_keeps_its_own(workshop: Workspace, wax: int) -> None:
    typed = {"volume_ml": 250.0, "mass_g": 217.5, "wax_c": 70.0}
    wax_measuring.write_down(workshop, wax, "hot", typed)
    found = measures_of(workshop, wax).liquid
    assert found is not None
    assert found.g_per_ml == pytest.approx(0.87)


def test_words_name_the_doubt_formula_and_source(workshop: Workspace, wax: int, jar: int) -> None:
    texts = workshop.texts
    wax_measuring.write_down(workshop, wax, "hot", hot(jar))
    found = measures_of(workshop, wax)
    (line,) = result_lines(texts, found, "liquid")
    assert line.startswith("Liquid, at 70 °C: 0.870 ± 0.0")
    assert "from 1 measurement" in line
    how = " ".join(how_measured(texts, found, "liquid"))
    assert "0.00066" in how
    assert "JCGM 100:2008" in how
    assert "three tell" in advice_text(texts, found, "liquid")
    assert "221.2 g" in row_about(texts, found.rows[0])
    assert how_measured(texts, found, "set") == ()


def test_one_jar_out_of_a_box_is_doubted_by_what_jars_differ_by(
    workshop: Workspace, wax: int, jar: int
) -> None:
    wax_measuring.write_down(workshop, wax, "hot", hot(jar))
    alone = measures_of(workshop, wax).liquid
    with workshop.step("Weigh") as connection:
        row = {"vessel_id": jar, "level": "line", "vessel_no": 2, "empty_g": 200.0,
               "filled_g": 461.0, "water_c": 22.0}  # fmt: skip
        records.insert(connection, "weighing", row)
    boxed = measures_of(workshop, wax).liquid
    assert alone is not None
    assert boxed is not None
    assert boxed.standard_uncertainty > 2 * alone.standard_uncertainty
    assert "jars of one box differ" in advice_text(
        workshop.texts, measures_of(workshop, wax), "liquid"
    )


def test_the_very_jar_that_was_weighed_is_known_better_than_any_of_its_box(
    workshop: Workspace, wax: int, jar: int
) -> None:
    """Jars differ; one and the same jar does not (JCGM 100:2008, 4.2: repeats of one quantity)."""
    with workshop.step("Weigh") as connection:
        row = {"vessel_id": jar, "level": "line", "vessel_no": 2, "empty_g": 200.0,
               "filled_g": 461.0, "water_c": 22.0}  # fmt: skip
        records.insert(connection, "weighing", row)
    offered = dict(jars_of(load_shelf(workshop), workshop.settings, workshop.texts))
    assert offered == {
        str(jar): "Tumbler", f"{jar}:1": "Tumbler, jar 1", f"{jar}:2": "Tumbler, jar 2",
    }  # fmt: skip
    bench = bench_for(workshop, wax)
    assert bench is not None
    boxed = work_out("hot", hot(jar), bench)
    second = work_out("hot", {**hot(jar), "vessel_id": f"{jar}:2"}, bench)
    assert second.standard_uncertainty < boxed.standard_uncertainty / 2
    # 261.0 g of water at 22 °C by the Z of ISO 8655-6: 261.0 × 1.0033 = 261.86 mL.
    line = line_of({"vessel_id": f"{jar}:2"}, bench)
    assert line.volume_ml == pytest.approx(261.86, abs=0.03)
    wax_measuring.write_down(workshop, wax, "hot", {**hot(jar), "vessel_id": f"{jar}:2"})
    kept = measures_of(workshop, wax).rows[0]
    assert (kept.values["vessel_id"], kept.values["vessel_no"]) == (jar, 2)
    assert kept.reading is not None
    assert kept.reading.g_per_ml == pytest.approx(second.g_per_ml)
