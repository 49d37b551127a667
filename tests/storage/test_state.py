"""Settings, counters, drafts, attached bytes and print records."""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING

import pytest

from wickbench.domain.errors import OutOfRange
from wickbench.storage import records, state, workshop_file
from wickbench.storage.refusals import Gone

if TYPE_CHECKING:
    from wickbench.storage.clock import Clock
    from wickbench.storage.workshop_file import WorkshopFile


def test_settings_keep_their_type_and_forget_on_none(workshop: WorkshopFile) -> None:
    kept = {"currency": "EUR", "room_c": 20.5, "regions": ["EU", "US"], "both": True}
    with workshop.unjournalled() as connection:
        for name, value in kept.items():
            state.set_setting(connection, name, value)
        state.set_setting(connection, "currency", "USD")
        state.set_setting(connection, "both", None)
        assert state.settings(connection) == {
            "currency": "USD", "room_c": 20.5, "regions": ["EU", "US"],
        }  # fmt: skip
        assert state.setting(connection, "both", "default") == "default"
        with pytest.raises(OutOfRange):
            state.set_setting(connection, "x", float("nan"))


def test_counters_count_by_themselves_and_never_back(workshop: WorkshopFile, clock: Clock) -> None:
    with workshop.unjournalled() as connection:
        given = [state.next_number(connection, "lot") for _ in range(3)]
        assert given == [1, 2, 3]
        assert state.next_number(connection, "print") == 1
    path = workshop.path
    workshop.close()
    again = workshop_file.open_workshop(path, clock=clock)
    with again.unjournalled() as connection:
        assert state.next_number(connection, "lot") == 4
    again.close()


def test_drafts_are_kept_by_field_until_cleared(workshop: WorkshopFile) -> None:
    with workshop.unjournalled() as connection:
        state.set_draft(connection, "wax", 7, "pour_c", "18O F")
        state.set_draft(connection, "wax", 7, "pour_c", "180 G", at_ms=5)
        state.set_draft(connection, "wax", 7, "note", "")
        state.set_draft(connection, "wax", 8, "note", "x")
        assert state.drafts(connection, "wax", 7) == {"pour_c": "180 G", "note": ""}
        state.clear_draft(connection, "wax", 7, "note")
        assert state.drafts(connection, "wax", 7) == {"pour_c": "180 G"}
        state.clear_draft(connection, "wax", 7)
        assert state.drafts(connection, "wax", 7) == {}
        assert state.drafts(connection, "wax", 8) == {"note": "x"}


def test_bytes_are_kept_once_under_their_hash(workshop: WorkshopFile) -> None:
    data = bytes(range(256)) * 9
    with workshop.step("Attach") as connection:
        sha256 = state.store_blob(connection, data, "image/png")
        assert state.store_blob(connection, data, "image/png") == sha256
        blob_id = state.blob_id(connection, sha256)
        records.insert(connection, "attachment", {"blob_id": blob_id, "name": "photo"})
    assert sha256 == hashlib.sha256(data).hexdigest()
    workshop.undo()
    workshop.redo()
    with workshop.read() as connection:
        assert state.blob(connection, sha256) == data
        assert len(records.fetch_all(connection, "blob")) == 1
        for act in (state.blob, state.blob_id):
            with pytest.raises(Gone):
                act(connection, "0" * 64)


def test_prints_come_newest_first(workshop: WorkshopFile) -> None:
    with workshop.unjournalled() as connection:
        for at_ms, kind in ((1, "labels"), (3, "weigh_sheet"), (2, "labels")):
            state.record_print(
                connection, at_ms=at_ms, kind=kind, title=kind, snapshot={"lot": at_ms}, sha256="ab"
            )
        assert [row["at_ms"] for row in state.prints(connection)] == [3, 2, 1]
        assert [row["snapshot"] for row in state.prints(connection, "labels")] == [
            {"lot": 2}, {"lot": 1},
        ]  # fmt: skip
