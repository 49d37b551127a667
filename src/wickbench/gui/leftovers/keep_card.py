"""Keeping a leftover by hand: from a pot, scooped out of candles, or by its recipe."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from wickbench.app import leftover_keeping
from wickbench.app.fields import field
from wickbench.app.leftover_choices import kept_pots, lots_of_candle, most_in_candles
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.leftovers.words import named_field
from wickbench.gui.materials.entry_form import EntryForm
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import label

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

_WAYS: Final = (
    ("pot", N_("Left in a pot")),
    ("scooped", N_("Scooped out of candles")),
    ("other", N_("By its recipe")),
)
_NAME: Final = field("leftover", "name", N_("Name"), "text")
_MASS: Final = field("leftover_part", "mass_g", N_("How much"), "mass", low=0.1, high=1e6)
_FIELDS: Final = {
    "pot": (_MASS, _NAME),
    "scooped": (
        field("leftover", "candle_id", N_("Candle"), "reference", refers_to="candle"),
        field("leftover", "count", N_("How many"), "count", low=1, high=1000),
        _MASS,
        _NAME,
    ),
    "other": (
        field("leftover", "version_id", N_("Recipe"), "reference", refers_to="version"),
        _MASS,
        _NAME,
    ),
}


class KeepCard(QWidget):
    """Choose where it came from; each way has its own few fields.

    Signals:
        kept: key of the leftover that was kept.
        given_up: the person wants to keep nothing.
    """

    kept = Signal(int)
    given_up = Signal()

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        ways = [(word, texts(said)) for word, said in _WAYS]
        self.way = ChoiceField(texts(N_("Where it came from")), ways)
        self.way.combo.setCurrentIndex(0)
        self.pot = ChoiceField(texts(N_("Pot")), [])
        self.lot = ChoiceField(texts(N_("Lot")), [])
        accept = texts(N_("Keep it"))
        self.forms = {
            word: EntryForm(workspace, said, _FIELDS[word], accept) for word, said in ways
        }
        self.forms["pot"].rows.insertRow(0, label(texts(N_("Pot"))), self.pot)
        self.forms["scooped"].rows.insertRow(1, label(texts(N_("Lot"))), self.lot)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        box.addWidget(named_field(texts(N_("Where it came from")), self.way))
        for word, form in self.forms.items():
            form.setObjectName(f"keep_{word}")
            form.accepted.connect(self._keep)
            form.given_up.connect(self.given_up)
            box.addWidget(form)
        self.way.edited.connect(self.show_way)
        self.pot.edited.connect(self._pot_chosen)
        self.forms["scooped"].edited.connect(self._scooped_typed)
        name_attributes(self)

    def begin(self) -> None:
        """Open empty, with the pots and lots as they are now."""
        pots = kept_pots(self.workspace)
        self.pot.set_pairs([(str(key), said) for key, said in pots])
        self.pot.combo.setCurrentIndex(0 if pots else -1)
        for form in self.forms.values():
            form.fill({})
        self.lot.set_pairs(self._lots(None))
        if not pots and self.way.text() == "pot":
            self.way.combo.setCurrentIndex(1)
        self.show_way()
        self._pot_chosen()

    def show_way(self, *_: object) -> None:
        """Show the fields of one way."""
        for word, form in self.forms.items():
            form.setVisible(word == self.way.text())
        if self.way.text() == "pot" and not self.pot.text():
            said = self.workspace.texts(N_("No pot was poured out yet."))
            self.forms["pot"].say_note(said)

    def _pot_chosen(self, *_: object) -> None:
        if not self.pot.text():
            return
        offer = leftover_keeping.offer_of_pot(self.workspace, int(self.pot.text()))
        texts, form = self.workspace.texts, self.forms["pot"]
        left = texts.quantity(offer.mass_g, "mass", step=0.1)
        form.fill({"mass_g": round(offer.mass_g, 1) or None, "name": offer.name})
        form.say_note(texts(N_("By the weights {mass} are left in it."), mass=left))

    def _lots(self, candle: int | None) -> list[tuple[str, str]]:
        texts = self.workspace.texts
        pairs = [("", texts(N_("by the recipe")))]
        if candle is not None:
            pairs += [(str(key), said) for key, said in lots_of_candle(self.workspace, candle)]
        return pairs

    def _scooped_typed(self) -> None:
        form, texts = self.forms["scooped"], self.workspace.texts
        candle, count = form.readable("candle_id"), form.readable("count")
        chosen = candle if isinstance(candle, int) else None
        self.lot.set_pairs(self._lots(chosen))
        if not self.lot.text():
            self.lot.combo.setCurrentIndex(0)
        most_g = None
        if chosen is not None and isinstance(count, int):
            most_g = most_in_candles(self.workspace, chosen, count)
        said = ""
        if most_g is not None:
            most = texts.quantity(most_g, "mass", step=1)
            said = texts(N_("They held {mass} by what is printed on them."), mass=most)
        form.say_note(said)

    def _keep(self, values: dict[str, object]) -> None:
        try:
            key = self._stored(values)
        except DomainError as error:
            self.forms[self.way.text()].say_trouble(self.workspace.texts.say(error))
            return
        self.kept.emit(key)

    def _stored(self, values: dict[str, object]) -> int:
        mass, name = values["mass_g"], str(values["name"] or "")
        grams = float(mass) if isinstance(mass, (int, float)) else 0.0
        if self.way.text() == "pot":
            if not self.pot.text():
                raise DomainError("leftovers.choose-pot")
            pot = int(self.pot.text())
            return leftover_keeping.keep_from_pot(self.workspace, pot, grams, name)
        if self.way.text() == "scooped":
            candle, count = values["candle_id"], values["count"]
            if not isinstance(candle, int):
                raise DomainError("leftovers.choose-candle")
            return leftover_keeping.keep_scooped(
                self.workspace,
                candle,
                grams,
                count=count if isinstance(count, int) else None,
                pour_pot=int(self.lot.text()) if self.lot.text() else None,
                name=name,
            )
        version = values["version_id"]
        if not isinstance(version, int):
            raise DomainError("leftovers.choose-recipe")
        return leftover_keeping.keep_other(self.workspace, version, grams, name)
