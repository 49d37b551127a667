"""The gallery of starting designs at a real window."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from wickbench.app import labels, shelf_edit
from wickbench.app.label_store import stored_labels
from wickbench.gui.labels.desk import Desk
from wickbench.gui.labels.gallery import Gallery
from wickbench.gui.labels.papers import KRAFT, WHITE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gui.conftest import StandingClock
    from wickbench.app.workspace import Workspace
    from wickbench.gui.labels.gallery_tile import DesignTile

SHEETS: tuple[dict[str, object], ...] = (
    {
        "page": "A4", "columns": 3, "rows": 7, "sticker_w_mm": 62.0, "sticker_h_mm": 36.0,
        "left_mm": 9.0, "top_mm": 12.5, "pitch_x_mm": 65.0, "pitch_y_mm": 39.5,
        "surface": "kraft",
    },
    {
        "page": "Letter", "columns": 4, "rows": 6, "sticker_w_mm": 42.0, "sticker_h_mm": 42.0,
        "left_mm": 12.0, "top_mm": 9.0, "pitch_x_mm": 50.0, "pitch_y_mm": 44.0, "shape": "circle",
    },
)  # fmt: skip


@pytest.fixture
def gallery(qapp: QApplication, workspace: Workspace) -> Iterator[Gallery]:
    """The gallery over two sheets, the kraft one in hand."""
    for name, measures in zip(("Brown", "Rounds"), SHEETS, strict=True):
        shelf_edit.new_item(workspace, "sheet", {"name": name}, measures)
    desk = Desk(workspace)
    desk.load()
    made = Gallery(desk)
    made.open()
    QApplication.processEvents()
    yield made
    made.close()
    made.deleteLater()
    qapp.sendPostedEvents(made, QEvent.Type.DeferredDelete)


def tile(gallery: Gallery, starting: str) -> DesignTile:
    (found,) = [one for one in gallery.tiles if one.offered.starting == starting]
    return found


def choose(gallery: Gallery, words: str) -> None:
    combo = gallery.what.combo
    (at,) = [at for at in range(combo.count()) if words in combo.itemText(at)]
    combo.setCurrentIndex(at)
    combo.activated.emit(at)
    QApplication.processEvents()


def share_of(tile: DesignTile, colour: str) -> float:
    """How much of a tile's picture has about this colour."""
    picture, wanted = tile.grab().toImage(), QColor(colour)
    hits = all_of = 0
    for x in range(0, picture.width(), 3):
        for y in range(0, 150, 3):
            seen = picture.pixelColor(x, y)
            near = max(
                abs(seen.red() - wanted.red()),
                abs(seen.green() - wanted.green()),
                abs(seen.blue() - wanted.blue()),
            )
            hits, all_of = hits + (near < 8), all_of + 1
    return hits / all_of


def test_designs_are_seen_on_the_sheets_paper_or_another(gallery: Gallery) -> None:
    choose(gallery, "Brown")
    hush = tile(gallery, "hush")
    assert hush.paper == KRAFT
    assert share_of(hush, KRAFT) > 0.3
    combo = gallery.paper.combo
    combo.setCurrentIndex(combo.findData("white"))
    combo.activated.emit(combo.currentIndex())
    assert hush.paper == WHITE
    assert share_of(hush, KRAFT) == 0.0


def test_another_sheet_gives_its_shape(gallery: Gallery) -> None:
    choose(gallery, "Rounds")
    for one in gallery.tiles:
        made = one.offered.made
        assert made is not None
        assert (made.laid.design.shape, made.laid.design.width_mm) == ("circle", 42.0)
    assert gallery.paper.text() == "white"


def test_each_tile_says_what_it_is_and_takes_the_keyboard(gallery: Gallery) -> None:
    names = [one.accessibleName() for one in gallery.tiles]
    assert len(set(names)) == len(names) >= 10
    for one in gallery.tiles:
        assert one.accessibleDescription()
        assert one.focusPolicy() & Qt.FocusPolicy.TabFocus
        assert one.objectName() == f"design_{one.offered.starting}"


def test_keys_lead_from_tile_to_tile_and_stop_at_the_ends(gallery: Gallery) -> None:
    gallery.activateWindow()
    first, last = gallery.tiles[0], gallery.tiles[-1]
    first.setFocus()
    QTest.keyClick(first, Qt.Key.Key_Left)
    assert gallery.focusWidget() is first
    QTest.keyClick(first, Qt.Key.Key_Up)
    assert gallery.focusWidget() is first
    last.setFocus()
    QTest.keyClick(last, Qt.Key.Key_Down)
    assert gallery.focusWidget() is last
    seen = gallery.area.viewport().rect()
    place = last.mapTo(gallery.area.viewport(), last.rect().center())
    assert seen.contains(place)


@pytest.mark.parametrize("size", [(560, 480), (940, 700), (1400, 900)])
def test_tiles_stand_side_by_side_without_sideways_scrolling(
    gallery: Gallery, size: tuple[int, int]
) -> None:
    gallery.resize(*size)
    QApplication.processEvents()
    QApplication.processEvents()
    shown = [one for one in gallery.tiles if one.isVisible()]
    for one in shown:
        right = one.mapTo(gallery, one.rect().topRight()).x()
        assert right <= gallery.width()
        assert one.width() >= one.minimumSizeHint().width()
    for at, one in enumerate(shown):
        assert not any(one.geometry().intersects(other.geometry()) for other in shown[at + 1 :])


def test_space_begins_the_label_and_escape_none(
    gallery: Gallery, workspace: Workspace, clock: StandingClock
) -> None:
    begun: list[int] = []
    gallery.begun.connect(begun.append)
    clock.wait(5)
    QTest.keyClick(tile(gallery, "crest"), Qt.Key.Key_Space)
    (label,) = stored_labels(workspace)
    assert begun == [label.id]
    assert label.name == "Crest"
    assert not gallery.isVisible()
    gallery.open()
    QTest.keyClick(gallery, Qt.Key.Key_Escape)
    assert not gallery.isVisible()
    assert len(stored_labels(workspace)) == 1
    labels.remove_label(workspace, label.id)
