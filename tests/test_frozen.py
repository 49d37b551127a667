"""The frozen program: what goes into it, what stays out, and that its smoke test can fail.

Freezing takes a minute and the network: it is done where WICKBENCH_FREEZE is set.
"""

# ruff: noqa: S603  (this interpreter, with fixed arguments)

from __future__ import annotations

import ast
import importlib
import importlib.util
import os
import pkgutil
import re
import subprocess
import sys
import tomllib
from pathlib import Path
from types import SimpleNamespace
from typing import TYPE_CHECKING

import pytest
from reportlab.graphics import barcode

from wickbench.app import sentences
from wickbench.gui.docks import DOCKS
from wickbench.gui.stages import PLACES, STAGES

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).resolve().parent.parent
PACKAGING = ROOT / "packaging"
LOCK = PACKAGING / "requirements-freeze.txt"
PIN = re.compile(r"^[a-z0-9-]+==\S+")
VERSION = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["version"]


@pytest.fixture
def rooms(monkeypatch: pytest.MonkeyPatch) -> SimpleNamespace:
    """The modules that freeze, imported as ``freeze.py`` does."""
    monkeypatch.syspath_prepend(str(PACKAGING))
    names = ("system_libraries", "environment", "frozen_parts", "smoke", "freeze")
    for name in names:
        monkeypatch.delitem(sys.modules, name, raising=False)
    return SimpleNamespace(**{name: importlib.import_module(name) for name in names})


# ── what goes into it ─────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", ["wickbench.spec", "hooks/hook-PySide6.QtGui.py"])
def test_what_pyinstaller_runs_is_python(name: str) -> None:
    compile((PACKAGING / name).read_text(encoding="utf-8"), name, "exec")


def test_every_module_that_is_named_exists(rooms: SimpleNamespace) -> None:
    missing = [one for one in rooms.frozen_parts.hidden_imports() if not module_exists(one)]
    assert not missing


def module_exists(name: str) -> bool:
    return importlib.util.find_spec(name) is not None


def test_what_is_found_by_name_at_run_time_goes_along(rooms: SimpleNamespace) -> None:
    by_name = {spec.factory.split(":")[0] for spec in (*STAGES, *PLACES, *DOCKS)}
    by_name |= {
        f"{sentences.__name__}.{one.name}" for one in pkgutil.iter_modules(sentences.__path__)
    }
    assert len(by_name) > 10
    assert by_name <= set(rooms.frozen_parts.hidden_imports())


def test_every_barcode_of_the_pdf_library_goes_along(rooms: SimpleNamespace) -> None:
    found = {f"{barcode.__name__}.{one.name}" for one in pkgutil.iter_modules(barcode.__path__)}
    tests = {f"{barcode.__name__}.test"}
    assert set(rooms.frozen_parts.BARCODES) >= found - tests


def test_the_typefaces_go_along(rooms: SimpleNamespace) -> None:
    for name in rooms.frozen_parts.FONT_PACKAGES:
        spec = importlib.util.find_spec(name)
        assert spec is not None
        assert spec.origin is not None
        assert list((Path(spec.origin).parent / "files").glob("*.ttf"))


# ── what stays out ────────────────────────────────────────────────────────────────────────────


def imported(tree: ast.AST) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def test_the_program_imports_nothing_that_is_left_out(rooms: SimpleNamespace) -> None:
    used = {
        name
        for file in (ROOT / "src").rglob("*.py")
        for name in imported(ast.parse(file.read_text(encoding="utf-8")))
    }
    assert "PySide6.QtWidgets" in used
    left_out = tuple(rooms.frozen_parts.EXCLUDED)
    assert not [one for one in used for out in left_out if one == out or one.startswith(f"{out}.")]


@pytest.mark.parametrize(
    ("plugin", "wanted"),
    [
        ("PySide6/Qt/plugins/platforms/libqxcb.so", True),
        ("PySide6/Qt/plugins/platforms/libqoffscreen.so", True),
        (r"PySide6\plugins\platforms\qwindows.dll", True),
        ("PySide6/Qt/plugins/printsupport/libcupsprintersupport.so", True),
        ("PySide6/Qt/plugins/imageformats/libqjpeg.so", True),
        ("PySide6/Qt/plugins/iconengines/libqsvgicon.so", True),
        ("PySide6/Qt/plugins/platforminputcontexts/libqtvirtualkeyboardplugin.so", False),
        ("PySide6/Qt/plugins/platformthemes/libqgtk3.so", False),
        (r"PySide6\plugins\tls\qschannelbackend.dll", False),
        ("PySide6/Qt/translations/qtbase_de.qm", True),
        ("PySide6/Qt/translations/qtbase_fi.qm", False),
        ("PySide6/Qt/qml/QtQuick/libqtquick2plugin.so", False),
    ],
)
def test_which_plugins_are_of_use(rooms: SimpleNamespace, plugin: str, *, wanted: bool) -> None:
    assert rooms.frozen_parts.is_wanted(plugin) is wanted


def test_stowaways_are_found(rooms: SimpleNamespace, tmp_path: Path) -> None:
    inside = tmp_path / "_internal" / "lib"
    inside.mkdir(parents=True)
    for name in ("libQt6Qml.so.6", "libQt6Core.so.6", "Qt6Quick.dll"):
        (inside / name).touch()
    found = rooms.frozen_parts.stowaways(tmp_path / "wickbench")
    assert found == ["Qt6Quick.dll", "libQt6Qml.so.6"]


# ── its environment ───────────────────────────────────────────────────────────────────────────


def pins(lock: Path) -> set[str]:
    return {line for line in lock.read_text(encoding="utf-8").splitlines() if PIN.match(line)}


def test_what_is_frozen_is_what_runs() -> None:
    assert pins(PACKAGING / "requirements.txt") <= pins(LOCK)


def test_the_lock_holds_hashes_the_freezer_and_no_machine() -> None:
    text = LOCK.read_text(encoding="utf-8")
    digest = re.compile(r"^    --hash=sha256:[0-9a-f]{64}( \\)?$")
    lines = [line for line in text.splitlines() if not PIN.match(line)]
    assert not [line for line in lines if not digest.match(line)]
    assert any(pin.startswith("pyinstaller==") for pin in pins(LOCK))


def test_the_frozen_program_knows_its_version(
    rooms: SimpleNamespace, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(rooms.frozen_parts, "METADATA", tmp_path)
    rooms.freeze.write_metadata()
    code = "from importlib.metadata import version; print(version('wickbench'))"
    done = subprocess.run(
        [sys.executable, "-I", "-c", f"import sys; sys.path.insert(0, {str(tmp_path)!r}); {code}"],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stdout.strip() == VERSION


# ── the smoke test ────────────────────────────────────────────────────────────────────────────

posix_only = pytest.mark.skipif(os.name != "posix", reason="the stand-in is a script")


def stand_in(rooms: SimpleNamespace, folder: Path, body: str) -> SimpleNamespace:
    """A trial of a script that stands in for the frozen program."""
    program = folder / "program" / "wickbench"
    home = folder / "home"
    program.parent.mkdir()
    home.mkdir()
    program.write_text(f"#!{sys.executable}\nimport sys, time\n{body}\n", encoding="utf-8")
    program.chmod(0o755)
    return rooms.smoke.Trial(program, home, "")


# As Qt 6.11 says it, the attributes left out.
SHOWN = "qt.widgets.showhide: Setting visibility of MainWindow(0x1) to true via QWidget"
WINDOW = f"print({SHOWN!r}, flush=True)"


@posix_only
def test_a_program_that_says_another_version_fails(rooms: SimpleNamespace, tmp_path: Path) -> None:
    trial = stand_in(rooms, tmp_path, "print('Wickbench of unknown version')")
    with pytest.raises(rooms.smoke.Failed, match="not the version"):
        rooms.smoke.try_version(trial)


@posix_only
def test_a_program_that_ends_badly_fails_with_its_words(
    rooms: SimpleNamespace, tmp_path: Path
) -> None:
    trial = stand_in(rooms, tmp_path, "sys.exit('no module named wax')")
    with pytest.raises(rooms.smoke.Failed, match="no module named wax"):
        rooms.smoke.try_papers(trial)


@posix_only
@pytest.mark.parametrize(
    ("body", "what"),
    [
        ("", "wrote no papers"),
        (
            "import pathlib; p = pathlib.Path(sys.argv[3]); p.mkdir(); (p / 'a.pdf').touch()",
            "a.pdf is no PDF",
        ),
    ],
)
def test_papers_that_are_missing_or_empty_fail(
    rooms: SimpleNamespace, tmp_path: Path, body: str, what: str
) -> None:
    with pytest.raises(rooms.smoke.Failed, match=what):
        rooms.smoke.try_papers(stand_in(rooms, tmp_path, body))


@posix_only
@pytest.mark.parametrize(
    ("body", "what"),
    [
        ("pass", "no window was shown"),
        ("sys.exit('No icons here.')", "No icons here"),
        (WINDOW, "closed by itself"),
        (f"{WINDOW}\nprint('Traceback: no icon', flush=True)\ntime.sleep(60)", "no icon"),
    ],
)
def test_a_window_that_does_not_come_or_stay_or_complains_fails(
    rooms: SimpleNamespace, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, body: str, what: str
) -> None:
    monkeypatch.setattr(rooms.smoke, "OPEN_S", 0.3)
    with pytest.raises(rooms.smoke.Failed, match=what):
        rooms.smoke.try_empty_window(stand_in(rooms, tmp_path, body))


@posix_only
def test_a_window_that_stays_passes(
    rooms: SimpleNamespace, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(rooms.smoke, "OPEN_S", 0.3)
    trial = stand_in(rooms, tmp_path, f"{WINDOW}\ntime.sleep(60)")
    assert "still open" in rooms.smoke.try_empty_window(trial)


def test_nothing_of_this_python_reaches_the_program(
    rooms: SimpleNamespace, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PYTHONPATH", "src")
    monkeypatch.setenv("LD_LIBRARY_PATH", "lib")
    seen = rooms.smoke.Trial(tmp_path / "wickbench", tmp_path, "").surroundings()
    assert not {"PYTHONPATH", "LD_LIBRARY_PATH", "XDG_DATA_HOME"} & seen.keys()
    assert seen["HOME"] == str(tmp_path)


# ── the real thing ────────────────────────────────────────────────────────────────────────────


@pytest.mark.skipif(
    "WICKBENCH_FREEZE" not in os.environ, reason="set WICKBENCH_FREEZE to freeze the program"
)
def test_the_frozen_program_starts_and_writes_papers() -> None:
    done = subprocess.run(
        [sys.executable, str(PACKAGING / "freeze.py")], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert "papers of the demo" in done.stdout
