"""Starts the frozen program as a person would and says how it went.

    python3 packaging/smoke.py [PROGRAM]

Its version, every paper of the demo, the window without and with the demo. A folder of its own
stands in for the person's, and nothing of this Python reaches the program.
"""

import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

import frozen_parts

ROOT = Path(__file__).resolve().parent.parent
PROGRAM = "wickbench.exe" if sys.platform == "win32" else "wickbench"
OPEN_S = 3.0
PATIENCE_S = 120.0
MEGABYTE = 1_000_000
TROUBLE = ("Traceback", "Failed to execute script", "could not load", "Could not load")
SHOWN_CATEGORY = "qt.widgets.showhide"


class Failed(Exception):
    """The frozen program did not do what it should; the message says what."""


class Trial(NamedTuple):
    """The program, the folder that stands in for the person's own, and the screen, if any."""

    program: Path
    home: Path
    display: str

    def surroundings(self) -> dict[str, str]:
        """The environment without what would help a program that is not whole."""
        kept = {
            name: value
            for name, value in os.environ.items()
            if not name.startswith(("PYTHON", "QT_", "VIRTUAL_ENV", "LD_LIBRARY_PATH", "XDG_"))
        }
        own = dict.fromkeys(("HOME", "APPDATA", "LOCALAPPDATA"), str(self.home))
        if not sys.platform.startswith("linux"):
            return kept | own
        if self.display:
            return kept | own | {"DISPLAY": self.display, "QT_QPA_PLATFORM": "xcb"}
        return kept | own | {"QT_QPA_PLATFORM": "offscreen"}

    def log(self) -> str:
        """What the program wrote down of its own accord."""
        logs = sorted(self.home.rglob("wickbench.log"))
        return "\n".join(log.read_text(encoding="utf-8") for log in logs)


@contextmanager
def screen() -> Iterator[str]:
    """An X display: the one that is there, else one in memory, else none (the empty text)."""
    if os.environ.get("DISPLAY") or not sys.platform.startswith("linux"):
        yield os.environ.get("DISPLAY", "")
        return
    server = shutil.which("Xvfb")
    if not server:
        yield ""
        return
    command = [server, "-displayfd", "1", "-screen", "0", "1440x900x24", "-nolisten", "tcp"]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
    ) as process:
        try:
            number = process.stdout.readline().strip() if process.stdout else ""
            yield f":{number}" if number else ""
        finally:
            process.terminate()


# ── what is tried ─────────────────────────────────────────────────────────────────────────────


def try_contents(trial: Trial) -> str:
    """The folder holds nothing large that the program does not use."""
    found = frozen_parts.stowaways(trial.program)
    if found:
        raise Failed(", ".join(found))
    sizes = [file.stat().st_size for file in trial.program.parent.rglob("*") if is_real(file)]
    return f"{sum(sizes) / MEGABYTE:.0f} MB in {len(sizes)} files"


def is_real(file: Path) -> bool:
    """Whether this takes room: folders do not, nor do links."""
    return file.is_file() and not file.is_symlink()


def try_version(trial: Trial) -> str:
    """The program says its version, the number of the project file."""
    began = time.monotonic()
    said = run(trial, "--version")
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    number = said.removeprefix("Wickbench ").strip()
    if f'version = "{number}"' not in text:
        raise Failed(f"it said {said!r}, which is not the version of the project")
    return f"{number}, after {time.monotonic() - began:.2f} s"


def try_papers(trial: Trial) -> str:
    """The program writes every paper of the demo as PDF."""
    folder = trial.home / "papers"
    began = time.monotonic()
    run(trial, "--demo", "--papers", str(folder))
    took = time.monotonic() - began
    papers = sorted(folder.rglob("*.pdf"))
    if not papers:
        raise Failed("it wrote no papers")
    for paper in papers:
        if not paper.read_bytes().startswith(b"%PDF-"):
            raise Failed(f"{paper.name} is no PDF")
    return f"{len(papers)} papers, after {took:.2f} s"


def try_empty_window(trial: Trial) -> str:
    """The window opens without a workshop, as on the very first start."""
    return open_window(trial)


def try_demo_window(trial: Trial) -> str:
    """The window opens with the demo workshop."""
    return open_window(trial, "--demo")


TRIALS: tuple[tuple[str, Callable[[Trial], str]], ...] = (
    ("contents", try_contents),
    ("version", try_version),
    ("papers of the demo", try_papers),
    ("window", try_empty_window),
    ("window with the demo", try_demo_window),
)


# ── how it is tried ───────────────────────────────────────────────────────────────────────────


def run(trial: Trial, *arguments: str) -> str:
    """Runs the program to its end and returns what it printed.

    Raises:
        Failed: it took too long, or did not end well.
    """
    command = [str(trial.program), *arguments]
    try:
        done = subprocess.run(
            command,
            env=trial.surroundings(),
            cwd=trial.home,
            capture_output=True,
            text=True,
            timeout=PATIENCE_S,
            check=False,
        )
    except subprocess.TimeoutExpired as expired:
        raise Failed(f"it did not end within {PATIENCE_S:.0f} s") from expired
    if done.returncode != 0:
        raise Failed(f"exit code {done.returncode}: {done.stderr.strip()[-1500:]}")
    return done.stdout


def open_window(trial: Trial, *arguments: str) -> str:
    """Starts the program, leaves its window open for a while, and ends it.

    Raises:
        Failed: no window came, it closed by itself, or the program complained.
    """
    heard = trial.home / "heard.txt"
    # Qt itself says when it shows a window; nothing in the program is needed for it.
    surroundings = trial.surroundings() | {"QT_LOGGING_RULES": f"{SHOWN_CATEGORY}.debug=true"}
    with heard.open("w", encoding="utf-8") as out:
        began = time.monotonic()
        process = subprocess.Popen(
            [trial.program, *arguments], env=surroundings, cwd=trial.home, stdout=out, stderr=out
        )
        try:
            shown = wait_for_window(process, heard)
            shown_s = time.monotonic() - began
            time.sleep(OPEN_S)
            stayed = process.poll() is None
        finally:
            process.kill()
            process.wait()
    said = spoken_lines(heard_text(heard) + trial.log())
    wrongs = {
        "no window was shown": not shown,
        "the window closed by itself": shown and not stayed,
        "it complained": any(one in line for line in said for one in TROUBLE),
    }
    if any(wrongs.values()):
        raise Failed("\n".join([*(wrong for wrong, is_so in wrongs.items() if is_so), *said[-20:]]))
    return f"shown after {shown_s:.2f} s, still open {OPEN_S:.0f} s later"


def wait_for_window(process: subprocess.Popen[bytes], heard: Path) -> bool:
    """Waits until Qt has shown the main window; whether it did."""
    until = time.monotonic() + PATIENCE_S
    while not was_shown(heard) and process.poll() is None and time.monotonic() < until:
        time.sleep(0.02)
    return was_shown(heard)


def heard_text(heard: Path) -> str:
    """What the program printed so far."""
    return heard.read_text(encoding="utf-8", errors="replace")


def was_shown(heard: Path) -> bool:
    """Whether Qt has said that it shows the main window."""
    shown = [line for line in heard_text(heard).splitlines() if SHOWN_CATEGORY in line]
    return any("MainWindow" in line and " to true " in line for line in shown)


def spoken_lines(text: str) -> list[str]:
    """The lines of what was said, but for Qt's account of showing."""
    return [line for line in text.splitlines() if line and SHOWN_CATEGORY not in line]


# ── the report ────────────────────────────────────────────────────────────────────────────────


def try_one(name: str, trial: Trial, attempt: Callable[[Trial], str]) -> bool:
    """Tries one thing and prints how it went."""
    try:
        print(f"  passed  {name}: {attempt(trial)}", flush=True)
    except Failed as failed:
        print(f"  FAILED  {name}: {failed}", flush=True)
        return False
    return True


def main(arguments: Sequence[str]) -> int:
    """Tries everything, also after one thing has failed; returns the exit code."""
    program = Path(arguments[0]) if arguments else ROOT / "dist" / "wickbench" / PROGRAM
    if not program.is_file():
        print("There is no frozen program here. Make it with: python3 packaging/freeze.py")
        return 1
    program = program.resolve()
    print(f"── {program}", flush=True)
    with tempfile.TemporaryDirectory() as home, screen() as display:
        trial = Trial(program, Path(home), display)
        results = [try_one(name, trial, attempt) for name, attempt in TRIALS]
    return 0 if all(results) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
