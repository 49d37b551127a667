"""The three commands of ``start.py``: demo, test and run."""

import os
import subprocess
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

import environment
import system_libraries

USAGE = """Usage: python3 packaging/start.py COMMAND

  demo          opens the demo workshop; without a display it writes the papers of the demo as PDF
  run [FILE]    opens the program, with a workshop file if one is named
  test [ARGS]   checks the code and runs the tests; ARGS go to pytest
"""
LINT_IMPORTS = "from importlinter.cli import lint_imports_command as lint; lint()"
PAPERS = environment.ROOT / "papers"


class Step(NamedTuple):
    """One check of ``test``: what it is called and what its Python is given."""

    name: str
    arguments: tuple[str, ...]


class Result(NamedTuple):
    """How a step went."""

    name: str
    passed: bool
    seconds: float


def has_display(variables: Mapping[str, str] = os.environ) -> bool:
    """Whether a window could open; other systems than Linux always have a display."""
    if not sys.platform.startswith("linux"):
        return True
    return bool(variables.get("DISPLAY") or variables.get("WAYLAND_DISPLAY"))


def call(
    python: Path, arguments: Sequence[str], *, folder: Path | None = None, **variables: str
) -> int:
    """Runs the environment's Python, the current folder not on its path; returns the exit code."""
    surroundings = {**environment.clean_environment(), **variables}
    return subprocess.run(
        [python, "-P", *arguments], env=surroundings, cwd=folder, check=False
    ).returncode


def opens_a_window(python: Path) -> bool:
    """Whether Qt reaches the display, tried in a process of its own: Qt aborts if it does not."""
    code = "from PySide6.QtGui import QGuiApplication; QGuiApplication([])"
    return environment.runs([python, "-P", "-c", code], quiet=True)


def write_demo_papers(python: Path) -> int:
    """Writes every paper of the demo workshop as PDF and says where."""
    print(
        "There is no display here, so the papers of the demo workshop are written as PDF.",
        flush=True,
    )
    code = call(python, ["-m", "wickbench", "--demo", "--papers", str(PAPERS)])
    if code == 0:
        print(f"The papers are in {PAPERS}")
    return code


def may_open(python: Path) -> bool:
    """Whether a window opens, or what it lacks could be put right; else says what to type."""
    return opens_a_window(python) or system_libraries.ensure(system_libraries.FOR_A_WINDOW)


def demo(arguments: Sequence[str]) -> int:
    """Opens the demo workshop, or writes its papers where no window can open."""
    if arguments:
        print(USAGE, file=sys.stderr)
        return 2
    python = environment.prepare(environment.RUN_LOCK)
    if not has_display():
        return write_demo_papers(python)
    if not may_open(python):
        return 1
    if not opens_a_window(python):
        return write_demo_papers(python)
    return call(python, ["-m", "wickbench", "--demo"])


def run(arguments: Sequence[str]) -> int:
    """Opens the program, with a workshop file if one is named."""
    python = environment.prepare(environment.RUN_LOCK)
    if "--papers" in arguments:  # needs neither display nor Qt
        return call(python, ["-m", "wickbench", *arguments])
    if not has_display():
        print("There is no display here. To write a workshop's papers as PDF, type:")
        print("  python3 packaging/start.py run FILE --papers FOLDER")
        return 1
    return call(python, ["-m", "wickbench", *arguments]) if may_open(python) else 1


def steps(arguments: Sequence[str]) -> list[Step]:
    """The checks in their order, quick ones first."""
    typed = [
        name
        for name in ("src", "packaging", "demo")
        if any((environment.ROOT / name).rglob("*.py"))
    ]
    return [
        Step("ruff check", ("-m", "ruff", "check", ".")),
        Step("ruff format", ("-m", "ruff", "format", "--check", ".")),
        Step("import contracts", ("-c", LINT_IMPORTS)),
        Step("mypy", ("-m", "mypy", *typed)),
        # Each file stays on one core: its fixtures are made once.
        Step("pytest", ("-m", "pytest", "-n", "2", "--dist", "loadfile", *arguments)),
    ]


def run_step(python: Path, step: Step) -> Result:
    """Runs one check and keeps how it went and how long it took."""
    print(f"── {step.name}", flush=True)
    began = time.monotonic()
    code = call(python, step.arguments, folder=environment.ROOT, QT_QPA_PLATFORM="offscreen")
    return Result(step.name, code == 0, time.monotonic() - began)


def summary(results: Sequence[Result]) -> str:
    """One line per check."""
    lines = [
        f"  {'passed' if one.passed else 'FAILED'}  {one.name} ({one.seconds:.1f} s)"
        for one in results
    ]
    return "\n".join(["── Summary", *lines])


def test(arguments: Sequence[str]) -> int:
    """Runs every check, also after one has failed; fails when one of them did."""
    python = environment.prepare(environment.TEST_LOCK)
    if not system_libraries.ensure(system_libraries.FOR_QT):
        return 1
    results = [run_step(python, step) for step in steps(arguments)]
    print(summary(results))
    return 0 if all(one.passed for one in results) else 1


COMMANDS: dict[str, Callable[[Sequence[str]], int]] = {"demo": demo, "run": run, "test": test}


def main(arguments: Sequence[str]) -> int:
    """Runs the command that the first argument names; returns the exit code."""
    if not arguments or arguments[0] not in COMMANDS:
        asked = bool(arguments) and arguments[0] in {"-h", "--help"}
        print(USAGE, file=sys.stdout if asked else sys.stderr)
        return 0 if asked else 2
    try:
        return COMMANDS[arguments[0]](arguments[1:])
    except environment.SetupFailed as failed:
        print(failed, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        return 130
