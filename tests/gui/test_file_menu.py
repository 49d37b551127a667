"""The File menu with real files: each refusal is said, and the open workshop stays open."""

from __future__ import annotations

import os
import tempfile
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from wickbench.app import shelf_edit
from wickbench.app.texts import Texts
from wickbench.app.workspace import Workspace
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from gui.conftest import Answers
    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Services
    from wickbench.gui.main_window import MainWindow

NOBODY = 65534


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
def another(tmp_path: Path, ask: Answers, make_services: Callable[[Texts, Ask], Services]) -> Path:
    """A second workshop, closed."""
    path = tmp_path / "another.wickbench"
    Workspace.create(path, make_services(Texts(), ask)).close()
    return path


def choose(window: MainWindow, key: str) -> None:
    """Choose a command of the menu bar."""
    window.menus.actions[key].trigger()


def emptied(path: Path) -> None:
    path.write_bytes(b"")


def written_over(path: Path) -> None:
    path.write_text("Bramble 6 %\n" * 40, encoding="utf-8")


def cut_short(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:3000])


def scratched(path: Path) -> None:
    data = bytearray(path.read_bytes())
    for at in range(4096, len(data), 1024):
        data[at : at + 512] = b"\xa5" * 512
    path.write_bytes(bytes(data))


def made_a_folder(path: Path) -> None:
    path.unlink()
    path.mkdir()


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (Path.unlink, "is not there any more"),
        (emptied, "is an empty file"),
        (written_over, "is not a workshop file"),
        (cut_short, "is damaged"),
        (scratched, "is damaged"),
        (made_a_folder, "is a folder"),
    ],
)
def test_a_file_that_cannot_be_opened_gets_its_sentence_and_the_open_one_stays(
    window: MainWindow, another: Path, ask: Answers, spoil: Callable[[Path], None], says: str
) -> None:
    spoil(another)
    ask.path = another
    choose(window, "open_file")
    assert len(ask.told) == 1
    assert says in ask.told[0]
    assert "another.wickbench" in ask.told[0]
    assert window.workspace is not None
    assert window.workspace.name == "workshop"
    shelf_edit.new_recipe(window.workspace, "still works")


def test_a_damaged_file_leads_to_its_newest_backup(
    window: MainWindow, another: Path, ask: Answers, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = another.parent / "backups"
    services = replace(window._services(), backup_folder=folder)
    monkeypatch.setattr(window, "_services", lambda: services)
    assert window.open_workshop(another)
    assert window.workspace is not None
    shelf_edit.new_recipe(window.workspace, "Bramble")
    choose(window, "close_workshop")
    (kept,) = folder.rglob("*.wickbench")
    cut_short(another)
    assert not window.open_workshop(another)
    assert kept.name in ask.told[-1]
    assert str(kept.parent) in ask.told[-1]
    assert window.open_workshop(kept)


def test_a_file_open_elsewhere_is_refused_and_opens_once_it_is_closed(
    window: MainWindow,
    another: Path,
    ask: Answers,
    make_services: Callable[[Texts, Ask], Services],
) -> None:
    elsewhere = Workspace.open(another, make_services(Texts(), ask))
    ask.path = another
    choose(window, "open_file")
    assert ["already open in another window" in said for said in ask.told] == [True]
    elsewhere.close()
    choose(window, "open_file")
    assert window.workspace is not None
    assert window.workspace.name == "another"


@pytest.mark.skipif(os.name == "nt", reason="permissions are POSIX here")
def test_a_folder_that_may_only_be_read_is_said_for_new_and_open(
    window: MainWindow, ask: Answers, make_services: Callable[[Texts, Ask], Services]
) -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        path = folder / "kept.wickbench"
        Workspace.create(path, make_services(Texts(), ask)).close()
        path.chmod(0o666)
        folder.chmod(0o555)
        with not_root():
            ask.path = path
            choose(window, "open_file")
            ask.path = folder / "fresh"
            choose(window, "new_workshop")
        folder.chmod(0o755)
    assert "cannot be changed where it is" in ask.told[0]
    assert ask.told[1:] == [Texts().say(DomainError("file.folder-closed", name="fresh.wickbench"))]
    assert window.workspace is not None
    assert window.workspace.name == "workshop"


def test_a_new_workshop_never_replaces_a_file(
    window: MainWindow, another: Path, ask: Answers
) -> None:
    before = another.read_bytes()
    ask.path = another
    choose(window, "new_workshop")
    assert ["There is already something called" in said for said in ask.told] == [True]
    assert another.read_bytes() == before
    ask.path = another.parent / "no such folder" / "mine"
    choose(window, "new_workshop")
    assert "is not there. Choose another one" in ask.told[-1]


def test_a_copy_is_a_workshop_of_its_own(
    window: MainWindow,
    ask: Answers,
    tmp_path: Path,
    make_services: Callable[[Texts, Ask], Services],
) -> None:
    assert window.workspace is not None
    shelf_edit.new_recipe(window.workspace, "Bramble")
    ask.path = tmp_path / "copy"
    choose(window, "save_copy")
    assert ask.told == []
    assert window.workspace.name == "workshop"
    copy = Workspace.open(tmp_path / "copy.wickbench", make_services(Texts(), ask))
    with copy.read() as connection:
        from wickbench.storage import records

        assert [row["name"] for row in records.fetch_all(connection, "recipe")] == ["Bramble"]
    copy.close()


def test_a_copy_onto_the_open_file_or_into_no_folder_is_refused(
    window: MainWindow, ask: Answers, tmp_path: Path
) -> None:
    ask.path = tmp_path / "workshop.wickbench"
    choose(window, "save_copy")
    assert "is the file that is open" in ask.told[-1]
    ask.path = tmp_path / "nowhere" / "copy.wickbench"
    choose(window, "save_copy")
    assert len(ask.told) == 2
    assert "nowhere" in ask.told[-1]


def test_a_file_of_the_recent_ones_that_is_gone_is_said_and_leaves_the_menu(
    window: MainWindow, another: Path, ask: Answers
) -> None:
    assert window.open_workshop(another)
    names = [action.text() for action in window.recent_menu.actions()]
    assert names == ["another", "workshop"]
    gone = another.parent / "workshop.wickbench"
    gone.unlink()
    window.recent_menu.actions()[1].trigger()
    assert ["is not there any more" in said for said in ask.told] == [True]
    assert [action.text() for action in window.recent_menu.actions()] == ["another"]


def test_a_demo_that_cannot_be_built_is_said(
    window: MainWindow, ask: Answers, monkeypatch: pytest.MonkeyPatch
) -> None:
    def none() -> Path:
        raise DomainError("program.no-demo")

    monkeypatch.setattr(window, "_demo_file", none)
    choose(window, "open_demo")
    assert ["demo workshop" in said for said in ask.told] == [True]


def test_closing_brings_the_first_page_back_and_greys_what_needs_a_workshop(
    window: MainWindow,
) -> None:
    choose(window, "close_workshop")
    assert window.workspace is None
    assert window.stack.currentWidget() is window.first_run
    assert not window.menus.actions["save_copy"].isEnabled()
    assert not window.menus.actions["close_workshop"].isEnabled()
    assert window.menus.actions["open_file"].isEnabled()


def test_all_papers_are_written_into_a_folder_and_a_folder_that_cannot_be_is_told(
    window: MainWindow, ask: Answers, tmp_path: Path
) -> None:
    ask.path = tmp_path / "papers"
    window.menus.actions["write_papers"].trigger()
    written = list((tmp_path / "papers").glob("*.pdf"))
    assert written
    assert str(tmp_path / "papers") in ask.told[-1]
    (tmp_path / "file").write_text("in the way")
    ask.path = tmp_path / "file" / "papers"
    window.menus.actions["write_papers"].trigger()
    assert len(ask.told) == 2
