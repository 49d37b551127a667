"""The form of what is chosen on a label, by mouse and by keys in the real window."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QAction
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit

from app.label_workshop import fill_workshop
from documents.samples import png
from wickbench.app import labels
from wickbench.app.label_store import stored_label
from wickbench.documents.label_draws import PathDraw
from wickbench.documents.ornaments import GROUPS, ornament_names
from wickbench.gui.labels.labels_page import LABELS, LabelsPage

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from gui.conftest import Answers, StandingClock
    from wickbench.app.workspace import Workspace
    from wickbench.gui.labels.element_panel import ElementPanel


@pytest.fixture
def shop(workspace: Workspace) -> Workspace:
    return workspace


@pytest.fixture
def page(qapp: QApplication, workspace: Workspace, ask: Answers) -> Iterator[LabelsPage]:
    """The page alone, as large as in the window."""
    fill_workshop(workspace)
    label = labels.new_label(workspace, "hush")
    made = LabelsPage(workspace, ask)
    made.resize(1440, 900)
    made.show()
    made.show_record(label)
    made.activateWindow()
    assert QTest.qWaitForWindowActive(made)
    assert made.tabs.currentIndex() == LABELS
    yield made
    made.release()
    made.close()
    made.deleteLater()
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def add(page: LabelsPage, kind: str) -> ElementPanel:
    """Add something by the menu, as a person does."""
    menu = page.editor.elements.add.menu()
    action = next(one for one in menu.actions() if one.objectName() == f"add_{kind}")
    action.trigger()
    QApplication.processEvents()
    return page.element_panel


def chosen(page: LabelsPage, shop: Workspace) -> Any:  # noqa: ANN401 - any element
    assert page.editor.label_id is not None
    at = page.editor.at
    assert at is not None
    return stored_label(shop, page.editor.label_id).design.elements[at]


def drawn(page: LabelsPage) -> tuple[object, ...]:
    laid, at = page.editor.look.preview.laid, page.editor.at
    assert laid is not None
    assert at is not None
    return tuple(laid.draws_of(at))


def type_into(panel: ElementPanel, kind: str, name: str, text: str, clock: StandingClock) -> None:
    line = panel.forms[kind].fields[name].editor
    assert isinstance(line, QLineEdit)
    clock.wait(5)
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, text)
    QTest.keyClick(line, Qt.Key.Key_Return)
    QApplication.processEvents()


def choose(panel: ElementPanel, kind: str, name: str, word: str) -> None:
    field: Any = panel.forms[kind].fields[name]
    at = field.combo.findData(word)
    field.combo.setCurrentIndex(at)
    field.combo.activated.emit(at)
    QApplication.processEvents()


def by_picture(page: LabelsPage, shop: Workspace) -> None:
    panel = add(page, "ornament")
    swatches = panel.drawings.swatches
    assert swatches.isVisible()
    assert swatches.keys() == ornament_names("leaves")
    item = swatches.item(swatches.keys().index("fern"))
    place = swatches.visualItemRect(item).center()
    QTest.mouseClick(swatches.viewport(), Qt.MouseButton.LeftButton, pos=place)
    QApplication.processEvents()
    assert chosen(page, shop).ornament == "fern"
    assert panel.drawings.name.text() == "Fern"
    shop.undo()
    QApplication.processEvents()
    assert chosen(page, shop).ornament == "sprig"


def by_keys(page: LabelsPage, shop: Workspace) -> None:
    panel = add(page, "ornament")
    swatches = panel.drawings.swatches
    before = drawn(page)
    swatches.setFocus()
    QTest.keyClick(swatches, Qt.Key.Key_Right)
    assert chosen(page, shop).ornament == "sprig"
    assert drawn(page) != before
    QTest.keyClick(swatches, Qt.Key.Key_Escape)
    assert drawn(page) == before
    QTest.keyClick(swatches, Qt.Key.Key_Right)
    QTest.keyClick(swatches, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert chosen(page, shop).ornament == "leaf-pair"


def every_group(page: LabelsPage) -> None:
    panel = add(page, "ornament")
    swatches = panel.drawings.swatches
    seen: list[str] = []
    for group in GROUPS:
        at = panel.drawings.group.combo.findData(group)
        panel.drawings.group.combo.setCurrentIndex(at)
        panel.drawings.group.combo.activated.emit(at)
        seen += swatches.keys()
        for row in range(swatches.count()):
            item = swatches.item(row)
            assert item.data(Qt.ItemDataRole.AccessibleTextRole)
            picture = item.icon().pixmap(40, 40).toImage()
            inked = sum(picture.pixelColor(x, y).alpha() > 40 for x in range(40) for y in range(40))
            assert inked > 20
        last = swatches.visualItemRect(swatches.item(swatches.count() - 1))
        assert swatches.viewport().rect().contains(last.center())  # no scrolling inside
    assert tuple(seen) == ornament_names()


def caution_drawing(page: LabelsPage, shop: Workspace) -> None:
    panel = add(page, "pictogram")
    assert not panel.drawings.group.isVisible()
    swatches = panel.drawings.swatches
    item = swatches.item(swatches.keys().index("trim-wick"))
    swatches.itemClicked.emit(item)
    QApplication.processEvents()
    assert chosen(page, shop).pictogram == "trim-wick"
    assert min(chosen(page, shop).w_mm, chosen(page, shop).h_mm) >= 5.0


def facts_in_order(page: LabelsPage, shop: Workspace, clock: StandingClock) -> None:
    facts = add(page, "facts").facts
    assert facts.list.isVisible()
    assert facts.facts() == chosen(page, shop).facts
    row = next(at for at in range(facts.list.count()) if facts.list.item(at).text() == "Fragrance")
    facts.list.setFocus()
    facts.list.setCurrentRow(row)
    QTest.keyClick(facts.list, Qt.Key.Key_Space)
    QApplication.processEvents()
    assert chosen(page, shop).facts[-1] == "fragrance"
    clock.wait(5)
    facts.list.setCurrentRow(1)
    assert facts.earlier.isEnabled()
    QTest.keyClick(facts.list, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    QApplication.processEvents()
    assert chosen(page, shop).facts[:2] == ("lot", "net_weight")
    assert facts.list.currentRow() == 0
    assert not facts.earlier.isEnabled()
    clock.wait(5)
    facts.later.click()
    QApplication.processEvents()
    assert chosen(page, shop).facts[:2] == ("net_weight", "lot")
    shop.undo()
    QApplication.processEvents()
    assert facts.facts()[:2] == ("lot", "net_weight")


def facts_in_the_form(page: LabelsPage, shop: Workspace, clock: StandingClock) -> None:
    panel = add(page, "facts")
    rules = [one for one in drawn(page) if isinstance(one, PathDraw)]
    assert rules
    panel.forms["facts"].fields["rules"].editor.click()  # type: ignore[attr-defined]
    QApplication.processEvents()
    assert not [one for one in drawn(page) if isinstance(one, PathDraw)]
    type_into(panel, "facts", "size_pt", "6", clock)
    choose(panel, "facts", "align", "right")
    now = chosen(page, shop)
    assert (now.size_pt, now.align, now.rules) == (6.0, "right", False)


def named_style(page: LabelsPage, shop: Workspace) -> None:
    panel = add(page, "text")
    menu = panel.type_style.menu()
    action = next(one for one in menu.actions() if one.objectName() == "style_title")
    action.trigger()
    QApplication.processEvents()
    styled = chosen(page, shop)
    assert (styled.size_pt, styled.family) == (18.0, "Source Serif Pro")
    form = panel.forms["text"]
    assert form.fields["size_pt"].text() == "18"
    shop.undo()
    QApplication.processEvents()
    assert chosen(page, shop).size_pt == 10.0


def corners_of_a_frame(page: LabelsPage, shop: Workspace, clock: StandingClock) -> None:
    panel = add(page, "frame")
    form = panel.forms["frame"]
    assert not form.fields["corners"].isVisible()
    choose(panel, "frame", "figure", "rounded")
    assert form.fields["corners"].isVisible()
    choose(panel, "frame", "corners", "hollow")
    type_into(panel, "frame", "second_mm", "1", clock)
    now = chosen(page, shop)
    assert (now.corners, now.second_mm) == ("hollow", 1.0)
    assert len(drawn(page)) == 2


def svg_picture(page: LabelsPage, ask: Answers, tmp_path: Path, clock: StandingClock) -> None:
    panel = add(page, "picture")
    assert not panel.forms["picture"].fields["ink"].isVisible()
    ask.path = tmp_path / "moon.svg"
    ask.path.write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 10"><circle cx="5" cy="5" r="4"/>'
        '<text x="9" y="9">MOON</text></svg>',
        encoding="utf-8",
    )
    panel.choose_picture.click()
    QApplication.processEvents()
    assert ask.told == []
    assert [type(one) for one in drawn(page)] == [PathDraw]
    said = [one.text() for one in page.editor.look.findings.findChildren(QLabel)]
    assert any(one.startswith("Letters in this drawing are left out") for one in said)
    assert panel.forms["picture"].fields["ink"].isVisible()
    type_into(panel, "picture", "ink", "#884400", clock)
    assert getattr(drawn(page)[0], "fill", "") == "#884400"
    ask.path.write_text("<svg><g>", encoding="utf-8")
    panel.choose_picture.click()
    assert len(ask.told) == 1
    assert "plain SVG" in ask.told[0]


def picture_cut(
    page: LabelsPage, shop: Workspace, ask: Answers, tmp_path: Path, clock: StandingClock
) -> None:
    panel = add(page, "picture")
    assert not panel.crop.isVisible()
    ask.path = tmp_path / "pear.png"
    ask.path.write_bytes(png(400, 200))
    panel.choose_picture.click()
    QApplication.processEvents()
    crop = panel.crop
    assert crop.isVisible()
    whole = crop.whole
    edge = QPoint(round(whole.left()), round(whole.center().y()))
    quarter = QPoint(round(whole.left() + whole.width() / 4), edge.y())
    QTest.mousePress(crop, Qt.MouseButton.LeftButton, pos=edge)
    QTest.mouseMove(crop, quarter)
    assert chosen(page, shop).crop_left == 0.0
    QTest.mouseRelease(crop, Qt.MouseButton.LeftButton, pos=quarter)
    QApplication.processEvents()
    assert chosen(page, shop).crop_left == pytest.approx(0.25, abs=0.01)
    type_into(panel, "picture", "crop_right", "30", clock)
    assert chosen(page, shop).crop_right == pytest.approx(0.3)
    assert crop.seen.right() == pytest.approx(whole.right() - 0.3 * whole.width(), abs=1.0)
    type_into(panel, "picture", "crop_right", "90", clock)
    assert chosen(page, shop).crop_right == pytest.approx(0.3)
    assert panel.forms["picture"].fields["crop_right"].trouble.sentence
    shop.undo()
    shop.undo()
    QApplication.processEvents()
    assert chosen(page, shop).crop_left == 0.0


def menu_of_inks(page: LabelsPage, shop: Workspace, clock: StandingClock) -> None:
    panel = add(page, "ornament")
    assert panel.choose_colour.isVisible()
    ink(panel, "colour_2f4a35")
    assert chosen(page, shop).colour == "#2f4a35"
    panel = add(page, "frame")
    ink(panel, "fill_f4e8d0")
    assert chosen(page, shop).fill == "#f4e8d0"
    assert panel.forms["frame"].fields["fill"].text() == "#f4e8d0"
    clock.wait(5)
    ink(panel, "fill_none")
    assert chosen(page, shop).fill == ""
    shop.undo()
    QApplication.processEvents()
    assert chosen(page, shop).fill == "#f4e8d0"
    assert not add(page, "picture").choose_colour.isVisible()


def ink(panel: ElementPanel, name: str) -> None:
    """Choose by the menu, whichever part of it that stands in."""
    found = panel.colours.findChild(QAction, name)
    assert isinstance(found, QAction)
    found.trigger()
    QApplication.processEvents()


def told_in_the_list(page: LabelsPage) -> None:
    add(page, "ornament")
    model = page.editor.elements.model
    last = model.rowCount() - 1
    assert [model.index(last, column).data() for column in range(2)] == ["Ornament", "Sprig"]


def test_drawings_are_chosen_by_their_pictures(page: LabelsPage, shop: Workspace) -> None:
    """By mouse and by keys; every one has a picture and a name."""
    by_picture(page, shop)
    by_keys(page, shop)
    told_in_the_list(page)
    every_group(page)
    caution_drawing(page, shop)


def test_facts_texts_and_frames_are_set_in_their_forms(
    page: LabelsPage, shop: Workspace, clock: StandingClock
) -> None:
    """Each act is one step for undo."""
    for step in (facts_in_order, facts_in_the_form, corners_of_a_frame, menu_of_inks):
        step(page, shop, clock)
        clock.wait(5)
    named_style(page, shop)


def test_pictures_are_chosen_coloured_and_cut(
    page: LabelsPage, shop: Workspace, ask: Answers, tmp_path: Path, clock: StandingClock
) -> None:
    """Drawings become paths; what is left out is told; edges are cut by hand and by typing."""
    svg_picture(page, ask, tmp_path, clock)
    clock.wait(5)
    ask.told.clear()
    picture_cut(page, shop, ask, tmp_path, clock)
