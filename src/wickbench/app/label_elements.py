"""What can be done with one thing on a label: add it, change it, choose its picture.

Each is one undoable act. Elements are named by their place in the design, from back to front.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.free_places import free_place
from wickbench.app.label_curves import with_oval
from wickbench.app.label_store import element_of, element_rows, element_values
from wickbench.app.labels import editable_version
from wickbench.app.texts_marker import N_
from wickbench.documents.pictograms import LEAST_HEIGHT_MM
from wickbench.documents.pictures import open_picture
from wickbench.documents.svg_paths import is_svg, svg_drawing
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.domain.labels import (
    AnyElement,
    CodeElement,
    FactsElement,
    FrameElement,
    LabelDesign,
    LineElement,
    OrnamentElement,
    PictogramElement,
    PictureElement,
    TextElement,
)
from wickbench.storage import records, state
from wickbench.storage.refusals import Gone

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from wickbench.app.workspace import Workspace
    from wickbench.storage.workshop_file import Connection

MEDIA: Final[Mapping[str, str]] = {"PNG": "image/png", "JPEG": "image/jpeg", "SVG": "image/svg+xml"}
_ANYWHERE: Final = frozenset({"frame", "line"})
_SQUARE: Final = frozenset({"code", "ornament", "pictogram"})
MOST_PICTURE_BYTES: Final = 20_000_000


def change_element(
    workspace: Workspace,
    label_id: int,
    at: int,
    changes: Mapping[str, Any],
    *,
    origin: object = None,
) -> None:
    """Change anything of one element: text, typeface, size, colour or place.

    Raises:
        OutOfRange: a measure, colour or choice that cannot be; no such element.
    """
    merge = ("label_element", label_id, at, *sorted(changes))
    with workspace.step(N_("Change what stands on a label"), merge=merge, origin=origin) as door:
        version, design = editable_version(door, label_id)
        row = row_at(door, version, at)
        element = element_of(row)
        changed = replace(element, **with_oval(design, element, changes))
        records.update(door, "label_element", row["id"], element_values(changed))


def add_element(workspace: Workspace, label_id: int, kind: str, *, origin: object = None) -> int:
    """Put something on a label where it covers least; gives its place in the order.

    Args:
        workspace: the open workshop.
        label_id: the label.
        kind: one of `label_store.ELEMENT_TYPES`.
        origin: who began it.
    """
    with workspace.step(N_("Add to a label"), origin=origin) as connection:
        version, design = editable_version(connection, label_id)
        at = len(design.elements)
        fresh = _fresh(kind, design)
        if kind not in _ANYWHERE:
            x, y = free_place(design, fresh.w_mm, fresh.h_mm)
            fresh = replace(fresh, x_mm=x, y_mm=y)
        values = {"version_id": version, "position": at, **element_values(fresh)}
        records.insert(connection, "label_element", values)
    return at


def set_picture(
    workspace: Workspace, label_id: int, at: int, path: Path, *, origin: object = None
) -> None:
    """Put a picture file into the workshop and onto a label.

    Raises:
        DomainError: ``picture.damaged``, ``picture.too-large``, ``label.picture-kind`` for
            anything but PNG, JPEG and SVG, ``label.picture-unreadable`` when the file cannot be
            read; of an SVG as `svg_paths.svg_drawing`.
    """
    try:
        if path.stat().st_size > MOST_PICTURE_BYTES:
            raise DomainError("picture.too-large")
        data = path.read_bytes()
    except OSError as error:
        raise DomainError("label.picture-unreadable", path=str(path)) from error
    media = _checked_media(data)
    with workspace.step(N_("Choose a picture"), origin=origin) as connection:
        key = state.store_blob(connection, data, media)
        version, _ = editable_version(connection, label_id)
        row = row_at(connection, version, at)
        element = element_of(row)
        if not isinstance(element, PictureElement):
            raise OutOfRange("label.no-such-element")
        changed = replace(element, picture=key)
        records.update(connection, "label_element", row["id"], element_values(changed))


def _checked_media(data: bytes) -> str:
    """What a picture is, once it is certain that it can be drawn."""
    if is_svg(data):
        svg_drawing(data)
        return MEDIA["SVG"]
    open_picture(data)
    media = MEDIA.get(kind_of_picture(data))
    if media is None:
        raise DomainError("label.picture-kind")
    return media


def picture_data(workspace: Workspace, element: AnyElement) -> bytes | None:
    """The file of a picture element; None for anything else, or when there is none."""
    if not isinstance(element, PictureElement) or not element.picture:
        return None
    try:
        with workspace.read() as connection:
            return state.blob(connection, element.picture)
    except Gone:
        return None


def kind_of_picture(data: bytes) -> str:
    """PNG or JPEG by the first bytes; empty for another kind."""
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return "PNG"
    return "JPEG" if data.startswith(b"\xff\xd8\xff") else ""


def row_at(connection: Connection, version: int, at: int) -> dict[str, Any]:
    """The row of an element by its place in the design.

    Raises:
        OutOfRange: ``label.no-such-element``.
    """
    rows = element_rows(connection, version)
    if not 0 <= at < len(rows):
        raise OutOfRange("label.no-such-element")
    return rows[at]


def renumber(connection: Connection, ids: Sequence[int]) -> None:
    """Give elements their places in the order, from back to front, by their keys."""
    for position, key in enumerate(ids):
        records.update(connection, "label_element", key, {"position": position})


def _fresh(kind: str, design: LabelDesign) -> AnyElement:
    """Something new in the size that suits the label; a frame goes round all of it."""
    wide, high = design.width_mm, design.height_mm
    left, across = wide * 0.2, wide * 0.6
    if kind in _SQUARE:
        return _fresh_square(kind, wide, high)
    made: dict[str, AnyElement] = {
        "frame": FrameElement(
            x_mm=0.0, y_mm=0.0, w_mm=wide, h_mm=high, figure="sticker", inset_mm=1.0
        ),
        "line": LineElement(x_mm=left, y_mm=high / 2, w_mm=across, h_mm=0.0),
        "picture": PictureElement(x_mm=left, y_mm=high * 0.325, w_mm=across, h_mm=high * 0.35),
        "facts": FactsElement(x_mm=left, y_mm=high * 0.2, w_mm=across, h_mm=high * 0.6),
        "text": TextElement(x_mm=left, y_mm=high * 0.41, w_mm=across, h_mm=high * 0.18, text=""),
    }
    return made[kind]


def _fresh_square(kind: str, wide: float, high: float) -> AnyElement:
    side = min(wide, high) * (0.5 if kind == "code" else 0.3)
    if kind == "pictogram":
        side = max(side, min(LEAST_HEIGHT_MM + 1.0, wide, high))
    x, y = (wide - side) / 2, (high - side) / 2
    if kind == "code":
        return CodeElement(x_mm=x, y_mm=y, w_mm=side, h_mm=side, text="{web}")
    if kind == "pictogram":
        return PictogramElement(x_mm=x, y_mm=y, w_mm=side, h_mm=side)
    return OrnamentElement(x_mm=x, y_mm=y, w_mm=side, h_mm=side)
