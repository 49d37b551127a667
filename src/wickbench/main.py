"""The command line, and the only place that builds the parts and joins them.

``gui`` is imported inside the function that needs a window: ``--papers`` works without Qt.
"""

from __future__ import annotations

import argparse
import datetime as dt
import hashlib
import importlib.util
import logging
import logging.handlers
import shutil
import signal
import sys
import threading
import time
import tomllib
from importlib import metadata
from pathlib import Path
from typing import TYPE_CHECKING

import platformdirs

from wickbench.app.questions import Silent
from wickbench.app.resources import ResourceMissing, resource_path
from wickbench.app.texts import Texts
from wickbench.app.texts_marker import N_
from wickbench.app.user_settings import UserSettings
from wickbench.app.workspace import Services, Workspace
from wickbench.domain.errors import DomainError
from wickbench.storage.migrations import current_version

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from types import ModuleType, TracebackType

    from wickbench.app.questions import Ask

PROJECT = Path(__file__).resolve().parents[2]
DEMO_NAME = "demo.wickbench"
LOG_BYTES = 500_000
LOG = logging.getLogger("wickbench")
TROUBLE = N_(
    "Something went wrong in the program itself. What you stored is still there. "
    "The details are written down in {path}."
)


class NoDemo(DomainError):
    """The demo workshop cannot be built here."""


class SystemClock:
    """The computer's own clock."""

    def now_ms(self) -> int:
        """The moment as UTC milliseconds since 1970."""
        return time.time_ns() // 1_000_000

    def today(self) -> dt.date:
        """The local calendar day."""
        return dt.datetime.now().astimezone().date()

    def monotonic(self) -> float:
        """Seconds that never run backwards."""
        return time.monotonic()


# ── the command line ──────────────────────────────────────────────────────────────────────────


def version() -> str:
    """The version of the program; a checkout reads it from the project file."""
    try:
        return metadata.version("wickbench")
    except metadata.PackageNotFoundError:
        project = PROJECT / "pyproject.toml"
    if not project.is_file():
        return "of unknown version"
    return str(tomllib.loads(project.read_text(encoding="utf-8"))["project"]["version"])


def read_arguments(arguments: Sequence[str] | None) -> argparse.Namespace:
    """Reads the command line into ``file``, ``demo`` and ``papers``."""
    parser = argparse.ArgumentParser(
        prog="wickbench", description="The bench program of a one-person candle workshop."
    )
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


# ── the demo workshop ─────────────────────────────────────────────────────────────────────────


def user_folder() -> Path:
    """Where the program keeps what is the person's: the demo, backups, its log."""
    return platformdirs.user_data_path("wickbench", appauthor=False)


def _load(script: Path) -> ModuleType:
    spec = importlib.util.spec_from_file_location(f"wickbench_{script.stem}", script)
    if spec is None or spec.loader is None:
        raise NoDemo("program.no-demo")
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


def _build_demo(path: Path) -> None:
    """Builds the demo where the script is at hand, or copies the one that was brought along."""
    script = PROJECT / "demo" / "build_demo.py"
    if script.is_file():
        _load(script).build(path)
        return
    try:
        shutil.copyfile(resource_path("demo", DEMO_NAME), path)
    except ResourceMissing as missing:
        raise NoDemo("program.no-demo") from missing


def demo_file(folder: Path | None = None) -> Path:
    """The person's own copy of the demo workshop.

    Built when there is none yet, and again when the demo itself has changed since. A copy that the
    person worked in is kept beside the new one.

    Args:
        folder: where it is kept; the user's data folder by default.

    Raises:
        NoDemo: this installation brings no demo along.
    """
    path = (folder or user_folder()) / DEMO_NAME
    stamp = path.with_suffix(".stamp")
    source = _demo_source()
    if path.exists() and (not source or _stamped(stamp)[0] == source):
        return path
    path.parent.mkdir(parents=True, exist_ok=True)
    unfinished = path.with_stem("unfinished")
    unfinished.unlink(missing_ok=True)
    _build_demo(unfinished)
    if path.exists() and not _set_aside(path, _stamped(stamp)[1]):
        return path
    unfinished.rename(path)
    stamp.write_text(f"{source}\n{_digest(path)}\n", encoding="utf-8")
    return path


def _demo_source() -> str:
    """What the demo is made of, as a digest; empty where there is none."""
    made = sorted((PROJECT / "demo").glob("*.py"))
    if not made:
        try:
            made = [resource_path("demo", DEMO_NAME)]
        except ResourceMissing:
            return ""
    parts = [str(current_version()), *(_digest(one) for one in made)]
    return hashlib.sha256("\n".join(parts).encode()).hexdigest()


def _digest(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()


def _stamped(stamp: Path) -> tuple[str, str]:
    """What the demo was made of, and how its file was then; empty when that is not known."""
    try:
        source, made, *_ = [*stamp.read_text(encoding="utf-8").splitlines(), "", ""]
    except OSError:
        return "", ""
    return source, made


def _set_aside(path: Path, made: str) -> bool:
    """Give way to a newer demo; one that the person changed is kept under another name."""
    try:
        if _digest(path) == made:
            path.unlink()
            return True
        names = (path.with_stem(f"{path.stem}-before-{count}") for count in range(1, 1000))
        path.rename(next(name for name in names if not name.exists()))
    except OSError:  # another window has it open
        return False
    return True


# ── joining the parts ─────────────────────────────────────────────────────────────────────────


def make_texts() -> Texts:
    """The texts in the language that the person chose; English where there is no catalog for it."""
    language = UserSettings.of_this_person().text("language")
    try:
        return Texts(language, folder=resource_path("catalogs"))
    except ResourceMissing:
        return Texts(language)


def make_services(texts: Texts, ask: Ask) -> Services:
    """What every open workshop is given."""
    chosen = UserSettings.of_this_person().text("backup_folder")
    backups = Path(chosen) if chosen else user_folder() / "backups"
    return Services(SystemClock(), texts, ask, backups)


def write_papers(path: Path, folder: Path) -> int:
    """Writes every paper of a workshop as PDF and prints the file names; needs no Qt."""
    workspace = Workspace.open(path, make_services(make_texts(), Silent()))
    try:
        from wickbench.app.papers import write_all_papers

        for written in write_all_papers(workspace, folder):
            print(written)
    finally:
        workspace.close()
    return 0


def open_window(path: Path | None) -> int:
    """Opens the window and stays until it is closed; returns the exit code."""
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication

    from wickbench.domain.quantities import prepare_units
    from wickbench.gui.main_window import MainWindow
    from wickbench.gui.trouble_relay import TroubleRelay

    application = QApplication.instance() or QApplication(sys.argv[:1])
    # Qt's loop never lets Python see Ctrl+C; the file is whole at every moment.
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    texts = make_texts()
    window = MainWindow(make_services, texts, demo_file)
    watch_for_trouble(texts, TroubleRelay(window.ask, window).tell)
    window.show()
    if path is not None:
        window.open_workshop(path)
    QTimer.singleShot(0, prepare_units)  # once the window is painted; nothing when already done
    return int(application.exec())


# ── what nobody foresaw ───────────────────────────────────────────────────────────────────────


def start_log() -> Path:
    """Sends the program's log to a file of limited size; returns where it is."""
    path = user_folder() / "wickbench.log"
    path.parent.mkdir(parents=True, exist_ok=True)
    keep = logging.handlers.RotatingFileHandler(
        path, maxBytes=LOG_BYTES, backupCount=1, encoding="utf-8", delay=True
    )
    keep.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(threadName)s %(message)s"))
    LOG.addHandler(keep)
    return path


def watch_for_trouble(texts: Texts, tell: Callable[[str], None]) -> None:
    """Writes down what nobody caught, in any thread, and tells the person.

    Args:
        texts: the person's language.
        tell: shows a sentence; must be callable from any thread.
    """
    log = start_log()

    def caught(
        kind: type[BaseException], error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if issubclass(kind, (KeyboardInterrupt, SystemExit)):
            sys.__excepthook__(kind, error or kind(), trace)
            return
        LOG.error("uncaught", exc_info=(kind, error or kind(), trace))
        sys.__excepthook__(kind, error or kind(), trace)
        said = texts.say(error) if isinstance(error, DomainError) else texts(TROUBLE, path=log)
        tell(said)

    sys.excepthook = caught
    threading.excepthook = lambda args: caught(args.exc_type, args.exc_value, args.exc_traceback)


def main(arguments: Sequence[str] | None = None) -> int:
    """Starts the program; returns the exit code."""
    options = read_arguments(arguments)
    try:
        path = demo_file() if options.demo else options.file
        return write_papers(path, options.papers) if options.papers else open_window(path)
    except DomainError as error:
        print(make_texts().say(error), file=sys.stderr)
        return 1
