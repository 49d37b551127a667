"""The label worked on by hand and by key, in the real window over a real file."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton

from app.label_workshop import fill_workshop
from wickbench.app.label_arranging import paste_elements, remove_elements
from wickbench.app.label_store import stored_label
from wickbench.app.labels import new_label
from wickbench.domain.labels import LabelDesign, LineElement, PictogramElement, TextElement
from wickbench.gui.fields.note_field import NoteField
from wickbench.gui.labels.canvas import marks
from wickbench.gui.labels.labels_page import LABELS, LabelsPage

if TYPE_CHECKING:
    from collections.abc import Callable

    from gui.conftest import StandingClock
    from wickbench.app.workspace import Workspace
    from wickbench.gui.labels.canvas.label_canvas import LabelCanvas
    from wickbench.gui.main_window import MainWindow

LEFT = Qt.MouseButton.LeftButton
NONE = Qt.KeyboardModifier.NoModifier
SHIFT, CTRL, ALT = (
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.AltModifier,
)
PLACES = [(6.0, 5.0, 10.0, 6.0), (25.0, 7.0, 10.0, 6.0), (44.0, 20.0, 10.0, 6.0)]


@pytest.fixture
def page(window: MainWindow) -> LabelsPage:
    assert window.workbench is not None
    shown = window.workbench.show_page("labels")
    assert isinstance(shown, LabelsPage)
    return shown


@pytest.fixture
def shop(window: MainWindow) -> Workspace:
    assert window.workspace is not None
    return window.workspace


@pytest.fixture
def canvas(page: LabelsPage, shop: Workspace) -> LabelCanvas:
    """A label of 62 × 36 mm with three texts side by side."""
    fill_workshop(shop)
    label = new_label(shop, "hush")
    remove_elements(shop, label, range(len(stored_label(shop, label).design.elements)))
    texts = [
        TextElement(x_mm=x, y_mm=y, w_mm=w, h_mm=h, text=f"Text {n}")
        for n, (x, y, w, h) in enumerate(PLACES)
    ]
    paste_elements(shop, label, texts, by_mm=(0.0, 0.0))
    page.tabs.setCurrentIndex(LABELS)
    page.editor.show_label(label)
    QApplication.processEvents()
    return page.editor.look.preview


@pytest.fixture
def design(page: LabelsPage, shop: Workspace) -> Callable[[], LabelDesign]:
    def read() -> LabelDesign:
        assert page.editor.label_id is not None
        return stored_label(shop, page.editor.label_id).design

    return read


def at(canvas: LabelCanvas, x: float, y: float) -> QPoint:
    return canvas.scale.to_widget(x, y).toPoint()


def drag(canvas: LabelCanvas, start: QPoint, end: QPoint, keys: Qt.KeyboardModifier = NONE) -> None:
    QTest.mousePress(canvas, LEFT, keys, start)
    middle = QPoint((start.x() + end.x()) // 2, (start.y() + end.y()) // 2)
    for place in (middle, end):
        QTest.mouseMove(canvas, place)
        move(canvas, place, keys)
    QTest.mouseRelease(canvas, LEFT, keys, end)
    QApplication.processEvents()


def move(canvas: LabelCanvas, place: QPoint, keys: Qt.KeyboardModifier) -> None:
    """A move with the button down, which QTest cannot send with keys held."""
    from PySide6.QtCore import QEvent
    from PySide6.QtGui import QMouseEvent

    spot = QPointF(place)
    QApplication.sendEvent(
        canvas, QMouseEvent(QEvent.Type.MouseMove, spot, canvas.mapToGlobal(spot), LEFT, LEFT, keys)
    )


def click(canvas: LabelCanvas, x: float, y: float, keys: Qt.KeyboardModifier = NONE) -> None:
    QTest.mouseClick(canvas, LEFT, keys, at(canvas, x, y))


def grip(canvas: LabelCanvas, name: str) -> QPoint:
    one = canvas.elements[canvas.chosen[0]]
    if name == "turn":
        return marks.turn_handle(canvas.scale, one).toPoint()
    return marks.handles_of(one, canvas.scale)[name].toPoint()


def test_a_text_is_drawn_to_another_place_and_undone_in_one_step(
    canvas: LabelCanvas, shop: Workspace, design: Callable[[], LabelDesign]
) -> None:
    drag(canvas, at(canvas, 11, 8), at(canvas, 21, 23.3), ALT)
    one = design().elements[0]
    per_pixel = 1 / canvas.scale.per_mm
    assert (one.x_mm, one.y_mm) == pytest.approx((16.0, 20.3), abs=2 * per_pixel)
    assert canvas.chosen == (0,)
    shop.undo()
    assert design().elements[0].x_mm == 6.0


def test_a_small_tremble_moves_nothing(
    canvas: LabelCanvas, design: Callable[[], LabelDesign]
) -> None:
    before = design()
    start = at(canvas, 11, 8)
    drag(canvas, start, start + QPoint(2, 1))
    assert design() == before


def test_what_is_moved_snaps_to_its_neighbour(
    canvas: LabelCanvas, design: Callable[[], LabelDesign]
) -> None:
    # Half a millimetre beside the top edge of the second text, it jumps onto that edge.
    drag(canvas, at(canvas, 11, 8), at(canvas, 11, 9.6))
    assert design().elements[0].y_mm == pytest.approx(7.0)


def test_shift_keeps_to_one_axis(canvas: LabelCanvas, design: Callable[[], LabelDesign]) -> None:
    click(canvas, 11, 8)
    start, end = at(canvas, 11, 8), at(canvas, 23, 11)
    QTest.mousePress(canvas, LEFT, NONE, start)
    for place in (start + QPoint(8, 1), end):
        move(canvas, place, SHIFT | ALT)
    QTest.mouseRelease(canvas, LEFT, SHIFT | ALT, end)
    one = design().elements[0]
    assert one.y_mm == 5.0
    assert one.x_mm == pytest.approx(18.0, abs=2 / canvas.scale.per_mm)


def test_a_corner_sizes_and_the_handle_above_turns_in_steps(
    canvas: LabelCanvas, shop: Workspace, design: Callable[[], LabelDesign]
) -> None:
    click(canvas, 11, 8)
    drag(canvas, grip(canvas, "se"), at(canvas, 21, 17), ALT)
    one = design().elements[0]
    assert (one.x_mm, one.y_mm) == (6.0, 5.0)
    assert (one.w_mm, one.h_mm) == pytest.approx((15.0, 12.0), abs=2 / canvas.scale.per_mm)
    drag(canvas, grip(canvas, "turn"), at(canvas, 40, one.y_mm + one.h_mm / 2 + 0.3))
    assert design().elements[0].turn_deg == 90.0
    shop.undo()
    shop.undo()
    assert design().elements[0].w_mm == 10.0


def test_a_band_and_clicks_with_shift_choose_several(canvas: LabelCanvas, page: LabelsPage) -> None:
    drag(canvas, at(canvas, 2.5, 2.5), at(canvas, 37, 15))
    assert canvas.chosen == (0, 1)
    assert page.editor.at is None
    click(canvas, 49, 23, SHIFT)
    assert canvas.chosen == (0, 1, 2)
    click(canvas, 30, 10, SHIFT)
    assert canvas.chosen == (0, 2)
    click(canvas, 20, 30)
    assert canvas.chosen == ()


def test_everything_by_keys(
    canvas: LabelCanvas, shop: Workspace, clock: StandingClock, design: Callable[[], LabelDesign]
) -> None:
    canvas.setFocus()
    QTest.keyClick(canvas, Qt.Key.Key_PageDown)
    assert canvas.chosen == (0,)
    QTest.keyClick(canvas, Qt.Key.Key_Right)
    QTest.keyClick(canvas, Qt.Key.Key_Down, SHIFT)
    assert (design().elements[0].x_mm, design().elements[0].y_mm) == pytest.approx((6.5, 5.1))
    clock.wait(5)
    QTest.keyClick(canvas, Qt.Key.Key_Right, CTRL)
    assert design().elements[0].w_mm == pytest.approx(10.5)
    QTest.keyClick(canvas, Qt.Key.Key_BracketRight)
    assert design().elements[0].turn_deg == 15.0
    QTest.keyClick(canvas, Qt.Key.Key_A, CTRL)
    assert canvas.chosen == (0, 1, 2)
    QTest.keyClick(canvas, Qt.Key.Key_G, CTRL)
    assert len({one.group for one in design().elements}) == 1
    QTest.keyClick(canvas, Qt.Key.Key_Delete)
    assert design().elements == ()
    shop.undo()
    assert len(design().elements) == 3


def test_a_group_moves_as_one(canvas: LabelCanvas, design: Callable[[], LabelDesign]) -> None:
    canvas.setFocus()
    click(canvas, 11, 8)
    click(canvas, 49, 23, SHIFT)
    QTest.keyClick(canvas, Qt.Key.Key_G, CTRL)
    click(canvas, 20, 31)
    click(canvas, 49, 23)
    assert canvas.chosen == (0, 2)
    QTest.keyClick(canvas, Qt.Key.Key_Left)
    assert [one.x_mm for one in design().elements] == [5.5, 25.0, 43.5]


def test_copies_go_through_the_clipboard_also_as_plain_text(
    canvas: LabelCanvas, page: LabelsPage, design: Callable[[], LabelDesign]
) -> None:
    canvas.setFocus()
    click(canvas, 11, 8)
    QTest.keyClick(canvas, Qt.Key.Key_C, CTRL)
    QTest.keyClick(canvas, Qt.Key.Key_V, CTRL)
    assert canvas.chosen == (3,)
    assert (design().elements[3].x_mm, design().elements[3].y_mm) == (8.0, 7.0)
    QGuiApplication.clipboard().setText("From elsewhere")
    QTest.keyClick(canvas, Qt.Key.Key_V, CTRL)
    pasted = design().elements[4]
    assert isinstance(pasted, TextElement)
    assert pasted.text == "From elsewhere"
    QTest.keyClick(canvas, Qt.Key.Key_D, CTRL)
    assert len(design().elements) == 6
    QGuiApplication.clipboard().clear()
    assert page.editor.elements.at == 5


def test_escape_lets_go_without_a_change(
    canvas: LabelCanvas, design: Callable[[], LabelDesign]
) -> None:
    before, start = design(), at(canvas, 11, 8)
    QTest.mousePress(canvas, LEFT, NONE, start)
    move(canvas, start + QPoint(60, 40), NONE)
    QTest.keyClick(canvas, Qt.Key.Key_Escape)
    QTest.mouseRelease(canvas, LEFT, NONE, start + QPoint(60, 40))
    assert design() == before
    assert canvas.elements == before.elements


def test_a_finding_leads_to_what_it_is_about(canvas: LabelCanvas, page: LabelsPage) -> None:
    click(canvas, 49, 23)
    drag(canvas, at(canvas, 49, 23), at(canvas, 66, 23), ALT)
    click(canvas, 5, 33)
    assert canvas.chosen == ()
    leads = page.editor.look.findings.findChildren(QPushButton)
    (lead,) = [one for one in leads if one.accessibleName().startswith("Show where: Text runs")]
    QTest.mouseClick(lead, LEFT)
    assert canvas.chosen == (2,)
    assert canvas.hasFocus()


def test_a_double_click_or_enter_goes_to_the_words(canvas: LabelCanvas, page: LabelsPage) -> None:
    QTest.mouseDClick(canvas, LEFT, NONE, at(canvas, 31, 10))
    field = page.element_panel.forms["text"].fields["text"]
    assert isinstance(field, NoteField)
    assert field.note.hasFocus()
    assert field.note.textCursor().selectedText() == "Text 1"
    canvas.setFocus()
    QTest.keyClick(canvas, Qt.Key.Key_Return)
    assert field.note.hasFocus()


def test_the_menu_offers_what_can_be_done(canvas: LabelCanvas, page: LabelsPage) -> None:
    acts = page.editor.look.acts
    acts.enable()
    assert not acts.actions["align_left"].isEnabled()
    assert acts.actions["all"].isEnabled()
    click(canvas, 11, 8)
    assert acts.actions["align_left"].isEnabled()
    assert not acts.actions["space_across"].isEnabled()
    assert not acts.actions["ungroup"].isEnabled()
    acts.actions["all"].trigger()
    assert acts.actions["space_across"].isEnabled()


def test_the_wheel_with_ctrl_zooms_about_the_pointer(canvas: LabelCanvas) -> None:
    before, spot = canvas.scale.per_mm, QPointF(at(canvas, 31, 18))
    canvas.zoom_to(before * 2, spot)
    assert canvas.scale.to_widget(31, 18).x() == pytest.approx(spot.x(), abs=1)
    canvas.fit()
    assert canvas.scale.per_mm == pytest.approx(before)
    canvas.real_size()
    assert canvas.scale.per_mm == pytest.approx(canvas.physicalDpiX() / 25.4)


def test_a_line_without_height_has_two_handles(canvas: LabelCanvas) -> None:
    line = LineElement(x_mm=5, y_mm=5, w_mm=30, h_mm=0)
    assert set(marks.handles_of(line, canvas.scale)) == {"w", "e"}


def test_what_each_thing_is_called_is_never_cut_in_their_list(
    page: LabelsPage, canvas: LabelCanvas, shop: Workspace
) -> None:
    assert page.editor.label_id is not None
    assert len(canvas.elements) == 3
    long = TextElement(x_mm=2, y_mm=2, w_mm=9, h_mm=5, text="a long text " * 20)
    drawing = PictogramElement(x_mm=2, y_mm=9, w_mm=6, h_mm=6)
    paste_elements(shop, page.editor.label_id, [long, drawing], by_mm=(0.0, 0.0))
    QApplication.processEvents()
    table = page.editor.elements.table
    assert table.columnWidth(0) >= table.fontMetrics().horizontalAdvance("Caution drawing")
