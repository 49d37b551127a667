"""The code that the next pot would get, for looking at a pattern before it is used."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.texts_marker import N_
from wickbench.domain.lot_codes import lot_codes
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.settings import Settings
    from wickbench.app.workspace import Workspace

_TWO_POTS = ((0, 1), (0, 2))


def lot_example(workspace: Workspace, settings: Settings) -> str:
    """The codes of the next two pots of one recipe, as they would be printed if poured today.

    Args:
        workspace: the open workshop; codes that exist are passed over.
        settings: with what is being typed.

    Raises:
        OutOfRange: the pattern repeats or cannot be read.
    """
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "pour_pot")
    taken = {str(row["lot_code"]) for row in rows if row.get("lot_code")}
    today = workspace.clock.today()
    first, second = lot_codes(settings.text("lot_pattern"), today, _TWO_POTS, taken)
    word = workspace.texts(settings.text("lot_word"))
    return workspace.texts(
        N_("The next pot poured today would be {word} {first}, the one after it {word} {second}."),
        word=word,
        first=first,
        second=second,
    )
