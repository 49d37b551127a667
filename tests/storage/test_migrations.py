"""Older files are brought up to date in checked steps; the first version's file stays readable."""

from __future__ import annotations

import shutil
import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from wickbench.storage import catalog, migrations, records, state, workshop_file
from wickbench.storage.migrations import BrokenFile, current_version, migrate, version_of
from wickbench.storage.refusals import FileRefused

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.storage.clock import Clock

NEXT = current_version() + 1
DATA = Path(__file__).parents[1] / "data"
FIRST_VERSION = DATA / "workshop-v1.wickbench"


@pytest.fixture
def old(tmp_path: Path) -> Path:
    return Path(shutil.copy(FIRST_VERSION, tmp_path / "old.wickbench"))


@pytest.fixture
def second(tmp_path: Path) -> Path:
    return Path(shutil.copy(DATA / "workshop-v2.wickbench", tmp_path / "second.wickbench"))


@pytest.fixture
def raw(old: Path) -> Iterator[sqlite3.Connection]:
    connection = sqlite3.connect(old, isolation_level=None)
    connection.execute("PRAGMA foreign_keys=ON")
    yield connection
    connection.close()


def schema(path: Path) -> dict[str, str]:
    connection = sqlite3.connect(path)
    rows = connection.execute(
        "SELECT type || ' ' || name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite_%'"
    ).fetchall()
    connection.close()
    # How a statement is broken into lines, and whether a name is quoted, makes no table.
    return {name: " ".join(str(sql).replace('"', "").split()) for name, sql in rows}


def test_the_file_of_version_one_opens_with_all_that_is_in_it(old: Path, clock: Clock) -> None:
    workshop = workshop_file.open_workshop(old, clock=clock)
    with workshop.read() as c:
        assert workshop.file_id == "00000000-0000-4000-8000-000000000001"
        assert [each.name for each in catalog.materials(c)] == ["Lärchenwachs", "Winter rain"]
        jar = catalog.vessels(c)[0]
        assert (jar.height_mm, jar.diameters[0]) == (88.5, (0.0, 72.25))
        assert (jar.weighings[0].empty_g, jar.weighings[0].filled_g) == (210.4, 512.9)
        assert catalog.recipe_versions(c)[0].name == "Winter evening"
        assert records.fetch_all(c, "pour_amount")[0]["weighed_g"] == 1001.5
        assert records.fetch_all(c, "label_element")[0]["properties"] == {
            "version": 1, "text": "Winter ö",
        }  # fmt: skip
        assert state.setting(c, "currency") == "EUR"
        assert state.drafts(c, "wax", 1) == {"flash_c": "hot"}
        assert state.prints(c)[0]["snapshot"] == {"n": 1}
        sha256 = str(records.fetch_all(c, "blob")[0]["sha256"])
        assert state.blob(c, sha256) == bytes(range(256))
    with workshop.unjournalled() as c:
        assert state.next_number(c, "lot") == 2
    workshop.close()


def test_the_file_of_version_two_opens_with_its_labels_and_the_stickers_that_are_gone(
    second: Path, clock: Clock
) -> None:
    workshop = workshop_file.open_workshop(second, clock=clock)
    with workshop.read() as c:
        assert workshop.file_id == "00000000-0000-4000-8000-000000000002"
        versions = records.fetch_all(c, "label_version", order=("id",))
        assert [one["shape"] for one in versions] == ["rectangle", "rounded"]
        frame = records.fetch_all(c, "label_element", {"version_id": versions[1]["id"]})[0]
        place = [frame[name] for name in ("kind", "x_mm", "y_mm", "w_mm", "h_mm", "turn_deg")]
        assert place == ["frame", -1.0, 2.5, 20.0, 8.0, 90.0]
        sheet = records.fetch_all(c, "sheet")[0]
        begun = records.fetch_all(c, "begun_sheet", order=("id",))
        assert [one["sheet_id"] for one in begun] == [sheet["item_id"]] * 2
        gone = sorted(one["used"]["used"] for one in begun)  # type: ignore[index]
        assert gone == [[0, 1, 5], [2]]
        runs = records.fetch_all(c, "print_run", order=("id",))
        assert [one["sorted_by"] for one in runs] == ["line"] * 3
        lines = records.fetch_all(c, "print_line")
        assert [(one["count"], one["lot_code"]) for one in lines] == [(18, "260316A")] * 3
        assert records.fetch_all(c, "candle")[0]["declared_net_g"] == 200.0
    workshop.close()


@pytest.mark.parametrize("name", ["workshop-v1", "workshop-v2"])
def test_an_old_file_brought_up_to_date_has_the_tables_of_a_new_one(
    name: str, tmp_path: Path, path: Path, clock: Clock
) -> None:
    old = Path(shutil.copy(DATA / f"{name}.wickbench", tmp_path / "old.wickbench"))
    workshop_file.open_workshop(old, clock=clock).close()
    workshop_file.create(path, clock=clock, made_by="tests").close()
    assert schema(old) == schema(path)


def test_a_key_that_was_given_up_before_the_update_is_not_given_again(
    old: Path, clock: Clock, raw: sqlite3.Connection
) -> None:
    raw.execute("INSERT INTO heat_source(name) VALUES('gone')")
    gone = int(raw.execute("SELECT max(id) FROM heat_source").fetchone()[0])
    raw.execute("DELETE FROM heat_source WHERE id = ?", (gone,))
    raw.close()
    workshop = workshop_file.open_workshop(old, clock=clock)
    with workshop.step("Add") as c:
        assert records.insert(c, "heat_source", {"name": "next"}) == gone + 1
    workshop.close()


# A made-up step of the kind that goes wrong with foreign keys on: a table is drawn anew.
REDRAWN = (
    "CREATE TABLE recipe_new(id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, title TEXT) STRICT",
    "INSERT INTO recipe_new(id, title) SELECT id, upper(name) FROM recipe",
    "DROP TABLE recipe",
    "ALTER TABLE recipe_new RENAME TO recipe",
)
ADDED = ("ALTER TABLE recipe ADD COLUMN mood TEXT DEFAULT 'calm'",)


def count(raw: sqlite3.Connection, table: str) -> int:
    return int(raw.execute(f"SELECT count(*) FROM {table}").fetchone()[0])  # noqa: S608


def test_missing_steps_run_in_order_and_parts_stay(raw: sqlite3.Connection) -> None:
    versions = count(raw, "recipe_version")
    migrate(raw, {3: ADDED, 2: REDRAWN})
    assert version_of(raw) == 3
    assert raw.execute("SELECT title, mood FROM recipe").fetchall() == [("WINTER EVENING", "calm")]
    assert versions > 0
    assert count(raw, "recipe_version") == versions
    assert raw.execute("PRAGMA foreign_keys").fetchone() == (1,)


def test_a_file_that_is_up_to_date_is_left_alone(raw: sqlite3.Connection, old: Path) -> None:
    migrate(raw)
    before = old.read_bytes()
    migrate(raw)
    assert old.read_bytes() == before
    assert version_of(raw) == current_version()


@pytest.mark.parametrize(
    ("step", "reason"),
    [
        (("DELETE FROM recipe",), BrokenFile),  # leaves versions without a recipe
        ((*ADDED, "nonsense"), sqlite3.OperationalError),
        ((*ADDED, *ADDED), sqlite3.OperationalError),
    ],
)
def test_a_step_that_goes_wrong_changes_nothing(
    raw: sqlite3.Connection, old: Path, step: tuple[str, ...], reason: type[Exception]
) -> None:
    before = old.read_bytes()
    with pytest.raises(reason):
        migrate(raw, {2: step})
    assert not raw.in_transaction
    assert old.read_bytes() == before
    assert raw.execute("PRAGMA foreign_keys").fetchone() == (1,)


def test_a_damaged_file_is_not_migrated(raw: sqlite3.Connection) -> None:
    # An index that does not hold what its table holds passes quick_check, not integrity_check.
    raw.execute("PRAGMA writable_schema=ON")
    raw.execute(
        "UPDATE sqlite_master SET sql = replace(sql, '(vessel_id)', '(scale_id)') "
        "WHERE name = 'ix_weighing_vessel_id'"
    )
    raw.execute("PRAGMA writable_schema=RESET")
    assert raw.execute("PRAGMA quick_check").fetchall() == [("ok",)]
    with pytest.raises(BrokenFile):
        migrate(raw, {2: ("REINDEX",)})  # would mend it, but the check comes first
    assert version_of(raw) == 1


@pytest.fixture
def next_version(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(migrations.STEPS, NEXT, ADDED)


@pytest.mark.usefixtures("next_version")
def test_opening_backs_up_beside_the_file_before_it_is_changed(old: Path, clock: Clock) -> None:
    before = schema(old)
    workshop = workshop_file.open_workshop(old, clock=clock)
    assert workshop.backup is not None
    copy = workshop.backup.result().path
    workshop.close()
    assert schema(copy) == before
    assert "mood" in schema(old)["table recipe"]
    assert copy.parent.parent == old.parent


@pytest.mark.usefixtures("next_version")
def test_an_older_program_refuses_what_a_newer_one_wrote(
    old: Path, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    workshop_file.open_workshop(old, clock=clock).close()
    monkeypatch.delitem(migrations.STEPS, NEXT)
    with pytest.raises(FileRefused) as caught:
        workshop_file.open_workshop(old, clock=clock)
    assert caught.value.key == "file.newer"


def test_a_failed_update_has_a_sentence_and_leaves_the_file(
    old: Path, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(migrations.STEPS, NEXT, ("nonsense",))
    before = old.read_bytes()
    with pytest.raises(FileRefused) as caught:
        workshop_file.open_workshop(old, clock=clock)
    assert caught.value.key == "file.not-updated"
    assert old.read_bytes() == before


@pytest.mark.usefixtures("next_version")
def test_no_update_without_a_backup(old: Path, clock: Clock, tmp_path: Path) -> None:
    blocked = tmp_path / "a file"
    blocked.touch()
    before = old.read_bytes()
    with pytest.raises(FileRefused) as caught:
        workshop_file.open_workshop(old, clock=clock, backup_folder=blocked)
    assert caught.value.key == "backup.not-written"
    assert old.read_bytes() == before
