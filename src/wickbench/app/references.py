"""What a reference field offers: the records of one kind by name, sorted as people sort names."""

from __future__ import annotations

import unicodedata
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.texts_marker import N_
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.workspace import Workspace

ITEM_KINDS: Final = frozenset(
    (
        "wax", "fragrance", "wick", "dye", "additive", "lid", "sheet", "packaging", "supplies",
        "vessel",
    )
)  # fmt: skip
LABEL_KINDS: Final = {
    "jar_label": ("jar", "tag"), "lid_label": ("lid",), "caution_label": ("caution",),
}  # fmt: skip
NAMED_TABLES: Final = frozenset(
    ("scale", "pot", "heat_source", "thermometer", "printer", "recipe", "candle", "label", "place")
)


_VERSION: Final = N_("{name} v{number}")


def reference_choices(workspace: Workspace, refers_to: str) -> tuple[tuple[int, str], ...]:
    """Number and name of every record that a field can refer to.

    Args:
        workspace: the open workshop.
        refers_to: a kind of item ("wax", "lid", "vessel", …), a table with names ("scale", …),
            a kind of label ("jar_label", …), or "version" for the versions of all recipes, the
            newest of each first.

    Raises:
        ValueError: nothing is called that; a bug of ours.
    """
    if refers_to == "version":
        return _versions(workspace)
    if refers_to in ITEM_KINDS:
        table = "item"
        where: dict[str, object] = {"kind": refers_to, "archived": 0}
    elif refers_to in LABEL_KINDS:
        table, where = "label", {}
    elif refers_to in NAMED_TABLES:
        table, where = refers_to, {}
    else:
        raise ValueError(refers_to)
    with workspace.read() as connection:
        rows = records.fetch_all(connection, table, where=where, order=("id",))
    kinds = LABEL_KINDS.get(refers_to)
    rows = [row for row in rows if kinds is None or row["kind"] in kinds]
    said = _candle_name if refers_to == "candle" else _name
    named = [(int(str(row["id"])), said(row)) for row in rows if not row.get("archived")]
    return tuple(sorted(named, key=lambda pair: name_key(pair[1])))


def reference_name(workspace: Workspace, refers_to: str, key: int) -> str:
    """Name of a record that a field refers to, also when it was put away since."""
    with workspace.read() as connection:
        if refers_to == "version":
            version = records.fetch(connection, "recipe_version", key)
            recipe = records.fetch(connection, "recipe", int(str(version["recipe_id"])))
            name, number = _name(recipe), version["number"]
            return workspace.texts(_VERSION, name=name, number=number)
        table = "item" if refers_to in ITEM_KINDS else refers_to
        table = "label" if refers_to in LABEL_KINDS else table
        row = records.fetch(connection, table, key)
    return _candle_name(row) if refers_to == "candle" else _name(row)


def _versions(workspace: Workspace) -> tuple[tuple[int, str], ...]:
    with workspace.read() as connection:
        recipes = records.fetch_all(connection, "recipe", {"archived": 0})
        rows = records.fetch_all(connection, "recipe_version")
    names = {row["id"]: _name(row) for row in recipes}
    own = [row for row in rows if row["recipe_id"] in names]
    own.sort(key=lambda row: (name_key(names[row["recipe_id"]]), -int(str(row["number"]))))
    texts = workspace.texts
    return tuple(
        (
            int(str(row["id"])),
            texts(_VERSION, name=names[row["recipe_id"]], number=row["number"]),
        )
        for row in own
    )


def _name(row: Mapping[str, Any]) -> str:
    return str(row.get("name") or "") or f"№ {row['id']}"


def _candle_name(row: Mapping[str, Any]) -> str:
    """A candle with its code: the same scent is sold in several vessels under one name."""
    return f"{_name(row)} · {row['code']}" if row.get("code") else _name(row)


def name_key(name: str) -> tuple[str, str]:
    """A key that sorts names as people do: accents and case count only between equals."""
    plain = "".join(
        letter
        for letter in unicodedata.normalize("NFKD", name)
        if not unicodedata.combining(letter)
    )
    return plain.casefold(), name
