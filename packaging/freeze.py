"""Freezes the program into ``dist/wickbench``, a folder that needs no Python, and tries it out.

    python3 packaging/freeze.py

An environment of its own in ``build/freeze``, from a hashed lock, keeps test packages out.
"""

import shutil
import sys
import tomllib
from collections.abc import Sequence
from pathlib import Path

import environment
import frozen_parts as parts
import smoke

LOCK = environment.ROOT / "packaging" / "requirements-freeze.txt"
VENV = parts.WORK / "venv"
STAMP = VENV / "wickbench-stamp.txt"
DIST = parts.ROOT / "dist"
DEMO_NAME = "demo.wickbench"


def venv_python() -> Path:
    """The interpreter that freezes."""
    return VENV / ("Scripts/python.exe" if sys.platform == "win32" else "bin/python")


def call(command: Sequence[str | Path], doing: str) -> None:
    """Runs a command.

    Raises:
        environment.SetupFailed: it did not end well.
    """
    if not environment.runs(command):
        raise environment.SetupFailed(f"{doing} did not work; the lines above say why.")


def prepare_environment() -> None:
    """Makes the environment, unless it stands here and fits the lock and this Python."""
    stamp = f"{sys.version}\n{environment.lock_hash(LOCK.name)}\n"
    if STAMP.is_file() and STAMP.read_text(encoding="utf-8") == stamp:
        return
    environment.ensure_venv_module()
    base = getattr(sys, "_base_executable", sys.executable)
    call([base, "-m", "venv", "--clear", VENV], "Making an environment for PyInstaller")
    pip: list[str | Path] = [venv_python(), "-m", "pip", "--disable-pip-version-check"]
    options = ["--no-input", "--quiet", "--require-hashes", "--no-deps", "--only-binary=:all:"]
    call([*pip, "install", *options, "-r", LOCK], "Installing the packages to freeze")
    STAMP.write_text(stamp, encoding="utf-8")


def build_demo() -> None:
    """Builds the demo workshop that the frozen program brings along."""
    shutil.rmtree(parts.DEMO, ignore_errors=True)
    parts.DEMO.mkdir(parents=True)
    code = (
        f"import sys; sys.path.insert(0, {str(parts.SOURCE)!r}); import runpy; "
        f"sys.argv = ['build_demo', {str(parts.DEMO / DEMO_NAME)!r}]; "
        f"runpy.run_path({str(parts.ROOT / 'demo' / 'build_demo.py')!r}, run_name='__main__')"
    )
    call([venv_python(), "-P", "-c", code], "Building the demo workshop")


def write_metadata() -> None:
    """Writes what an installed package knows of itself: the frozen program reads its version."""
    text = (parts.ROOT / "pyproject.toml").read_text(encoding="utf-8")
    version = tomllib.loads(text)["project"]["version"]
    shutil.rmtree(parts.METADATA, ignore_errors=True)
    folder = parts.METADATA / f"wickbench-{version}.dist-info"
    folder.mkdir(parents=True)
    lines = f"Metadata-Version: 2.1\nName: wickbench\nVersion: {version}\n"
    (folder / "METADATA").write_text(lines, encoding="utf-8")


def freeze() -> Path:
    """Freezes the program and returns it.

    Raises:
        environment.SetupFailed: with a sentence that says what to do.
    """
    prepare_environment()
    build_demo()
    write_metadata()
    spec = parts.ROOT / "packaging" / "wickbench.spec"
    freezer: list[str | Path] = [venv_python(), "-m", "PyInstaller", "--noconfirm"]
    folders: list[str | Path] = ["--distpath", DIST, "--workpath", parts.WORK / "work"]
    call([*freezer, "--log-level", "WARN", *folders, spec], "Freezing")
    return DIST / "wickbench" / smoke.PROGRAM


def main() -> int:
    """Freezes the program and tries it out; returns the exit code."""
    try:
        program = freeze()
    except environment.SetupFailed as failed:
        print(failed, file=sys.stderr)
        return 1
    return smoke.main([str(program)])


if __name__ == "__main__":
    sys.exit(main())
