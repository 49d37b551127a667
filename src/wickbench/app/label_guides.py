"""Guides of a label as they are kept: with its newest version, printed or not."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.label_store import newest_version
from wickbench.app.texts_marker import N_
from wickbench.domain.guides import Guide, tidy_guides
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickbench.app.workspace import Workspace


def label_guides(workspace: Workspace, label_id: int) -> tuple[Guide, ...]:
    """The guides laid on a label.

    Raises:
        Gone: there is no such label.
    """
    with workspace.read() as connection:
        records.fetch(connection, "label", label_id)
        return _guides_of(newest_version(connection, label_id)["properties"])


def lay_guides(
    workspace: Workspace, label_id: int, guides: Iterable[Guide], *, origin: object = None
) -> None:
    """Keep these guides on a label, and no others.

    Guides are never printed: a printed version keeps them without becoming a new one.
    """
    kept = [["upright" if one.upright else "level", one.at_mm] for one in tidy_guides(guides)]
    with workspace.step(N_("Lay guides on a label"), origin=origin) as connection:
        version = newest_version(connection, label_id)
        properties = version["properties"] if isinstance(version["properties"], dict) else {}
        changed = {"version": 1, **properties, "guides": kept}
        records.update(connection, "label_version", version["id"], {"properties": changed})


def _guides_of(properties: object) -> tuple[Guide, ...]:
    stored = properties.get("guides", []) if isinstance(properties, dict) else []
    return tuple(Guide(upright=way == "upright", at_mm=float(at)) for way, at in stored)
