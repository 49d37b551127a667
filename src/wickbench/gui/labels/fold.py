"""A heading that folds what stands below it; how the person left it is kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QSizePolicy, QToolButton, QVBoxLayout, QWidget

from wickbench.app.texts_marker import N_
from wickbench.gui.naming import accessible
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

_SETTING: Final = "label_folded"


class Fold(QWidget):
    """A heading over one widget.

    Attributes:
        header: pressed, it folds or shows what is below.
    """

    def __init__(
        self, workspace: Workspace, key: str, words: str, body: QWidget, *, is_open: bool = False
    ) -> None:
        super().__init__()
        self._user = workspace.services.user
        self._key, self._body = key, body
        self.header = QToolButton()
        self.header.setObjectName("header")
        self.header.setText(words)
        self.header.setCheckable(True)
        self.header.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.header.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.header.setIconSize(QSize(12, 12))
        set_look(self.header, "section")
        accessible(self.header, workspace.texts(N_("{name}: show or fold"), name=words))
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        box.addWidget(self.header)
        box.addWidget(body)
        kept = self._kept().get(key, "open" if is_open else "folded")
        self.header.setChecked(kept == "open")
        self._show_body()
        self.header.toggled.connect(self._toggled)

    @property
    def is_open(self) -> bool:
        """Whether what is below is shown."""
        return self.header.isChecked()

    def _kept(self) -> dict[str, str]:
        return dict(part.split("=") for part in self._user.text(_SETTING).split(",") if part)

    def _toggled(self, *_: object) -> None:
        kept = {**self._kept(), self._key: "open" if self.is_open else "folded"}
        self._user.set_text(_SETTING, ",".join(f"{key}={value}" for key, value in kept.items()))
        self._show_body()

    def _show_body(self) -> None:
        self._body.setVisible(self.is_open)
        arrow = Qt.ArrowType.DownArrow if self.is_open else Qt.ArrowType.RightArrow
        self.header.setArrowType(arrow)
