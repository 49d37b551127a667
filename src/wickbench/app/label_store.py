"""Labels as they are stored: rows to designs and back, and what a caution sticker wishes for."""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from typing import TYPE_CHECKING, Any, Final

from wickbench.domain.caution_statements import OwnText, Wanted
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
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.workspace import Workspace
    from wickbench.storage.workshop_file import Connection

ELEMENT_TYPES: Final[Mapping[str, type[AnyElement]]] = {
    "text": TextElement,
    "picture": PictureElement,
    "frame": FrameElement,
    "line": LineElement,
    "code": CodeElement,
    "ornament": OrnamentElement,
    "pictogram": PictogramElement,
    "facts": FactsElement,
}
PROPERTIES_VERSION: Final = 1
PLACE_NAMES: Final = ("x_mm", "y_mm", "w_mm", "h_mm", "turn_deg")
DESIGN_NAMES: Final = (
    "width_mm", "height_mm", "shape", "corner_mm", "safe_mm", "bleed_mm", "background",
    "wrap_bottom_mm", "wrap_top_mm", "overlap_mm",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class CautionWish:
    """What a caution sticker shall say, beside the candle's own facts.

    Attributes:
        region: ``US``, ``EU`` or ``UK``; empty for the first region sold in.
        languages: in the order in which they are printed.
        pictures: ``none``, ``beside`` or ``instead``.
        wanted: own words, lines left out and added.
        longest_burn_h: longest burn in hours; ``None`` for the usual one.
        stop_mm: depth of wax left at which to stop; ``None`` for the usual one.
        facts: fields that stand below the statements: lot, net weight …
    """

    region: str = ""
    languages: tuple[str, ...] = ("en",)
    pictures: str = "none"
    wanted: Wanted = field(default_factory=Wanted)
    longest_burn_h: float | None = None
    stop_mm: float | None = None
    facts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredLabel:
    """A label with its newest version.

    Attributes:
        id: the label's key.
        name: as the person wrote it.
        version_id: key of the newest version.
        number: its number.
        frozen: it was printed; the next change begins a new version.
        design: as laid out; of a caution sticker only size and shape count.
        element_ids: key of each element, in the order of the design.
        caution: for caution stickers.
        archived: put away.
    """

    id: int
    name: str
    version_id: int
    number: int
    frozen: bool
    design: LabelDesign
    element_ids: tuple[int, ...] = ()
    caution: CautionWish | None = None
    archived: bool = False

    @property
    def kind(self) -> str:
        """Jar, lid, caution or tag."""
        return self.design.kind


def stored_labels(workspace: Workspace, *, archived: bool = False) -> tuple[StoredLabel, ...]:
    """All labels with their newest version, by key."""
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "label", order=("id",))
        found = [label_of(connection, int(str(row["id"]))) for row in rows]
    return tuple(one for one in found if archived or not one.archived)


def stored_label(workspace: Workspace, label_id: int) -> StoredLabel:
    """One label with its newest version.

    Raises:
        Gone: there is none.
    """
    with workspace.read() as connection:
        return label_of(connection, label_id)


def label_of(connection: Connection, label_id: int) -> StoredLabel:
    """One label with its newest version, through an open door.

    Raises:
        Gone: there is none.
    """
    row: dict[str, Any] = records.fetch(connection, "label", label_id)
    version = newest_version(connection, label_id)
    elements = element_rows(connection, version["id"])
    known: dict[str, Any] = {
        name: version[name] for name in DESIGN_NAMES if version[name] is not None
    }
    design = LabelDesign(
        kind=row["kind"], elements=tuple(element_of(each) for each in elements), **known
    )
    wish = caution_of(version["properties"]) if row["kind"] == "caution" else None
    return StoredLabel(
        id=label_id,
        name=row["name"],
        version_id=version["id"],
        number=version["number"],
        frozen=bool(version["frozen"]),
        design=design,
        element_ids=tuple(each["id"] for each in elements),
        caution=wish,
        archived=bool(row["archived"]),
    )


def newest_version(connection: Connection, label_id: int) -> dict[str, Any]:
    """The row of a label's newest version."""
    where = {"label_id": label_id}
    return records.fetch_all(connection, "label_version", where, order=("-number",))[0]


def element_rows(connection: Connection, version_id: int) -> list[dict[str, Any]]:
    """Rows of a version's elements from back to front; kinds not made here are passed over."""
    rows = records.fetch_all(connection, "label_element", {"version_id": version_id})
    return [row for row in rows if row["kind"] in ELEMENT_TYPES]


def element_of(row: Mapping[str, Any]) -> AnyElement:
    """An element from its row; properties of a later program version are passed over."""
    kind = ELEMENT_TYPES[row["kind"]]
    names = {each.name for each in fields(kind)}
    place = {name: row[name] or 0.0 for name in PLACE_NAMES}
    stored = row["properties"] or {}
    more = {name: _read(value) for name, value in stored.items() if name in names}
    values: dict[str, Any] = {**place, **more}
    return kind(**values)


def element_values(element: AnyElement) -> dict[str, object]:
    """An element as the columns of its row, without version and position."""
    place: dict[str, object] = {name: getattr(element, name) for name in PLACE_NAMES}
    more = {
        each.name: _written(getattr(element, each.name))
        for each in fields(element)
        if each.name not in PLACE_NAMES
    }
    return {
        **place,
        "kind": kind_of(element),
        "properties": {"version": PROPERTIES_VERSION, **more},
    }


def kind_of(element: AnyElement) -> str:
    """Text, picture, frame, line or code."""
    return next(word for word, kind in ELEMENT_TYPES.items() if isinstance(element, kind))


def design_values(design: LabelDesign) -> dict[str, object]:
    """A design as the columns of its version, without elements."""
    return {name: getattr(design, name) for name in DESIGN_NAMES}


def caution_of(properties: object) -> CautionWish:
    """What a caution sticker wishes for, from its version's properties."""
    stored = properties if isinstance(properties, dict) else {}
    own = {
        (str(key), str(language)): OwnText(str(text), str(note))
        for key, language, text, note in stored.get("own", [])
    }
    wanted = Wanted(own, tuple(stored.get("left_out", ())), tuple(stored.get("added", ())))
    return CautionWish(
        region=str(stored.get("region", "")),
        languages=tuple(stored.get("languages", ("en",))),
        pictures=str(stored.get("pictures", "none")),
        wanted=wanted,
        longest_burn_h=stored.get("longest_burn_h"),
        stop_mm=stored.get("stop_mm"),
        facts=tuple(stored.get("facts", ())),
    )


def caution_values(wish: CautionWish) -> dict[str, object]:
    """The properties that keep a caution sticker's wishes."""
    own = [
        [key, language, said.text, said.note]
        for (key, language), said in sorted(wish.wanted.own.items())
    ]
    return {
        "version": PROPERTIES_VERSION,
        "region": wish.region,
        "languages": list(wish.languages),
        "pictures": wish.pictures,
        "own": own,
        "left_out": sorted(wish.wanted.left_out),
        "added": sorted(wish.wanted.added),
        "longest_burn_h": wish.longest_burn_h,
        "stop_mm": wish.stop_mm,
        "facts": list(wish.facts),
    }


def _read(value: object) -> object:
    return tuple(value) if isinstance(value, list) else value


def _written(value: object) -> object:
    return list(value) if isinstance(value, tuple) else value
