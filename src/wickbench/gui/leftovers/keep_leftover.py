"""At the bench: what is left in a pot that was poured out can be kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout

from wickbench.app import edit, leftover_keeping
from wickbench.app.fields import field
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.line_field import QuantityField
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from wickbench.app.leftover_keeping import Offer
    from wickbench.app.pour_session import Session
    from wickbench.app.workspace import Workspace

KEPT_MASS: Final = field(
    "leftover_part", "mass_g", N_("Left in the pot"), "mass", low=0.1, high=1e6
)
_WORTH_G: Final = 5.0
"""Less than this sticks to a pot (common practice, no source)."""


class KeepLeftover(QFrame):
    """The first pot of a pour that was poured out with something left in it."""

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self.offer: Offer | None = None
        self._passed: set[int] = set()
        set_look(self, "card")
        self.words = heading(texts(N_("Keep what is left?")))
        self.said = label()
        self.mass = QuantityField(texts(KEPT_MASS.label))
        self.keep = button(texts(N_("Keep it as a leftover")))
        self.pass_by = button(texts(N_("Nothing to keep")), "flat")
        line = QHBoxLayout()
        line.addWidget(self.mass, 1)
        line.addWidget(self.keep)
        line.addWidget(self.pass_by)
        box = QVBoxLayout(self)
        box.setContentsMargins(16, 12, 16, 12)
        box.setSpacing(8)
        box.addWidget(self.words)
        box.addWidget(self.said)
        box.addLayout(line)
        self.keep.clicked.connect(self.keep_it)
        self.mass.line.returnPressed.connect(self.keep_it)
        self.mass.edited.connect(self._understood)
        self.pass_by.clicked.connect(self._pass)
        name_attributes(self)
        self.setVisible(False)

    def show_session(self, session: Session | None) -> None:
        """Offer for the first pot that is poured out and has something left."""
        done = [one for one in session.pots if one.state == "done"] if session else []
        offers = (
            (one, leftover_keeping.offer_of_pot(self.workspace, one.id))
            for one in done
            if one.id not in self._passed
        )
        found = next(
            (
                (one, offer)
                for one, offer in offers
                if offer.mass_g >= _WORTH_G and not offer.kept_g
            ),
            None,
        )
        self.setVisible(found is not None)
        if found is None:
            self.offer = None
            return
        pot, offer = found
        if self.offer == offer:
            return
        self.offer = offer
        texts = self.workspace.texts
        self.said.setText(
            texts(
                N_("{pot}: {mass} are left in it by the weights. Weigh it, or keep it as it is."),
                pot=pot.lot_code or pot.title,
                mass=texts.quantity(offer.mass_g, "mass", step=0.1),
            )
        )
        self.mass.show_stored(edit.shown(self.workspace, KEPT_MASS, round(offer.mass_g, 1)))

    def _understood(self, typed: str) -> None:
        try:
            self.mass.say(edit.understood(self.workspace, KEPT_MASS, typed))
        except DomainError:
            self.mass.say("")

    def keep_it(self) -> None:
        """Keep as much as is typed."""
        if self.offer is None:
            return
        try:
            mass = edit.read_field(self.workspace, KEPT_MASS, self.mass.text())
            grams = float(mass) if isinstance(mass, (int, float)) else 0.0
            leftover_keeping.keep_from_pot(self.workspace, self.offer.pour_pot, grams)
        except DomainError as error:
            self.mass.show_trouble(self.workspace.texts.say(error))

    def _pass(self) -> None:
        if self.offer is not None:
            self._passed.add(self.offer.pour_pot)
        self.setVisible(False)
