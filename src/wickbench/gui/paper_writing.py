"""Every paper of the workshop into a folder, from the menu."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace


def write_papers(workspace: Workspace, ask: Ask) -> None:
    """Ask for a folder and write every paper of the workshop into it."""
    # Text shaping and the PDF writer are wanted only now.
    from wickbench.app.papers import write_all_papers  # noqa: PLC0415

    texts = workspace.texts
    folder = ask.folder(texts(N_("Where shall the papers go?")))
    if folder is None:
        return
    try:
        count = len(list(write_all_papers(workspace, folder)))
    except DomainError as error:
        ask.tell(texts.say(error))
        return
    said = texts.plural(
        "One paper was written to {folder}.",
        "{n} papers were written to {folder}.",
        count,
        folder=str(folder),
    )
    ask.tell(said)
