"""Heating and cooling of the pot on the bench, with the time going on while they are seen."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QVBoxLayout, QWidget
from typing_extensions import override

from wickbench.app.bench_heat import load_pot_heat
from wickbench.gui.bench.cooling_card import CoolingCard
from wickbench.gui.bench.heating_card import HeatingCard
from wickbench.gui.listening import Listener
from wickbench.gui.naming import name_attributes

if TYPE_CHECKING:
    from PySide6.QtGui import QHideEvent, QShowEvent

    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.pour_session import Session
    from wickbench.app.workspace import Workspace

_EVERY_MS: Final = 10_000


class BenchHeat(QWidget):
    """Two cards: on the heat, and cooling."""

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        self.workspace = workspace
        self.heating = HeatingCard(workspace)
        self.cooling = CoolingCard(workspace)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(12)
        box.addWidget(self.heating)
        box.addWidget(self.cooling)
        self._clock = QTimer(self)
        self._clock.setInterval(_EVERY_MS)
        self._clock.timeout.connect(self.tick)
        self._listener = Listener(workspace, self, frozenset({"timers"}), self._timers_changed)
        name_attributes(self)

    def show_pot(
        self, session: Session | None, place: int | None, *, pouring: bool = False
    ) -> None:
        """Show one pot of a session; nothing while none is open.

        Args:
            session: as it stands.
            place: which pot.
            pouring: everything is in: it is no longer heated, it cools.
        """
        there = session is not None and place is not None
        self.setVisible(there)
        if session is None or place is None:
            return
        known = load_pot_heat(self.workspace, session, place)
        self.heating.show_pot(known)
        self.cooling.show_pot(known)
        on = known.heating is not None and known.heating.seconds is None
        self.heating.setVisible(on or not pouring)
        self.cooling.setVisible(pouring or bool(known.cools.readings))

    def _timers_changed(self, _changes: Changes | None) -> None:
        self.tick()

    def release(self) -> None:
        """The workshop is being closed: hear nothing any more."""
        self._clock.stop()
        self._listener.stop()

    def tick(self) -> None:
        """Time went by, or a timer was begun or stopped."""
        self.heating.show_again()
        self.cooling.show_again()

    @property
    def typed_in(self) -> bool:
        """Whether the keyboard is in one of the cards."""
        return self.isAncestorOf(self.window().focusWidget())

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._clock.start()

    @override
    def hideEvent(self, event: QHideEvent) -> None:
        self._clock.stop()
        super().hideEvent(event)
