"""Beside the sheet: the caution sticker of the candle in hand, and its vessel."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from wickbench.app.candles import view_candle
from wickbench.app.caution_sticker import base_of
from wickbench.app.label_making import MadeLabel, design_for
from wickbench.app.label_on_vessel import label_on_vessel
from wickbench.app.label_paper import sheet_is_kraft
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.labels.caution_panel import REGION_WORDS
from wickbench.gui.labels.label_preview import LabelPreview
from wickbench.gui.labels.labelled_vessel import LabelledVessel
from wickbench.gui.labels.papers import paper_colour
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, card, heading, label

if TYPE_CHECKING:
    from wickbench.app.label_store import StoredLabel
    from wickbench.documents.label_layout import LaidOutLabel
    from wickbench.domain.catalog import Candle
    from wickbench.gui.labels.desk import Desk

_CAUTION_HEIGHT: Final = 200


class SidePanel(QWidget):
    """Caution sticker and vessel of one candle.

    Signals:
        edit_requested: key of the caution sticker to open.
        make_requested: there is no caution sticker yet; begin one.
    """

    edit_requested = Signal(int)
    make_requested = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._caution: StoredLabel | None = None
        self._trouble = ""
        texts = desk.workspace.texts
        self.caution_heading = heading(texts("Caution sticker"))
        self.caution = LabelPreview(texts("Caution sticker"), largest=5.0)
        self.caution.setFixedHeight(_CAUTION_HEIGHT)
        self.base_words = label("", "quiet")
        self.source = label("", "quiet")
        self.edit = button(texts("Change what it says"), "flat")
        self.make = button(texts("Begin a caution sticker"))
        self.vessel_heading = heading(texts("On the vessel"))
        self.vessel = LabelledVessel(texts)
        self.state = label("", "quiet")
        self._frame, inside = card()
        inside.addWidget(self.caution)
        self._lay_out()
        self.edit.clicked.connect(self._edit)
        self.make.clicked.connect(self.make_requested)
        name_attributes(self)

    def _lay_out(self) -> None:
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        box.addWidget(self.caution_heading)
        box.addWidget(self._frame)
        box.addWidget(self.base_words)
        box.addWidget(self.source)
        line = QHBoxLayout()
        line.addWidget(self.edit)
        line.addWidget(self.make)
        line.addStretch(1)
        box.addLayout(line)
        box.addWidget(self.vessel_heading)
        box.addWidget(self.vessel)
        box.addWidget(self.state)
        box.addStretch(1)

    def show_candle(self, candle: Candle | None, entry: int | None = None) -> None:
        """Show a candle's caution sticker, and its vessel with its label on it.

        Args:
            candle: in hand.
            entry: of the print run in hand, whose label is shown when it is a jar's.
        """
        self._caution, self._trouble = self._chosen(), ""
        made = self._made(candle)
        self.caution.show_label(made.laid if made is not None else None)
        self._frame.setVisible(made is not None)
        self.edit.setVisible(self._caution is not None)
        self.make.setVisible(self._caution is None)
        self._say_caution(made, candle)
        self._show_vessel(candle, entry)

    def _chosen(self) -> StoredLabel | None:
        """The caution sticker of the run, else any."""
        on_run = [self._desk.labels.get(line.label_id or 0) for line in self._desk.run.lines]
        every = [*on_run, *self._desk.offered_labels()]
        return next((one for one in every if one is not None and one.caution is not None), None)

    def _made(self, candle: Candle | None) -> MadeLabel | None:
        if self._caution is None or self._caution.caution is None:
            return None
        on_run = any(line.label_id == self._caution.id for line in self._desk.run.lines)
        design = design_for(self._caution, self._desk.sheet if on_run else None)
        try:
            wish, shelf = self._caution.caution, self._desk.shelf
            return self._desk.maker.caution(wish, design, shelf, candle)
        except DomainError as error:
            self._trouble = self._desk.workspace.texts.say(error)
            return None

    def _say_caution(self, made: MadeLabel | None, candle: Candle | None) -> None:
        texts = self._desk.workspace.texts
        self.base_words.setText(self._base_text(made, candle))
        self.base_words.setVisible(bool(self.base_words.text()))
        rule = made.caution.source if made is not None and made.caution is not None else None
        if rule is None or self._caution is None or self._caution.caution is None:
            self.source.setText(self._trouble)
            return
        region = self._caution.caution.region or next(iter(rule.regions))
        said = N_(
            "{region} · after {source}, {date}. Not checked here: where it is stuck. Local rules "
            "and a licensed assessor decide."
        )
        where = texts(REGION_WORDS.get(region, region))
        self.source.setText(texts(said, region=where, source=rule.source, date=rule.date))

    def _base_text(self, made: MadeLabel | None, candle: Candle | None) -> str:
        texts = self._desk.workspace.texts
        vessel = self._desk.shelf.vessels.get(candle.vessel_id or 0) if candle else None
        base = base_of(vessel) if vessel is not None else None
        if made is None or base is None or vessel is None:
            return ""
        design = made.laid.design
        return texts(
            N_("Base of {vessel}: {base_mm}; sticker {width_mm} × {height_mm}"),
            vessel=vessel.name,
            base_mm=base.width_mm,
            width_mm=design.width_mm,
            height_mm=design.height_mm,
        )

    def _show_vessel(self, candle: Candle | None, entry: int | None) -> None:
        workspace = self._desk.workspace
        drawing, on = None, None
        if candle is not None:
            view = view_candle(candle, self._desk.shelf, workspace.settings, workspace.texts)
            drawing, laid = view.drawing, self._jar_label(candle, entry)
            if laid is not None and view.vessel is not None:
                on = label_on_vessel(laid, view.vessel, drawing)
        kraft = sheet_is_kraft(self._desk.shelf, self._desk.run.sheet_id)
        self.vessel.show_vessel(drawing, on, paper_colour(kraft=kraft))
        self.vessel_heading.setVisible(drawing is not None)
        self.state.setText(candle.name if candle is not None and drawing is not None else "")

    def _jar_label(self, candle: Candle, entry: int | None) -> LaidOutLabel | None:
        """The jar's label in hand, else the first of the candle in this print run."""
        view = self._desk.view
        fits = [
            line.candle_id == candle.id and stored.kind == "jar"
            for line, stored in zip(view.lines, view.labels, strict=True)
        ]
        if entry is not None and entry < len(fits) and fits[entry]:
            return view.made[entry].laid
        return view.made[fits.index(True)].laid if any(fits) else None

    def _edit(self) -> None:
        if self._caution is not None:
            self.edit_requested.emit(self._caution.id)
