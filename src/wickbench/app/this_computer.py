"""What belongs to this computer instead of the workshop: language, colours, where backups go."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

from wickbench.app.languages import OWN_NAMES, available_languages, catalog_folder
from wickbench.app.texts_marker import N_
from wickbench.storage import backups
from wickbench.storage.refusals import FileRefused

if TYPE_CHECKING:
    from wickbench.app.user_settings import UserSettings
    from wickbench.app.workspace import Services, Workspace
    from wickbench.domain.errors import DomainError

_SPOILT: Final = frozenset({"file.empty", "file.not-ours", "file.damaged", "file.missing"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Backups:
    """Where the backups of the open workshop lie.

    Attributes:
        folder: of this computer's backups; the workshop's own folder when none is set.
        count: how many there are of this workshop.
        newest_on: ISO day of the newest one; empty when there is none.
    """

    folder: Path
    count: int
    newest_on: str


def own_languages() -> tuple[tuple[str, str], ...]:
    """Code and own name of every language that the window can be in."""
    return tuple((code, OWN_NAMES[code]) for code in available_languages(catalog_folder()))


def backups_of(workspace: Workspace) -> Backups:
    """Where the backups of the open workshop lie, and how old the newest is."""
    folder = workspace.services.backup_folder or workspace.path.parent
    found = backups.backups_of(workspace.path, folder)
    days = [day for path in found if (day := backups.made_on(path)) is not None]
    return Backups(folder=folder, count=len(found), newest_on=max(days).isoformat() if days else "")


def why_refused(error: DomainError, path: Path, services: Services) -> str:
    """Why a file does not open, and which backup to turn to when it is spoilt."""
    said = services.texts.say(error)
    if error.key not in _SPOILT or services.backup_folder is None:
        return said
    newest = next(iter(backups.backups_of(path, services.backup_folder)), None)
    if newest is None:
        return said
    there = services.texts(
        N_("The newest backup is “{name}” in {folder}."), name=newest.name, folder=newest.parent
    )
    return f"{said}\n\n{there}"


def choose_backup_folder(user: UserSettings, folder: Path) -> None:
    """Put backups into this folder from the next opening on.

    Raises:
        FileRefused: "backup.not-written"; nothing can be written there.
    """
    try:
        with tempfile.TemporaryFile(dir=folder):
            pass
    except OSError as error:
        raise FileRefused("backup.not-written", name=str(folder)) from error
    user.set_text("backup_folder", str(folder))
