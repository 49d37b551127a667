"""A text bent and a wrap worked on in the real window: what is seen at once, and undone at once."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtWidgets import QApplication

from app.label_workshop import fill_workshop
from wickbench.app.label_arranging import paste_elements, remove_elements
from wickbench.app.label_store import stored_label
from wickbench.app.labels import change_design, new_label
from wickbench.documents.label_draws import CurvedDraw, TextDraw
from wickbench.domain.labels import TextElement
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.labels.labels_page import LABELS, LabelsPage

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace
    from wickbench.gui.main_window import MainWindow


@pytest.fixture
def shop(window: MainWindow) -> Workspace:
    assert window.workspace is not None
    fill_workshop(window.workspace)
    return window.workspace


@pytest.fixture
def label(shop: Workspace) -> int:
    """A label of 62 × 36 mm with one line of text."""
    made = new_label(shop, "hush")
    remove_elements(shop, made, range(len(stored_label(shop, made).design.elements)))
    line = TextElement(x_mm=11, y_mm=5, w_mm=40, h_mm=6, text="Round the top")
    paste_elements(shop, made, [line], by_mm=(0.0, 0.0))
    return made


@pytest.fixture
def page(window: MainWindow, label: int) -> LabelsPage:
    assert window.workbench is not None
    shown = window.workbench.show_page("labels")
    assert isinstance(shown, LabelsPage)
    shown.tabs.setCurrentIndex(LABELS)
    shown.editor.show_label(label, 0)
    QApplication.processEvents()
    return shown


def choose(page: LabelsPage, name: str, word: str) -> None:
    field = page.element_panel.forms["text"].fields[name]
    assert isinstance(field, ChoiceField)
    field.combo.setCurrentIndex(field.combo.findData(word))
    field.combo.activated.emit(field.combo.currentIndex())
    QApplication.processEvents()


def test_a_text_is_bent_on_the_canvas_and_undone_and_a_wrap_is_worked_on_flat(
    page: LabelsPage, shop: Workspace, label: int
) -> None:
    bend_and_undo(page, shop, label)
    work_on_a_wrap(page, shop, label)


def bend_and_undo(page: LabelsPage, shop: Workspace, label: int) -> None:
    canvas, form = page.editor.look.preview, page.element_panel.forms["text"]
    assert canvas.laid is not None
    assert isinstance(canvas.laid.draws[0], TextDraw)
    assert form.fields["wrap"].isVisibleTo(form)
    choose(page, "curve", "over")
    bent = stored_label(shop, label).design.elements[0]
    assert isinstance(bent, TextElement)
    assert (bent.curve, bent.w_mm, bent.h_mm) == ("over", 32, 32)
    assert isinstance(canvas.laid.draws[0], CurvedDraw)
    assert not form.fields["wrap"].isVisibleTo(form)
    assert not form.fields["vertical"].isVisibleTo(form)
    shop.undo()
    QApplication.processEvents()
    straight = stored_label(shop, label).design.elements[0]
    assert isinstance(straight, TextElement)
    assert (straight.curve, straight.w_mm, straight.h_mm) == ("", 40, 6)
    assert form.fields["wrap"].isVisibleTo(form)


def work_on_a_wrap(page: LabelsPage, shop: Workspace, label: int) -> None:
    change_design(shop, label, {"shape": "wrap", "wrap_bottom_mm": 60.0, "wrap_top_mm": 72.0})
    QApplication.processEvents()
    canvas = page.editor.look.preview
    assert canvas.laid is not None
    assert canvas.laid.bent is not None
    image = canvas.grab().toImage()
    place = canvas.scale.to_widget(31.0, 18.0).toPoint()
    corners = [canvas.scale.to_widget(x, y).toPoint() for x in (1.0, 61.0) for y in (1.0, 35.0)]
    # The rectangle itself is paper, also in its corners: the bent one would have left two free.
    ratio = image.devicePixelRatio()
    seen = {image.pixelColor(int(p.x() * ratio), int(p.y() * ratio)).name() for p in corners}
    middle = image.pixelColor(int(place.x() * ratio), int(place.y() * ratio)).name()
    assert seen == {middle}
