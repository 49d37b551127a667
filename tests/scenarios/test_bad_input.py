"""What somebody types, chooses or plans by mistake: a clear finding, nothing lost, no traceback."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit

from scenarios.hands import Hands, opened, plain
from wickbench.app.material_fields import KIND_NAMES
from wickbench.gui.fields.choice_field import YesNoField
from wickbench.gui.fields.note_field import NoteField

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from pathlib import Path

    from gui.conftest import Answers, StandingClock
    from wickbench.gui.fields.field import Field
    from wickbench.gui.fields.form import FieldForm
    from wickbench.gui.labels.labels_page import LabelsPage
    from wickbench.gui.main_window import MainWindow
    from wickbench.gui.plan.plan_page import PlanPage

NONSENSE = "some & <b>more</b>"
TEXT = frozenset({"text", "note"})


# -- every field's nonsense ----------------------------------------------------------------------
def number_fields(form: FieldForm) -> Iterator[tuple[str, Field]]:
    """Fields where only a quantity or a day can be typed."""
    for name, field in form.fields.items():
        spec = form._specs[name]
        if spec.kind not in TEXT and isinstance(field.editor, QLineEdit):
            yield name, field


def nonsense_everywhere(hands: Hands, forms: Iterable[FieldForm]) -> list[tuple[Field, str]]:
    """Type nonsense into each quantity; says which fields there were.

    Each keeps its text and says one sentence that tells what to do; nothing is stored.
    """
    told = []
    for form in forms:
        for name, field in number_fields(form):
            before = hands.dump()
            hands.type_in(field, NONSENSE)
            assert field.text() == NONSENSE, name
            sentence = field.trouble.sentence
            assert sentence.endswith((".", "?")), f"{name} says {sentence!r}"
            assert hands.dump() == before
            told.append((field, name))
    return told


def test_each_field_of_a_material_says_what_is_wrong_and_loses_nothing(hands: Hands) -> None:
    dock = hands.dock("materials")
    for kind in ("wax", "fragrance", "wick", "lid", "sheet"):
        hands.new(dock, KIND_NAMES[kind])
        told = nonsense_everywhere(hands, [dock.material_editor.details])
        assert len(told) >= 3
        # Another thing is shown, then this one again: every text is still there with its sentence.
        first = dock.record
        hands.new(dock, "Supplies")
        dock.show_record(first)
        for field, name in told:
            assert field.text() == NONSENSE, name
            assert field.trouble.sentence, name


def test_each_field_of_vessels_recipes_candles_and_equipment_says_what_is_wrong(
    hands: Hands,
) -> None:
    vessels = hands.dock("vessels")
    hands.press(vessels.editor_pane.first)
    assert len(nonsense_everywhere(hands, vessels.editor.forms)) >= 8
    recipes = hands.dock("recipes")
    hands.press(recipes.editor_pane.first)
    assert len(nonsense_everywhere(hands, [recipes.editor.load, recipes.editor.heat])) == 6
    candles = hands.page("candles")
    hands.press(candles.make_first)
    assert len(nonsense_everywhere(hands, candles.editor.forms)) >= 2
    page = hands.page("equipment")
    for section in page.sections.values():
        hands.press(section.list.make_first)
        nonsense_everywhere(hands, [section.editor.form])
    page = hands.page("settings")
    forms = [one for one in vars(page).values() if hasattr(one, "fields")]
    for form in forms:
        nonsense_everywhere(hands, [form])


def test_what_could_not_be_read_is_there_again_after_closing_and_opening(
    hands: Hands, new_window: Callable[[], MainWindow], ask: Answers, clock: StandingClock
) -> None:
    dock = hands.dock("materials")
    hands.new(dock, "Wax")
    hands.type(dock.material_editor.details, "pour_c", "as hot as tea")
    sentence = dock.material_editor.details.fields["pour_c"].trouble.sentence
    assert hands.window.workspace is not None
    ask.path = hands.window.workspace.path
    hands.window.menus.actions["close_workshop"].trigger()
    again = Hands(new_window(), clock)
    again.window.menus.actions["open_file"].trigger()
    QApplication.processEvents()
    field = again.dock("materials").material_editor.details.fields["pour_c"]
    assert (field.text(), field.trouble.sentence) == ("as hot as tea", sentence)
    again.type_in(field, "62")
    assert field.trouble.sentence == ""


def test_a_mass_that_can_be_read_two_ways_or_none_asks(hands: Hands) -> None:
    dock = hands.dock("materials")
    hands.new(dock, "Lid")
    form = dock.material_editor.details
    field = form.fields["mass_g"]
    told = {"1,234": "1", "12 fl oz": "weight", "2 lb 4": "", "1e3": "", "-5 g": "", "nan": ""}
    for typed, words in told.items():
        hands.type(form, "mass_g", typed)
        assert field.text() == typed
        assert field.trouble.sentence, typed
        assert words in field.trouble.sentence
    hands.type(form, "mass_g", "2 lb 4 oz")
    assert field.trouble.sentence == ""


# -- plans that cannot be ------------------------------------------------------------------------
@pytest.fixture
def plan(hands: Hands) -> PlanPage:
    """A wax and an oil of which nothing is known but the names, a jar, a recipe, a plan of six."""
    dock = hands.dock("materials")
    for kind, name in (("Wax", "Meadow soy"), ("Fragrance oil", "Fig & cedar")):
        hands.new(dock, kind)
        hands.type(dock.material_editor.names, "name", name)
    vessels = hands.dock("vessels")
    hands.press(vessels.editor_pane.first)
    jar = vessels.editor
    hands.fill(jar.first, {"name": "Tumbler", "height_mm": "85 mm", "fill_mm": "66 mm"})
    hands.rows(
        jar.diameters.table,
        [{"height_mm": "0", "diameter_mm": "60"}, {"height_mm": "85", "diameter_mm": "60"}],
    )
    recipes = hands.dock("recipes")
    hands.press(recipes.editor_pane.first)
    hands.type(recipes.editor.names, "name", "Fig")
    hands.rows(recipes.editor.wax.table, [{"item_id": "Meadow", "parts": "1"}])
    hands.rows(recipes.editor.fragrance.table, [{"item_id": "Fig", "parts": "1"}])
    hands.type(recipes.editor.load, "load_percent", "8")
    page: PlanPage = hands.page("pour_plan")
    hands.press(page.make_first)
    QTest.keyClick(opened(page.lines.table), Qt.Key.Key_Escape)
    QApplication.processEvents()
    hands.rows(page.lines.table, [{"what": "Fig", "vessel": "Tumbler", "count": "6"}])
    return page


def said(page: PlanPage) -> str:
    return plain(" ".join(page.findings.sentences))


def add_pot(hands: Hands, brim: str, empty: str) -> None:
    section = hands.page("equipment").sections["pot"]
    hands.press(section.list.make_first)
    hands.fill(
        section.editor.form,
        {"name": "Pitcher", "brim_ml": brim, "safe_fill_percent": "75", "empty_g": empty},
    )


def add_scale(hands: Hands, maximum: str) -> None:
    section = hands.page("equipment").sections["scale"]
    hands.press(section.list.make_first)
    hands.fill(section.editor.form, {"name": "Scale", "maximum_g": maximum, "step_g": "1 g"})


def test_without_pot_scale_and_density_a_plan_says_what_to_enter(
    hands: Hands, plan: PlanPage
) -> None:
    words = said(plan)
    assert "No pot is entered" in words
    assert "No scale is entered" in words
    assert "Fig & cedar has no density" in words
    # Each finding about equipment leads there.
    assert plan.print_sheets.isVisible()
    assert hands.window.menus.actions["undo"].isEnabled()


def test_plans_larger_than_the_pots_and_pots_heavier_than_the_scale_are_told(
    hands: Hands, plan: PlanPage
) -> None:
    add_scale(hands, "1 kg")
    add_pot(hands, "700 ml", "1.4 kg")
    plan = hands.page("pour_plan")
    # 6 × about 160 g do not go into 75 % of 700 mL at once.
    assert "Pitcher is filled" in said(plan)
    assert len([card for card in plan.cards if not card.isHidden()]) >= 2
    assert "Pitcher weighs 1400 g" in said(plan)
    assert "the largest scale carries 1000 g" in said(plan)
    section = hands.page("equipment").sections["pot"]
    hands.type(section.editor.form, "brim_ml", "150 ml")
    plan = hands.page("pour_plan")
    assert "Use a larger pot" in said(plan)
    assert plan.plan is not None
    assert [line.count for line in plan.plan.lines] == [6]


# -- labels that cannot be -----------------------------------------------------------------------
@pytest.fixture
def labels(hands: Hands) -> LabelsPage:
    """A sheet of 3 × 7 and one label on it."""
    page: LabelsPage = hands.page("labels")
    box = page.run.panel.sheet_box
    hands.press(box.new_sheet)
    hands.type(box.name_form, "page", "A4")
    measures = {
        "columns": "3", "rows": "7", "sticker_w_mm": "62", "sticker_h_mm": "36", "left_mm": "9",
        "top_mm": "12.5", "pitch_x_mm": "65", "pitch_y_mm": "39.5",
    }  # fmt: skip
    for name, text in measures.items():
        hands.type(box.across if name in box.across.fields else box.down, name, text)
    hands.begin_label(page.run.panel.new_label, "hush")
    page.tabs.setCurrentIndex(0)
    QApplication.processEvents()
    hands.cell(page.run.panel.lines, 0, "label_id", "Hush")
    return page


def test_stickers_that_overlap_or_leave_the_page_stop_the_print(
    hands: Hands, labels: LabelsPage
) -> None:
    box = labels.run.panel.sheet_box
    for name, typed, words, well in (
        ("pitch_x_mm", "60", "they overlap. Measure from left edge to left edge.", "65"),
        ("pitch_y_mm", "35", "they overlap. Measure from top edge to top edge.", "39.5"),
        ("columns", "4", "over the right edge of the page", "3"),
        ("rows", "8", "over the bottom edge of the page", "7"),
    ):
        form = box.across if name in box.across.fields else box.down
        assert labels.export.isEnabled(), labels.run.panel.findings.sentences
        hands.type(form, name, typed)
        assert words in " ".join(box.findings.sentences)
        assert words in " ".join(labels.run.panel.findings.sentences)
        assert not labels.export.isEnabled(), name
        assert not labels.print_button.isEnabled(), name
        hands.type(form, name, well)
    assert labels.export.isEnabled()


def test_a_damaged_picture_is_told_and_the_label_stays(
    hands: Hands, labels: LabelsPage, ask: Answers, tmp_path: Path
) -> None:
    labels.tabs.setCurrentIndex(1)
    QApplication.processEvents()
    hands.pick(labels.editor.elements.add.menu(), "Picture")
    before = hands.dump()
    for content in (b"", b"\x89PNG\r\n\x1a\nnot really", b"GIF89a", b"\xff\xd8\xff\xe0broken"):
        ask.path = tmp_path / "picture.png"
        ask.path.write_bytes(content)
        hands.press(labels.element_panel.choose_picture)
        assert ask.told.pop().startswith("This picture is damaged or of an unknown kind.")
    ask.path = tmp_path / "gone.png"
    hands.press(labels.element_panel.choose_picture)
    assert ask.told.pop().endswith(".")
    assert hands.dump() == before


def test_letters_that_no_typeface_has_are_named(hands: Hands, labels: LabelsPage) -> None:
    labels.tabs.setCurrentIndex(1)
    labels.editor.elements.choose(1)
    QApplication.processEvents()
    field = labels.element_panel.forms["text"].fields["text"]
    assert isinstance(field, NoteField)
    # U+0378 is not assigned in Unicode: no typeface on any machine has it or lends it.
    hands.write(field, "Feige \u0378")
    words = " ".join(labels.editor.look.findings.sentences)
    assert "has no letters for:" in words
    assert "\u0378" in words
    labels.tabs.setCurrentIndex(0)
    QApplication.processEvents()
    assert "has no letters for:" in " ".join(labels.run.panel.findings.sentences)


# -- files ---------------------------------------------------------------------------------------
def test_a_paper_that_cannot_be_written_is_told_and_all_stays(
    hands: Hands, labels: LabelsPage, ask: Answers, tmp_path: Path
) -> None:
    before = hands.dump(journalled=False)
    ask.path = tmp_path / "no such folder" / "labels.pdf"
    hands.press(labels.export)
    assert len(ask.told) == 1
    assert hands.dump(journalled=False) == before
    assert hands.window.workspace is not None
    ask.path = tmp_path / "labels.pdf"
    hands.press(labels.export)
    assert len(ask.told) == 1
    assert ask.path.exists()


def test_unticked_boxes_and_lists_take_no_nonsense(hands: Hands) -> None:
    """What is no list entry leaves a list as it was; a box is ticked or not."""
    vessels = hands.dock("vessels")
    hands.press(vessels.editor_pane.first)
    field = vessels.editor.outside.fields["lid_id"]
    combo = field.editor
    assert isinstance(combo, QComboBox)
    combo.setFocus()
    QTest.keyClicks(combo, "no such lid")
    QTest.keyClick(combo, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert field.text() == ""
    box = vessels.editor.first.fields["candle_rated"]
    assert isinstance(box, YesNoField)
    assert box.text() == "0"
