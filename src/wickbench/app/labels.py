"""What can be done with a whole label: begin, double, remove, rename, fit to a sheet, freeze.

Each is one undoable act. A version that was printed is frozen: the next change begins a new one.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.label_refit import drawn_anew
from wickbench.app.label_store import (
    CautionWish,
    StoredLabel,
    caution_values,
    design_values,
    element_of,
    element_rows,
    element_values,
    label_of,
    newest_version,
)
from wickbench.app.texts_marker import N_
from wickbench.domain.labels import AnyElement, FactsElement, LabelDesign, TextElement
from wickbench.domain.starting_labels import starting_design
from wickbench.storage import records
from wickbench.storage.refusals import InUse

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickbench.app.workspace import Workspace
    from wickbench.domain.sheets import StickerSheet
    from wickbench.storage.workshop_file import Connection

STARTING_NAMES: Final[Mapping[str, str]] = {
    "hush": N_("Hush: spaced capitals over a fine rule"),
    "sill": N_("Sill: a double frame on a warm ground"),
    "ember": N_("Ember: the name on a glowing field"),
    "ledger": N_("Ledger: set left between level lines"),
    "dusk": N_("Dusk: a night sky over a light strip"),
    "crest": N_("Crest: a double oval with bent words"),
    "quill": N_("Quill: a slanted name between rules"),
    "bark": N_("Bark: as bold as can be, for kraft"),
    "orchard": N_("Orchard: the name between branches"),
    "tally": N_("Tally: the facts of this very candle beside the name"),
    "band": N_("Band: a coloured band, all round a wrap"),
    "seal": N_("Seal: the business on a ring"),
    "cap": N_("Cap: words in a ring, for a lid"),
    "tie": N_("Tie: a tag with a hole"),
}
"""Names of the starting designs, each with a word on its character after the colon."""

CAUTION: Final = "caution"
USUAL_STICKER: Final = (62.0, 36.0)


def new_label(
    workspace: Workspace,
    starting: str,
    sheet: StickerSheet | None = None,
    *,
    name: str = "",
    origin: object = None,
) -> int:
    """A label from one of the starting designs, or a caution sticker, sized to a sheet's sticker.

    Args:
        workspace: the open workshop.
        starting: one of `STARTING_NAMES`, or `CAUTION`.
        sheet: whose sticker it is made for; 62 × 36 mm without one.
        name: what it is called; the starting design's name when empty.
        origin: who asks.

    Returns:
        the label's key.
    """
    width, height = (sheet.sticker_w_mm, sheet.sticker_h_mm) if sheet else USUAL_STICKER
    shape = sheet.shape if sheet else "rectangle"
    corner = sheet.corner_mm if sheet else 0.0
    if starting == CAUTION:
        design = LabelDesign(
            width_mm=width, height_mm=height, shape=shape, corner_mm=corner, kind="caution"
        )
        properties: object = caution_values(usual_wish(workspace))
        called = workspace.texts(N_("Caution sticker"))
    else:
        design = starting_design(starting, width, height, shape=shape, corner_mm=corner)
        properties, called = None, workspace.texts(STARTING_NAMES[starting]).partition(":")[0]
    return begin_label(workspace, design, name or called, properties, origin=origin)


def usual_wish(workspace: Workspace) -> CautionWish:
    """What a new caution sticker says: for where most is sold, in the language of labels."""
    return CautionWish(
        region=next(iter(workspace.settings.regions), "US"),
        languages=(workspace.settings.text("language_of_labels") or "en",),
    )


def begin_label(
    workspace: Workspace,
    design: LabelDesign,
    name: str,
    properties: object = None,
    *,
    origin: object = None,
) -> int:
    """A new label with a design.

    Args:
        workspace: the open workshop.
        design: what stands on it.
        name: what it is called.
        properties: of its first version; a caution sticker's wishes.
        origin: who asks.

    Returns:
        the label's key.
    """
    with workspace.step(N_("Begin a label"), origin=origin) as connection:
        row = {"name": name, "kind": design.kind}
        label_id = records.insert(connection, "label", row)
        _insert_version(connection, label_id, 1, design, properties)
    return label_id


def duplicate_label(workspace: Workspace, label_id: int, *, origin: object = None) -> int:
    """A copy of a label's newest version, as a label of its own."""
    with workspace.step(N_("Duplicate a label"), origin=origin) as connection:
        old = label_of(connection, label_id)
        name = workspace.texts(N_("{name} copy"), name=old.name)
        copy = records.insert(connection, "label", {"name": name, "kind": old.kind})
        properties = caution_values(old.caution) if old.caution else None
        _insert_version(connection, copy, 1, old.design, properties)
    return copy


def remove_label(workspace: Workspace, label_id: int, *, origin: object = None) -> None:
    """Remove a label; one that a print run names is put away instead."""
    with workspace.step(N_("Remove a label"), origin=origin) as connection:
        try:
            records.delete(connection, "label", label_id)
        except InUse:
            records.update(connection, "label", label_id, {"archived": 1})


def rename_label(workspace: Workspace, label_id: int, name: str, *, origin: object = None) -> None:
    """Call a label something else."""
    merge = ("label", label_id, "name")
    with workspace.step(N_("Rename a label"), merge=merge, origin=origin) as connection:
        records.update(connection, "label", label_id, {"name": name.strip()})


def change_design(
    workspace: Workspace, label_id: int, changes: Mapping[str, Any], *, origin: object = None
) -> None:
    """Change size, shape, safe zone, bleed or background.

    Raises:
        OutOfRange: a measure or colour that cannot be.
    """
    merge = ("label", label_id, *sorted(changes))
    with workspace.step(N_("Change a label"), merge=merge, origin=origin) as connection:
        version, design = editable_version(connection, label_id)
        changed = replace(design, **changes)
        records.update(connection, "label_version", version, design_values(changed))


def fit_to_sheet(
    workspace: Workspace, label_id: int, sheet: StickerSheet, *, origin: object = None
) -> None:
    """Give a label the size and shape of a sheet's sticker.

    A starting design on which nothing was moved is drawn anew; else what stands on it grows or
    shrinks.
    """
    with workspace.step(N_("Fit a label to the sheet"), origin=origin) as connection:
        version, design = editable_version(connection, label_id)
        anew = drawn_anew(design, sheet)
        if anew is not None:
            records.update(connection, "label_version", version, design_values(anew))
            for row in element_rows(connection, version):
                records.delete(connection, "label_element", row["id"])
            _insert_elements(connection, version, anew.elements)
            return
        across = sheet.sticker_w_mm / design.width_mm
        down = sheet.sticker_h_mm / design.height_mm
        changed = replace(
            design,
            width_mm=sheet.sticker_w_mm,
            height_mm=sheet.sticker_h_mm,
            shape=sheet.shape,
            corner_mm=sheet.corner_mm,
            wrap_bottom_mm=0.0,
            wrap_top_mm=0.0,
            overlap_mm=0.0,
        )
        records.update(connection, "label_version", version, design_values(changed))
        for row in element_rows(connection, version):
            grown = _scaled(element_of(row), across, down)
            records.update(connection, "label_element", row["id"], element_values(grown))


def _scaled(element: AnyElement, across: float, down: float) -> AnyElement:
    moved = replace(
        element,
        x_mm=element.x_mm * across,
        y_mm=element.y_mm * down,
        w_mm=element.w_mm * across,
        h_mm=element.h_mm * down,
    )
    if isinstance(moved, TextElement | FactsElement):
        size = max(moved.min_size_pt, round(moved.size_pt * min(across, down) * 2) / 2)
        return replace(moved, size_pt=size)
    return moved


def change_caution(
    workspace: Workspace, label_id: int, wish: CautionWish, *, origin: object = None
) -> None:
    """Change region, languages, drawings or words of a caution sticker."""
    merge = ("caution", label_id)
    with workspace.step(N_("Change a caution sticker"), merge=merge, origin=origin) as connection:
        version, _ = editable_version(connection, label_id)
        changed = {"properties": caution_values(wish)}
        records.update(connection, "label_version", version, changed)


def freeze(connection: Connection, labels: Sequence[StoredLabel]) -> None:
    """What was printed stays as it was; inside a step."""
    for label in labels:
        if not label.frozen:
            records.update(connection, "label_version", label.version_id, {"frozen": 1})


def editable_version(connection: Connection, label_id: int) -> tuple[int, LabelDesign]:
    """Key and design of the version to change; a frozen one is copied first. Inside a step."""
    label = label_of(connection, label_id)
    if not label.frozen:
        return label.version_id, label.design
    properties = newest_version(connection, label_id)["properties"]
    number = label.number + 1
    return _insert_version(connection, label_id, number, label.design, properties), label.design


def _insert_version(
    connection: Connection, label_id: int, number: int, design: LabelDesign, properties: object
) -> int:
    values = {"label_id": label_id, "number": number, **design_values(design)}
    version = records.insert(connection, "label_version", {**values, "properties": properties})
    _insert_elements(connection, version, design.elements)
    return version


def _insert_elements(connection: Connection, version: int, elements: Sequence[AnyElement]) -> None:
    for position, element in enumerate(elements):
        row = {"version_id": version, "position": position, **element_values(element)}
        records.insert(connection, "label_element", row)
