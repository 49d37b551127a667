"""The page of settings: those of the workshop, and those of this computer."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QFrame, QHBoxLayout
from typing_extensions import override

from wickbench.app.lot_example import lot_example
from wickbench.app.settings import (
    REGION_FIELDS,
    SETTING_FIELDS,
    UNIT_FIELDS,
    UNIT_PRESETS,
    WORK_FIELDS,
)
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.form import FieldForm
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import Page, button, card, heading, label
from wickbench.gui.setup.business_page import SETTING_RECORD, values_of
from wickbench.gui.setup.this_computer_card import ThisComputerCard
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from PySide6.QtWidgets import QVBoxLayout, QWidget

    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.questions import Ask
    from wickbench.app.settings import Settings
    from wickbench.app.workspace import Workspace

_ABOUT = N_(
    "These belong to this workshop and go with its file. They are stored at once, and undo leaves "
    "them alone."
)
_SAVING = N_(
    "Everything is stored as you type. A backup is made when a changed workshop is opened; File ▸ "
    "Save a copy… writes one wherever you like."
)


class SettingsPage(Page):
    """Where sold, money and language, units, lots and the workroom; beside them this computer."""

    kinds: ClassVar[frozenset[str]] = frozenset({"settings", "pours"})

    def __init__(self, workspace: Workspace, ask: Ask) -> None:
        super().__init__(workspace, ask)
        self.title.setText(self.texts(N_("Settings")))
        self.about = label(self.texts(_ABOUT), "quiet")
        self.region = FieldForm(workspace, REGION_FIELDS)
        self.units_title = heading(self.texts(N_("Units")))
        self.units = FieldForm(workspace, [replace(spec, group="") for spec in UNIT_FIELDS])
        self.metric_first = button(self.texts(N_("Metric first")))
        self.customary_first = button(self.texts(N_("US customary first")))
        self.work = FieldForm(workspace, WORK_FIELDS)
        self.lots = label()
        self.computer = ThisComputerCard(workspace, ask)
        self.saving = label(self.texts(_SAVING), "quiet")
        self._cards: dict[str, QFrame] = {"computer": self.computer}
        self._part = ""
        self._lay_out()
        self._connect()
        name_attributes(self)

    @property
    def forms(self) -> tuple[FieldForm, ...]:
        """The forms from top to bottom."""
        return (self.region, self.units, self.work)

    def _lay_out(self) -> None:
        presets = QHBoxLayout()
        presets.setSpacing(8)
        presets.addWidget(self.metric_first)
        presets.addWidget(self.customary_first)
        presets.addStretch(1)
        self.main.addWidget(self.about)
        self._add_card("region", self.region)
        self._add_card("units", self.units_title, self.units).insertLayout(1, presets)
        self._add_card("work", self.work)
        below_the_pattern = self.work.fields["lot_pattern"].layout()
        if below_the_pattern is not None:
            below_the_pattern.addWidget(self.lots)
        self.main.addStretch(1)
        self.side.addWidget(self.computer)
        self.side.addWidget(self.saving)
        self.side.addStretch(1)
        self.show_side()

    def _add_card(self, key: str, *inside: QWidget) -> QVBoxLayout:
        frame, box = card()
        frame.setObjectName(f"{key}_card")
        self._cards[key] = frame
        for one in inside:
            box.addWidget(one)
        self.main.addWidget(frame)
        return box

    def _connect(self) -> None:
        self.metric_first.clicked.connect(partial(self._set_units, "metric"))
        self.customary_first.clicked.connect(partial(self._set_units, "customary"))
        for form in self.forms:
            form.edited.connect(self._typed)
            form.refused.connect(self._typed)
        self._stop_watching = self.workspace.services.user.subscribe(self._computer_changed)

    # -- showing ---------------------------------------------------------------------------------
    @override
    def refresh(self, changes: Changes | None) -> None:
        settings = self.workspace.settings
        for form in self.forms:
            form.show_record(SETTING_RECORD, values_of(settings, form))
        self._show_lots(settings)
        for preset, chosen in (("metric", self.metric_first), ("customary", self.customary_first)):
            same = all(settings[name] == unit for name, unit in UNIT_PRESETS[preset].items())
            chosen.setEnabled(not same)
        self.computer.show_settings()

    def _typed(self, *_: object) -> None:
        typed: dict[str, object] = {"lot_pattern": self.work.fields["lot_pattern"].text() or None}
        self._show_lots(self.workspace.settings.replaced(self.work.values() | typed))

    def _show_lots(self, settings: Settings) -> None:
        try:
            said, look = lot_example(self.workspace, settings), ""
        except DomainError as error:
            said, look = self.texts.say(error), "trouble"
        set_look(self.lots, look)
        self.lots.setText(said)

    def _computer_changed(self, _name: str) -> None:
        if self.isVisible():
            self.computer.show_settings()

    @override
    def show_part(self, part: str) -> None:
        """Bring one card into view: "region", "units", "work" or "computer"."""
        if part in self._cards:
            self._part = part
            frame = self._cards[part]
            QTimer.singleShot(0, frame, partial(self._scroll_to, frame))

    def _scroll_to(self, frame: QFrame) -> None:
        place = frame.mapTo(self.viewport(), frame.rect().topLeft())
        bar = self.verticalScrollBar()
        bar.setValue(bar.value() + place.y() - 8)

    @override
    def show_record(self, record: int) -> None:
        """Put the cursor into one field of the card that was named last."""
        if self._part == "computer":
            self.computer.focus_at(record)
            return
        name = SETTING_FIELDS[record].name
        for form in self.forms:
            if name in form.fields:
                form.focus(name)

    # -- what can be done ------------------------------------------------------------------------
    def _set_units(self, preset: str, *_: object) -> None:
        self.workspace.set_settings(UNIT_PRESETS[preset])

    @override
    def release(self) -> None:
        self._stop_watching()
        super().release()
