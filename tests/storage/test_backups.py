"""Backups on opening, verified and thinned; saved copies."""

from __future__ import annotations

import datetime as dt
import hashlib
import os
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app.sentences.files import SENTENCES
from wickbench.storage import backups, copies, records, workshop_file
from wickbench.storage.backups import Backup, thin
from wickbench.storage.refusals import FileRefused

if TYPE_CHECKING:
    import sqlite3
    from pathlib import Path

    from storage.conftest import FakeClock
    from wickbench.storage.workshop_file import WorkshopFile


def opened_and_closed(
    path: Path, clock: FakeClock, folder: Path, *, place: str = ""
) -> backups.Verified | None:
    workshop = workshop_file.open_workshop(path, clock=clock, backup_folder=folder)
    if place:
        with workshop.step("New place") as connection:
            records.insert(connection, "place", {"name": place})
    made = None if workshop.backup is None else workshop.backup.result()
    workshop.close()
    clock.moment_ms += 60_000
    return made


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "backups" / "not there yet"


@pytest.fixture
def closed(workshop: WorkshopFile) -> Path:
    workshop.close()
    return workshop.path


def test_a_backup_is_made_when_the_file_changed_and_not_otherwise(
    closed: Path, clock: FakeClock, folder: Path
) -> None:
    first = opened_and_closed(closed, clock, folder)
    assert first is not None
    assert opened_and_closed(closed, clock, folder) is None
    assert opened_and_closed(closed, clock, folder, place="Shelf") is None
    second = opened_and_closed(closed, clock, folder)
    assert second is not None
    assert second.is_new
    found = backups.backups_in(first.path.parent)
    assert found == (second.path, first.path)
    assert "2026-03-14" in found[0].name


def test_a_backup_is_whole_and_opens_like_any_file(
    closed: Path, clock: FakeClock, folder: Path
) -> None:
    opened_and_closed(closed, clock, folder, place="Küche")
    made = opened_and_closed(closed, clock, folder)
    assert made is not None
    assert hashlib.sha256(made.path.read_bytes()).hexdigest() == made.sha256
    assert [each.name for each in made.path.parent.iterdir() if each.suffix != ".wickbench"] == []
    copy = workshop_file.open_workshop(made.path, clock=clock)
    with copy.read() as connection:
        assert [row["name"] for row in records.fetch_all(connection, "place")] == ["Küche"]
    copy.close()


def test_a_file_touched_but_not_changed_needs_no_second_copy(
    closed: Path, clock: FakeClock, folder: Path
) -> None:
    first = opened_and_closed(closed, clock, folder)
    os.utime(closed)
    second = opened_and_closed(closed, clock, folder)
    assert first is not None
    assert second is not None
    assert (second.is_new, second.path) == (False, first.path)
    assert opened_and_closed(closed, clock, folder) is None


def test_two_workshops_of_one_name_keep_their_backups_apart(
    closed: Path, clock: FakeClock, folder: Path, tmp_path: Path
) -> None:
    other = tmp_path / "other" / closed.name
    other.parent.mkdir()
    workshop_file.create(other, clock=clock, made_by="tests").close()
    first = opened_and_closed(closed, clock, folder)
    second = opened_and_closed(other, clock, folder)
    assert first is not None
    assert second is not None
    assert first.path.parent != second.path.parent


def test_backups_are_found_for_a_file_that_will_not_open(
    closed: Path, clock: FakeClock, folder: Path
) -> None:
    older = opened_and_closed(closed, clock, folder, place="Shelf")
    newer = opened_and_closed(closed, clock, folder)
    assert older is not None
    assert newer is not None
    (folder / "Another 0123abcd").mkdir()
    assert backups.backups_of(closed, folder) == (newer.path, older.path)
    assert backups.backups_of(closed, folder / "nowhere") == ()


def test_a_backup_that_cannot_be_written_does_not_keep_the_file_shut(
    closed: Path, clock: FakeClock, tmp_path: Path
) -> None:
    blocked = tmp_path / "a file"
    blocked.touch()
    workshop = workshop_file.open_workshop(closed, clock=clock, backup_folder=blocked)
    assert workshop.backup is not None
    error = workshop.backup.exception()
    assert isinstance(error, FileRefused)
    assert error.key == "backup.not-written"
    assert error.key in SENTENCES
    with workshop.step("New place") as connection:
        records.insert(connection, "place", {"name": "Shelf"})
    workshop.close()


def test_a_copy_with_a_flaw_does_not_become_a_backup(
    closed: Path, clock: FakeClock, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def flawed(raw: sqlite3.Connection, target: Path) -> None:
        copies.copy_to(raw, target)
        content = bytearray(target.read_bytes())
        content[4096:4200] = b"\xa5" * 104
        target.write_bytes(content)

    monkeypatch.setattr(backups, "copy_to", flawed)
    workshop = workshop_file.open_workshop(closed, clock=clock, backup_folder=folder)
    assert workshop.backup is not None
    error = workshop.backup.exception()
    workshop.close()
    assert isinstance(error, FileRefused)
    assert error.key == "backup.damaged"
    assert list(folder.rglob("*.*")) == []


# Thinning -----------------------------------------------------------------------------------

TODAY = dt.date(2026, 3, 14)


def backup(days_ago: int, number: int = 0, size: int = 1) -> Backup:
    day = TODAY - dt.timedelta(days=days_ago)
    return Backup(f"Workshop {day} {number:06}.wickbench", day, size)


def test_the_newest_ten_stay_then_the_last_of_each_day() -> None:
    today = [backup(0, number) for number in range(12)]
    yesterday = [backup(1, number) for number in range(3)]
    gone = set(thin([*yesterday, *today]))
    assert gone == {*today[:2], *yesterday[:2]}


def test_no_more_stay_than_the_count_allows() -> None:
    many = [backup(days) for days in range(100)]
    assert set(thin(many)) == set(many[backups.KEEP_MOST :])


def test_the_oldest_go_when_they_take_too_much_room() -> None:
    large = [backup(days, size=100) for days in range(8)]
    assert set(thin(large, most_bytes=500)) == set(large[5:])
    assert set(thin(large, most_bytes=50)) == set(large[backups.KEEP_AT_LEAST :])


@given(
    st.lists(
        st.tuples(st.integers(0, 60), st.integers(0, 5), st.integers(0, 10**9)),
        unique_by=lambda t: t[:2],
    ),
    st.integers(4, 50),
    st.integers(0, 10**10),
)
def test_thinning_keeps_the_newest_and_holds_its_bounds(
    drawn: list[tuple[int, int, int]], most: int, most_bytes: int
) -> None:
    found = [backup(*each) for each in drawn]
    gone = thin(found, most=most, most_bytes=most_bytes)
    stay = [each for each in found if each not in gone]
    assert set(gone) <= set(found)
    assert len(stay) <= most
    newest = sorted(found, key=lambda each: each.name, reverse=True)[: backups.KEEP_AT_LEAST]
    assert set(newest) <= set(stay)
    others = [each for each in stay if each not in newest]
    if others:
        assert sum(each.size for each in stay) <= most_bytes
    assert thin(stay, most=most, most_bytes=most_bytes) == ()


def test_a_folder_is_thinned_on_the_way(
    closed: Path, clock: FakeClock, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(backups, "thin", lambda found: tuple(found)[1:])
    last = None
    for number in range(3):
        last = opened_and_closed(closed, clock, folder, place=f"Shelf {number}")
    assert last is not None
    assert backups.backups_in(last.path.parent) == (last.path,)


# Saved copies -------------------------------------------------------------------------------


def test_a_saved_copy_has_all_and_an_id_of_its_own(
    workshop: WorkshopFile, clock: FakeClock, tmp_path: Path
) -> None:
    with workshop.step("New place") as connection:
        records.insert(connection, "place", {"name": "Shelf"})
    target = tmp_path / "copy.wickbench"
    target.write_text("an older file of that name")
    workshop.save_copy(target)
    assert workshop.may_undo
    copy = workshop_file.open_workshop(target, clock=clock)
    assert copy.file_id != workshop.file_id
    with copy.read() as connection:
        assert len(records.fetch_all(connection, "place")) == 1
    copy.close()
    workshop.close()
    assert {each.name for each in tmp_path.iterdir()} == {"copy.wickbench", workshop.path.name}


def test_a_copy_is_not_written_over_an_open_file(
    workshop: WorkshopFile, clock: FakeClock, tmp_path: Path
) -> None:
    other = workshop_file.create(tmp_path / "other.wickbench", clock=clock, made_by="tests")
    for target, key in (
        (workshop.path, "file.same"),
        (other.path, "file.locked"),
        (tmp_path, "file.folder"),
        (tmp_path / "no" / "copy.wickbench", "file.no-folder"),
    ):
        with pytest.raises(FileRefused) as caught:
            workshop.save_copy(target)
        assert caught.value.key == key
        assert key in SENTENCES
    with other.step("Still there") as connection:
        records.insert(connection, "place", {"name": "Shelf"})
    other.close()
    workshop.save_copy(other.path)


def test_no_copy_is_saved_in_the_middle_of_a_step(workshop: WorkshopFile, tmp_path: Path) -> None:
    with workshop.step("x"), pytest.raises(RuntimeError):
        workshop.save_copy(tmp_path / "copy.wickbench")
