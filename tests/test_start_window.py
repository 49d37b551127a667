"""Opening the demo, running, and testing by one command each."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from test_start import ROOT, rooms

if TYPE_CHECKING:
    from collections.abc import Sequence
    from types import SimpleNamespace

__all__ = ["rooms"]


@pytest.fixture
def calls(rooms: SimpleNamespace, monkeypatch: pytest.MonkeyPatch) -> list[list[str]]:
    """Nothing is set up and nothing starts; what would have been started is noted."""
    noted: list[list[str]] = []

    def call(_python: Path, arguments: Sequence[str], **variables: object) -> int:
        noted.append([*arguments, *(f"{name}={value}" for name, value in variables.items())])
        return 0

    monkeypatch.setattr(rooms.environment, "prepare", lambda _lock: Path("python"))
    monkeypatch.setattr(rooms.system_libraries, "ensure", lambda _libraries: True)
    monkeypatch.setattr(rooms.commands, "opens_a_window", lambda _python: True)
    monkeypatch.setattr(rooms.commands, "call", call)
    return noted


@pytest.fixture
def no_display(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)


def test_demo_opens_a_window(
    rooms: SimpleNamespace, calls: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("DISPLAY", ":0")
    assert rooms.commands.main(["demo"]) == 0
    assert calls == [["-m", "wickbench", "--demo"]]


@pytest.mark.usefixtures("no_display")
def test_demo_without_a_display_writes_papers_and_says_where(
    rooms: SimpleNamespace, calls: list[list[str]], capsys: pytest.CaptureFixture[str]
) -> None:
    assert rooms.commands.main(["demo"]) == 0
    assert calls == [["-m", "wickbench", "--demo", "--papers", str(ROOT / "papers")]]
    assert str(ROOT / "papers") in capsys.readouterr().out


def test_demo_writes_papers_too_when_the_display_does_not_answer(
    rooms: SimpleNamespace, calls: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("DISPLAY", ":0")
    monkeypatch.setattr(rooms.commands, "opens_a_window", lambda _python: False)
    assert rooms.commands.main(["demo"]) == 0
    assert "--papers" in calls[0]


@pytest.mark.parametrize("command", ["demo", "run"])
def test_no_window_is_tried_while_libraries_are_missing(
    rooms: SimpleNamespace, calls: list[list[str]], monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    monkeypatch.setenv("DISPLAY", ":0")
    monkeypatch.setattr(rooms.commands, "opens_a_window", lambda _python: False)
    monkeypatch.setattr(rooms.system_libraries, "ensure", lambda _libraries: False)
    assert rooms.commands.main([command]) == 1
    assert not calls


def test_a_window_that_opens_needs_no_list_of_libraries(
    rooms: SimpleNamespace, calls: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    # A Wayland session without the X libraries, for one.
    monkeypatch.setenv("WAYLAND_DISPLAY", "wayland-0")
    monkeypatch.setattr(rooms.system_libraries, "ensure", lambda _libraries: False)
    assert rooms.commands.main(["demo"]) == 0
    assert calls == [["-m", "wickbench", "--demo"]]


@pytest.mark.usefixtures("no_display")
def test_run_without_a_display_says_what_works(
    rooms: SimpleNamespace, calls: list[list[str]], capsys: pytest.CaptureFixture[str]
) -> None:
    assert rooms.commands.main(["run", "mine.wickbench"]) == 1
    assert not calls
    assert "--papers" in capsys.readouterr().out


def test_run_passes_the_file_on(
    rooms: SimpleNamespace, calls: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("WAYLAND_DISPLAY", "wayland-0")
    assert rooms.commands.main(["run", "mine.wickbench"]) == 0
    assert calls == [["-m", "wickbench", "mine.wickbench"]]


def test_test_runs_every_check_without_a_screen(
    rooms: SimpleNamespace, calls: list[list[str]]
) -> None:
    assert rooms.commands.main(["test", "-k", "water"]) == 0
    begun = [words[1] if words[0] == "-m" else "lint-imports" for words in calls]
    assert begun == ["ruff", "ruff", "lint-imports", "mypy", "pytest"]
    assert calls[-1][:2] == ["-m", "pytest"]
    assert " -k water" in " ".join(calls[-1])
    assert all("QT_QPA_PLATFORM=offscreen" in words for words in calls)


@pytest.mark.parametrize("failing", range(5))
def test_test_fails_when_any_check_fails_and_still_runs_the_others(
    rooms: SimpleNamespace, calls: list[list[str]], failing: int,
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    noting = rooms.commands.call

    def call(python: Path, arguments: Sequence[str], **variables: object) -> int:
        noting(python, arguments, **variables)
        return 3 if len(calls) - 1 == failing else 0

    monkeypatch.setattr(rooms.commands, "call", call)
    assert rooms.commands.main(["test"]) == 1
    assert len(calls) == 5
    assert capsys.readouterr().out.count("FAILED") == 1


@pytest.mark.parametrize(("words", "code"), [([], 2), (["nonsense"], 2), (["--help"], 0)])
def test_anything_else_shows_how_it_is_used(
    rooms: SimpleNamespace, words: list[str], code: int, capsys: pytest.CaptureFixture[str]
) -> None:
    assert rooms.commands.main(words) == code
    shown = capsys.readouterr()
    assert "python3 packaging/start.py COMMAND" in shown.out + shown.err


def test_a_failed_set_up_says_what_to_do(
    rooms: SimpleNamespace, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def prepare(_lock: str) -> Path:
        raise rooms.environment.SetupFailed("Plug the network in.")

    monkeypatch.setattr(rooms.environment, "prepare", prepare)
    assert rooms.commands.main(["test"]) == 1
    assert capsys.readouterr().err == "Plug the network in.\n"


def test_the_check_runs_the_command_of_the_readme() -> None:
    script = ROOT / ".ci" / "run"
    command = "python3 packaging/start.py test"
    assert f"exec {command}\n" in script.read_text(encoding="utf-8")
    assert os.access(script, os.X_OK)
    assert command in (ROOT / "README.md").read_text(encoding="utf-8")
