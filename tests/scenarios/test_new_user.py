"""A candle maker's first day: from an empty workshop to printed labels, by the window alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pdfplumber
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox

from scenarios.hands import Hands, opened, plain
from scenarios.paper_checks import check_cautions, check_labels, check_weigh_sheets
from wickbench.app.pour_session import load_session
from wickbench.domain.bench_outcome import outcome
from wickbench.gui.bench.bench_page import BenchPage
from wickbench.gui.labels.calibration_dialog import CalibrationDialog

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from gui.conftest import Answers, StandingClock
    from wickbench.gui.labels.labels_page import LabelsPage
    from wickbench.gui.main_window import MainWindow
    from wickbench.gui.plan.plan_page import PlanPage
    from wickbench.gui.tables.table_view import TableView

# Measures of our own: three columns of seven on A4 and 24 circles on Letter.
THREE_BY_SEVEN = {
    "name": "Kraft three by seven", "page": "A4", "columns": "3", "rows": "7",
    "sticker_w_mm": "62 mm", "sticker_h_mm": "36 mm", "left_mm": "9 mm", "top_mm": "12.5 mm",
    "pitch_x_mm": "65 mm", "pitch_y_mm": "39.5 mm",
}  # fmt: skip
CIRCLES = {
    "name": "Rounds, four by six", "page": "Letter", "shape": "circle", "columns": "4", "rows": "6",
    "sticker_w_mm": "42 mm", "sticker_h_mm": "42 mm", "left_mm": "12 mm", "top_mm": "9 mm",
    "pitch_x_mm": "50 mm", "pitch_y_mm": "44 mm",
}  # fmt: skip
# Height, inner diameter at base and brim, fill line, and three jars: empty, filled, water at 20 °C.
LOTS = ["26-329-A1", "26-329-A2"]  # 25 November is day 329 of 2026
JARS = [("212.4", "412.9"), ("209.8", "411.1"), ("214.1", "415.0")]


# -- what is done, in its order ------------------------------------------------------------------
def enter_materials(hands: Hands) -> None:
    """One wax and one oil, each with what was bought, and the wick of the jar."""
    dock = hands.dock("materials")
    for kind, names, details, bought in (
        ("Wax", {"name": "Meadow soy", "supplier": "Hill farm"},
         {"wax_class": "soy, container", "max_load_percent": "10 %"}, ("20 kg", "130")),
        ("Fragrance oil", {"name": "Fig & cedar"},
         {"flash_c": "93 °C", "ifra_12_percent": "12 %", "density_g_per_ml": "0.97"},
         ("1 kg", "62.50")),
    ):  # fmt: skip
        hands.new(dock, kind)
        editor = dock.material_editor
        hands.fill(editor.names, names)
        hands.fill(editor.details, details)
        hands.press(editor.stock.bought)
        form = editor.stock.form
        for name, text in (("quantity", bought[0]), ("paid_money", bought[1])):
            field = form.fields[name]
            field.editor.setFocus()
            QTest.keyClicks(field.editor, text)
        hands.press(form.accept)
    hands.new(dock, "Wick")
    hands.fill(dock.material_editor.names, {"name": "Flat braid 9"})
    hands.fill(dock.material_editor.details, {"wick_kind": "cotton", "trim_mm": "6 mm"})


def enter_equipment(hands: Hands) -> None:
    """Two scales and one pot, as there are in most kitchens."""
    page = hands.page("equipment")
    for kind, pieces in {
        "scale": [
            {"name": "Bench scale", "maximum_g": "6 kg", "step_g": "1 g"},
            {"name": "Fine scale", "maximum_g": "500 g", "step_g": "0.1 g"},
        ],
        "pot": [
            {"name": "Tall pitcher", "brim_ml": "4 l", "safe_fill_percent": "75",
             "empty_g": "420 g"},
        ],
    }.items():  # fmt: skip
        section = page.sections[kind]
        for piece in pieces:
            hands.press(section.list.make_first if section.record is None else section.new)
            hands.fill(section.editor.form, piece)


def enter_vessels(hands: Hands) -> None:
    """A jar of which three were weighed with water, and a tin that was measured with a ruler."""
    dock = hands.dock("vessels")
    assert dock.editor_pane is not None
    hands.press(dock.editor_pane.first)
    jar = dock.editor
    hands.fill(
        jar.first,
        {"name": "Amber tumbler", "glass": "glass", "height_mm": "85 mm", "fill_mm": "66 mm"},
    )
    hands.rows(
        jar.diameters.table,
        [{"height_mm": "0", "diameter_mm": "58 mm"}, {"height_mm": "85", "diameter_mm": "68 mm"}],
    )
    hands.rows(
        jar.line.table,
        [{"empty_g": empty, "filled_g": filled, "water_c": "20 °C"} for empty, filled in JARS],
    )
    hands.fill(jar.outside, {"base_mm": "64 mm"})
    hands.new(dock)
    tin = dock.editor
    hands.fill(
        tin.first,
        {"name": "Travel tin", "vessel_kind": "tin", "glass": "metal", "height_mm": "45 mm",
         "fill_mm": "38 mm"},
    )  # fmt: skip
    hands.rows(
        tin.diameters.table,
        [{"height_mm": "0", "diameter_mm": "62 mm"}, {"height_mm": "45", "diameter_mm": "62 mm"}],
    )
    hands.fill(tin.outside, {"base_mm": "60 mm"})


def write_recipe(hands: Hands) -> None:
    """Eight percent of wax, for sale."""
    dock = hands.dock("recipes")
    assert dock.editor_pane is not None
    hands.press(dock.editor_pane.first)
    editor = dock.editor
    hands.fill(editor.names, {"name": "Fig & cedar"})
    hands.rows(editor.wax.table, [{"item_id": "Meadow", "parts": "1"}])
    hands.rows(editor.fragrance.table, [{"item_id": "Fig", "parts": "1"}])
    hands.fill(editor.load, {"load_basis": "of wax", "load_percent": "8 %"})
    hands.choose(editor.versions.state, "for sale")


def make_candle(hands: Hands) -> None:
    """The jar as it is sold, so that labels have something to say."""
    dock = hands.dock("recipes")
    hands.press(dock.editor.versions.candle)
    page = hands.page("candles")
    hands.fill(page.editor.first, {"name": "Fig & cedar, tumbler", "vessel_id": "Amber tumbler"})
    hands.type_in(page.editor.wicks.fields[0], "Flat braid 9")
    hands.press(page.editor.weight.take)
    hands.fill(page.editor.sold, {"identity": "Scented soy candle"})


def plan_pour(hands: Hands) -> PlanPage:
    """Eighteen jars and twelve tins."""
    page: PlanPage = hands.page("pour_plan")
    hands.press(page.make_first)
    QTest.keyClick(opened(page.lines.table), Qt.Key.Key_Escape)
    QApplication.processEvents()
    hands.rows(
        page.lines.table,
        [
            {"what": "Fig & cedar, tumbler", "count": "18"},
            {"what": "Recipe: Fig & cedar", "vessel": "Travel tin", "count": "12"},
        ],
    )
    return page


def pour_everything(hands: Hands, plan: PlanPage) -> float:
    """The bench to its end; twenty grams too much wax go into the first pot.

    Returns:
        the load of that pot as percent of wax, from what was weighed.
    """
    hands.press(plan.start)
    bench = hands.window.workbench
    assert bench is not None
    page = bench.pages["bench"]
    assert isinstance(page, BenchPage)
    assert page.isVisible()
    over = asked_g(page) + 20
    hands.clock.wait(5)
    QTest.keyClicks(page.step.weight, f"{over:g} g")
    QTest.keyClick(page.step.weight, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert page.step.follows.text(), "says what follows from too much wax"
    first = page.view.pot if page.view else None
    while page.view is not None and page.view.phase != "done":
        if page.view.phase == "weigh":
            hands.clock.wait(5)
            QTest.keyClick(page.step.weight, Qt.Key.Key_Space)
            QApplication.processEvents()
        else:
            hands.press(page.fills.finish)
    assert page.to_labels.isVisible()  # the next step is offered
    assert page.session is not None
    assert first is not None
    assert [pot.lot_code for pot in page.session.pots] == LOTS
    weighed = outcome(page.session.state.pots[first])
    assert weighed.wax_g == over
    return 100 * weighed.oil_g / weighed.wax_g


def asked_g(page: BenchPage) -> float:
    """The grams that stand large on the bench."""
    return float(plain(page.step.amount.text()).split()[0])


def tell_business(hands: Hands) -> None:
    """What law wants on labels; settings are not undone with the work."""
    page = hands.page("business")
    hands.fill(
        page.form,
        {"business_name": "Tallow & Tide", "business_street": "3 Quay Row",
         "business_city": "Saltby", "business_postcode": "00000"},
    )  # fmt: skip


def enter_sheet(hands: Hands, page: LabelsPage, measures: dict[str, str]) -> None:
    """A sticker sheet by its measures."""
    box = page.run.panel.sheet_box
    hands.press(box.new_sheet)
    for name, text in measures.items():
        form = next(one for one in (box.name_form, box.across, box.down) if name in one.fields)
        hands.type(form, name, text)
    assert box.findings.sentences == ["The measures fit the page."]


def run_line(hands: Hands, page: LabelsPage, design: tuple[str, str], count: str) -> None:
    """Begin a design, put it onto the sheet for the candle."""
    starting, name = design
    hands.begin_label(page.run.panel.new_label, starting)
    page.tabs.setCurrentIndex(0)
    QApplication.processEvents()
    at = len(page.run.panel.model.rows)
    for key, text in (("label_id", name), ("candle_id", "Fig & cedar, tumbler"),
                      ("count", count)):  # fmt: skip
        hands.cell(page.run.panel.lines, at, key, text)


def lay_out_labels(hands: Hands) -> None:
    """Labels on the sheet of 3 × 7 with its first four stickers gone."""
    page: LabelsPage = hands.page("labels")
    enter_sheet(hands, page, THREE_BY_SEVEN)
    run_line(hands, page, ("hush", "Hush"), "10")
    assert offered(hands, page.run.panel.lines, 0, "lot_code") == ["–", LOTS[1], LOTS[0]]
    hands.cell(page.run.panel.lines, 0, "lot_code", LOTS[0])
    hands.type_in(page.run.panel.used, "4")
    assert page.run.panel.used.trouble.sentence == ""
    assert plain(page.run.panel.counts.text()) == "10 stickers on 1 sheet, 7 stay free"


def offered(hands: Hands, table: TableView, row: int, key: str) -> list[str]:
    """What a cell offers to choose; it is closed again."""
    hands.open_cell(table, row, key)
    combo = opened(table)
    assert isinstance(combo, QComboBox)
    shown = [combo.itemText(at) for at in range(combo.count())]
    QTest.keyClick(combo, Qt.Key.Key_Escape)
    QApplication.processEvents()
    return shown


def lay_out_cautions(hands: Hands) -> None:
    """Caution stickers in a print run of their own, on 24 circles."""
    page: LabelsPage = hands.page("labels")
    hands.press(page.run.panel.new_run)
    enter_sheet(hands, page, CIRCLES)
    run_line(hands, page, ("caution", "Caution sticker"), "24")


# -- what came of it -----------------------------------------------------------------------------
# -- the day -------------------------------------------------------------------------------------
def test_the_first_day_of_a_candle_maker(
    hands: Hands, ask: Answers, tmp_path: Path, new_window: Callable[[], MainWindow],
    clock: StandingClock,
) -> None:  # fmt: skip
    tell_business(hands)
    empty = hands.dump()
    assert not any(empty.values())
    enter_materials(hands)
    enter_equipment(hands)
    enter_vessels(hands)
    write_recipe(hands)
    make_candle(hands)
    plan = plan_pour(hands)
    assert plan.totals.values["Candles"].startswith("30 candles")
    ask.path = tmp_path / "sheets.pdf"
    hands.press(plan.print_sheets)
    check_weigh_sheets(plan, ask.path)
    load = pour_everything(hands, plan)
    assert load == pytest.approx(8.0, abs=0.01)  # the load is kept whatever was over-poured
    lay_out_labels(hands)
    lay_out_cautions(hands)
    write_papers(hands, ask, tmp_path)
    assert ask.told == []

    done, printed = hands.dump(), prints(hands)
    assert len(printed) == 2
    acts = hands.undo_everything()
    assert hands.dump() == empty
    assert prints(hands) == printed  # what left the house is known whatever is undone
    assert hands.redo_everything() == acts
    assert hands.dump() == done
    assert ask.told == []
    kept = hands.dump(journalled=False)
    hands.window.menus.actions["close_workshop"].trigger()
    again = Hands(new_window(), clock)
    ask.path = tmp_path / "workshop.wickbench"
    again.window.menus.actions["open_file"].trigger()
    QApplication.processEvents()
    assert again.dump(journalled=False) == kept
    assert again.window.workspace is not None
    assert load_session(again.window.workspace, 1) is not None
    for key in ("pour_plan", "bench", "candles", "labels", "equipment", "business", "settings"):
        again.page(key)


def prints(hands: Hands) -> list[dict[str, object]]:
    """What was printed or exported so far."""
    return hands.dump(journalled=False)["print_record"]


def write_papers(hands: Hands, ask: Answers, folder: Path) -> None:
    """Every PDF by its button, read back."""
    ask.path = folder / "card.pdf"
    vessels = hands.dock("vessels")
    vessels.list_pane.table.go_to(vessels.list_pane.model.rows[0].id)
    hands.press(vessels.editor.card)
    with pdfplumber.open(ask.path) as pdf:
        words = plain(pdf.pages[0].extract_text())
    assert all(reading in words for reading in ("Amber tumbler", "212.4", "412.9", "20 °C"))
    labels: LabelsPage = hands.page("labels")
    hands.choose(labels.run.panel.runs, "Print run 2")
    ask.path = folder / "cautions.pdf"
    hands.press(labels.export)
    check_cautions(ask.path)
    hands.choose(labels.run.panel.runs, "Print run 1")
    ask.path = folder / "proof.pdf"
    hands.press(labels.proof)
    ask.path = folder / "labels.pdf"
    hands.press(labels.export)
    check_labels(ask.path, LOTS[0])
    hands.press(labels.run.panel.position)
    ask.path = folder / "calibration.pdf"
    dialog = labels.findChild(CalibrationDialog)
    assert dialog is not None
    hands.press(dialog.page_button)
    hands.press(dialog.close_button)
    with pdfplumber.open(ask.path) as pdf:
        assert len(pdf.pages) == 1
