"""The two small tables of a vessel: inner diameters at heights, and weighings with water.

What cannot be read stays in its row as a draft with its sentence; the other rows count.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from wickbench.app import edit
from wickbench.app.texts_marker import N_
from wickbench.app.vessel_tables import columns_of, has_decimal_comma
from wickbench.app.vessel_texts import masses
from wickbench.domain.errors import DomainError
from wickbench.storage import records, state

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickbench.app.fields import FieldSpec
    from wickbench.app.vessel_tables import PartTable
    from wickbench.app.workspace import Workspace
    from wickbench.storage.workshop_file import Connection

Typed = Mapping[str, str]
# What people write into a column of yes and no in a spreadsheet.
_YES_NO: Mapping[str, str] = {
    **dict.fromkeys(("yes", "y", "own", "true", "x", "ja", "oui", "sí", "si"), "1"),
    **dict.fromkeys(("no", "n", "average", "false", "nein", "non", "mean"), "0"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRow:
    """A row as stored, with the text that could not be read.

    Attributes:
        id: its key.
        values: presented values by column name.
        drafts: by column name, what was typed and the sentence that says what to do.
    """

    id: int
    values: Mapping[str, object]
    drafts: Mapping[str, tuple[str, str]] = field(default_factory=dict)


def part_rows(workspace: Workspace, part: PartTable, vessel: int) -> tuple[PartRow, ...]:
    """Rows of a vessel's table; diameters from the base up, weighings as they were entered."""
    with workspace.read() as connection:
        rows = records.fetch_all(connection, part.table, _where(part, vessel), ("id",))
        drafts = {row["id"]: state.drafts(connection, part.table, _key(row)) for row in rows}
    found = [
        PartRow(id=_key(row), values=row, drafts=_told(workspace, part, drafts[row["id"]]))
        for row in rows
    ]
    return tuple(found if part.numbered else sorted(found, key=_by_height))


def cell_text(workspace: Workspace, spec: FieldSpec, row: PartRow, rows: Iterable[PartRow]) -> str:
    """Text of a cell: the draft, else the value with as many decimals as its column needs."""
    if spec.name in row.drafts:
        return row.drafts[spec.name][0]
    value = row.values.get(spec.name)
    if spec.choices:
        found = (one.label for one in spec.choices if str(one.value) == str(value))
        return workspace.texts(next(found, ""))
    if spec.kind != "mass" or not isinstance(value, (int, float)):
        return edit.shown(workspace, spec, value)
    column = [other.values.get(spec.name) for other in rows]
    others = [number for number in column if isinstance(number, (int, float))]
    return masses(workspace.texts, [value, *others])[0]


def _where(part: PartTable, vessel: int) -> dict[str, object]:
    return {part.owner: vessel, "level": part.level} if part.level else {part.owner: vessel}


def _key(row: Mapping[str, object]) -> int:
    return int(str(row["id"]))


def _by_height(row: PartRow) -> tuple[bool, float, int]:
    height = row.values.get("height_mm")
    return height is None, float(height) if isinstance(height, (int, float)) else 0.0, row.id


def _told(workspace: Workspace, part: PartTable, kept: Typed) -> dict[str, tuple[str, str]]:
    told = {}
    for name in part.names:
        if name in kept:
            told[name] = (kept[name], _sentence(workspace, part.spec(name), kept[name]))
    return told


def _sentence(workspace: Workspace, spec: FieldSpec, typed: str) -> str:
    try:
        edit.read_field(workspace, spec, typed)
    except DomainError as error:
        return workspace.texts.say(error)
    return ""


def write_part(
    workspace: Workspace, part: PartTable, row: int, name: str, typed: str, *, origin: object = None
) -> None:
    """Store one cell as one undoable act.

    Raises:
        DomainError: the text stays as a draft of the cell.
    """
    spec = part.spec(name)
    edit.set_field(workspace, spec, row, stored_word(workspace, spec, typed), origin=origin)


def add_part(
    workspace: Workspace, part: PartTable, vessel: int, typed: Typed, *, origin: object = None
) -> int:
    """A new row from typed texts by column name; returns its key.

    A weighing takes the next number, and water and scale of the row before it, unless they were
    typed. A text that cannot be read is kept in its cell.
    """
    (row,) = _write_rows(workspace, part, vessel, [(None, typed)], label=part.add, origin=origin)
    return row


def paste_parts(
    workspace: Workspace,
    part: PartTable,
    vessel: int,
    cells: Sequence[Sequence[str]],
    *,
    onto: Sequence[int] = (),
    left: int = 0,
    origin: object = None,
) -> tuple[int, ...]:
    """Type cells of a spreadsheet in, as one undoable act; returns the keys of their rows.

    Args:
        workspace: the open workshop.
        part: the table.
        vessel: key of the vessel.
        cells: rows of cells, with or without a row of headings; headings may be in any order.
        onto: keys of rows to write over, from the first on; further rows are added.
        left: column where the first cell goes, when there are no headings.
        origin: who does it.
    """
    names, body = columns_of(workspace, part, cells, left)
    typed = [
        {name: cell for name, cell in zip(names, row, strict=False) if name and cell.strip()}
        for row in body
    ]
    keys: list[int | None] = [*onto, *([None] * len(typed))]
    rows = [(key, row) for key, row in zip(keys, typed, strict=False) if row]
    if not rows:
        return ()
    prefer = "decimal" if has_decimal_comma(body) else None
    return _write_rows(
        workspace, part, vessel, rows, label=part.paste, origin=origin, prefer=prefer
    )


def remove_parts(
    workspace: Workspace, part: PartTable, rows: Iterable[int], *, origin: object = None
) -> None:
    """Delete rows as one undoable act."""
    with workspace.step(part.remove, origin=origin) as connection:
        for row in rows:
            records.delete(connection, part.table, row)


def scale_of(workspace: Workspace, vessel: int) -> int | None:
    """The scale that the newest weighing was made on."""
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "weighing", {"vessel_id": vessel}, ("id",))
    scale = rows[-1]["scale_id"] if rows else None
    return None if scale is None else int(str(scale))


def set_scale(
    workspace: Workspace, vessel: int, scale: int | None, *, origin: object = None
) -> None:
    """Say which scale all weighings of a vessel were made on."""
    with workspace.step(N_("Choose the scale of the weighings"), origin=origin) as connection:
        for row in records.fetch_all(connection, "weighing", {"vessel_id": vessel}, ("id",)):
            records.update(connection, "weighing", _key(row), {"scale_id": scale})


def _write_rows(
    workspace: Workspace,
    part: PartTable,
    vessel: int,
    rows: Sequence[tuple[int | None, Typed]],
    *,
    label: str,
    origin: object,
    prefer: str | None = None,
) -> tuple[int, ...]:
    """Insert or update rows in one step; unreadable texts are kept as drafts afterwards."""
    written: list[int] = []
    mended: list[tuple[int, str]] = []
    unread: list[tuple[int, str, str]] = []
    with workspace.step(label, origin=origin) as connection:
        for key, typed in rows:
            values, bad = _read(workspace, part, typed, prefer)
            row = _store(connection, part, vessel, key, values)
            written.append(row)
            mended += [(row, name) for name in values if key is not None]
            unread += [(row, name, text) for name, text in bad.items()]
    for row, name in mended:
        edit.drop_draft(workspace, part.spec(name), row)
    for row, name, text in unread:
        edit.keep_draft(workspace, part.spec(name), row, text)
    return tuple(written)


def _read(
    workspace: Workspace, part: PartTable, typed: Typed, prefer: str | None
) -> tuple[dict[str, object], dict[str, str]]:
    good: dict[str, object] = {}
    bad: dict[str, str] = {}
    for name, text in typed.items():
        try:
            spec = part.spec(name)
            word = stored_word(workspace, spec, text)
            good[name] = edit.read_field(workspace, spec, word, prefer=prefer)
        except DomainError:
            bad[name] = text
    return good, bad


def _store(
    connection: Connection,
    part: PartTable,
    vessel: int,
    key: int | None,
    values: dict[str, object],
) -> int:
    if key is not None:
        records.update(connection, part.table, key, values)
        return key
    usual = _usual(connection, part, vessel)
    return records.insert(connection, part.table, {**usual, **_where(part, vessel), **values})


def _usual(connection: Connection, part: PartTable, vessel: int) -> dict[str, object]:
    """What a new weighing takes from the one before it."""
    if not part.numbered:
        return {}
    before = records.fetch_all(connection, part.table, {part.owner: vessel}, ("id",))
    own = [row for row in before if row.get("level", "") == part.level]
    numbers = [int(str(row["vessel_no"] or 0)) for row in own]
    usual: dict[str, object] = {"vessel_no": max(numbers, default=0) + 1}
    kept = [(name, before[-1][name]) for name in part.kept] if before else part.first
    return usual | dict(kept)


def stored_word(workspace: Workspace, spec: FieldSpec, typed: str) -> str:
    """The stored word of a choice that was typed or pasted by its name; other text as it is."""
    said = typed.strip().casefold()
    for choice in spec.choices:
        names = (str(choice.value), choice.label, workspace.texts(choice.label))
        if said in {name.casefold() for name in names}:
            return str(choice.value)
    return _YES_NO.get(said, typed) if spec.kind == "yes_no" else typed
