"""Choosing a starting design with the eyes: each as it would look, in the workshop's own words."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QDialog,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from wickbench.app.starting_choices import KINDS, begin, made_for, not_measured, offer
from wickbench.app.texts_marker import N_
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.labels.gallery_tile import DesignTile
from wickbench.gui.labels.papers import paper_colour
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from PySide6.QtCore import QPoint
    from PySide6.QtGui import QResizeEvent, QShowEvent

    from wickbench.app.starting_choices import MadeFor, Offered
    from wickbench.gui.labels.desk import Desk

_SIZE: Final = (940, 700)
_TILE_WIDE: Final = 190
_SAME_ROW: Final = 4
_PAPERS: Final = (("white", N_("white")), ("kraft", N_("kraft")))


class Gallery(QDialog):
    """All starting designs; pressing one begins the label.

    Attributes:
        tiles: from first to last.

    Signals:
        begun: key of the label begun.
        measure_requested: key of a vessel whose outside is to be measured first.
    """

    begun = Signal(int)
    measure_requested = Signal(int)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._columns = 0
        texts = desk.workspace.texts
        self.setWindowTitle(texts("New label"))
        known = made_for(desk.workspace, desk.shelf, desk.run.sheet_id)
        self._known = {one.key: one for one in known}
        self.what = ChoiceField(texts("Made for"), [(one.key, one.words) for one in known])
        self.paper = ChoiceField(texts("Paper"), [(word, texts(said)) for word, said in _PAPERS])
        self.area = QScrollArea()
        self.close_button = button(texts("Cancel"))
        self.unmeasured = label("", "quiet")
        self.measure = button(texts("Measure it"), "flat")
        self._missing = not_measured(desk.shelf)
        self._ground = QWidget()
        self._grid = QGridLayout(self._ground)
        self._headings = {kind: heading(texts(words)) for kind, words in KINDS}
        self.what.show_stored(known[0].key)
        self.paper.show_stored(self._usual_paper())
        self.tiles = [self._tile(one) for one in self._offered()]
        self._lay_out()
        self._connect()
        name_attributes(self)
        self.resize(*_SIZE)

    def _tile(self, offered: Offered) -> DesignTile:
        tile = DesignTile(offered)
        tile.clicked.connect(partial(self._begin, offered.starting))
        tile.moved.connect(partial(self._go, tile))
        tile.reached.connect(partial(self._bring, tile))
        return tile

    def _lay_out(self) -> None:
        texts = self._desk.workspace.texts
        set_look(self._ground, "ground")
        self._grid.setContentsMargins(24, 8, 24, 16)
        self._grid.setSpacing(12)
        self.area.setWidget(self._ground)
        self.area.setWidgetResizable(True)
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 16, 0, 12)
        top = QHBoxLayout()
        top.setContentsMargins(24, 0, 24, 0)
        top.setSpacing(12)
        for words, asked, share in ((N_("Made for"), self.what, 3), (N_("Paper"), self.paper, 1)):
            part = QVBoxLayout()
            part.setSpacing(4)
            part.addWidget(label(texts(words), "quiet"))
            part.addWidget(asked)
            top.addLayout(part, share)
        box.addLayout(top)
        box.addLayout(self._measure_line())
        box.addWidget(self.area, 1)
        below = QHBoxLayout()
        below.setContentsMargins(24, 0, 24, 0)
        below.addWidget(label(texts("Press a design to begin. Everything on it can be changed."),
                              "quiet"), 1)  # fmt: skip
        below.addWidget(self.close_button)
        box.addLayout(below)

    def _measure_line(self) -> QHBoxLayout:
        """Which vessels are not offered, and the way to measure the first of them."""
        line = QHBoxLayout()
        line.setContentsMargins(24, 0, 24, 0)
        said = N_("To make a label for {vessels}, measure the outside first.")
        names = tuple(one.name for one in self._missing)
        self.unmeasured.setText(self._desk.workspace.texts(said, vessels=names))
        line.addWidget(self.unmeasured, 1)
        line.addWidget(self.measure)
        for one in (self.unmeasured, self.measure):
            one.setVisible(bool(self._missing))
        return line

    def _connect(self) -> None:
        self.measure.clicked.connect(self._ask_to_measure)
        self.what.committed.connect(self._change_what)
        self.paper.committed.connect(self._change_paper)
        self.close_button.clicked.connect(self.reject)

    # -- showing ---------------------------------------------------------------------------------
    @property
    def chosen_for(self) -> MadeFor:
        """What the label is made for."""
        return self._known[self.what.text()]

    def _usual_paper(self) -> str:
        return "kraft" if self.chosen_for.kraft else "white"

    def _offered(self) -> tuple[Offered, ...]:
        desk = self._desk
        return offer(desk.workspace, desk.maker, desk.shelf, self.chosen_for)

    def _change_what(self, word: str) -> None:
        self.what.show_stored(word)
        self.paper.show_stored(self._usual_paper())
        self._show()

    def _change_paper(self, word: str) -> None:
        self.paper.show_stored(word)
        self._show()

    def _show(self) -> None:
        paper = paper_colour(kraft=self.paper.text() == "kraft")
        for tile, offered in zip(self.tiles, self._offered(), strict=True):
            tile.show_design(offered, paper)
            tile.setVisible(offered.made is not None or bool(offered.trouble))
        for kind, titled in self._headings.items():
            titled.setVisible(
                any(one.isVisibleTo(self._ground) for one in self.tiles if one.offered.kind == kind)
            )

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._show()
        self._arrange()
        self.tiles[0].setFocus(Qt.FocusReason.TabFocusReason)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        """Tiles in rows under the heading of their kind, as many abreast as there is room for."""
        margins = self._grid.contentsMargins()
        room = self.width() - margins.left() - margins.right() - 16
        columns = max(1, (room + self._grid.spacing()) // (_TILE_WIDE + self._grid.spacing()))
        if columns == self._columns:
            return
        self._columns = columns
        row = 0
        for kind, titled in self._headings.items():
            self._grid.addWidget(titled, row, 0, 1, columns)
            row += 1
            for at, tile in enumerate([one for one in self.tiles if one.offered.kind == kind]):
                self._grid.addWidget(tile, row + at // columns, at % columns)
            row += -(-sum(one.offered.kind == kind for one in self.tiles) // columns)
        for column in range(self._grid.columnCount()):
            self._grid.setColumnStretch(column, 1 if column < columns else 0)

    def _bring(self, tile: DesignTile) -> None:
        self.area.ensureWidgetVisible(tile, 0, 24)

    def _go(self, tile: DesignTile, across: int, down: int) -> None:
        """The tile beside, above or below by where they lie."""
        here = _middle(tile)
        if across:
            at = self.tiles.index(tile) + across
            aim = self.tiles[at] if 0 <= at < len(self.tiles) else tile
        else:
            rows = [
                one for one in self.tiles if (one.geometry().center() - here).y() * down > _SAME_ROW
            ]
            aim = min(
                rows,
                key=lambda one: (
                    abs(_middle(one).y() - here.y()),
                    abs(_middle(one).x() - here.x()),
                ),
                default=tile,
            )
        aim.setFocus(Qt.FocusReason.TabFocusReason)

    # -- doing -----------------------------------------------------------------------------------
    def _ask_to_measure(self) -> None:
        self.reject()
        self.measure_requested.emit(self._missing[0].id)

    def _begin(self, starting: str) -> None:
        key = begin(self._desk.workspace, starting, self.chosen_for)
        self.accept()
        self.begun.emit(key)


def _middle(tile: DesignTile) -> QPoint:
    return tile.geometry().center()
