"""Every reason not to open or make a file, on real files, each with its own key."""

from __future__ import annotations

import os
import sqlite3
import stat
import subprocess
import sys
import tempfile
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from wickbench.app.sentences.files import SENTENCES
from wickbench.storage import records, workshop_file
from wickbench.storage.migrations import current_version
from wickbench.storage.opening import APPLICATION_ID
from wickbench.storage.refusals import FileRefused

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.storage.clock import Clock
    from wickbench.storage.workshop_file import WorkshopFile

NOBODY = 65534


def refused(path: Path, clock: Clock) -> str:
    with pytest.raises(FileRefused) as caught:
        workshop_file.open_workshop(path, clock=clock)
    assert caught.value.key in SENTENCES
    assert caught.value.data["name"] == path.name
    return caught.value.key


def made(path: Path, clock: Clock) -> Path:
    workshop_file.create(path, clock=clock, made_by="tests").close()
    return path


def with_header(path: Path, offset: int, data: bytes) -> Path:
    with path.open("r+b") as file:
        file.seek(offset)
        file.write(data)
    return path


@contextmanager
def not_root() -> Iterator[None]:
    """Root may write anywhere; be somebody else for a while."""
    if not hasattr(os, "geteuid") or os.geteuid() != 0:
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that somebody else can reach, unlike pytest's own."""
    with tempfile.TemporaryDirectory() as name:
        Path(name).chmod(0o777)
        yield Path(name)


def test_a_missing_file_is_refused_and_not_made(tmp_path: Path, clock: Clock) -> None:
    path = tmp_path / "gone.wickbench"
    assert refused(path, clock) == "file.missing"
    assert refused(tmp_path / "no" / "folder.wickbench", clock) == "file.missing"
    assert not path.exists()


def test_an_empty_file_is_refused_and_stays_empty(tmp_path: Path, clock: Clock) -> None:
    path = tmp_path / "empty.wickbench"
    path.touch()
    assert refused(path, clock) == "file.empty"
    assert path.stat().st_size == 0


def test_a_folder_is_refused(tmp_path: Path, clock: Clock) -> None:
    assert refused(tmp_path, clock) == "file.folder"


@pytest.mark.parametrize(
    "content", [b"a shopping list\n", b"\x89PNG\r\n\x1a\n" * 500, b"\0" * 9000]
)
def test_a_file_of_another_kind_is_refused_untouched(
    tmp_path: Path, clock: Clock, content: bytes
) -> None:
    path = tmp_path / "other.wickbench"
    path.write_bytes(content)
    assert refused(path, clock) == "file.not-ours"
    assert path.read_bytes() == content
    assert [each.name for each in tmp_path.iterdir()] == ["other.wickbench"]


def test_a_database_of_another_program_is_refused_untouched(tmp_path: Path, clock: Clock) -> None:
    path = tmp_path / "other.wickbench"
    with sqlite3.connect(path) as other:
        other.execute("CREATE TABLE workshop(id INTEGER PRIMARY KEY, file_id TEXT)")
    other.close()
    before = path.read_bytes()
    assert refused(path, clock) == "file.not-ours"
    assert path.read_bytes() == before


def test_a_file_of_a_newer_version_is_refused_untouched(path: Path, clock: Clock) -> None:
    made(path, clock)
    # user_version stands big-endian at offset 60: https://www.sqlite.org/fileformat2.html#the_database_header
    with_header(path, 60, (99).to_bytes(4, "big"))
    before = path.read_bytes()
    assert refused(path, clock) == "file.newer"
    assert path.read_bytes() == before


def test_the_header_bears_our_own_id_and_the_present_version(path: Path, clock: Clock) -> None:
    header = made(path, clock).read_bytes()[:100]
    # Offsets 60 and 68 of https://www.sqlite.org/fileformat2.html#the_database_header
    assert int.from_bytes(header[60:64], "big") == current_version()
    assert int.from_bytes(header[68:72], "big") == APPLICATION_ID


@pytest.mark.parametrize(
    ("place", "key"),
    [
        (0, "file.not-ours"),
        (100, "file.damaged"),
        (4096, "file.damaged"),
        (3 * 4096, "file.damaged"),
    ],
)
def test_a_file_with_overwritten_bytes_is_refused(
    path: Path, clock: Clock, place: int, key: str
) -> None:
    with_header(made(path, clock), place, b"\xa5" * 64)
    before = path.read_bytes()
    assert refused(path, clock) == key
    assert path.read_bytes() == before


def test_a_schema_that_is_no_text_any_more_is_refused(path: Path, clock: Clock) -> None:
    """SQLite quotes the schema's text in its message, and Python cannot decode it."""
    content = made(path, clock).read_bytes()
    for old, new in (
        (b"tablescalescale", b"table" + b"\xab" * 5 + b"scale"),
        (b"CREATE TABLE scale", b"CREATE T?BLE scale"),
    ):
        assert content.count(old) == 1
        content = content.replace(old, new)
    path.write_bytes(content)
    assert refused(path, clock) == "file.damaged"
    assert path.read_bytes() == content


def test_a_truncated_file_is_refused(path: Path, clock: Clock) -> None:
    content = made(path, clock).read_bytes()
    path.write_bytes(content[: len(content) // 2])
    assert refused(path, clock) == "file.damaged"


def test_a_file_without_its_identity_is_damaged(path: Path, clock: Clock) -> None:
    with sqlite3.connect(made(path, clock)) as raw:
        raw.execute("DELETE FROM workshop")
    raw.close()
    assert refused(path, clock) == "file.damaged"


def test_a_file_without_its_tables_is_damaged(path: Path, clock: Clock) -> None:
    with sqlite3.connect(made(path, clock)) as raw:
        raw.execute("DROP TABLE workshop")
    raw.close()
    assert refused(path, clock) == "file.damaged"


OPEN_IN_ANOTHER_PROCESS = """
import sys, time
from pathlib import Path
from wickbench.domain.errors import DomainError
from wickbench.storage import workshop_file
began = time.monotonic()
try:
    workshop_file.open_workshop(Path(sys.argv[1]), clock=None).close()
except DomainError as error:
    print(error.key, time.monotonic() - began)
else:
    print("opened", time.monotonic() - began)
"""


def in_another_process(path: Path) -> tuple[str, float]:
    """What a second window is told, and the seconds it took to tell."""
    done = subprocess.run(  # noqa: S603 - our own program
        [sys.executable, "-c", OPEN_IN_ANOTHER_PROCESS, str(path)],
        capture_output=True, text=True, check=True, timeout=60,
        env={**os.environ, "PYTHONPATH": str(Path(workshop_file.__file__).parents[2])},
    )  # fmt: skip
    told, seconds = done.stdout.split()
    return told, float(seconds)


def test_a_second_window_is_refused_at_once_and_free_after_closing(
    workshop: WorkshopFile,
) -> None:
    told, seconds = in_another_process(workshop.path)
    assert told == "file.locked"
    assert seconds < 2
    with workshop.step("New place") as connection:
        records.insert(connection, "place", {"name": "Shelf"})
    assert in_another_process(workshop.path)[0] == "file.locked"
    workshop.close()
    assert in_another_process(workshop.path)[0] == "opened"


def test_the_same_window_cannot_open_a_file_twice(workshop: WorkshopFile, clock: Clock) -> None:
    assert refused(workshop.path, clock) == "file.locked"
    # The refused attempt must not have dropped the lock.
    assert in_another_process(workshop.path)[0] == "file.locked"


def test_no_other_program_reads_beside_an_open_window(workshop: WorkshopFile) -> None:
    other = sqlite3.connect(workshop.path, timeout=0)
    with pytest.raises(sqlite3.OperationalError, match="locked"):
        other.execute("SELECT * FROM workshop")
    other.close()


@pytest.mark.skipif(os.name == "nt", reason="permissions are POSIX here")
def test_a_file_that_may_only_be_read_is_refused(open_folder: Path, clock: Clock) -> None:
    path = made(open_folder / "readable.wickbench", clock)
    path.chmod(0o444)
    with not_root():
        assert refused(path, clock) == "file.read-only"


@pytest.mark.skipif(os.name == "nt", reason="permissions are POSIX here")
def test_a_file_that_may_not_be_read_is_refused(open_folder: Path, clock: Clock) -> None:
    path = made(open_folder / "secret.wickbench", clock)
    path.chmod(0)
    with not_root():
        assert refused(path, clock) == "file.read-only"


@pytest.mark.skipif(os.name == "nt", reason="permissions are POSIX here")
def test_a_folder_that_may_only_be_read_is_refused(open_folder: Path, clock: Clock) -> None:
    path = made(open_folder / "writable.wickbench", clock)
    path.chmod(0o666)
    open_folder.chmod(0o555)
    with not_root():
        assert refused(path, clock) == "file.read-only"
        with pytest.raises(FileRefused) as caught:
            workshop_file.create(open_folder / "new.wickbench", clock=clock, made_by="tests")
    assert caught.value.key == "file.folder-closed"
    assert caught.value.data == {"name": "new.wickbench"}
    assert "folder" in SENTENCES["file.folder-closed"]
    open_folder.chmod(0o777)
    assert [each.name for each in open_folder.iterdir()] == ["writable.wickbench"]


def test_a_new_file_replaces_nothing_and_needs_its_folder(tmp_path: Path, clock: Clock) -> None:
    there = tmp_path / "there.wickbench"
    there.write_text("kept")
    with pytest.raises(FileRefused) as caught:
        workshop_file.create(there, clock=clock, made_by="tests")
    assert caught.value.key == "file.exists"
    assert there.read_text() == "kept"
    with pytest.raises(FileRefused) as caught:
        workshop_file.create(tmp_path / "no" / "new.wickbench", clock=clock, made_by="tests")
    assert caught.value.key == "file.no-folder"


def test_opening_and_closing_changes_nothing_and_leaves_nothing_beside(
    path: Path, clock: Clock
) -> None:
    made(path, clock)
    before, changed = path.read_bytes(), path.stat().st_mtime_ns
    workshop_file.open_workshop(path, clock=clock).close()
    assert path.read_bytes() == before
    assert path.stat().st_mtime_ns == changed
    assert [each.name for each in path.parent.iterdir()] == [path.name]


def test_what_was_stored_is_there_again(path: Path, clock: Clock) -> None:
    opened = workshop_file.create(path, clock=clock, made_by="tests")
    with opened.step("New place") as connection:
        key = records.insert(connection, "place", {"name": "Küche"})
    file_id = opened.file_id
    opened.close()
    opened.close()
    again = workshop_file.open_workshop(path, clock=clock)
    with again.read() as connection:
        assert records.fetch(connection, "place", key)["name"] == "Küche"
    assert again.file_id == file_id
    assert not again.may_undo
    again.close()


@pytest.mark.parametrize(
    ("pragma", "value"),
    [
        ("journal_mode", "truncate"),
        ("locking_mode", "exclusive"),
        ("synchronous", 2),
        ("foreign_keys", 1),
        ("recursive_triggers", 1),
        ("trusted_schema", 0),
        ("cell_size_check", 1),
    ],
)
def test_the_connection_is_set_up(workshop: WorkshopFile, pragma: str, value: object) -> None:
    with workshop.read() as connection:
        assert connection.exec_driver_sql(f"PRAGMA {pragma}").scalar() == value


CRASH_IN_A_STEP = """
import os, sys
from pathlib import Path
from wickbench.storage import records, workshop_file
class Clock:
    def now_ms(self): return 0
    def today(self): return None
    def monotonic(self): return 0.0
opened = workshop_file.open_workshop(Path(sys.argv[1]), clock=Clock())
with opened.step("kept") as connection:
    records.insert(connection, "place", {"name": "kept"})
with opened.step("lost") as connection:
    connection.exec_driver_sql("PRAGMA cache_size=1")
    for number in range(3000):
        records.insert(connection, "place", {"name": "lost" * 50})
    os._exit(1)
"""


def test_a_crash_in_the_middle_of_a_step_leaves_the_step_before(path: Path, clock: Clock) -> None:
    made(path, clock)
    subprocess.run(  # noqa: S603 - our own program
        [sys.executable, "-c", CRASH_IN_A_STEP, str(path)], check=False, timeout=60,
        env={**os.environ, "PYTHONPATH": str(Path(workshop_file.__file__).parents[2])},
    )  # fmt: skip
    journal = path.with_name(path.name + "-journal")
    assert journal.stat().st_size > 0, "the crash must have left something to roll back"
    again = workshop_file.open_workshop(path, clock=clock)
    with again.read() as connection:
        assert [row["name"] for row in records.fetch_all(connection, "place")] == ["kept"]
    again.close()


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names here")
def test_a_pipe_is_refused_without_waiting_on_it(tmp_path: Path, clock: Clock) -> None:
    pipe = tmp_path / "pipe.wickbench"
    os.mkfifo(pipe)
    assert stat.S_ISFIFO(pipe.stat().st_mode)
    assert refused(pipe, clock) == "file.not-ours"
