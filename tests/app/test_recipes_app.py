"""A version of a recipe worked out: amounts that close, both bases, checks, what can be done."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app import recipe_edit, recipe_parts
from wickbench.app.questions import Silent
from wickbench.app.recipe_shown import (
    amount_text,
    assumed_texts,
    density_text,
    limit_text,
    oil_text,
    second_amount,
    step_of,
)
from wickbench.app.recipe_view import RecipeView, Wanted, view_recipe
from wickbench.app.recipe_words import both_bases
from wickbench.app.shelf import Shelf
from wickbench.app.texts import Texts
from wickbench.app.units import Units
from wickbench.app.workspace import Services, Workspace
from wickbench.domain.catalog import Equipment, Fragrance, Material, RecipePart, RecipeVersion, Wax
from wickbench.domain.recipe_checks import Checked
from wickbench.domain.recipes import Load

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

TEXTS = Texts()
WAX_TABLE, OIL_TABLE, DYE_TABLE, ADDITIVE_TABLE = recipe_parts.RECIPE_TABLES


class StandingClock:
    def now_ms(self) -> int:
        return 1_795_600_000_000

    def today(self) -> dt.date:
        return dt.date(2026, 11, 25)

    def monotonic(self) -> float:
        return 0.0


@pytest.fixture
def workspace(tmp_path: Path) -> Iterator[Workspace]:
    made = Workspace.create(tmp_path / "w.wickbench", Services(StandingClock(), TEXTS, Silent()))
    yield made
    made.close()


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


def keys(view: RecipeView) -> list[str]:
    return [finding.key for finding in view.findings]


def material(key: int, kind: str, details: Wax | Fragrance, name: str = "") -> Material:
    return Material(id=key, kind=kind, name=name or f"{kind} {key}", details=details)


def shelf(
    oil: Fragrance | None = None,
    *,
    wax: Wax | None = None,
    heat: tuple[dict[str, object], ...] = (),
) -> Shelf:
    things = (
        material(1, "wax", wax or Wax(wax_class="soy", max_load=Load(10, "wax"))),
        material(2, "fragrance", oil or Fragrance(flash_c=93.0, ifra_12_percent=12.0)),
    )
    return Shelf(materials={one.id: one for one in things}, equipment=Equipment(heat_sources=heat))


def version(load: Load | None = None, *extra: RecipePart, **values: object) -> RecipeVersion:
    parts = (
        RecipePart(id=1, role="wax", item_id=1, parts=1.0),
        RecipePart(id=2, role="fragrance", item_id=2, parts=1.0),
        *extra,
    )
    known: dict[str, object] = {"load": load or Load(8.0, "wax"), "parts": parts} | values
    return RecipeVersion(id=1, recipe_id=1, name="Bramble", **known)  # type: ignore[arg-type]


# ── amounts ───────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    ("load", "wax_g", "oil_g"),
    [
        # w = F/W, p = w/(1 + w), worked by hand for 2000 g
        (Load(6, "wax"), 1886.79, 113.21), (Load(6, "total"), 1880.0, 120.0),
        (Load(8, "wax"), 1851.85, 148.15), (Load(8, "total"), 1840.0, 160.0),
        (Load(10, "wax"), 1818.18, 181.82), (Load(10, "total"), 1800.0, 200.0),
    ],
)  # fmt: skip
def test_two_kilograms_in_either_basis(load: Load, wax_g: float, oil_g: float) -> None:
    view = view_recipe(version(load), shelf(), Wanted(mass_g=2000.0), 0.01)
    assert [row.mass_g for row in view.amounts] == pytest.approx([wax_g, oil_g], abs=0.005)


def test_so_much_wax_is_that_much_wax() -> None:
    # One pound of wax and one ounce of oil: 6.25 % of wax (16 oz to the pound, NIST Handbook 44).
    view = view_recipe(
        version(Load(6.25, "wax")), shelf(), Wanted(mass_g=453.59237, of="wax"), 0.001
    )
    assert view.amounts[0].mass_g == pytest.approx(453.592, abs=1e-6)
    assert view.amounts[1].mass_g == pytest.approx(28.3495, abs=0.001)


@given(
    st.lists(st.floats(0.1, 500), min_size=1, max_size=4),
    st.builds(Load, st.floats(0.5, 12), st.sampled_from(["wax", "total"])),
    st.floats(0.01, 3),
    st.builds(Wanted, mass_g=st.floats(50, 60_000), of=st.sampled_from(["mix", "wax"])),
    st.sampled_from([0.1, 1.0, 0.01 * 28.349523125, 0.001 * 453.59237]),
)
def test_amounts_close_to_the_total_in_whole_steps(
    waxes: list[float], load: Load, dye: float, wanted: Wanted, step_g: float
) -> None:
    """In any unit the figures that are shown sum to the total that is shown."""
    parts = [
        RecipePart(id=10 + at, role="wax", item_id=1, parts=amount)
        for at, amount in enumerate(waxes)
    ]
    parts.append(RecipePart(id=30, role="dye", item_id=3, of_wax_percent=dye))
    view = view_recipe(version(load, *parts), shelf(), wanted, step_g)
    steps = [round(row.mass_g / step_g) for row in view.amounts]
    assert [step * step_g for step in steps] == pytest.approx([r.mass_g for r in view.amounts])
    assert sum(steps) == round(view.total_g / step_g)
    assert sum(row.share_percent for row in view.amounts) == pytest.approx(100)


@pytest.mark.parametrize(
    ("unit", "text"), [("g", "907.2 g"), ("lb oz", "2 lb 0.0 oz"), ("oz", "32.00 oz")]
)
def test_amounts_keep_the_digits_of_their_step(unit: str, text: str) -> None:
    texts = Texts(units=Units(shown={"mass": (unit, "g")}))
    assert plain(amount_text(texts, 907.18474, step_of(texts))) == text


def test_small_amounts_are_told_in_hundredths_of_an_ounce() -> None:
    assert plain(second_amount(TEXTS, 14.17476)) == "0.50 oz"
    assert second_amount(Texts(units=Units(shown={"mass": ("g", "")})), 14.0) == ""


def test_a_load_is_said_in_both_bases() -> None:
    # 8 % of wax: 8 / 1.08 = 7.407 % of total
    assert plain(both_bases(TEXTS, Load(8, "wax"))) == "8 % of wax = 7.41 % of total"
    assert plain(both_bases(TEXTS, Load(7.5, "total"))) == "7.5 % of total = 8.11 % of wax"
    assert both_bases(TEXTS, None) == ""
    # With 0.6 % of wax beside it: 7 × 100.6 / 93 and 100 × 8 / 108.6, worked by hand.
    assert plain(both_bases(TEXTS, Load(7, "total"), 0.6)) == "7 % of total = 7.57 % of wax"
    assert plain(both_bases(TEXTS, Load(8, "wax"), 0.6)) == "8 % of wax = 7.37 % of total"


# ── checks ────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    ("limit", "state", "text"),
    [
        (12.0, Checked.WITHIN, "within the 12 %"), (5.0, Checked.OVER, "over the 5 %"),
        (100.0, Checked.NO_LIMIT, "sets no limit here"), (0.0, Checked.NOT_ALLOWED, "allows none"),
        (None, Checked.UNKNOWN, "is not entered"),
    ],
)  # fmt: skip
def test_each_oil_stands_against_its_certificate(
    limit: float | None, state: Checked, text: str
) -> None:
    view = view_recipe(version(), shelf(Fragrance(ifra_12_percent=limit)), Wanted())
    assert [row.state for row in view.oils] == [state]
    # 8 % of wax is 8/1.08 = 7.41 % of the candle
    said = plain(oil_text(TEXTS, view.oils[0]))
    assert said.startswith("fragrance 2: 7.41 % of the candle")
    assert text in said
    assert "Flash point" not in said


@pytest.mark.parametrize(
    ("flash_c", "heat", "expected"),
    [
        # An oil's flash point is a warning up to 60 °C (GHS table 2.6.1), near an open flame, or
        # with the pot left on the heat; else it is information.
        (93.0, (), None),
        (58.0, (), "recipe.flash-low"),
        (70.0, ({"name": "Hotplate"},), None),
        (70.0, ({"name": "Gas", "open_flame": 1},), "recipe.flash-over-flame"),
        (70.0, ({"name": "Melter", "left_on_heat": 1},), "recipe.flash-on-heat"),
        (58.0, ({"name": "Plate"}, {"name": "Gas", "open_flame": 1}), "recipe.flash-over-flame"),
    ],
)
def test_the_worst_heat_of_the_workshop_decides_about_a_flash_point(
    flash_c: float, heat: tuple[dict[str, object], ...], expected: str | None
) -> None:
    oil = Fragrance(flash_c=flash_c, ifra_12_percent=100.0)
    view = view_recipe(version(heat_to_c=85.0, add_oil_c=80.0), shelf(oil, heat=heat), Wanted())
    assert [key for key in keys(view) if "flash" in key] == ([expected] if expected else [])


def test_the_strictest_wax_is_told_in_both_bases() -> None:
    view = view_recipe(version(), shelf(), Wanted())
    assert plain(limit_text(TEXTS, view)) == ("wax 1 holds at most 10 % of wax = 9.09 % of total.")


def test_lines_that_say_nothing_yet_are_named() -> None:
    extra = (
        RecipePart(id=5, role="wax", item_id=None, parts=3.0),
        RecipePart(id=6, role="fragrance", item_id=2, parts=None),
    )
    found = keys(view_recipe(version(None, *extra), shelf(), Wanted()))
    assert "recipe-dock.part-without-material" in found
    assert "recipe-dock.part-without-amount" in found
    assert keys(view_recipe(version(), shelf(), Wanted(), basis_missing=True))[:1] == [
        "recipe-dock.basis-missing"
    ]


def test_a_recipe_without_wax_or_with_nonsense_is_a_finding_never_a_crash() -> None:
    empty = view_recipe(version(parts=()), shelf(), Wanted())
    assert empty.amounts == ()
    assert "recipe.no-wax" in keys(empty)
    wrong = version(None, RecipePart(id=7, role="dye", item_id=1, of_wax_percent=-4.0))
    assert keys(view_recipe(wrong, shelf(), Wanted())) == ["recipe.number"]


def test_a_density_nobody_measured_is_a_range_and_says_so() -> None:
    measured = Wax(
        wax_class="soy", liquid_g_per_ml=0.87, liquid_measured=True, set_g_per_ml=0.9,
        set_measured=True,
    )  # fmt: skip
    oil = Fragrance(density_g_per_ml=0.97)
    known = view_recipe(version(Load(8, "total")), shelf(oil, wax=measured), Wanted())
    # 1/(0.92/0.900 + 0.08/0.970) = 0.9052, by hand
    said = plain(density_text(TEXTS, known.mix))
    assert "0.905 g/mL once set" in said
    assert "estimate" not in said
    guessed = plain(density_text(TEXTS, view_recipe(version(), shelf(), Wanted()).mix))
    assert guessed.count("(estimate)") == 2


def test_empty_temperatures_show_the_wax_or_its_class() -> None:
    own = Wax(wax_class="soy", heat_to_c=82.0, cure_days=14)
    said = {k: plain(v) for k, v in assumed_texts(TEXTS, version(), shelf(wax=own)).items()}
    assert said["heat_to_c"] == "82 °C · 180 °F, as the wax says"
    assert said["add_oil_c"] == "74–85 °C (estimate)"  # soy is usual there; common practice
    assert said["cure_days"] == "14, as the wax says"


# ── what can be done ──────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    ("typed", "of_wax"),
    [("1 oz/lb", True), ("1oz / lb", True), ("10 g per kg", True), ("8 %", False), ("1/2", False)],
)
def test_weight_by_weight_says_its_basis_itself(typed: str, of_wax: bool) -> None:  # noqa: FBT001
    assert recipe_edit.says_of_wax(typed) is of_wax
