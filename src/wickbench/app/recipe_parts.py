"""The small tables of a recipe and of a candle: a material and how much of it, line by line."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from wickbench.app import edit
from wickbench.app.candle_fields import EXTRA_FIELDS
from wickbench.app.fields import FieldSpec
from wickbench.app.recipe_fields import PARTS_FIELDS
from wickbench.app.recipe_words import percent
from wickbench.app.texts_marker import N_
from wickbench.domain.catalog import Additive, Dye
from wickbench.domain.errors import CannotRead, DomainError
from wickbench.domain.recipes import share_percents
from wickbench.storage import records, state

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Candle, RecipeVersion
    from wickbench.storage.workshop_file import Connection

FIRST_WAX_PARTS = 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PartTable:
    """One small table, as data.

    Attributes:
        key: name for code; the role of a recipe's part.
        table: where its lines are stored.
        whole: column that names what the line is a part of.
        heading, adding, add, remove: msgids.
        specs: field of the material and field of the amount.
        kinds: kinds of material that can be chosen.
        fixed: values that every line has.
    """

    key: str
    table: str
    whole: str
    heading: str
    adding: str
    add: str
    remove: str
    specs: tuple[FieldSpec, FieldSpec]
    kinds: tuple[str, ...]
    fixed: Mapping[str, object] = field(default_factory=dict)

    def spec(self, name: str) -> FieldSpec:
        """The field of a column."""
        return next(spec for spec in self.specs if spec.name == name)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLine:
    """One line.

    Attributes:
        id: its key.
        item_id: the material; ``None`` until chosen.
        name: of the material.
        amount: in the field's unit; ``None`` until filled in.
        share: "62.5 %" of the table's sum, where amounts are parts.
        drafts: typed text that could not be read, with its sentence, by column.
    """

    id: int
    item_id: int | None
    name: str
    amount: float | None
    share: str = ""
    drafts: Mapping[str, tuple[str, str]] = field(default_factory=dict)


def _role(role: str, heading: str, adding: str, add: str, remove: str) -> PartTable:
    specs = PARTS_FIELDS[role]
    return PartTable(
        key=role,
        table="recipe_part",
        whole="version_id",
        heading=heading,
        adding=adding,
        add=add,
        remove=remove,
        specs=(specs[0], specs[1]),
        kinds=(role,),
        fixed={"role": role},
    )


RECIPE_TABLES: tuple[PartTable, ...] = (
    _role("wax", N_("Wax"), N_("Add a wax…"), N_("Add a wax"), N_("Take the wax out")),
    _role(
        "fragrance",
        N_("Fragrance oil"),
        N_("Add a fragrance oil…"),
        N_("Add a fragrance oil"),
        N_("Take the oil out"),
    ),
    _role("dye", N_("Dye"), N_("Add a dye…"), N_("Add a dye"), N_("Take the dye out")),
    _role(
        "additive",
        N_("Additive"),
        N_("Add an additive…"),
        N_("Add an additive"),
        N_("Take the additive out"),
    ),
)
EXTRAS = PartTable(
    key="extras",
    table="candle_extra",
    whole="candle_id",
    heading=N_("What else goes with it"),
    adding=N_("Add a box, a bag, a ribbon…"),
    add=N_("Add packaging"),
    remove=N_("Take the packaging out"),
    specs=(EXTRA_FIELDS[0], EXTRA_FIELDS[1]),
    kinds=("packaging", "supplies", "sheet"),
)


# -- showing ---------------------------------------------------------------------------------------
def recipe_lines(
    workspace: Workspace, part: PartTable, version: RecipeVersion, shelf: Shelf
) -> tuple[PartLine, ...]:
    """Lines of one role of a version, with their shares of the role's sum."""
    own = [line for line in version.parts if line.role == part.key]
    in_parts = part.specs[1].name == "parts"
    shares = _shares({line.id: line.parts for line in own}, workspace.texts) if in_parts else {}
    return tuple(
        PartLine(
            id=line.id,
            item_id=line.item_id,
            name=shelf.names.get(line.item_id or 0, ""),
            amount=line.parts if in_parts else line.of_wax_percent,
            share=shares.get(line.id, ""),
            drafts=_drafts(workspace, part, line.id),
        )
        for line in own
    )


def extra_lines(workspace: Workspace, candle: Candle, shelf: Shelf) -> tuple[PartLine, ...]:
    """What goes with a candle besides wax, wick, vessel and lid."""
    with workspace.read() as connection:
        rows = records.fetch_all(connection, EXTRAS.table, {EXTRAS.whole: candle.id}, ("id",))
    return tuple(
        PartLine(
            id=int(str(row["id"])),
            item_id=_whole(row["item_id"]),
            name=shelf.names.get(_whole(row["item_id"]) or 0, ""),
            amount=_whole(row["count"]),
            drafts=_drafts(workspace, EXTRAS, int(str(row["id"]))),
        )
        for row in rows
    )


def _whole(value: object) -> int | None:
    return value if isinstance(value, int) else None


def _shares(amounts: Mapping[int, float | None], texts: Texts) -> dict[int, str]:
    known = {key: amount or 0.0 for key, amount in amounts.items()}
    if not any(known.values()):
        return {}
    return {key: percent(texts, share) for key, share in share_percents(known).items()}


def shares_while_typing(
    lines: Sequence[PartLine], key: int, typed: float | None, texts: Texts
) -> dict[int, str]:
    """Shares of all lines while the amount of one of them is being typed."""
    amounts = {line.id: typed if line.id == key else line.amount for line in lines}
    return _shares(amounts, texts)


def choices_for(part: PartTable, shelf: Shelf, line: PartLine | None) -> list[tuple[str, str]]:
    """Keys and names of what can be chosen, and of what stands there though it was put away."""
    found = [(str(one.id), one.name) for kind in part.kinds for one in shelf.of_kind(kind)]
    if line is not None and line.item_id is not None:
        known = str(line.item_id)
        if known not in {key for key, _ in found}:
            found.append((known, line.name))
    return found


def _drafts(workspace: Workspace, part: PartTable, key: int) -> dict[str, tuple[str, str]]:
    with workspace.read() as connection:
        kept = state.drafts(connection, part.table, key)
    return {name: (typed, _sentence(workspace, part, name, typed)) for name, typed in kept.items()}


def _sentence(workspace: Workspace, part: PartTable, name: str, typed: str) -> str:
    try:
        edit.read_field(workspace, part.spec(name), typed)
    except DomainError as error:
        return workspace.texts.say(error)
    return ""


# -- changing --------------------------------------------------------------------------------------
def add_line(
    workspace: Workspace,
    part: PartTable,
    whole: int,
    shelf: Shelf,
    typed: Mapping[str, str],
    *,
    origin: object = None,
) -> int:
    """A new line from typed texts by column; an amount not typed gets what is usual.

    Raises:
        DomainError: a text that cannot be read, or a version that is frozen.
    """
    values = {name: _read(workspace, part, name, text) for name, text in typed.items()}
    with workspace.step(part.add, origin=origin) as connection:
        _check_open(connection, part, whole)
        rows = records.fetch_all(connection, part.table, {part.whole: whole, **part.fixed})
        amount = part.specs[1].name
        if amount not in values:
            values[amount] = _usual(part, shelf, values.get("item_id"), first=not rows)
        place = {"position": len(rows)} if part.table == "recipe_part" else {}
        return records.insert(
            connection, part.table, {part.whole: whole, **part.fixed, **place, **values}
        )


def _usual(part: PartTable, shelf: Shelf, item: object, *, first: bool) -> float | None:
    if part is EXTRAS:
        return 1
    if part.key in {"wax", "fragrance"}:
        return (FIRST_WAX_PARTS if part.key == "wax" else 1.0) if first else None
    material = shelf.materials.get(item) if isinstance(item, int) else None
    details = material.details if material is not None else None
    return details.usual_percent if isinstance(details, (Dye, Additive)) else None


def write_line(
    workspace: Workspace, part: PartTable, key: int, name: str, typed: str, *, origin: object = None
) -> None:
    """Change one cell; text that cannot be read is kept as a draft of the cell.

    Raises:
        DomainError: a text that cannot be read, or a version that is frozen.
    """
    with workspace.read() as connection:
        whole = records.fetch(connection, part.table, key)[part.whole]
        _check_open(connection, part, int(str(whole)))
    spec = part.spec(name)
    try:
        value = _read(workspace, part, name, typed)
    except DomainError:
        edit.keep_draft(workspace, spec, key, typed)
        raise
    edit.drop_draft(workspace, spec, key)
    edit.store_field(workspace, spec, key, value, origin=origin)


def remove_lines(
    workspace: Workspace, part: PartTable, keys: Sequence[int], *, origin: object = None
) -> None:
    """Take lines out, as one act.

    Raises:
        DomainError: the version is frozen.
    """
    with workspace.step(part.remove, origin=origin) as connection:
        for key in keys:
            whole = records.fetch(connection, part.table, key)[part.whole]
            _check_open(connection, part, int(str(whole)))
            records.delete(connection, part.table, key)


def _read(workspace: Workspace, part: PartTable, name: str, typed: str) -> edit.Value:
    if part.spec(name).kind == "reference" and typed.strip() and not typed.strip().isdigit():
        raise CannotRead("recipe-dock.no-such-material", typed=typed)
    return edit.read_field(workspace, part.spec(name), typed)


def _check_open(connection: Connection, part: PartTable, whole: int) -> None:
    if part.table == "recipe_part" and records.fetch(connection, "recipe_version", whole)["frozen"]:
        raise DomainError("recipe-dock.frozen")
