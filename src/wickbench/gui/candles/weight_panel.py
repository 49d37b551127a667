"""The net weight of a candle: planned, proposed, declared, and as it would be printed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from wickbench.app.candle_fields import WEIGHT_FIELDS
from wickbench.app.candle_net import declared_lines, proposed_mg
from wickbench.app.candle_shown import declared_texts, how_net, net_text, proposal_lines
from wickbench.app.texts_marker import N_
from wickbench.gui.fields.form import FieldForm
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label

if TYPE_CHECKING:
    from collections.abc import Mapping

    from PySide6.QtWidgets import QLabel

    from wickbench.app.candles import CandleView
    from wickbench.app.workspace import Workspace


class WeightPanel(QWidget):
    """What goes in by the plan over what is declared of it.

    Signals:
        take_requested: declare this many milligrams.
        edited: something is being typed.
    """

    take_requested = Signal(int)
    edited = Signal()

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self._mass_mg: int | None = None
        self.title = heading(texts(N_("Net weight")))
        self.planned = label()
        self.proposed = label("", "quiet")
        self.take = button(texts(N_("Take the proposed")))
        self.take.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.form = FieldForm(workspace, WEIGHT_FIELDS)
        self.printed = label("", "quiet")
        self.how = HowComputed(texts)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(6)
        for widget in (
            self.title, self.planned, self.proposed, self.take, self.form, self.printed, self.how,
        ):  # fmt: skip
            box.addWidget(widget)
        self.take.clicked.connect(self._take)
        self.form.edited.connect(self.edited)
        self.form.refused.connect(self.edited)
        name_attributes(self)

    def show_record(self, candle: int | None, values: Mapping[str, object]) -> None:
        """Show stored values; a field being typed in is left alone."""
        self.form.show_record(candle, values)

    def show_view(self, view: CandleView) -> None:
        """Show what was worked out."""
        texts, settings = self.workspace.texts, self.workspace.settings
        self._mass_mg = proposed_mg(view.proposals)
        declared_g = view.candle.declared_net_g
        taken = declared_g is not None and self._mass_mg == round(declared_g * 1000)
        self.take.setVisible(self._mass_mg is not None and not taken)
        _say(self.planned, (net_text(texts, view.net),))
        _say(self.proposed, proposal_lines(texts, view.proposals))
        _say(self.printed, declared_texts(texts, declared_lines(view.candle, settings)))
        self.how.explain(how_net(texts, view.net))

    def _take(self) -> None:
        if self._mass_mg is not None:
            self.take_requested.emit(self._mass_mg)


def _say(shown: QLabel, lines: tuple[str, ...]) -> None:
    said = "\n".join(line for line in lines if line)
    shown.setText(said)
    shown.setVisible(bool(said))
