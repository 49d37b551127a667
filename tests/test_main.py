from __future__ import annotations

import signal
import subprocess
import sys
import threading
import time
from typing import TYPE_CHECKING

import pytest

from wickbench import main as program
from wickbench.app.questions import Silent
from wickbench.app.texts import Texts
from wickbench.app.workspace import Workspace
from wickbench.domain.errors import OutOfRange

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@pytest.fixture
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A checkout without a demo, and a user folder of its own."""
    monkeypatch.setattr(program, "PROJECT", tmp_path / "checkout")
    monkeypatch.setattr(program, "user_folder", lambda: tmp_path / "person")
    (tmp_path / "checkout" / "demo").mkdir(parents=True)
    return tmp_path


def write_script(project: Path, body: str) -> None:
    script = project / "checkout" / "demo" / "build_demo.py"
    script.write_text(f"def build(path):\n    {body}\n", encoding="utf-8")


@pytest.mark.parametrize(
    "words", [["a.wickbench", "--demo"], ["--papers", "out"], ["--no-such-thing"], ["a", "b"]]
)
def test_a_command_line_that_makes_no_sense_is_refused(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as caught:
        program.main(words)
    assert caught.value.code == 2
    assert "usage: wickbench" in capsys.readouterr().err


def test_the_version_is_that_of_the_project() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "wickbench", "--version"],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stdout == f"Wickbench {program.version()}\n"


def test_the_demo_is_built_once_and_then_the_persons_own(project: Path) -> None:
    write_script(project, "path.write_text('new')")
    path = program.demo_file()
    assert path.parent == project / "person"
    path.write_text("changed by the person", encoding="utf-8")
    assert program.demo_file() == path
    assert path.read_text(encoding="utf-8") == "changed by the person"


def test_a_newer_demo_takes_the_place_of_one_that_was_only_looked_at(project: Path) -> None:
    write_script(project, "path.write_text('old')")
    path = program.demo_file()
    write_script(project, "path.write_text('new')")
    assert program.demo_file() == path
    assert path.read_text(encoding="utf-8") == "new"
    assert sorted(one.name for one in path.parent.iterdir()) == ["demo.stamp", "demo.wickbench"]


def test_what_the_person_did_in_the_older_demo_is_kept_beside_the_newer(project: Path) -> None:
    write_script(project, "path.write_text('old')")
    for count in (1, 2):
        program.demo_file().write_text(f"work {count}", encoding="utf-8")
        write_script(project, f"path.write_text('new {count}')")
        assert program.demo_file().read_text(encoding="utf-8") == f"new {count}"
        kept = project / "person" / f"demo-before-{count}.wickbench"
        assert kept.read_text(encoding="utf-8") == f"work {count}"


def test_a_demo_of_which_nothing_is_known_is_kept_too(project: Path) -> None:
    (project / "person").mkdir()
    (project / "person" / "demo.wickbench").write_text("of long ago", encoding="utf-8")
    write_script(project, "path.write_text('new')")
    assert program.demo_file().read_text(encoding="utf-8") == "new"
    kept = project / "person" / "demo-before-1.wickbench"
    assert kept.read_text(encoding="utf-8") == "of long ago"


def test_a_newer_demo_that_cannot_be_built_leaves_the_older_as_it_is(project: Path) -> None:
    write_script(project, "path.write_text('old')")
    path = program.demo_file()
    write_script(project, "raise OSError('no room')")
    with pytest.raises(OSError, match="no room"):
        program.demo_file()
    assert path.read_text(encoding="utf-8") == "old"


def test_a_demo_that_failed_half_way_is_built_again(project: Path) -> None:
    write_script(project, "path.write_text('half'); raise OSError('no room')")
    with pytest.raises(OSError, match="no room"):
        program.demo_file()
    write_script(project, "path.write_text('whole')")
    assert program.demo_file().read_text(encoding="utf-8") == "whole"


def test_an_installation_without_a_demo_says_so(
    project: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert not list((project / "checkout" / "demo").iterdir())
    assert program.main(["--demo", "--papers", str(project / "out")]) == 1
    assert "demo workshop does not come with this installation" in capsys.readouterr().err


def test_papers_of_a_file_that_is_not_there_get_a_sentence(
    project: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code = program.main([str(project / "none.wickbench"), "--papers", str(project / "out")])
    assert code == 1
    assert "none.wickbench" in capsys.readouterr().err


def test_the_clock_agrees_with_the_computer() -> None:
    clock = program.SystemClock()
    assert abs(clock.now_ms() / 1000 - time.time()) < 5
    assert clock.monotonic() <= clock.monotonic()


@pytest.fixture
def _own_hooks(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """What the program puts in place for a whole process is taken away again."""
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    on_interrupt = signal.getsignal(signal.SIGINT)
    yield
    signal.signal(signal.SIGINT, on_interrupt)
    for handler in list(program.LOG.handlers):
        program.LOG.removeHandler(handler)
        handler.close()


@pytest.mark.usefixtures("project", "qapp", "_own_hooks")
def test_the_window_opens_the_file_that_was_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from PySide6.QtWidgets import QApplication

    path = tmp_path / "Bench of mine.wickbench"
    Workspace.create(path, program.make_services(Texts(), Silent())).close()
    seen: list[str] = []

    def look(*_: object) -> int:
        shown = [window for window in QApplication.topLevelWidgets() if window.isVisible()]
        seen.extend(window.windowTitle() for window in shown)
        for window in shown:
            window.close()
        return 7

    monkeypatch.setattr(QApplication, "exec", look)
    assert program.main([str(path)]) == 7
    assert len(seen) == 1
    assert "Bench of mine" in seen[0]


@pytest.fixture
def told(project: Path, _own_hooks: None) -> list[str]:
    """What the person is told while the program watches for trouble."""
    del project
    sentences: list[str] = []
    program.watch_for_trouble(Texts(), sentences.append)
    return sentences


def log_text(project: Path) -> str:
    return (project / "person" / "wickbench.log").read_text(encoding="utf-8")


def test_an_unforeseen_error_is_written_down_and_told(project: Path, told: list[str]) -> None:
    sys.excepthook(ZeroDivisionError, ZeroDivisionError("no wax"), None)
    assert "ZeroDivisionError: no wax" in log_text(project)
    assert len(told) == 1
    assert "wickbench.log" in told[0]


def test_an_error_in_a_thread_is_written_down_and_told(project: Path, told: list[str]) -> None:
    def fail() -> None:
        raise RuntimeError("in the background")

    worker = threading.Thread(target=fail, name="backup")
    worker.start()
    worker.join()
    assert "in the background" in log_text(project)
    assert len(told) == 1


def test_a_domain_error_that_nobody_caught_keeps_its_own_sentence(told: list[str]) -> None:
    sys.excepthook(OutOfRange, OutOfRange("program.no-demo"), None)
    assert told == [Texts().say(OutOfRange("program.no-demo"))]


def test_stopping_by_keyboard_is_no_trouble(
    told: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    sys.excepthook(KeyboardInterrupt, KeyboardInterrupt(), None)
    assert not told
    assert "KeyboardInterrupt" in capsys.readouterr().err
