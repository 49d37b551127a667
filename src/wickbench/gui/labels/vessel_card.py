"""A label and the vessel of the candle it is looked at with: fitted to it, and drawn on it.

Buttons and picture stand where the page has room for them, apart from the card.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QMenu, QVBoxLayout, QWidget

from wickbench.app.label_on_vessel import label_on_vessel
from wickbench.app.label_paper import seen_on_kraft
from wickbench.app.label_vessel_findings import TO_FIT, page_findings, vessel_findings
from wickbench.app.label_wraps import fit_to_vessel, takes_label_round
from wickbench.app.measures import measure_once
from wickbench.app.paper_sizes import paper_size
from wickbench.app.texts_marker import N_
from wickbench.app.vessel_drawing import draw_vessel
from wickbench.app.vessel_labels import DrawnWick
from wickbench.app.wrap_words import fit_choices, how_fitted
from wickbench.domain.errors import DomainError
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.idle_turns import IdleTurns
from wickbench.gui.labels.elements_box import button_row
from wickbench.gui.labels.fold import Fold
from wickbench.gui.labels.label_preview import LabelPreview
from wickbench.gui.labels.labelled_vessel import LabelledVessel
from wickbench.gui.labels.papers import paper_colour
from wickbench.gui.naming import name_attributes, plain_action_text
from wickbench.gui.page import button, label

if TYPE_CHECKING:
    from wickbench.app.label_store import StoredLabel
    from wickbench.app.label_wraps import WrapPlan
    from wickbench.documents.label_layout import LaidOutLabel
    from wickbench.domain.catalog import Candle, Vessel
    from wickbench.domain.findings import Finding
    from wickbench.domain.labels import LabelDesign
    from wickbench.gui.labels.desk import Desk

_PIECE_HEIGHT: Final = 130
_PAUSE_MS: Final = 120
_DRAWN: Final = ("wall", "wax")


class VesselCard(QWidget):
    """Fit to the vessel, and the curved piece as it is printed.

    Attributes:
        tools: buttons that fit the label to the vessel.
        view: the picture of the label on the vessel under a heading that folds it.

    Signals:
        measure_requested: key of a vessel whose outside is to be measured.
    """

    measure_requested = Signal(int)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._stored: StoredLabel | None = None
        self._laid: LaidOutLabel | None = None
        self._vessel: Vessel | None = None
        self._plans: tuple[tuple[str, WrapPlan], ...] = ()
        texts = desk.workspace.texts
        self.fit = button(texts("Fit to the vessel"))
        self.fit_menu = QMenu(self)
        self.fit.setMenu(self.fit_menu)
        self.measure = button(texts("Measure the vessel"))
        self.trouble = label("", "quiet")
        self.how = HowComputed(texts)
        self.vessel = LabelledVessel(texts)
        self.piece_words = label("", "quiet")
        self.piece = LabelPreview(texts("The curved piece as it is printed"), largest=4.0)
        self.piece.setFixedHeight(_PIECE_HEIGHT)
        self.fold = Fold(
            desk.workspace, "vessel", texts("On the vessel"), self.vessel, is_open=True
        )
        self.view, self.tools = QWidget(), QWidget()
        self._idle = IdleTurns(self)
        self._lay_out()
        self.measure.clicked.connect(self._ask_to_measure)
        self.fold.header.toggled.connect(lambda *_: self._draw_soon())
        name_attributes(self)

    def _lay_out(self) -> None:
        box, beside, above = (QVBoxLayout(one) for one in (self, self.view, self.tools))
        for one in (box, beside, above):
            one.setContentsMargins(0, 0, 0, 0)
            one.setSpacing(8)
        box.addWidget(self.piece_words)
        box.addWidget(self.piece)
        above.addLayout(button_row(self.fit, self.measure))
        above.addWidget(self.trouble)
        above.addWidget(self.how)
        beside.addWidget(self.fold)

    # -- showing ---------------------------------------------------------------------------------
    def show_label(self, stored: StoredLabel | None, candle: Candle | None) -> None:
        """Take a label in hand, and the vessel of a candle."""
        self._stored = stored
        key = candle.vessel_id if candle is not None else None
        vessel = self._desk.shelf.vessels.get(key) if key is not None else None
        jar = stored is not None and stored.kind == "jar" and stored.caution is None
        fits = jar and vessel is not None and takes_label_round(vessel)
        self._vessel = vessel if fits else None
        self._offer(stored.design if stored is not None and jar else None)
        if not jar:
            self.show_laid(None)

    def findings(self, laid: LaidOutLabel) -> list[Finding]:
        """What the label does on the vessel."""
        workspace = self._desk.workspace
        page = paper_size(workspace.settings)
        found = vessel_findings(laid, self._vessel, workspace.texts)
        return found + page_findings(laid, page)

    def offers(self, finding: Finding) -> tuple[tuple[str, str], ...]:
        """Ways to mend a finding about the vessel at once: which plan, in words."""
        if finding.about[:1] != (TO_FIT,):
            return ()
        texts = self._desk.workspace.texts
        curved = [str(at) for at, (_, plan) in enumerate(self._plans) if plan.keeps_size]
        if finding.key == "wrap.straight-rises" and curved:
            return ((curved[0], texts(N_("Make it a curved wrap"))),)
        return (("0", texts(N_("Fit it all the way round"))),) if self._plans else ()

    def take_offer(self, key: str) -> None:
        """Fit the label as an offer says."""
        if key.isdigit() and int(key) < len(self._plans):
            self.fit_now(self._plans[int(key)][1])

    def show_laid(self, laid: LaidOutLabel | None) -> None:
        """Show the label as it is laid out just now; while one types, the picture waits."""
        typing = _same_paper(laid, self._laid)
        self._laid = laid
        self._show_piece(laid)
        self._draw_soon(_PAUSE_MS if typing else 0)

    def _show_piece(self, laid: LaidOutLabel | None) -> None:
        bent = laid if laid is not None and laid.bent is not None else None
        for one in (self.piece, self.piece_words):
            one.setVisible(bent is not None)
        if bent is not None:
            said = N_(
                "It is printed as a curved piece, {width_mm} × {height_mm}: cut it along its edge."
            )
            sides = {"width_mm": bent.width_mm, "height_mm": bent.height_mm}
            self.piece_words.setText(self._desk.workspace.texts(said, **sides))

    def _draw_soon(self, after_ms: int = 0) -> None:
        shown = self._vessel is not None and self._laid is not None
        self.fold.setVisible(shown)
        wanted = [self._draw_piece, *([self._draw] if shown and self.fold.is_open else [])]
        self._idle.replace(wanted, after_ms=after_ms)

    def _draw_piece(self) -> None:
        laid = self._laid
        self.piece.show_label(laid if laid is not None and laid.bent is not None else None)

    def _draw(self) -> None:
        vessel, laid = self._vessel, self._laid
        if vessel is None or laid is None:
            return
        workspace, shelf = self._desk.workspace, self._desk.shelf
        measures = measure_once(vessel, shelf, workspace.settings)
        drawing = draw_vessel(vessel, measures, None, DrawnWick(0), workspace.texts)
        if drawing is not None:
            lines = tuple(one for one in drawing.lines if one.role in _DRAWN)
            drawing = replace(drawing, lines=lines, labels=())
        kraft = seen_on_kraft(shelf, laid.design, self._desk.run.sheet_id)
        paper = paper_colour(kraft=kraft)
        self.vessel.show_vessel(drawing, label_on_vessel(laid, vessel, drawing), paper)

    # -- fitting ---------------------------------------------------------------------------------
    def _offer(self, design: LabelDesign | None) -> None:
        """The sizes that fit the vessel, or what is to be measured first."""
        texts, vessel = self._desk.workspace.texts, self._vessel
        self._plans, trouble = (), ""
        if design is not None and vessel is not None:
            try:
                page = paper_size(self._desk.workspace.settings)
                self._plans = fit_choices(vessel, texts, design, page)
            except DomainError as error:
                trouble = texts.say(error)
            said = texts(N_("Fit to {vessel}"), vessel=vessel.name)
            self.fit.setText(plain_action_text(said))
        self.fit.setVisible(bool(self._plans))
        self.measure.setVisible(bool(trouble))
        self.trouble.setText(trouble)
        self.trouble.setVisible(bool(trouble))
        steps = how_fitted(texts, self._plans[0][1], design) if self._plans and design else ()
        self.how.explain(steps)
        self.fit_menu.clear()
        for words, plan in self._plans:
            action = self.fit_menu.addAction(plain_action_text(words))
            action.triggered.connect(lambda _=False, plan=plan: self.fit_now(plan))

    def fit_now(self, plan: WrapPlan | None = None) -> None:
        """Fit the label: in one way, or all the way round."""
        if self._stored is not None and self._plans:
            wanted = plan if plan is not None else self._plans[0][1]
            fit_to_vessel(self._desk.workspace, self._stored.id, wanted)

    def _ask_to_measure(self) -> None:
        if self._vessel is not None:
            self.measure_requested.emit(self._vessel.id)


def _same_paper(one: LaidOutLabel | None, other: LaidOutLabel | None) -> bool:
    """Whether two labels differ in no more than what stands on them."""
    if one is None or other is None:
        return False
    return replace(one.design, elements=()) == replace(other.design, elements=())
