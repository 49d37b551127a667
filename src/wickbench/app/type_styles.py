"""A few named styles of type that a text on a label can be given at once."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.label_elements import row_at
from wickbench.app.label_making import typeface_shelf
from wickbench.app.label_store import element_of, element_values
from wickbench.app.labels import editable_version
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import OutOfRange
from wickbench.domain.labels import TextElement
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.workspace import Workspace

STYLE_WORDS: Final[Mapping[str, str]] = {
    "title": N_("Title"),
    "capitals": N_("Line of small capitals"),
    "body": N_("Body"),
    "small_print": N_("Small print"),
}
_SERIF: Final = "Source Serif Pro"
_SANS: Final = "Source Sans Pro"
STYLES: Final[Mapping[str, Mapping[str, Any]]] = {
    "title": {
        "family": _SERIF, "style": "Semibold", "size_pt": 18.0, "min_size_pt": 10.0,
        "leading": 1.1, "letter_spacing_em": 0.0, "upper": False, "wrap": True,
    },
    "capitals": {
        "family": _SANS, "style": "Semibold", "size_pt": 7.5, "min_size_pt": 5.5,
        "leading": 1.3, "letter_spacing_em": 0.14, "upper": True, "wrap": True,
    },
    "body": {
        "family": _SANS, "style": "Regular", "size_pt": 8.5, "min_size_pt": 6.0,
        "leading": 1.25, "letter_spacing_em": 0.0, "upper": False, "wrap": True,
    },
    "small_print": {
        "family": _SANS, "style": "Regular", "size_pt": 6.0, "min_size_pt": 5.0,
        "leading": 1.2, "letter_spacing_em": 0.01, "upper": False, "wrap": True,
    },
}  # fmt: skip
"""Typeface, size and spacing of each style; colour and place stay as they are."""


def apply_style(
    workspace: Workspace, label_id: int, at: int, style: str, *, origin: object = None
) -> None:
    """Give a text one of the named styles; one act for undo.

    Args:
        workspace: the open workshop.
        label_id: the label.
        at: place of the text in the design.
        style: one of `STYLES`.
        origin: who began it.

    Raises:
        OutOfRange: ``label.no-such-element`` for anything but a text, ``label.choice`` for an
            unknown style.
    """
    if style not in STYLES:
        raise OutOfRange("label.choice", value=style)
    wanted = dict(STYLES[style])
    face, exact = typeface_shelf().nearest(wanted["family"], wanted["style"])
    wanted |= {"file_hash": face.file_hash if exact else ""}
    with workspace.step(N_("Choose a style of type"), origin=origin) as connection:
        version, _ = editable_version(connection, label_id)
        row = row_at(connection, version, at)
        element = element_of(row)
        if not isinstance(element, TextElement):
            raise OutOfRange("label.no-such-element")
        changed = replace(element, **wanted)
        records.update(connection, "label_element", row["id"], element_values(changed))
