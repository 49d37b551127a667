"""The command line, and the only place that builds the parts and joins them.

``gui`` is imported inside the function that needs a window: ``--papers`` works without Qt.
"""

from __future__ import annotations

import argparse
import importlib.util
import sys
from importlib import metadata
from pathlib import Path
from typing import TYPE_CHECKING

import platformdirs

from wickbench.app.texts import Texts
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from collections.abc import Sequence
    from types import ModuleType

DEMO_NAME = "demo.wickbench"


class NoDemo(DomainError):
    """The demo workshop cannot be built here."""


def version() -> str:
    """The version of the program; a checkout reads it from the project file."""
    try:
        return metadata.version("wickbench")
    except metadata.PackageNotFoundError:
        return _checkout_version()


def _checkout_version() -> str:
    import tomllib

    project = Path(__file__).resolve().parents[2] / "pyproject.toml"
    try:
        return str(tomllib.loads(project.read_text(encoding="utf-8"))["project"]["version"])
    except (OSError, KeyError, tomllib.TOMLDecodeError):
        return "unknown"


def read_arguments(arguments: Sequence[str] | None) -> argparse.Namespace:
    """Reads the command line into ``file``, ``demo`` and ``papers``."""
    parser = argparse.ArgumentParser(prog="wickbench")
    parser.description = "The bench program of a one-person candle workshop."
    parser.add_argument("file", nargs="?", type=Path, metavar="FILE", help="a workshop file")
    parser.add_argument("--demo", action="store_true", help="open the demo workshop")
    parser.add_argument(
        "--papers", type=Path, metavar="FOLDER", help="write every paper as PDF, without a window"
    )
    parser.add_argument("--version", action="version", version=f"Wickbench {version()}")
    options = parser.parse_args(arguments)
    if options.file and options.demo:
        parser.error("name a FILE or say --demo, not both")
    if options.papers and not (options.file or options.demo):
        parser.error("--papers needs a FILE or --demo")
    return options


def demo_script() -> Path:
    """Where the script that builds the demo workshop stands in a checkout."""
    return Path(__file__).resolve().parents[2] / "demo" / "build_demo.py"


def _load(script: Path) -> ModuleType:
    name = f"wickbench_{script.stem}"
    spec = importlib.util.spec_from_file_location(name, script)
    if spec is None or spec.loader is None:
        raise NoDemo("program.no-demo")
    module = importlib.util.module_from_spec(spec)
    sys.modules[name] = module
    spec.loader.exec_module(module)
    return module


def demo_file(folder: Path | None = None) -> Path:
    """The person's own copy of the demo workshop, built afresh when there is none yet.

    Args:
        folder: where it is kept; the user's data folder by default.

    Raises:
        NoDemo: this installation brings no demo along.
    """
    path = (folder or platformdirs.user_data_path("wickbench", appauthor=False)) / DEMO_NAME
    if path.exists():
        return path
    script = demo_script()
    if not script.is_file():
        raise NoDemo("program.no-demo")
    path.parent.mkdir(parents=True, exist_ok=True)
    unfinished = path.with_name(f"unfinished-{path.name}")
    unfinished.unlink(missing_ok=True)
    _load(script).build(unfinished)
    unfinished.rename(path)
    return path


def main(arguments: Sequence[str] | None = None) -> int:
    """Starts the program; returns the exit code."""
    options = read_arguments(arguments)
    try:
        path = demo_file() if options.demo else options.file
    except DomainError as error:
        print(Texts().say(error), file=sys.stderr)
        return 1
    print(path)
    return 0
