"""The card of a pot: the same widgets for every card, boxes to tick, a pot drawn as full."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor

from wickbench.app.plan_cards import Card, CardLine
from wickbench.app.texts import Texts
from wickbench.gui.plan.pot_card import PotCardView
from wickbench.gui.plan.pot_drawing import PotDrawing
from wickbench.gui.theme import LIGHT, qt_palette

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

WAX = CardLine(
    name="Meadow soy", amount="2775 g", other="6 lb 1.9 oz", scale="Bench, reads to 1 g",
    when="heat to 82 °C · 180 °F",
)  # fmt: skip
OIL = CardLine(
    name="Bramble", amount="155.4 g", other="5.48 oz", scale="Small, reads to 0.1 g",
    when="add at 77 °C · 171 °F, stir 2 min",
)  # fmt: skip
POT = Card(
    title="Bramble · pot 1 of 2", lot="26-332-A1", state="planned",
    total="2930 g in Tall pitcher, 83 % of its safe fill", fill_ratio=0.83, over=False,
    lines=(WAX, OIL), facts=("Load 8 % of wax", "Left over 30.4 g"), fills=("14 × Jar, 212.1 g",),
)  # fmt: skip


@pytest.fixture
def view(qtbot: QtBot) -> PotCardView:
    made = PotCardView(Texts())
    qtbot.addWidget(made)
    made.resize(900, 400)
    made.show_card(POT)
    made.show()
    return made


def shown(view: PotCardView) -> list[str]:
    return [figure.text() for figure in view.figures()]


def test_a_card_says_lot_fills_and_what_to_weigh(view: PotCardView) -> None:
    assert view.title.text() == "Bramble · pot 1 of 2 · 26-332-A1"
    assert view.fills.text() == "Fills 14 × Jar, 212.1 g"
    assert shown(view) == ["2775 g", "155.4 g"]
    assert view.rows[1].when.text() == OIL.when
    assert "Meadow soy, 2775 g" in view.accessibleName()


def test_another_card_is_shown_in_the_same_widgets(view: PotCardView) -> None:
    rows = list(view.rows)
    view.show_card(replace(POT, lines=(replace(WAX, amount="2800 g"),)))
    assert view.rows == rows
    assert shown(view) == ["2800 g"]
    assert rows[1].isHidden()
    view.show_card(POT)
    assert view.rows == rows
    assert shown(view) == ["2775 g", "155.4 g"]


def test_a_tick_stays_with_its_pot_and_material(qtbot: QtBot, view: PotCardView) -> None:
    box = view.rows[0].done
    assert box.accessibleName() == "Meadow soy is weighed"
    box.setFocus()
    qtbot.keyClick(box, Qt.Key.Key_Space)
    assert box.isChecked()
    view.show_card(replace(POT, lines=(replace(WAX, amount="2800 g"), OIL)))
    assert [row.done.isChecked() for row in view.rows] == [True, False]
    view.show_card(replace(POT, title="Bramble · pot 2 of 2", lot="26-332-A2"))
    assert [row.done.isChecked() for row in view.rows] == [False, False]
    view.show_card(POT)
    assert [row.done.isChecked() for row in view.rows] == [True, False]


def test_what_was_weighed_at_the_bench_is_ticked_and_cannot_be_unticked(view: PotCardView) -> None:
    view.show_card(replace(POT, state="open", lines=(replace(WAX, weighed="2779 g"), OIL)))
    assert shown(view) == ["2779 g", "155.4 g"]
    assert view.rows[0].done.isChecked()
    assert not view.rows[0].done.isEnabled()
    assert view.rows[1].done.isEnabled()


def test_figures_stand_under_each_other(view: PotCardView) -> None:
    rights = {figure.mapTo(view, figure.rect().topRight()).x() for figure in view.figures()}
    assert len(rights) == 1


@pytest.mark.parametrize("width", [420, 900])
def test_nothing_is_cut_where_it_is_narrow(qtbot: QtBot, view: PotCardView, width: int) -> None:
    view.resize(width, view.heightForWidth(width))
    qtbot.wait(1)
    for row in view.rows:
        for one in (row.name, row.scale, row.amount, row.other, row.when):
            assert one.mapTo(view, one.rect().topRight()).x() <= width - 8, one.text()
            assert one.height() >= one.heightForWidth(one.width()) - 1, one.text()


def wax_rows(drawing: PotDrawing) -> int:
    """Rows of pixels in the middle of the pot that show mix."""
    picture = drawing.grab().toImage()
    wash, x = QColor(LIGHT.wash), picture.width() // 2 - 8
    return sum(picture.pixelColor(x, y) == wash for y in range(picture.height()))


def test_the_drawn_pot_is_as_full_as_the_mix_makes_it(qtbot: QtBot) -> None:
    drawing = PotDrawing()
    qtbot.addWidget(drawing)
    drawing.setPalette(qt_palette(LIGHT))
    drawing.resize(drawing.sizeHint())
    heights = {}
    for ratio in (None, 0.25, 0.5, 1.0):
        drawing.show_fill(ratio, "a pot", over=False)
        heights[ratio] = wax_rows(drawing)
    assert heights[None] == 0
    assert heights[0.5] == pytest.approx(2 * heights[0.25], abs=3)
    assert heights[1.0] == pytest.approx(2 * heights[0.5], abs=4)
    assert drawing.accessibleName() == "a pot"
