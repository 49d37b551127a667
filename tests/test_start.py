"""The one-command set-up: what it installs, when it leaves things alone, and what it says."""

# ruff: noqa: S603  (this interpreter, with fixed arguments)

from __future__ import annotations

import ast
import importlib
import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path
from types import SimpleNamespace
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Sequence
    from types import ModuleType

ROOT = Path(__file__).resolve().parent.parent
PACKAGING = ROOT / "packaging"
PIN = re.compile(r"^([a-z0-9-]+)==(\S+)( ; [^\\]+)? \\$")


@pytest.fixture
def rooms(monkeypatch: pytest.MonkeyPatch) -> SimpleNamespace:
    """The three modules of the set-up, imported as ``start.py`` does."""
    monkeypatch.syspath_prepend(str(PACKAGING))
    names = ("system_libraries", "environment", "commands")
    found: dict[str, ModuleType] = {}
    for name in names:
        monkeypatch.delitem(sys.modules, name, raising=False)
    for name in names:
        found[name] = importlib.import_module(name)
    return SimpleNamespace(**found)


# ── old Pythons ───────────────────────────────────────────────────────────────────────────────


def test_start_parses_on_old_pythons() -> None:
    ast.parse((PACKAGING / "start.py").read_text(encoding="utf-8"), feature_version=(3, 4))


def test_an_old_python_hears_what_is_missing(tmp_path: Path) -> None:
    code = "import runpy, sys; sys.version_info = (3, 8, 0); runpy.run_path(sys.argv[1])"
    surroundings = {**os.environ, "PATH": str(tmp_path)}  # no newer Python to hand over to
    done = subprocess.run(
        [sys.executable, "-c", code, str(PACKAGING / "start.py")],
        env=surroundings, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 1
    assert "needs Python 3.11 or newer; this is Python 3.8" in done.stderr


# ── the locks ─────────────────────────────────────────────────────────────────────────────────


def pins(lock: str) -> set[str]:
    lines = (PACKAGING / lock).read_text(encoding="utf-8").splitlines()
    return {line for line in lines if PIN.match(line)}


@pytest.mark.parametrize("lock", ["requirements.txt", "requirements-dev.txt"])
def test_a_lock_holds_pins_and_hashes_and_nothing_else(lock: str) -> None:
    lines = (PACKAGING / lock).read_text(encoding="utf-8").splitlines()
    digest = re.compile(r"^    --hash=sha256:[0-9a-f]{64}( \\)?$")
    other = [line for line in lines if line and not PIN.match(line) and not digest.match(line)]
    assert not [line for line in other if not line.lstrip().startswith("#")]
    assert len(pins(lock)) >= 10


def test_what_tests_also_runs() -> None:
    assert pins("requirements.txt") <= pins("requirements-dev.txt")


def test_the_locks_hold_what_the_project_asks_for() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    asked = {
        "requirements.txt": project["project"]["dependencies"],
        "requirements-dev.txt": project["dependency-groups"]["dev"],
    }
    for lock, wanted in asked.items():
        names = {re.split(r"[<>=!~ ]", one)[0].lower().replace("_", "-") for one in wanted}
        assert names <= {pin.split("==")[0] for pin in pins(lock)}


# ── the environment ───────────────────────────────────────────────────────────────────────────


@pytest.fixture
def project(rooms: SimpleNamespace, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A project of its own with an empty lock, in a folder whose name is hard to handle."""
    root = tmp_path / "Kerzen für 'uns' & Co"
    (root / "packaging").mkdir(parents=True)
    (root / "src" / "waxworks").mkdir(parents=True)
    (root / "src" / "waxworks" / "__init__.py").write_text("", encoding="utf-8")
    for lock in rooms.environment.COVERS:
        (root / "packaging" / lock).write_text("# nothing\n", encoding="utf-8")
    monkeypatch.setattr(rooms.environment, "ROOT", root)
    monkeypatch.setattr(rooms.environment, "VENV", root / ".venv")
    monkeypatch.setattr(rooms.environment, "STAMP", root / ".venv" / "stamp.json")
    return root


def forbid_commands(rooms: SimpleNamespace, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(command: Sequence[object], **_: object) -> bool:
        raise AssertionError(f"nothing should be run, but this was: {command}")

    monkeypatch.setattr(rooms.environment, "runs", refuse)


def test_an_environment_is_made_once_and_then_left_alone(
    rooms: SimpleNamespace, project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PIP_REQUIRE_VIRTUALENV", "1")
    monkeypatch.setenv("PIP_USER", "1")
    monkeypatch.setenv("PIP_NO_INDEX", "1")
    environment = rooms.environment
    python = environment.prepare(environment.TEST_LOCK)
    assert project in python.parents
    code = "import waxworks, sys; print(sys.prefix); print(waxworks.__file__)"
    done = subprocess.run([python, "-P", "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[0] == str(project / ".venv")
    assert done.stdout.splitlines()[1] == str(project / "src" / "waxworks" / "__init__.py")
    assert list((project / "src" / "waxworks" / "__pycache__").glob("*.pyc"))
    forbid_commands(rooms, monkeypatch)
    assert environment.prepare(environment.TEST_LOCK) == python
    assert environment.prepare(environment.RUN_LOCK) == python


@pytest.fixture
def installed(
    rooms: SimpleNamespace, project: Path, monkeypatch: pytest.MonkeyPatch
) -> list[list[str]]:
    """A project whose environment seems to stand; the commands run from now on are noted."""
    environment = rooms.environment
    python = environment.venv_python()
    assert project in python.parents
    python.parent.mkdir(parents=True)
    python.write_text("", encoding="utf-8")
    noted: list[list[str]] = []

    def note(command: Sequence[object], **_: object) -> bool:
        noted.append([str(word) for word in command])
        return True

    monkeypatch.setattr(environment, "runs", note)
    monkeypatch.setattr(environment, "venv_python", lambda: python)
    monkeypatch.setattr(environment, "join_source", lambda: None)
    environment.prepare(environment.RUN_LOCK)
    noted.clear()
    return noted


def asks(noted: list[list[str]], word: str) -> bool:
    return any(word in command for command in noted)


def test_nothing_runs_while_nothing_has_changed(
    rooms: SimpleNamespace, installed: list[list[str]]
) -> None:
    rooms.environment.prepare(rooms.environment.RUN_LOCK)
    assert not installed


def test_a_changed_lock_is_installed_into_the_same_environment(
    rooms: SimpleNamespace, project: Path, installed: list[list[str]]
) -> None:
    (project / "packaging" / "requirements.txt").write_text("# newer\n", encoding="utf-8")
    rooms.environment.prepare(rooms.environment.RUN_LOCK)
    assert asks(installed, "install")
    assert not asks(installed, "venv")


def test_the_test_lock_is_installed_over_the_run_lock(
    rooms: SimpleNamespace, installed: list[list[str]]
) -> None:
    rooms.environment.prepare(rooms.environment.TEST_LOCK)
    assert asks(installed, "--require-hashes")
    installed.clear()
    rooms.environment.prepare(rooms.environment.RUN_LOCK)
    assert not installed


@pytest.mark.parametrize("what", ["python_name", "VENV"])
def test_another_python_or_place_makes_the_environment_afresh(
    rooms: SimpleNamespace, installed: list[list[str]], what: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    if what == "VENV":
        monkeypatch.setattr(rooms.environment, "VENV", Path("/elsewhere/.venv"))
    else:
        monkeypatch.setattr(rooms.environment, "python_name", lambda: "cpython-399 linux")
    rooms.environment.prepare(rooms.environment.RUN_LOCK)
    assert asks(installed, "--clear")


def test_an_interrupted_installation_starts_again(
    rooms: SimpleNamespace,
    project: Path,
    installed: list[list[str]],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    environment = rooms.environment
    (project / "packaging" / "requirements.txt").write_text("# newer\n", encoding="utf-8")
    monkeypatch.setattr(environment, "runs", lambda command, **_: "install" not in command)
    with pytest.raises(environment.SetupFailed, match="network"):
        environment.prepare(environment.RUN_LOCK)
    (project / "packaging" / "requirements.txt").write_text("# nothing\n", encoding="utf-8")
    assert not environment.is_ready(environment.RUN_LOCK)
    assert not installed


def test_a_missing_venv_module_gets_one_line_to_type(
    rooms: SimpleNamespace, project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert not (project / ".venv").exists()
    monkeypatch.setattr(rooms.environment.importlib.util, "find_spec", lambda _name: None)
    monkeypatch.setattr(rooms.system_libraries, "may_install", lambda: False)
    with pytest.raises(
        rooms.environment.SetupFailed, match=r"sudo apt-get install python3\.\d+-venv"
    ):
        rooms.environment.prepare(rooms.environment.RUN_LOCK)


# ── system libraries ──────────────────────────────────────────────────────────────────────────


@pytest.fixture
def two_absent(rooms: SimpleNamespace, monkeypatch: pytest.MonkeyPatch) -> set[str]:
    absent = {"libxcb-cursor.so.0", "libEGL.so.1"}
    monkeypatch.setattr(rooms.system_libraries, "loads", lambda soname: soname not in absent)
    monkeypatch.setattr(sys, "platform", "linux")
    return absent


def test_a_library_that_cannot_be_loaded_is_missing(rooms: SimpleNamespace) -> None:
    assert not rooms.system_libraries.loads("libno-such-library.so.9")


def test_a_person_gets_the_one_line_to_type(
    rooms: SimpleNamespace, two_absent: set[str], monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    del two_absent
    libraries = rooms.system_libraries
    monkeypatch.setattr(libraries, "may_install", lambda: False)
    monkeypatch.setattr(libraries.shutil, "which", lambda name: name if name == "apt-get" else None)
    assert not libraries.ensure(libraries.FOR_A_WINDOW)
    assert "sudo apt-get install libegl1 libxcb-cursor0\n" in capsys.readouterr().out


def test_root_on_debian_gets_them_installed(
    rooms: SimpleNamespace, two_absent: set[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    libraries = rooms.system_libraries
    asked: list[str] = []

    def install(packages: Sequence[str]) -> bool:
        asked.extend(packages)
        two_absent.clear()
        return True

    monkeypatch.setattr(libraries, "may_install", lambda: True)
    monkeypatch.setattr(libraries, "install", install)
    assert libraries.ensure(libraries.FOR_A_WINDOW)
    assert sorted(asked) == ["libegl1", "libxcb-cursor0"]


@pytest.mark.parametrize("platform", ["darwin", "win32"])
def test_other_systems_bring_their_own(
    rooms: SimpleNamespace, two_absent: set[str], monkeypatch: pytest.MonkeyPatch, platform: str
) -> None:
    del two_absent
    monkeypatch.setattr(sys, "platform", platform)
    assert rooms.system_libraries.missing(rooms.system_libraries.FOR_A_WINDOW) == []


@pytest.mark.skipif(sys.platform != "linux", reason="ldd reads Linux libraries")
def test_the_list_names_all_that_the_x_plugin_loads_beyond_the_c_library(
    rooms: SimpleNamespace,
) -> None:
    import PySide6

    plugin = Path(PySide6.__file__).parent / "Qt" / "plugins" / "platforms" / "libqxcb.so"
    needed = needed_by(plugin) | needed_by(plugin.parents[2] / "lib" / "libQt6XcbQpa.so.6")
    listed = {library.soname for library in rooms.system_libraries.FOR_A_WINDOW}
    always_there = re.compile(
        r"lib(Qt6\w+|c|m|stdc\+\+|gcc_s|pthread|dl|rt|xcb|z)\.so.*|ld-linux.*"
    )
    assert needed
    assert not {name for name in needed if not always_there.fullmatch(name)} - listed


def needed_by(library: Path) -> set[str]:
    """The names a shared library asks the loader for, read from its own string table."""
    names = re.findall(
        rb"\0((?:lib[\w.+-]+|ld-linux[\w.-]+)\.so(?:\.\d+)*)(?=\0)", library.read_bytes()
    )
    return {name.decode() for name in names} - {library.name}


# ── the commands ──────────────────────────────────────────────────────────────────────────────
