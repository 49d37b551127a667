"""Refreshing from the workshop: when something of interest changed, and only while seen."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QEvent, QObject
from typing_extensions import override

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget

    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.workspace import Workspace


class Refreshes(Protocol):
    """A page or dock that can show fresh values."""

    def refresh(self, changes: Changes | None) -> None:
        """Show fresh values; ``None`` means everything may have changed."""


class Listener(QObject):
    """Calls ``refresh`` of a widget when one of its kinds changed.

    While the widget is hidden the change is remembered and shown with the widget.
    """

    def __init__(
        self,
        workspace: Workspace,
        widget: QWidget,
        kinds: frozenset[str],
        refresh: Callable[[Changes | None], None],
    ) -> None:
        """Listen for as long as the widget lives.

        Args:
            workspace: the open workshop.
            widget: whose visibility counts; the listener becomes its child.
            kinds: names of kinds as in ``Changes.kinds``; empty for all.
            refresh: called with the changes, or ``None`` after a time unseen.
        """
        super().__init__(widget)
        self._widget = widget
        self._kinds = kinds
        self._refresh = refresh
        self._stale = True
        self._unsubscribe = workspace.subscribe(self._changed)
        widget.destroyed.connect(self._unsubscribe)
        widget.installEventFilter(self)

    def stop(self) -> None:
        """Hear nothing any more."""
        self._unsubscribe()

    def _changed(self, changes: Changes) -> None:
        if self._kinds and not self._kinds & changes.kinds:
            return
        if self._widget.isVisible():
            self._refresh(changes)
        else:
            self._stale = True

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Show and self._stale:
            self._stale = False
            self._refresh_safely()
        return False

    def _refresh_safely(self) -> None:
        """Refresh; what goes wrong goes where all that nobody caught goes.

        An exception that leaves an event filter takes the whole process down with PySide 6.11.
        """
        try:
            self._refresh(None)
        except Exception as error:  # noqa: BLE001 - whatever it is, the window must live on
            sys.excepthook(type(error), error, error.__traceback__)
