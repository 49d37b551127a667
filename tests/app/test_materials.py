"""Materials: their rows, estimates and findings, and what can be done with them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app import materials, shelf_edit, stock
from wickbench.app.material_estimates import CLASS_SHORT, PAGE_MM, estimates, filled
from wickbench.app.material_fields import DETAIL_FIELDS, KIND_NAMES, WAX_CLASS_NAMES, fields_of
from wickbench.app.material_findings import material_findings
from wickbench.app.search import matches
from wickbench.app.sticker_sheets import sheet_of
from wickbench.app.texts import Texts
from wickbench.domain.catalog import MATERIAL_KINDS
from wickbench.domain.findings import Rank
from wickbench.domain.wax_classes import WAX_CLASSES
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

Values = dict[str, object]


def found(kind: str, **values: object) -> dict[str, Rank]:
    return {one.key.removeprefix("material."): one.rank for one in material_findings(kind, values)}


# -- estimates -----------------------------------------------------------------------------------
def test_an_empty_field_says_that_it_is_an_estimate() -> None:
    texts = Texts()
    soy = materials.material_view(texts, {"kind": "wax", "wax_class": "soy"}).assumed
    assert soy["liquid_g_per_ml"] == "0.855–0.885 g/mL (estimate)"
    assert soy["add_oil_c"] == "74–85 °C (estimate for soy)"
    assert soy["cure_days"] == "7–14 d (estimate for soy)"
    assert "flash_c" not in soy  # nobody knows it without the data sheet
    unknown = materials.material_view(texts, {"kind": "wax", "wax_class": None}).assumed
    assert unknown["set_g_per_ml"].endswith("(estimate)")
    oil = materials.material_view(texts, {"kind": "fragrance"}).assumed
    assert oil == {"density_g_per_ml": "0.880–1.100 g/mL (estimate)"}


def test_wicks_are_trimmed_by_what_they_are_made_of() -> None:
    # Cotton 6 mm, wooden 3–5 mm: common practice, no source.
    texts = Texts()

    def trim(kind: str | None) -> str | None:
        view = materials.material_view(texts, {"kind": "wick", "wick_kind": kind})
        return view.assumed.get("trim_mm")

    assert trim("cotton") == "6 mm (usual for cotton and paper wicks)"
    assert trim("wooden_booster") == "3–5 mm (usual for wooden wicks)"
    assert trim(None) is None


def test_each_class_has_a_name_and_estimates_for_the_fields_marked_so() -> None:
    assert set(WAX_CLASS_NAMES) == set(WAX_CLASSES)
    assert set(CLASS_SHORT) == set(WAX_CLASSES) - {"other"}
    marked = {spec.name for spec in DETAIL_FIELDS["wax"] if spec.estimate}
    for wax_class in WAX_CLASSES:
        given_for = set(estimates("wax", {"wax_class": wax_class}))
        assert marked - {"flash_c"} <= given_for <= marked


def test_an_own_value_replaces_the_estimate() -> None:
    full = filled("wax", {"wax_class": "soy", "heat_to_c": 80.0, "pour_c": None})
    assert full["heat_to_c"] == 80.0
    assert full["pour_c"] == pytest.approx((49 + 63) / 2)


def test_estimates_are_values_that_their_own_fields_take() -> None:
    for kind, table in DETAIL_FIELDS.items():
        specs = {spec.name: spec for spec in table}
        for word in (*WAX_CLASSES, "cotton", "wooden", "A4", "Letter"):
            values = {"wax_class": word, "wick_kind": word, "page": word}
            for name, one in estimates(kind, values).items():
                assert (specs[name].low or 0) <= one.low <= one.high
                assert one.high <= (specs[name].high or 1e9)
                assert one.kind == specs[name].kind


@pytest.mark.parametrize("wax_class", [*WAX_CLASSES, None])
def test_an_estimate_alone_is_never_complained_of(wax_class: str | None) -> None:
    ranks = found("wax", wax_class=wax_class, max_load_percent=10.0, max_load_basis="wax")
    assert set(ranks) <= {"wax-no-class"}


# -- findings ------------------------------------------------------------------------------------
SOY: Values = {"wax_class": "soy", "max_load_percent": 10.0, "max_load_basis": "wax"}


@pytest.mark.parametrize(
    ("values", "key", "rank"),
    [
        ({"melts_from_c": 54.0, "melts_to_c": 46.0}, "wax-melts-backwards", Rank.WATCH),
        ({"melts_to_c": 120.0, "flash_c": 110.0}, "wax-melts-above-flash", Rank.STOPS),
        ({"liquid_g_per_ml": 0.9, "set_g_per_ml": 0.87}, "wax-set-lighter", Rank.WATCH),
        ({"add_oil_c": 90.0, "heat_to_c": 85.0}, "wax-oil-above-heat", Rank.WATCH),
        ({"pour_c": 90.0, "heat_to_c": 85.0}, "wax-pour-above-heat", Rank.WATCH),
        ({"heat_to_c": 50.0}, "wax-heat-below-melting", Rank.WATCH),
        ({"heat_to_c": 150.0, "flash_c": 150.0}, "wax-heat-above-flash", Rank.STOPS),
        ({"heat_to_c": 131.0, "flash_c": 150.0}, "wax-heat-near-flash", Rank.STOPS),
        ({"max_load_basis": None}, "wax-load-without-basis", Rank.WATCH),
        ({"max_load_percent": None}, "wax-no-load", Rank.NOTE),
        ({"liquid_g_per_ml": 0.7}, "wax-density-unusual", Rank.NOTE),
        ({"liquid_measured": 1}, "wax-measured-without-value", Rank.WATCH),
        ({"wax_class": None}, "wax-no-class", Rank.NOTE),
    ],
)
def test_findings_about_a_wax(values: Values, key: str, rank: Rank) -> None:
    assert found("wax", **SOY | values).get(key) == rank
    assert key not in found("wax", **SOY)


def test_heat_may_come_within_twenty_degrees_of_the_flash_point_but_no_closer() -> None:
    assert "wax-heat-near-flash" not in found("wax", **SOY, heat_to_c=130.0, flash_c=150.0)
    assert "wax-heat-near-flash" in found("wax", **SOY, heat_to_c=130.1, flash_c=150.0)


def test_the_flash_point_estimated_for_the_class_counts_as_well() -> None:
    # Beeswax flashes at 204 °C (FAO).
    assert (
        found("wax", **SOY | {"wax_class": "beeswax", "heat_to_c": 190.0})["wax-heat-near-flash"]
        == Rank.STOPS
    )


@pytest.mark.parametrize(
    ("values", "key", "rank"),
    [
        ({"ifra_12_percent": 100.0}, "oil-no-limit", Rank.NOTE),
        ({"ifra_12_percent": 0.0}, "oil-not-allowed", Rank.STOPS),
        ({"ifra_12_percent": 6.0}, "oil-limit", Rank.NOTE),
        ({"ifra_12_percent": None}, "oil-no-certificate", Rank.NOTE),
        # Flammable liquids of category 3 end at 60 °C (GHS, table 2.6.1).
        ({"flash_c": 60.0}, "oil-flash-low", Rank.WATCH),
        ({"flash_c": 60.1}, "oil-flash", Rank.NOTE),
        ({"flash_c": None}, "oil-no-flash", Rank.NOTE),
        ({"vanillin_percent": 2.0}, "oil-vanillin", Rank.NOTE),
        ({"density_g_per_ml": 9.7}, "oil-density-unusual", Rank.NOTE),
    ],
)
def test_findings_about_an_oil(values: Values, key: str, rank: Rank) -> None:
    plain: Values = {"ifra_12_percent": 20.0, "flash_c": 93.0, "vanillin_percent": 0.0}
    assert found("fragrance", **plain | values)[key] == rank
    assert "oil-vanillin" not in found("fragrance", **plain)


def test_a_limit_of_total_is_told_of_wax_too() -> None:
    # 6 % of total is 6/94 = 6.383 % of wax.
    (limit,) = [
        one
        for one in material_findings("fragrance", {"ifra_12_percent": 6.0, "flash_c": 93.0})
        if one.key == "material.oil-limit"
    ]
    assert limit.data["wax_percent"] == pytest.approx(600 / 94)
    assert "6.38 % of wax" in Texts().say(limit)


@pytest.mark.parametrize(
    ("kind", "trim", "keys"),
    [
        ("cotton", 6.0, []), ("cotton", 6.35, []), ("paper", 3.0, ["wick-trim-cotton"]),
        ("cored", 12.0, ["wick-trim-cotton"]), ("wooden", 6.0, ["wick-trim-wooden"]),
        ("wooden", 4.0, []),
        ("wooden_booster", 3.0, []), ("wooden", 2.0, ["wick-trim-wooden"]), ("", 20.0, []),
    ],
)  # fmt: skip
def test_trims_out_of_the_usual_are_watched(kind: str, trim: float, keys: list[str]) -> None:
    said = found("wick", wick_kind=kind or None, trim_mm=trim)
    assert [key for key in said if key.startswith("wick-trim")] == keys


def test_other_findings_about_wicks() -> None:
    assert "wick-diameters-backwards" in found(
        "wick", wick_kind="cotton", diameter_from_mm=90.0, diameter_to_mm=60.0
    )
    assert "wick-lead" in found("wick", wick_kind="cored")
    assert "wick-neck-low" in found("wick", wick_kind="cotton", neck_mm=3.0)
    assert "wick-shorter-than-trim" in found("wick", wick_kind="cotton", trim_mm=6, length_mm=5)
    assert found("wick", wick_kind="cotton", trim_mm=6.0, neck_mm=6.0) == {}


@pytest.mark.parametrize("kind", ["dye", "additive"])
def test_the_most_is_no_less_than_the_usual(kind: str) -> None:
    assert found(kind, usual_percent=0.2, max_percent=0.1) == {"most-below-usual": Rank.WATCH}
    assert found(kind, usual_percent=0.1, max_percent=0.1) == {}


def test_a_lid_is_no_smaller_than_its_opening() -> None:
    assert "lid-too-small" in found("lid", fits_mm=80.0, diameter_mm=78.0)
    assert found("lid", fits_mm=80.0) == {}


SHEET: Values = {
    "page": "A4", "columns": 3, "rows": 7, "sticker_w_mm": 60.0, "sticker_h_mm": 36.0,
    "left_mm": 11.0, "top_mm": 16.5, "pitch_x_mm": 64.0, "pitch_y_mm": 38.0,
}  # fmt: skip


def test_a_sheet_takes_its_page_from_its_name() -> None:
    assert PAGE_MM["A4"] == (210.0, 297.0)  # ISO 216
    assert PAGE_MM["Letter"] == pytest.approx((8.5 * 25.4, 11 * 25.4))
    assert found("sheet", **SHEET) == {}
    assert sheet_of(SHEET).count == 21
    assert sheet_of(SHEET | {"page_w_mm": 100.0}).page_w_mm == 100.0


def test_a_sheet_that_cannot_be_is_said_so() -> None:
    assert "sheet.columns-overlap" in found("sheet", **SHEET | {"pitch_x_mm": 50.0})
    assert "sheet.past-right-edge" in found("sheet", **SHEET | {"columns": 4})
    assert "sheet.no-sticker-w" in found("sheet", page="A4")
    assert "sheet.shape" in found("sheet", **SHEET | {"shape": "star"})


NUMBERS = st.one_of(st.none(), st.floats(0, 400), st.integers(0, 100))


@given(st.sampled_from(MATERIAL_KINDS), st.data())
def test_any_half_filled_form_gets_sentences_and_never_fails(
    kind: str, data: st.DataObject
) -> None:
    values: Values = {"kind": kind}
    for spec in fields_of(kind):
        if spec.kind == "choice":
            words = [choice.value for choice in spec.choices]
            values[spec.name] = data.draw(st.sampled_from([None, *words]))
        elif spec.kind == "count":
            values[spec.name] = data.draw(st.one_of(st.none(), st.integers(0, 100)))
        elif spec.is_quantity or spec.kind == "yes_no":
            values[spec.name] = data.draw(NUMBERS)
    view = materials.material_view(Texts(), values)
    ranks = [one.rank for one in view.findings]
    assert ranks == sorted(ranks, reverse=True)
    for one in view.findings:
        assert Texts().say(one)[0] not in "{m"


# -- the shelf -----------------------------------------------------------------------------------
def names(workshop: Workspace, kind: str = "", *, put_away: bool = False) -> list[str]:
    rows = materials.material_rows(workshop, kind, put_away=put_away)
    return [row.title(workshop.texts) for row in rows]


def test_all_nine_kinds_stand_on_the_shelf(workshop: Workspace) -> None:
    for kind in KIND_NAMES:
        key = materials.new_material(workshop, kind)
        assert materials.stored_values(workshop, key)["kind"] == kind
    shelf_edit.new_item(workshop, "vessel", {"name": "Not a material"})
    assert len(names(workshop)) == 9
    assert names(workshop, "wax") == ["Wax without a name"]
    with pytest.raises(ValueError, match="vessel"):
        materials.new_material(workshop, "vessel")


def test_names_are_sorted_as_people_sort_them(workshop: Workspace) -> None:
    for name in ("Zimt", "Äpfel", "apple", "Birne"):
        shelf_edit.new_item(workshop, "fragrance", {"name": name})
    assert names(workshop) == ["Äpfel", "apple", "Birne", "Zimt"]


@pytest.mark.parametrize(
    "sought",
    ["mill", "ss-1", "soy", "scent fig", "fragrance fig", "cedar wood", "oil", "8 mm note"],
)
def test_the_search_finds_supplier_number_and_other_words(workshop: Workspace, sought: str) -> None:
    common = {"supplier": "Mill & Field", "code": "SS-1"}
    shelf_edit.new_item(workshop, "wax", {"name": "Soft", **common}, {"wax_class": "soy"})
    shelf_edit.new_item(workshop, "fragrance", {"name": "Fig", "note": "8 mm note"})
    shelf_edit.new_item(workshop, "wick", {"name": "Cedar strip"}, {"wick_kind": "wooden"})
    rows = materials.material_rows(workshop)
    assert len([row for row in rows if matches(sought, row.words)]) == 1


def test_what_is_there_is_told_or_unknown(workshop: Workspace) -> None:
    key = shelf_edit.new_item(workshop, "wax", {"name": "Soft"})
    (row,) = materials.material_rows(workshop)
    assert row.on_hand_text(workshop.texts) == "unknown"
    stock.buy(workshop, key, 4200)
    (row,) = materials.material_rows(workshop)
    assert row.on_hand_text(workshop.texts) == "4.2 kg"


def test_what_nothing_names_is_removed_and_undo_brings_it_back(workshop: Workspace) -> None:
    key = shelf_edit.new_item(workshop, "wax", {"name": "Soft"}, {"wax_class": "soy"})
    said = materials.remove_material(workshop, key)
    assert said.key == "material.removed"
    assert names(workshop, put_away=True) == []
    workshop.undo()
    assert materials.stored_values(workshop, key)["wax_class"] == "soy"


def test_what_was_bought_is_put_away_and_can_be_brought_back(workshop: Workspace) -> None:
    key = shelf_edit.new_item(workshop, "wax", {"name": "Soft"})
    stock.buy(workshop, key, 1000)
    assert not materials.any_put_away(workshop)
    said = materials.remove_material(workshop, key)
    assert said.key == "material.put-away"
    assert "Soft" in workshop.texts.say(said)
    assert names(workshop) == []
    assert names(workshop, put_away=True) == ["Soft"]
    assert materials.any_put_away(workshop)
    materials.bring_back(workshop, key)
    assert names(workshop) == ["Soft"]
    workshop.undo()
    assert names(workshop) == []


def test_a_copy_has_no_stock_of_its_own(workshop: Workspace) -> None:
    key = shelf_edit.new_item(workshop, "wick", {"name": "C 8"}, {"series": "C", "trim_mm": 6.0})
    stock.buy(workshop, key, 100)
    copy = shelf_edit.duplicate_item(workshop, key)
    values = materials.stored_values(workshop, copy)
    assert values["name"] == "C 8 (copy)"
    assert values["trim_mm"] == 6.0
    rows = {row.id: row for row in materials.material_rows(workshop)}
    assert rows[copy].on_hand is None
    with workshop.read() as connection:
        assert len(records.fetch_all(connection, "material_lot")) == 1
