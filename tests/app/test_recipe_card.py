"""The recipe card: amounts that close, limits in words, and the page measured in the PDF."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import pdfplumber
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from wickbench.app import shelf_edit
from wickbench.app.card_amounts import card_column
from wickbench.app.recipe_card import recipe_card, write_recipe_cards
from wickbench.app.recipe_view import Wanted
from wickbench.app.shelf import load_shelf
from wickbench.app.weigh_sheets import PAPER_MARGIN_MM
from wickbench.domain.equipment import Scale
from wickbench.domain.errors import DomainError
from wickbench.domain.recipes import Load, Recipe
from wickbench.storage import records

if TYPE_CHECKING:
    from pathlib import Path

    from wickbench.app.workspace import Workspace
    from wickbench.documents.recipe_card import CardTable, RecipeCard

MM = 72 / 25.4
A4, LETTER = (210.0, 297.0), (215.9, 279.4)  # ISO 216; ANSI/ASME Y14.1, 8.5 × 11 in
BENCH, FINE = Scale("Bench", 5000, 1), Scale("Fine", 200, 0.01)


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


def written(workspace: Workspace, *, parts: int = 1) -> int:
    """A version of two waxes, two oils and a dye, all invented; a candle is made of it."""

    def item(kind: str, name: str, **details: object) -> int:
        return shelf_edit.new_item(workspace, kind, {"name": name}, details)

    soy = item("wax", "Meadow soy", wax_class="soy", max_load_percent=10, max_load_basis="wax")
    palm = item("wax", "Kernel wax", wax_class="palm", max_load_percent=8, max_load_basis="total")
    fig = item("fragrance", "Fig leaf", flash_c=93, ifra_12_percent=5)
    oud = item("fragrance", "Smoked oud", ifra_12_percent=100)
    dye = item("dye", "Plum dye")
    recipe = shelf_edit.new_recipe(workspace, "Fig & cedar")
    version = next(iter(load_shelf(workspace).versions))
    values = {"load_percent": 8.0, "load_basis": "wax", "stir_min": 2}
    rows = [("wax", soy, 70.0), ("wax", palm, 30.0), ("fragrance", fig, 3.0)]
    rows += [("fragrance", oud, 1.0)] * parts
    with workspace.step("Write") as connection:
        records.update(connection, "recipe_version", version, values)
        for role, key, amount in rows:
            row = {"version_id": version, "role": role, "item_id": key, "parts": amount}
            records.insert(connection, "recipe_part", row)
        row = {"version_id": version, "role": "dye", "item_id": dye, "of_wax_percent": 0.02}
        records.insert(connection, "recipe_part", row)
        records.update(connection, "recipe", recipe, {"scent_words": "green figs"})
        candle = {"name": "Fig in glass", "version_id": version, "declared_net_g": 200.0}
        records.insert(connection, "candle", candle)
    return version


def card_of(workspace: Workspace, version: int, wanted: Wanted | None = None) -> RecipeCard:
    shelf = load_shelf(workspace)
    chosen = wanted or Wanted(mass_g=1500.0)
    return recipe_card(shelf.versions[version], shelf, workspace.texts, chosen)


def table(card: RecipeCard, title: str) -> CardTable:
    return next(one for one in card.tables if one.title == title)


def cells(found: CardTable, name: str) -> list[str]:
    return [plain(cell) for row in found.rows if row[0] == name for cell in row[1:]]


# -- amounts ---------------------------------------------------------------------------------------
def test_eight_percent_of_wax_is_eighty_grams_to_the_kilogram(workshop: Workspace) -> None:
    """By arithmetic: 1000 g × 8 % = 80 g, three parts of four 60 g, 70 % of the wax 700 g."""
    found = table(card_of(workshop, written(workshop)), "Weigh")
    assert [plain(one) for one in found.headings[1:]] == [
        "for 500 g of wax", "for 1 kg of wax", "for 2 kg of wax", "for 1.5 kg in all",
    ]  # fmt: skip
    assert cells(found, "Meadow soy")[:3] == ["350.0 g", "700.0 g", "1400.0 g"]
    assert cells(found, "Fig leaf")[:3] == ["30.0 g", "60.0 g", "120.0 g"]
    assert [plain(one) for one in found.total[2:]] == ["1080.2 g", "2160.4 g", "1500.0 g"]


def test_pounds_of_wax_where_ounces_come_first(workshop: Workspace) -> None:
    """1 lb is 16 oz (international yard and pound agreement, 1959)."""
    workshop.set_settings({"mass_unit": "oz", "mass_unit_2": "g"})
    found = table(card_of(workshop, written(workshop)), "Weigh")
    assert [plain(one) for one in found.headings[1:4]] == [
        "for 1 lb of wax", "for 2 lb of wax", "for 4 lb of wax",
    ]  # fmt: skip
    assert cells(found, "Meadow soy")[:3] == ["11.20 oz", "22.40 oz", "44.80 oz"]


@given(
    mass_g=st.floats(50, 20_000),
    of=st.sampled_from(["wax", "mix"]),
    percent=st.floats(0, 20),
    blend=st.floats(0.05, 0.95),
    scales=st.lists(st.sampled_from([BENCH, FINE, Scale("Tenth", 2000, 0.1)]), max_size=3),
)
def test_amounts_close_to_what_was_asked(
    mass_g: float, of: str, percent: float, blend: float, scales: list[Scale]
) -> None:
    recipe = Recipe(
        wax={1: blend, 2: 1 - blend}, fragrance={3: 1}, dye={4: 0.1}, load=Load(percent, "wax")
    )
    column = card_column(recipe, Wanted(mass_g=mass_g, of=of), scales, None)
    counted = [one for one in column.amounts if of != "wax" or one.material in {1, 2}]
    chief = max((one for one in counted if one.material in {1, 2}), key=lambda one: one.mass_g)
    coarsest = max(one.step_g for one in counted if one.material in {1, 2})
    closes = math.fsum(one.mass_g for one in counted)
    assert abs(closes - mass_g) <= max(chief.step_g, coarsest) / 2 + 1e-6
    for one in column.amounts:
        steps = one.mass_g / one.step_g
        assert abs(steps - round(steps)) < 1e-6


def test_what_cannot_be_weighed_well_is_marked() -> None:
    """3 % of what is weighed is one step at most: common practice, no source."""
    recipe = Recipe(wax={1: 1}, dye={2: 0.1})
    small, large = (
        card_column(recipe, Wanted(mass_g=mass, of="wax"), [BENCH], None).amounts[1].coarse
        for mass in (5000.0, 40_000.0)
    )
    assert (small, large) == (True, False)


# -- words -----------------------------------------------------------------------------------------
def test_limits_stand_in_the_basis_in_which_they_are_stated(workshop: Workspace) -> None:
    """By arithmetic: 8/1.08 = 7.41 %; 10/1.1 = 9.09 %; 8/0.92 = 8.7 %; 8·¾/1.0802 = 5.55 %."""
    found = table(card_of(workshop, written(workshop)), "How much may be")
    assert cells(found, "Meadow soy")[:3] == [
        "8 % of wax", "10 % of wax = 9.09 % of total", "2 % of wax",
    ]  # fmt: skip
    assert cells(found, "Kernel wax")[:3] == [
        "7.41 % of total", "8 % of total = 8.7 % of wax", "0.59 % of total",
    ]  # fmt: skip
    assert cells(found, "Fig leaf") == [
        "5.55 % of the candle", "5 % of the candle", "0.55 % too much", "93 °C · 199 °F",
    ]  # fmt: skip
    assert cells(found, "Smoked oud") == ["1.85 % of the candle", "sets no limit here", "", ""]


def test_the_card_says_load_state_heat_and_candles(workshop: Workspace) -> None:
    card = card_of(workshop, written(workshop))
    assert plain(card.load) == "Fragrance load 8 % of wax = 7.41 % of total"
    assert card.subtitle.startswith("v1 · idea")
    heat = table(card, "How hot, how long")
    # soy takes its oil at 74 to 85 °C: common practice, no source
    assert cells(heat, "Add the oil at")[1:] == ["74–85 °C · 165–185 °F", "estimate"]
    assert cells(heat, "Stir") == ["2 min", "", "the recipe"]
    made = table(card, "Candles made of it")
    assert cells(made, "Fig in glass") == ["–", "no wick", "200.0 g · 7.1 oz", "untested"]
    assert any(words.startswith("Stops you: ") and "Fig leaf" in words for words in card.watch)


# -- paper -----------------------------------------------------------------------------------------
@pytest.mark.parametrize(("paper", "size"), [("A4", A4), ("Letter", LETTER)])
def test_the_page_as_measured(
    workshop: Workspace, tmp_path: Path, paper: str, size: tuple[float, float]
) -> None:
    version = written(workshop)
    workshop.set_setting("paper", paper)
    path = write_recipe_cards(workshop, tmp_path / "card.pdf", only=version)
    with pdfplumber.open(path) as pdf:
        (page,) = pdf.pages
        assert (page.width / MM, page.height / MM) == pytest.approx(size, abs=0.05)
        words = page.extract_words()
        for word in words:
            assert word["x0"] / MM >= PAPER_MARGIN_MM - 0.2
            assert word["x1"] / MM <= size[0] - PAPER_MARGIN_MM + 0.2
            assert word["bottom"] / MM <= size[1] - 5
    said = " ".join(str(word["text"]) for word in words)
    assert "page 1 of 1" in said
    reader = PdfReader(path)
    root: Any = reader.trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    resources: Any = reader.pages[0]["/Resources"]
    fonts = resources["/Font"].values()
    inside = [font.get_object()["/DescendantFonts"][0].get_object() for font in fonts]
    assert inside
    for font in inside:
        assert {"/FontFile2", "/FontFile3"} & set(font["/FontDescriptor"].get_object())


def test_a_long_recipe_is_set_smaller_then_takes_a_second_page(
    workshop: Workspace, tmp_path: Path
) -> None:
    version = written(workshop, parts=1)
    oils = [shelf_edit.new_item(workshop, "fragrance", {"name": f"Oil {n}"}, {}) for n in range(40)]
    with workshop.step("Write") as connection:
        for oil in oils:
            row = {"version_id": version, "role": "fragrance", "item_id": oil, "parts": 1.0}
            records.insert(connection, "recipe_part", row)
    path = write_recipe_cards(workshop, tmp_path / "card.pdf", only=version)
    texts = [page.extract_text() for page in PdfReader(path).pages]
    assert len(texts) > 1
    assert f"page 2 of {len(texts)}" in texts[1]
    assert all(any(f"Oil {n}" in text for text in texts) for n in range(40))


def test_what_cannot_be_made_is_told_and_left_out(workshop: Workspace, tmp_path: Path) -> None:
    with pytest.raises(DomainError, match=r"recipe-card\.nothing"):
        write_recipe_cards(workshop, tmp_path / "none.pdf")
    shelf_edit.new_recipe(workshop, "Empty")
    (version,) = load_shelf(workshop).versions
    with pytest.raises(DomainError, match=r"recipe\.no-wax"):
        write_recipe_cards(workshop, tmp_path / "none.pdf", only=version)
