"""A label fitted to its vessel and seen on it, in the real window over a real file."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QColor, QImage, QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QPushButton

from app.label_workshop import fill_workshop
from wickbench.app import print_runs, shelf_edit
from wickbench.app.label_store import stored_label
from wickbench.app.labels import change_design, new_label
from wickbench.domain.labels import FrameElement
from wickbench.gui.labels.gallery import Gallery
from wickbench.gui.labels.labels_page import LABELS, LabelsPage
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot

    from app.label_workshop import Kept
    from gui.conftest import Answers, StandingClock
    from wickbench.app.workspace import Workspace
    from wickbench.domain.labels import LabelDesign
    from wickbench.gui.labels.label_look import LabelLook

GLASS = {
    "vessel_kind": "jar", "glass": "glass", "outer_height_mm": 96.0, "outer_top_mm": 82.0,
    "outer_bottom_mm": 66.0, "straight_from_mm": 10.0, "straight_to_mm": 88.0, "height_mm": 90.0,
}  # fmt: skip
INSIDE = ((0.0, 60.0), (90.0, 76.0))


@pytest.fixture
def shop(workspace: Workspace) -> Workspace:
    return workspace


@pytest.fixture
def kept(shop: Workspace) -> Kept:
    """A candle in a tapered glass, a jar label and a print run of it."""
    found = fill_workshop(shop)
    glass = shelf_edit.new_item(shop, "vessel", {"name": "Tapered glass"}, GLASS)
    with shop.step("Pour into the glass") as connection:
        for height, diameter in INSIDE:
            row = {"vessel_id": glass, "height_mm": height, "diameter_mm": diameter}
            records.insert(connection, "vessel_diameter", row)
        records.update(connection, "candle", found.bramble, {"vessel_id": glass})
    return found


@pytest.fixture
def page(qapp: QApplication, shop: Workspace, ask: Answers, kept: Kept) -> Iterator[LabelsPage]:
    """The page by itself, as the window shows it."""
    label = new_label(shop, "ember")
    run, _ = print_runs.add_line(
        shop, None, {"label_id": label, "candle_id": kept.bramble, "count": 2}
    )
    print_runs.choose_sheet(shop, run, kept.three_by_seven)
    made = LabelsPage(shop, ask)
    made.resize(1400, 860)
    made.show()
    made.tabs.setCurrentIndex(LABELS)
    made.editor.show_label(label)
    made.activateWindow()
    settle()
    yield made
    made.release()
    made.close()
    made.deleteLater()
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete)


@pytest.fixture
def look(page: LabelsPage, qtbot: QtBot) -> LabelLook:
    """The label as it is looked at, drawn on its vessel: that waits until nobody types."""
    found = page.editor.look
    qtbot.waitUntil(lambda: found.vessel_card.vessel.picture.front is not None)
    return found


def settle() -> None:
    for _ in range(4):
        QApplication.processEvents()


def design_of(page: LabelsPage, shop: Workspace) -> LabelDesign:
    assert page.editor.label_id is not None
    return stored_label(shop, page.editor.label_id).design


def choose(look: LabelLook, words: str) -> None:
    """Press an entry of the menu of sizes that fit."""
    found = [one for one in look.vessel_card.fit_menu.actions() if one.text().startswith(words)]
    assert len(found) == 1, [one.text() for one in look.vessel_card.fit_menu.actions()]
    found[0].trigger()
    settle()


def pixels(picture: QImage, colour: str) -> int:
    want = QColor(colour)
    return sum(
        abs(QColor(picture.pixel(x, y)).hue() - want.hue()) < 8
        and QColor(picture.pixel(x, y)).saturation() > 100
        for x in range(0, picture.width(), 3)
        for y in range(0, picture.height(), 3)
    )


def test_a_straight_label_is_told_and_one_press_curves_it(
    page: LabelsPage, shop: Workspace, look: LabelLook
) -> None:
    assert any("Tapered glass tapers" in one for one in look.findings.sentences)
    buttons = look.findings.findChildren(QPushButton)
    offered = [one for one in buttons if "curved wrap" in one.text()]
    assert len(offered) == 1
    QTest.mouseClick(offered[0], Qt.MouseButton.LeftButton)
    settle()
    design = design_of(page, shop)
    assert (design.shape, design.width_mm) == ("wrap", 62.0)
    assert not any("tapers" in one for one in look.findings.sentences)
    assert look.vessel_card.piece.isVisible()
    assert "curved piece" in look.vessel_card.piece_words.text()


def test_fitting_all_the_way_round_shows_the_strip_the_piece_and_the_vessel_and_is_undone(
    page: LabelsPage, shop: Workspace, look: LabelLook, qtbot: QtBot
) -> None:
    before = design_of(page, shop)
    assert look.vessel_card.fit.text() == "Fit to Tapered glass"
    choose(look, "All the way round")
    design = design_of(page, shop)
    around = math.pi * (66 + 16 * 49 / 96)  # by similar triangles, at the middle of 10 to 88 mm
    assert design.width_mm == pytest.approx(around + 5, abs=0.051)
    assert "what is hatched lies under its beginning" in look.size_words.text()
    words = look.vessel_card.vessel.words
    qtbot.waitUntil(lambda: words.text().startswith("The label covers 100 %"))
    shop.undo()
    settle()
    assert design_of(page, shop) == before


def test_arrow_keys_and_buttons_turn_the_vessel_until_its_back_is_seen(
    page: LabelsPage, look: LabelLook
) -> None:
    vessel = look.vessel_card.vessel
    assert vessel.picture.front is not None
    band = next(one for one in page.desk.labels[page.editor.label_id or 0].design.elements
                if isinstance(one, FrameElement) and one.fill)  # fmt: skip
    in_front = pixels(vessel.picture.grab().toImage(), band.fill)
    assert in_front > 100
    vessel.picture.setFocus()
    for _ in range(6):
        QTest.keyClick(vessel.picture, Qt.Key.Key_Right)
    assert vessel.turn_deg == 180.0
    assert pixels(vessel.picture.grab().toImage(), band.fill) == 0
    QTest.keyClick(vessel.picture, Qt.Key.Key_Left)
    assert vessel.turn_deg == 150.0
    QTest.mouseClick(vessel.face, Qt.MouseButton.LeftButton)
    assert (vessel.turn_deg, vessel.face.isEnabled()) == (0.0, False)
    QTest.mouseClick(vessel.turn_left, Qt.MouseButton.LeftButton)
    assert vessel.turn_deg == 330.0
    assert vessel.picture.accessibleDescription().count("Turned by 330°") == 1


def test_the_hand_turns_the_vessel(look: LabelLook) -> None:
    vessel = look.vessel_card.vessel
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    for kind, x in (
        (QEvent.Type.MouseButtonPress, 60.0),
        (QEvent.Type.MouseMove, 80.0),
        (QEvent.Type.MouseMove, 100.0),
        (QEvent.Type.MouseButtonRelease, 100.0),
        (QEvent.Type.MouseMove, 140.0),
    ):
        place = QPointF(x, 60.0)
        away = QPointF(vessel.picture.mapToGlobal(place))
        QApplication.sendEvent(vessel.picture, QMouseEvent(kind, place, away, left, left, none))
    assert vessel.turn_deg == pytest.approx(30.0)


def test_the_print_run_shows_the_label_on_its_vessel(page: LabelsPage) -> None:
    page.tabs.setCurrentIndex(0)
    settle()
    side = page.side_panel.vessel
    assert side.isVisible()
    assert side.picture.front is not None
    share = round(100 * 62 / (math.pi * (66 + 16 * 49 / 96)))  # by similar triangles
    assert f"covers {share} % of the way round" in side.words.text()


def test_the_chosen_line_of_a_run_shows_its_own_label(
    page: LabelsPage, shop: Workspace, kept: Kept
) -> None:
    wide = new_label(shop, "hush")
    change_design(shop, wide, {"width_mm": 93.2})
    run = page.desk.run_id
    line = {"label_id": wide, "candle_id": kept.bramble, "count": 1}
    _, second = print_runs.add_line(shop, run, line)
    page.tabs.setCurrentIndex(0)
    settle()
    page.run.panel.lines.go_to(second)
    settle()
    around = math.pi * (66 + 16 * 49 / 96)  # by similar triangles
    share = round(100 * 93.2 / around)
    assert f"covers {share} % of the way round" in page.side_panel.vessel.words.text()


def test_size_and_shape_are_typed_in_a_fold_that_stays_open(
    page: LabelsPage, shop: Workspace, clock: StandingClock
) -> None:
    fold = page.editor.shape_fold
    assert not page.editor.shape.isVisible()
    QTest.mouseClick(fold.header, Qt.MouseButton.LeftButton)
    assert page.editor.shape.isVisible()
    assert shop.services.user.text("label_folded") == "shape=open"
    shape = page.editor.shape.fields["shape"]
    at = shape.combo.findData("wrap")  # type: ignore[attr-defined]
    shape.combo.setCurrentIndex(at)  # type: ignore[attr-defined]
    shape.combo.activated.emit(at)  # type: ignore[attr-defined]
    settle()
    assert (design_of(page, shop).shape, design_of(page, shop).overlap_mm) == ("wrap", 5.0)
    for name, text in (("wrap_top_mm", "80.33"), ("wrap_bottom_mm", "68")):
        line = page.editor.shape.fields[name].editor
        assert isinstance(line, QLineEdit)
        assert line.isVisible()
        clock.wait(5)
        line.setFocus()
        line.selectAll()
        QTest.keyClicks(line, text)
        QTest.keyClick(line, Qt.Key.Key_Return)
        settle()
    design = design_of(page, shop)
    assert (design.wrap_top_mm, design.wrap_bottom_mm) == (80.33, 68.0)
    assert page.editor.look.vessel_card.piece.isVisible()


def test_an_unmeasured_vessel_is_not_guessed_but_led_to(
    page: LabelsPage, shop: Workspace, kept: Kept, qtbot: QtBot
) -> None:
    bowl = shelf_edit.new_item(shop, "vessel", {"name": "Bowl"}, {"vessel_kind": "cup"})
    with shop.step("Pour into the bowl") as connection:
        records.update(connection, "candle", kept.bramble, {"vessel_id": bowl})
    page.refresh(None)
    settle()
    card = page.editor.look.vessel_card
    assert not card.fit.isVisible()
    assert card.trouble.text().startswith("To fit a label to Bowl, measure first: outer diameter")
    with qtbot.waitSignal(page.go_requested) as led:
        QTest.mouseClick(card.measure, Qt.MouseButton.LeftButton)
    assert led.args == ["vessels", bowl]


def opened_gallery(page: LabelsPage) -> Gallery:
    page.begin_label()
    settle()
    (gallery,) = page.findChildren(Gallery)
    return gallery


@pytest.mark.parametrize(
    ("words", "share"), [("All round Tapered glass", None), ("On the front of Tapered glass", 0.4)]
)
def test_a_new_label_is_begun_from_a_vessel(
    page: LabelsPage, shop: Workspace, words: str, share: float | None
) -> None:
    gallery = opened_gallery(page)
    combo = gallery.what.combo
    at = combo.findText(words)
    combo.setCurrentIndex(at)
    combo.activated.emit(at)
    settle()
    tile = next(one for one in gallery.tiles if one.offered.starting == "ledger")
    QTest.mouseClick(tile, Qt.MouseButton.LeftButton)
    settle()
    design = design_of(page, shop)
    around = math.pi * (66 + 16 * 49 / 96)  # by similar triangles
    wide = around + 5 if share is None else share * around
    assert (design.shape, design.width_mm) == ("wrap", pytest.approx(wide, abs=0.051))
    assert design.wrap_top_mm == pytest.approx(80.33, abs=0.02)
    assert not [one for one in page.editor.look.findings.sentences if "Tapered glass" in one]


def test_a_vessel_that_is_not_measured_is_named_in_the_gallery_and_led_to(
    page: LabelsPage, shop: Workspace, qtbot: QtBot
) -> None:
    bowl = shelf_edit.new_item(shop, "vessel", {"name": "Bowl"}, {"vessel_kind": "cup"})
    page.refresh(None)
    gallery = opened_gallery(page)
    assert gallery.unmeasured.text() == "To make a label for Bowl, measure the outside first."
    assert gallery.what.combo.findText("All round Bowl") == -1
    with qtbot.waitSignal(page.go_requested) as led:
        QTest.mouseClick(gallery.measure, Qt.MouseButton.LeftButton)
    assert led.args == ["vessels", bowl]
