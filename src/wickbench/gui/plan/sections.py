"""Sections beside the plan that fold: heading, a sign of what is the matter, and a card."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QEvent, QObject, QSize, Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QToolButton, QVBoxLayout, QWidget
from typing_extensions import override

from wickbench.app.texts_marker import N_
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.icons import icon_pixmap
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.style_sheet import set_look
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from wickbench.gui.plan.panels import PlanPanel

_ICON: Final = 18
_SETTING: Final = "plan_folded"
_FOLLOWS: Final = frozenset(
    {QEvent.Type.ShowToParent, QEvent.Type.HideToParent, QEvent.Type.LayoutRequest}
)
_LOOKS: Final = ("stops", "watch")


class PlanSection(QWidget):
    """A heading that folds the card below it; hidden while the card has nothing to say.

    Attributes:
        header: pressed, it folds or shows the card; the person's choice is kept.
        sign: worst of what the card says, so that a folded card hides no warning.
    """

    def __init__(self, panel: PlanPanel) -> None:
        super().__init__()
        self.panel = panel
        self._user = panel.workspace.services.user
        self._look = ""
        words = panel.texts(panel.name_words)
        self.header = QToolButton()
        self.header.setText(words)
        self.header.setCheckable(True)
        self.header.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.header.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.header.setIconSize(QSize(12, 12))
        set_look(self.header, "section")
        accessible(self.header, panel.texts(N_("{name}: show or fold"), name=words))
        self.sign = QLabel()
        self.holder = QWidget()
        self._lay_out()
        self.header.setChecked(self._is_open())
        self._show_body()
        self.header.toggled.connect(self._toggled)
        panel.installEventFilter(self)
        self._follow()

    def _lay_out(self) -> None:
        box, inside = QVBoxLayout(self), QVBoxLayout(self.holder)
        for one in (box, inside):
            one.setContentsMargins(0, 0, 0, 0)
            one.setSpacing(8)
        line = QHBoxLayout()
        line.setSpacing(6)
        line.addWidget(self.header)
        line.addWidget(self.sign)
        line.addStretch(1)
        box.addLayout(line)
        box.addWidget(self.holder)
        inside.addWidget(self.panel)
        name_attributes(self)

    # -- folding ---------------------------------------------------------------------------------
    def _is_open(self) -> bool:
        """As the person left it; before that as the card wishes."""
        name = type(self.panel).__name__
        kept = dict(part.split("=") for part in self._user.text(_SETTING).split(",") if part)
        return bool(kept.get(name, "open" if self.panel.open_at_first else "folded") == "open")

    def _toggled(self, *_: object) -> None:
        name = type(self.panel).__name__
        kept = dict(part.split("=") for part in self._user.text(_SETTING).split(",") if part)
        kept[name] = "open" if self.header.isChecked() else "folded"
        self._user.set_text(_SETTING, ",".join(f"{key}={value}" for key, value in kept.items()))
        self._show_body()

    def _show_body(self) -> None:
        shown = self.header.isChecked()
        self.holder.setVisible(shown)
        arrow = Qt.ArrowType.DownArrow if shown else Qt.ArrowType.RightArrow
        self.header.setArrowType(arrow)

    # -- following the card ----------------------------------------------------------------------
    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.panel and event.type() in _FOLLOWS:
            self._follow()
        return super().eventFilter(watched, event)

    def _follow(self) -> None:
        """Hide with the card, and show the worst of what it says."""
        self.setVisible(not self.panel.isHidden())
        looks = {one.worst for one in self.panel.findChildren(FindingsList) if not one.isHidden()}
        look = next((one for one in _LOOKS if one in looks), "")
        if look != self._look:
            self._look = look
            self.sign.setVisible(bool(look))
            if look:
                self.sign.setPixmap(icon_pixmap(look, getattr(colours_of(self), look), _ICON))
