"""The page of business details, with a picture of how they stand on labels."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from PySide6.QtWidgets import QSizePolicy
from typing_extensions import override

from wickbench.app.business import business_views
from wickbench.app.settings import BUSINESS_FIELDS, SETTING_FIELDS
from wickbench.app.texts_marker import N_
from wickbench.gui.fields.form import FieldForm
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import Page, button, heading, label
from wickbench.gui.setup.region_card import RegionCard

if TYPE_CHECKING:
    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.questions import Ask
    from wickbench.app.settings import Settings
    from wickbench.app.workspace import Workspace

SETTING_RECORD = 0
_ABOUT = N_(
    "Name and place of your business stand on labels and papers. They are kept in this workshop "
    "and go nowhere else."
)


class BusinessPage(Page):
    """Name, place, telephone and web address; the pictures follow while typing."""

    kinds: ClassVar[frozenset[str]] = frozenset({"settings"})

    def __init__(self, workspace: Workspace, ask: Ask) -> None:
        super().__init__(workspace, ask)
        self.title.setText(self.texts(N_("Business details")))
        self.about = label(self.texts(_ABOUT), "quiet")
        self.form = FieldForm(workspace, BUSINESS_FIELDS)
        self.on_labels = heading(self.texts(N_("On labels")))
        self.where_sold = button(self.texts(N_("Change where you sell…")), "flat")
        self.where_sold.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.cards: dict[str, RegionCard] = {}
        self.main.addWidget(self.about)
        self.main.addWidget(self.form)
        self.main.addStretch(1)
        self.side.addWidget(self.on_labels)
        self.side.addWidget(self.where_sold)
        self.side.addStretch(1)
        self.show_side()
        self.form.edited.connect(self._typed)
        self.form.refused.connect(self._typed)
        self.where_sold.clicked.connect(lambda: self.go_requested.emit("settings/region", None))
        name_attributes(self)

    @override
    def refresh(self, changes: Changes | None) -> None:
        settings = self.workspace.settings
        self.form.show_record(SETTING_RECORD, values_of(settings, self.form))
        self._show_labels(settings)

    @override
    def show_record(self, record: int) -> None:
        """Put the cursor into one field; numbered as among all settings."""
        name = SETTING_FIELDS[record].name
        if name in self.form.fields:
            self.form.focus(name)
            self.ensureWidgetVisible(self.form.fields[name])

    def _typed(self, *_: object) -> None:
        self._show_labels(self.workspace.settings.replaced(self.form.values()))

    def _show_labels(self, settings: Settings) -> None:
        on_labels = self.texts.in_language(settings.text("language_of_labels"))
        views = {view.region: view for view in business_views(settings, on_labels)}
        for region in [*self.cards]:
            if region not in views:
                gone = self.cards.pop(region)
                self.side.removeWidget(gone)
                gone.hide()
                gone.deleteLater()
        for at, (region, view) in enumerate(views.items()):
            if region not in self.cards:
                self.cards[region] = RegionCard(self.texts, region)
                self.cards[region].setObjectName(f"{region.lower()}_card")
                self.side.insertWidget(1 + at, self.cards[region])
            self.cards[region].show_view(self.texts, view)


def values_of(settings: Settings, form: FieldForm) -> dict[str, object]:
    """The settings of a form's fields."""
    return {name: settings[name] for name in form.fields}
