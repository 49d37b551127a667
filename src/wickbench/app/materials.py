"""The shelf of materials: its rows, one material's view, and what can be done with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from wickbench.app import shelf_edit
from wickbench.app.material_estimates import WOODEN, estimate_texts
from wickbench.app.material_fields import KIND_NAMES, WAX_CLASS_NAMES, WICK_KIND_NAMES
from wickbench.app.material_findings import material_findings
from wickbench.app.references import name_key
from wickbench.app.stock_view import quantity_text
from wickbench.app.texts_marker import N_
from wickbench.domain.catalog import MATERIAL_KINDS
from wickbench.domain.findings import Finding, Rank
from wickbench.storage import catalog, records

if TYPE_CHECKING:
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.storage.workshop_file import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialRow:
    """One line of the list.

    Attributes:
        id: the item's key.
        kind: kind of material.
        name: as the person wrote it; empty while it has none.
        on_hand: grams or pieces; ``None`` when never counted or bought.
        put_away: whether it was put away.
        words: what the search looks through.
    """

    id: int
    kind: str
    name: str
    on_hand: float | None
    put_away: bool
    words: str

    def title(self, texts: Texts) -> str:
        """Its name, or what it is while it has none."""
        return self.name or texts(N_("{kind} without a name"), kind=texts(KIND_NAMES[self.kind]))

    def on_hand_text(self, texts: Texts, *, both: bool = False) -> str:
        """How much is there, or *unknown*."""
        return quantity_text(texts, self.on_hand, self.kind, both=both)


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialView:
    """One material as its form shows it.

    Attributes:
        kind: kind of material.
        values: presented values of its item and its own table together.
        assumed: what stands in its empty fields, by field name.
        findings: what is worth saying, the most pressing first.
        put_away: whether it was put away.
    """

    kind: str
    values: Mapping[str, object]
    assumed: Mapping[str, str] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()
    put_away: bool = False


def material_rows(
    workspace: Workspace, kind: str = "", *, put_away: bool = False
) -> tuple[MaterialRow, ...]:
    """Materials by name, as people sort names.

    Args:
        workspace: the open workshop.
        kind: only this kind; empty for all.
        put_away: whether to show what was put away as well.
    """
    with workspace.read() as connection:
        items = records.fetch_all(connection, "item", order=("id",))
        there = catalog.on_hand(connection)
        details = {one: _details(connection, one) for one in MATERIAL_KINDS}
    rows = [
        _row(workspace.texts, item, details, there)
        for item in items
        if item["kind"] in MATERIAL_KINDS
        and kind in {"", item["kind"]}
        and (put_away or not item["archived"])
    ]
    return tuple(sorted(rows, key=lambda row: (name_key(row.title(workspace.texts)), row.id)))


def _details(connection: Connection, kind: str) -> dict[object, dict[str, object]]:
    return {row["item_id"]: row for row in records.fetch_all(connection, kind)}


def _row(
    texts: Texts,
    item: Mapping[str, object],
    details: Mapping[str, Mapping[object, Mapping[str, object]]],
    there: Mapping[int, float | None],
) -> MaterialRow:
    kind, key = str(item["kind"]), int(str(item["id"]))
    own = details[kind].get(key, {})
    words = [item["name"], item["supplier"], item["code"], item["note"], kind]
    words += [texts(KIND_NAMES[kind]), *_own_words(texts, own)]
    return MaterialRow(
        id=key,
        kind=kind,
        name=str(item["name"] or ""),
        on_hand=there.get(key),
        put_away=bool(item["archived"]),
        words=" ".join(str(word) for word in words if word),
    )


_WORD_FIELDS = (
    "scent_family", "series", "size", "form", "colour_name", "purpose", "lid_material", "page",
    "surface", "packaging_kind", "used_for",
)  # fmt: skip


def _own_words(texts: Texts, own: Mapping[str, object]) -> list[object]:
    found = [own.get(name) for name in _WORD_FIELDS]
    wax_class, wick = str(own.get("wax_class") or ""), str(own.get("wick_kind") or "")
    found.append(texts(WAX_CLASS_NAMES.get(wax_class, "")))
    found.append(texts(WICK_KIND_NAMES.get(wick, "")))
    if wick in WOODEN:
        found.append(texts(N_("wood")))
    return found


def any_put_away(workspace: Workspace) -> bool:
    """Whether some material was put away."""
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "item", {"archived": 1})
    return any(row["kind"] in MATERIAL_KINDS for row in rows)


def stored_values(workspace: Workspace, key: int) -> dict[str, object]:
    """Presented values of an item and its own table together.

    Raises:
        Gone: there is no such item.
    """
    with workspace.read() as connection:
        item = records.fetch(connection, "item", key)
        details = records.fetch(connection, str(item["kind"]), key)
    return {**details, **item}


def material_view(texts: Texts, values: Mapping[str, object]) -> MaterialView:
    """What the form shows for these values, stored or typed so far."""
    kind = str(values["kind"])
    return MaterialView(
        kind=kind,
        values=values,
        assumed=estimate_texts(texts, kind, values),
        findings=material_findings(kind, values),
        put_away=bool(values.get("archived")),
    )


# -- what can be done with one -------------------------------------------------------------------
def new_material(workspace: Workspace, kind: str, *, origin: object = None) -> int:
    """Put a new material of a kind on the shelf, empty.

    Raises:
        ValueError: no such kind; a bug of ours.
    """
    if kind not in MATERIAL_KINDS:
        raise ValueError(kind)
    return shelf_edit.new_item(workspace, kind, origin=origin)


def remove_material(workspace: Workspace, key: int, *, origin: object = None) -> Finding:
    """Remove a material, or put it away when something names it; says which."""
    values = stored_values(workspace, key)
    kind = workspace.texts(KIND_NAMES[str(values["kind"])])
    name = str(values["name"] or "") or kind
    removed = shelf_edit.remove_item(workspace, key, origin=origin)
    return Finding(
        Rank.NOTE, "material.removed" if removed else "material.put-away", {"name": name}
    )


def bring_back(workspace: Workspace, key: int, *, origin: object = None) -> None:
    """Put a material that was put away back on the shelf."""
    with workspace.step(N_("Bring back"), origin=origin) as connection:
        records.update(connection, "item", key, {"archived": 0})
