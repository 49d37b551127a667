"""Two small pages, for tests of what all pages share."""

from __future__ import annotations

from typing_extensions import override

from wickbench.gui.page import Page


class WidePage(Page):
    """A page that wants the whole width."""

    needs_width = True


class PlainPage(Page):
    """A page beside the docks that shows what it was asked to."""

    shown: int | None = None

    @override
    def show_record(self, record: int) -> None:
        self.shown = record
