"""Guides drawn out of the rulers of the canvas, in the real window over a real file."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QApplication

from gui.test_label_canvas import at, canvas, click, design, drag, page, shop
from wickbench.app.label_guides import label_guides
from wickbench.app.label_store import stored_label
from wickbench.app.labels import freeze
from wickbench.domain.guides import Guide

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtGui import QColor

    from wickbench.app.workspace import Workspace
    from wickbench.domain.labels import LabelDesign
    from wickbench.gui.labels.canvas.label_canvas import LabelCanvas
    from wickbench.gui.labels.labels_page import LabelsPage

__all__ = ["canvas", "design", "page", "shop"]

IN_TOP, IN_LEFT = QPoint(200, 6), QPoint(6, 120)


def upright(mm: float) -> Guide:
    return Guide(upright=True, at_mm=mm)


def level(mm: float) -> Guide:
    return Guide(upright=False, at_mm=mm)


@pytest.fixture
def laid(page: LabelsPage, shop: Workspace) -> Callable[[], tuple[Guide, ...]]:
    def read() -> tuple[Guide, ...]:
        assert page.editor.label_id is not None
        return label_guides(shop, page.editor.label_id)

    return read


def test_the_left_ruler_gives_upright_guides_and_the_top_one_level_guides(
    canvas: LabelCanvas, laid: Callable[[], tuple[Guide, ...]], shop: Workspace
) -> None:
    drag(canvas, IN_LEFT, at(canvas, 12.1, 10.0))
    drag(canvas, IN_TOP, at(canvas, 30.0, 17.9))
    assert laid() == (level(18.0), upright(12.0))
    assert canvas.guide_hand.guides == laid()
    shop.undo()
    assert laid() == (upright(12.0),)
    assert canvas.guide_hand.guides == laid()


def test_a_guide_is_moved_by_its_mark_and_thrown_back_into_its_ruler(
    canvas: LabelCanvas, laid: Callable[[], tuple[Guide, ...]]
) -> None:
    drag(canvas, IN_LEFT, at(canvas, 12.0, 10.0))
    mark = QPoint(at(canvas, 12.0, 0.0).x(), 18)
    drag(canvas, mark, QPoint(at(canvas, 40.0, 0.0).x(), 60))
    assert laid() == (upright(40.0),)
    mark = QPoint(at(canvas, 40.0, 0.0).x(), 18)
    drag(canvas, mark, QPoint(8, 60))
    assert laid() == ()


def test_what_is_moved_snaps_to_a_guide(
    canvas: LabelCanvas,
    laid: Callable[[], tuple[Guide, ...]],
    design: Callable[[], LabelDesign],
) -> None:
    drag(canvas, IN_LEFT, at(canvas, 17.5, 10.0))
    assert laid() == (upright(17.5),)
    start = at(canvas, 8.0, 8.0)
    # The left edge would come to 17.3; the guide draws it to 17.5.
    drag(canvas, start, start + QPoint(round(11.3 * canvas.scale.per_mm), 0))
    assert design().elements[0].x_mm == pytest.approx(17.5)


def test_a_guide_is_seen_across_the_label(
    canvas: LabelCanvas, laid: Callable[[], tuple[Guide, ...]]
) -> None:
    x = at(canvas, 38.0, 0.0).x()

    def column() -> list[QColor]:
        picture = canvas.grab().toImage()
        return [picture.pixelColor(x, y) for y in range(40, canvas.height() - 10)]

    bare = column()
    drag(canvas, IN_LEFT, at(canvas, 38.0, 10.0))
    assert laid() == (upright(38.0),)
    changed = sum(before != after for before, after in zip(bare, column(), strict=True))
    assert changed > len(bare) / 3


def test_by_keys_guides_go_along_what_is_chosen_and_away(
    page: LabelsPage, canvas: LabelCanvas, laid: Callable[[], tuple[Guide, ...]]
) -> None:
    acts = page.editor.look.acts.actions
    acts["guides_middle"].trigger()
    assert laid() == (level(18.0), upright(31.0))
    click(canvas, 8.0, 8.0)
    acts["guides_along"].trigger()
    assert set(laid()) == {
        level(18.0), upright(31.0), upright(6.0), upright(16.0), level(5.0), level(11.0),
    }  # fmt: skip
    acts["guides_away"].trigger()
    assert laid() == ()


def test_a_printed_label_takes_guides_without_becoming_a_new_version(
    page: LabelsPage,
    canvas: LabelCanvas,
    shop: Workspace,
    laid: Callable[[], tuple[Guide, ...]],
) -> None:
    key = page.editor.label_id
    assert key is not None
    with shop.step("Print") as connection:
        freeze(connection, [stored_label(shop, key)])
    QApplication.processEvents()
    drag(canvas, IN_LEFT, at(canvas, 20.0, 10.0))
    assert laid() == (upright(20.0),)
    assert stored_label(shop, key).number == 1
    assert stored_label(shop, key).frozen
