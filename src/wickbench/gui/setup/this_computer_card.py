"""Settings of this computer: language of the window, its colours, where backups go."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QFrame, QSizePolicy, QVBoxLayout

from wickbench.app import this_computer
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.filled_menus import THEME_NAMES
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from PySide6.QtWidgets import QLabel

    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace


class ThisComputerCard(QFrame):
    """What is kept for the person at this computer, not in the workshop."""

    def __init__(self, workspace: Workspace, ask: Ask) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self._ask = ask
        self._user = workspace.services.user
        set_look(self, "card")
        self.title = heading(texts(N_("This computer")))
        self.language = ChoiceField(
            texts(N_("Language of the window")), this_computer.own_languages()
        )
        self.language_name = self._named(N_("Language of the window"), self.language)
        self.from_next = label(texts(N_("Changes when the program is opened again.")), "quiet")
        self.theme = ChoiceField(
            texts(N_("Colours")), [(theme, texts(title)) for theme, title in THEME_NAMES]
        )
        self.theme_name = self._named(N_("Colours"), self.theme)
        self.backups_title = label(texts(N_("Backups")), "quiet")
        self.backups = label()
        self.backups.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.show_folder = button(texts(N_("Show the folder")))
        self.other_folder = button(texts(N_("Choose another folder…")))
        self.usual_folder = button(texts(N_("Back to the usual folder")))
        self.waiting = label("", "quiet")
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _named(self, title: str, field: ChoiceField) -> QLabel:
        name = label(self.workspace.texts(title), "quiet")
        name.setBuddy(field.editor)
        return name

    def _lay_out(self) -> None:
        box = QVBoxLayout(self)
        box.setContentsMargins(16, 12, 16, 14)
        box.setSpacing(6)
        for made in (self.show_folder, self.other_folder, self.usual_folder):
            made.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        for widget in (
            self.title, self.language_name, self.language, self.from_next, self.theme_name,
            self.theme, self.backups_title, self.backups, self.waiting, self.show_folder,
            self.other_folder, self.usual_folder,
        ):  # fmt: skip
            box.addWidget(widget)

    def _connect(self) -> None:
        self.language.committed.connect(self._set_language)
        self.theme.committed.connect(self._set_theme)
        self.show_folder.clicked.connect(self._show_folder)
        self.other_folder.clicked.connect(self._other_folder)
        self.usual_folder.clicked.connect(self._usual_folder)

    def show_settings(self) -> None:
        """Show how things stand on this computer."""
        texts, found = self.workspace.texts, this_computer.backups_of(self.workspace)
        self.language.show_stored(self._user.text("language"))
        self.theme.show_stored(self._user.text("theme"))
        said = texts(N_("They are kept in {folder}."), folder=found.folder)
        if found.count:
            said += " " + texts.plural(
                "There is {n} of this workshop, from {newest_on}.",
                "There are {n} of this workshop, the newest from {newest_on}.",
                found.count,
                newest_on=found.newest_on,
            )
        self.backups.setText(said)
        self.show_folder.setEnabled(found.folder.is_dir())
        chosen = self._user.text("backup_folder")
        self.usual_folder.setVisible(bool(chosen))
        waits = bool(chosen) and Path(chosen) != found.folder
        self.waiting.setVisible(waits)
        if waits:
            self.waiting.setText(
                texts(N_("From the next opening on they go to {folder}."), folder=chosen)
            )

    def focus_at(self, at: int) -> None:
        """Go to language, colours or backups, numbered as the search does."""
        (self.language.editor, self.theme.editor, self.other_folder)[at].setFocus()

    def _set_language(self, language: str) -> None:
        self._user.set_text("language", language)
        self.show_settings()

    def _set_theme(self, theme: str) -> None:
        self._user.set_text("theme", theme)
        self.show_settings()

    def _show_folder(self) -> None:
        folder = this_computer.backups_of(self.workspace).folder
        QDesktopServices.openUrl(QUrl.fromLocalFile(str(folder)))

    def _other_folder(self) -> None:
        folder = self._ask.folder(self.workspace.texts(N_("Where shall backups go?")))
        if folder is None:
            return
        try:
            this_computer.choose_backup_folder(self._user, folder)
        except DomainError as error:
            self._ask.tell(self.workspace.texts.say(error))
        self.show_settings()

    def _usual_folder(self) -> None:
        self._user.set_text("backup_folder", "")
        self.show_settings()
