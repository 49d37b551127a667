"""How a label looks for a candle: drawn large, with its size and what is to be mended."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from wickbench.app.label_guides import label_guides
from wickbench.app.label_making import MadeLabel, around_of, design_for, trouble
from wickbench.app.label_paper import seen_on_kraft
from wickbench.app.label_values import LabelSubject, label_values, sample_values
from wickbench.app.label_vessel_findings import TO_MEASURE
from wickbench.app.labels import fit_to_sheet
from wickbench.app.print_run_view import label_texts
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.labels.canvas.acts import CanvasActs
from wickbench.gui.labels.canvas.label_canvas import LabelCanvas
from wickbench.gui.labels.checked_label import CheckedLabel, ShownLabel
from wickbench.gui.labels.elements_box import button_row
from wickbench.gui.labels.papers import paper_colour
from wickbench.gui.labels.vessel_card import VesselCard
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import button, heading, label

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.label_store import StoredLabel
    from wickbench.domain.catalog import Candle
    from wickbench.domain.findings import Finding
    from wickbench.domain.labels import AnyElement
    from wickbench.gui.labels.desk import Desk

_ZOOM: Final = 1.25
_BUSINESS: Final = "business"


class LabelLook(QWidget):
    """Preview, size and findings of one label.

    Signals:
        candle_chosen: the label is to be looked at with another candle.
        measure_requested: key of a vessel whose outside is to be measured.
        business_requested: the business details are to be filled in.
    """

    candle_chosen = Signal()
    measure_requested = Signal(int)
    business_requested = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._stored: StoredLabel | None = None
        self._at: int | None = None
        self._offered = False
        texts = desk.workspace.texts
        self.candle = ChoiceField(texts("Shown for"), ())
        self.preview = LabelCanvas(texts("The label, enlarged"))
        self.acts = CanvasActs(desk.workspace, self.preview)
        self.arrange = button(texts("Arrange"))
        self.arrange.setMenu(self.acts.menu)
        self.smaller = button("−")
        self.larger = button("+")
        self.whole = button(texts("Whole"))
        self.real_size = button(texts("Real size"))
        self.size_words = label("", "quiet")
        self.fit = button(texts("Fit to the chosen sheet"), "flat")
        self.vessel_card = VesselCard(desk)
        self.findings_heading = heading(texts("Before you print"))
        self.checked = CheckedLabel(desk, _element_of, self.vessel_card.offers)
        self.findings = self.checked.list
        self.nothing = label(texts("Begin with “New label”: choose a design, then make it yours."))
        self._lay_out(texts("Shown for"))
        self._connect()
        name_attributes(self)

    def _lay_out(self, shown_for: str) -> None:
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        line = QHBoxLayout()
        line.addWidget(label(shown_for, "quiet", wrap=False))
        line.addWidget(self.candle, 1)
        box.addLayout(line)
        box.addWidget(self.nothing)
        accessible(self.smaller, self._desk.workspace.texts("Smaller"))
        accessible(self.larger, self._desk.workspace.texts("Larger"))
        self._tools = (self.arrange, self.whole, self.real_size, self.smaller, self.larger)
        box.addLayout(button_row(*self._tools))
        box.addWidget(self.preview)
        box.addWidget(self.size_words)
        box.addLayout(button_row(self.fit))
        box.addWidget(self.vessel_card.tools)
        box.addWidget(self.findings_heading)
        box.addWidget(self.checked)
        box.addWidget(self.vessel_card)
        box.addStretch(1)

    def _connect(self) -> None:
        self.candle.committed.connect(self._take_candle)
        self.fit.clicked.connect(self._fit)
        self.preview.drafted.connect(self.show_drafts)
        self.findings.go_requested.connect(self._go_to_element)
        self.findings.offer_taken.connect(self.vessel_card.take_offer)
        self.vessel_card.measure_requested.connect(self.measure_requested)
        self.whole.clicked.connect(self.preview.fit)
        self.real_size.clicked.connect(self.preview.real_size)
        for tool, factor in ((self.smaller, 1 / _ZOOM), (self.larger, _ZOOM)):
            tool.clicked.connect(partial(self._zoom, factor))

    def _go_to_element(self, place: str, at: object) -> None:
        """A finding leads to what it is about."""
        if place == _BUSINESS:
            self.business_requested.emit()
        if not isinstance(at, int):
            return
        if place == TO_MEASURE:
            self.measure_requested.emit(at)
        else:
            self.preview.choose((at,))
            self.preview.chosen_changed.emit()
            self.preview.setFocus()

    def _zoom(self, factor: float) -> None:
        self.preview.zoom_to(self.preview.scale.per_mm * factor)

    # -- showing ---------------------------------------------------------------------------------
    @property
    def shown_candle(self) -> Candle | None:
        """The candle that the label is looked at with."""
        word = self.candle.text()
        return self._desk.candle(int(word)) if word else None

    def offer_candles(self) -> None:
        """Offer the candles there are; the first one is taken when there is none yet."""
        kept = [one for one in self._desk.shelf.candles.values() if not one.archived]
        kept.sort(key=lambda one: one.name.casefold())
        sample = self._desk.workspace.texts(N_("a sample"))
        chosen = self.candle.stored
        self.candle.set_pairs([("", sample), *((str(one.id), one.name) for one in kept)])
        if not chosen and kept and not self._offered:
            chosen, self._offered = str(kept[0].id), True
        self.candle.show_stored(chosen)

    def show_label(self, stored: StoredLabel | None, at: int | None) -> None:
        """Show a label with one of its elements chosen."""
        self._stored, self._at = stored, at
        self.nothing.setVisible(stored is None)
        parts = (self.preview, self.findings_heading, self.checked, self.size_words, self.fit)
        for part in (*parts, *self._tools):
            part.setVisible(stored is not None)
        editable = stored is not None and stored.caution is None
        self.preview.editable = editable
        self.acts.label_id = stored.id if stored is not None and editable else None
        self.arrange.setVisible(editable)
        guides = label_guides(self._desk.workspace, stored.id) if stored and editable else ()
        self.preview.show_guides(guides)
        self.vessel_card.show_label(stored, self.shown_candle)
        if stored is None:
            self.preview.show_label(None)
            return
        self.checked.forget()
        kraft = seen_on_kraft(self._desk.shelf, stored.design, self._desk.run.sheet_id)
        self.preview.paper = paper_colour(kraft=kraft)
        self.vessel_card.vessel.picture.paper = self.preview.paper
        self.show_draft(None)
        self._say_size(stored)

    def choose(self, at: int | None) -> None:
        """Mark another element."""
        self._at = at

    def show_draft(self, draft: AnyElement | None) -> None:
        """Draw the label, with the chosen element as it is being typed."""
        at = self._at
        self.show_drafts({} if draft is None or at is None else {at: draft})

    def show_drafts(self, drafts: Mapping[int, AnyElement]) -> None:
        """Draw the label with some elements as they are just now, by their place."""
        stored = self._stored
        if stored is None:
            return
        design = stored.design
        if drafts:
            every = enumerate(design.elements)
            elements = tuple(drafts.get(at, one) for at, one in every)
            design = replace(design, elements=elements)
        made: MadeLabel | None = None
        try:
            made = self.made(replace(stored, design=design))
        except DomainError as error:
            self.preview.show_label(None)
            self.vessel_card.show_laid(None)
            found = [trouble(error)]
        else:
            self.preview.show_label(made.laid)
            self.vessel_card.show_laid(made.laid)
            found = [*made.content.findings, *self.vessel_card.findings(made.laid)]
        shown = ShownLabel(
            stored=stored, made=made, candle=self.shown_candle, values=self.values(), found=found
        )
        self.checked.show_label(shown, settled=not drafts)

    def made(self, stored: StoredLabel) -> MadeLabel:
        """A label laid out for the candle it is looked at with.

        Raises:
            DomainError: it cannot be laid out.
        """
        desk, candle, values = self._desk, self.shown_candle, self.values()
        if stored.caution is not None:
            design = design_for(stored, None)
            return desk.maker.caution(stored.caution, design, desk.shelf, candle, values=values)
        around_mm = around_of(stored.kind, candle, desk.shelf)
        return desk.maker.label(stored.design, values, around_mm=around_mm)

    def values(self) -> dict[str, str]:
        """What the fields are filled with: of the candle, else of a sample."""
        desk, candle = self._desk, self.shown_candle
        settings, texts = desk.workspace.settings, label_texts(desk.workspace)
        sample = sample_values(settings, texts)
        if candle is None:
            return sample
        own = label_values(desk.shelf, settings, texts, LabelSubject(candle_id=candle.id))
        later = ("lot", "poured_on", "number", "of")
        from_pour = {name: own[name] or sample[name] for name in later}
        return {**own, **from_pour}

    def _say_size(self, stored: StoredLabel) -> None:
        texts, design = self._desk.workspace.texts, stored.design
        size = texts(
            N_("{width_mm} × {height_mm}, version {number}"),
            width_mm=design.width_mm,
            height_mm=design.height_mm,
            number=str(stored.number),
        )
        if design.shape == "wrap":
            wrap = N_("{size} · a wrap; what is hatched lies under its beginning")
            size = texts(wrap if design.overlap_mm else N_("{size} · a wrap"), size=size)
        printed = texts(N_("printed: the next change begins a new version"))
        self.size_words.setText(f"{size} · {printed}" if stored.frozen else size)
        sheet = self._desk.sheet
        sides = (design.width_mm, design.height_mm)
        same = sheet is None or sides == (sheet.sticker_w_mm, sheet.sticker_h_mm)
        self.fit.setVisible(not same and design.shape != "wrap")

    # -- doing -----------------------------------------------------------------------------------
    def _take_candle(self, word: str) -> None:
        self.candle.show_stored(word)
        self.candle_chosen.emit()

    def _fit(self) -> None:
        sheet = self._desk.sheet
        if self._stored is not None and sheet is not None:
            fit_to_sheet(self._desk.workspace, self._stored.id, sheet)


def _element_of(finding: Finding) -> tuple[str, object] | None:
    """Where a finding is mended: the element that it is about, the vessel, or the business."""
    match finding.about:
        case ("element" | "vessel" as place, int(at)):
            return place, at
        case ("business",):
            return _BUSINESS, None
    return None
