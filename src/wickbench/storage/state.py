"""What undo leaves alone: settings, counters, drafts, attached bytes, what went to paper."""

from __future__ import annotations

import hashlib
import json
from typing import TYPE_CHECKING

from sqlalchemy import select
from sqlalchemy.dialects.sqlite import insert

from wickbench.storage import records
from wickbench.storage.presented import column_for, stored_value
from wickbench.storage.refusals import Gone
from wickbench.storage.tables_house import BLOB, COUNTER, DRAFT, SETTING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sqlalchemy import Connection


def settings(connection: Connection) -> dict[str, object]:
    """All settings that the file keeps, decoded."""
    rows = connection.execute(select(SETTING.c.name, SETTING.c.value_json))
    return {name: json.loads(value) for name, value in rows}


def setting(connection: Connection, name: str, default: object = None) -> object:
    """One setting, or the default when the file does not keep it."""
    statement = select(SETTING.c.value_json).where(SETTING.c.name == name)
    value = connection.execute(statement).scalar_one_or_none()
    return default if value is None else json.loads(value)


def set_setting(connection: Connection, name: str, value: object) -> None:
    """Keep a setting; ``None`` forgets it, so that its default counts again.

    Raises:
        OutOfRange: a value that cannot be kept.
    """
    if value is None:
        connection.execute(SETTING.delete().where(SETTING.c.name == name))
        return
    written = stored_value(column_for("setting", "value"), value)
    statement = insert(SETTING).values(name=name, value_json=written)
    kept = {"value_json": statement.excluded.value_json}
    connection.execute(statement.on_conflict_do_update(index_elements=["name"], set_=kept))


def next_number(connection: Connection, counter: str) -> int:
    """The next number of a counter, from 1; never given twice, undo or not.

    Inside a step that fails the number was not given.
    """
    statement = insert(COUNTER).values(name=counter, next=2)
    moved = statement.on_conflict_do_update(
        index_elements=["name"], set_={"next": COUNTER.c.next + 1}
    )
    return int(connection.execute(moved.returning(COUNTER.c.next)).scalar_one()) - 1


def drafts(connection: Connection, kind: str, record: int) -> dict[str, str]:
    """Text that did not parse, by field."""
    statement = select(DRAFT.c.field, DRAFT.c.typed).where(
        DRAFT.c.kind == kind, DRAFT.c.record == record
    )
    return {row.field: row.typed for row in connection.execute(statement)}


def set_draft(
    connection: Connection, kind: str, record: int, field: str, typed: str,
    *, at_ms: int | None = None,
) -> None:  # fmt: skip
    """Keep what was typed into a field until it is mended."""
    statement = insert(DRAFT).values(
        kind=kind, record=record, field=field, typed=typed, at_ms=at_ms
    )
    kept = {"typed": statement.excluded.typed, "at_ms": statement.excluded.at_ms}
    connection.execute(
        statement.on_conflict_do_update(index_elements=["kind", "record", "field"], set_=kept)
    )


def clear_draft(connection: Connection, kind: str, record: int, field: str | None = None) -> None:
    """Forget the draft of a field, or of all fields of a record."""
    statement = DRAFT.delete().where(DRAFT.c.kind == kind, DRAFT.c.record == record)
    if field is not None:
        statement = statement.where(DRAFT.c.field == field)
    connection.execute(statement)


def store_blob(connection: Connection, data: bytes, media_type: str) -> str:
    """Keep bytes once and give their SHA-256 in hex; the same bytes are not kept twice."""
    sha256 = hashlib.sha256(data).hexdigest()
    statement = insert(BLOB).values(sha256=sha256, media_type=media_type, data=data)
    connection.execute(statement.on_conflict_do_nothing(index_elements=["sha256"]))
    return sha256


def blob(connection: Connection, sha256: str) -> bytes:
    """Kept bytes.

    Raises:
        Gone: there are none with that SHA-256.
    """
    data = connection.execute(select(BLOB.c.data).where(BLOB.c.sha256 == sha256)).scalar()
    if data is None:
        raise Gone("storage.gone", table="blob")
    return bytes(data)


def blob_id(connection: Connection, sha256: str) -> int:
    """The key of kept bytes, for an attachment's ``blob_id``. Raises ``Gone``."""
    found = connection.execute(select(BLOB.c.id).where(BLOB.c.sha256 == sha256)).scalar()
    if found is None:
        raise Gone("storage.gone", table="blob")
    return int(found)


def record_print(
    connection: Connection, *, at_ms: int, kind: str, title: str, snapshot: Mapping[str, object],
    file_name: str | None = None, sha256: str | None = None,
) -> int:  # fmt: skip
    """Keep what went to paper, whole and unchanging; gives its number."""
    values = {
        "at_ms": at_ms,
        "kind": kind,
        "title": title,
        "snapshot": dict(snapshot),
        "file_name": file_name,
        "sha256": sha256,
    }
    return records.insert(connection, "print_record", values)


def prints(connection: Connection, kind: str | None = None) -> list[dict[str, object]]:
    """What went to paper, newest first."""
    where = {} if kind is None else {"kind": kind}
    return records.fetch_all(connection, "print_record", where, order=("-at_ms", "-id"))
