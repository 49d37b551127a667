"""The project's own ``.venv``: made once from a hashed lock, left alone while nothing changes."""

import hashlib
import importlib.util
import json
import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import system_libraries

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
STAMP = VENV / "wickbench-stamp.json"

RUN_LOCK = "requirements.txt"
TEST_LOCK = "requirements-dev.txt"
# Every pin of the first stands in the second too (a test holds that), so what tests also runs.
COVERS = {RUN_LOCK: (RUN_LOCK,), TEST_LOCK: (TEST_LOCK, RUN_LOCK)}

# Settings of the person's pip that would install elsewhere, or something else. Those that say where
# packages come from (index, proxy, certificate, cache) stay.
UNWANTED = (
    "PIP_CONFIG_SETTINGS", "PIP_CONSTRAINT", "PIP_DRY_RUN", "PIP_EDITABLE",
    "PIP_FORCE_REINSTALL", "PIP_IGNORE_INSTALLED", "PIP_NO_BINARY", "PIP_NO_COMPILE",
    "PIP_NO_DEPS", "PIP_ONLY_BINARY", "PIP_PREFIX", "PIP_PYTHON", "PIP_REQUIREMENT",
    "PIP_REQUIRE_VIRTUALENV", "PIP_ROOT", "PIP_TARGET", "PIP_UPGRADE", "PIP_USER", "PYTHONHOME",
    "PYTHONPATH", "__PYVENV_LAUNCHER__",
)  # fmt: skip


class SetupFailed(Exception):
    """The set-up cannot go on; the message says what to do."""


def clean_environment() -> dict[str, str]:
    """The environment for our Python, without what would lead it elsewhere."""
    return {name: value for name, value in os.environ.items() if name not in UNWANTED}


def venv_python() -> Path:
    """The interpreter inside the environment."""
    return VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def python_name() -> str:
    """What compiled packages must match, for example ``cpython-311 linux``."""
    return f"{sys.implementation.cache_tag} {sys.platform}"


def lock_hash(lock: str) -> str:
    """SHA-256 of a lock file, line endings evened out (a checkout may change them)."""
    text = (ROOT / "packaging" / lock).read_text(encoding="utf-8")
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def wanted_stamp(lock: str) -> dict[str, object]:
    """What the stamp says once ``lock`` is installed here."""
    locks = {name: lock_hash(name) for name in COVERS[lock]}
    return {"python": python_name(), "path": str(VENV), "locks": locks}


def read_stamp() -> dict[str, object]:
    """The stamp of the last complete set-up; empty when there is none."""
    try:
        stamp = json.loads(STAMP.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return stamp if isinstance(stamp, dict) else {}


def same_place(stamp: dict[str, object]) -> bool:
    """Whether the environment was made here, by this Python."""
    return stamp.get("python") == python_name() and stamp.get("path") == str(VENV)


def is_ready(lock: str) -> bool:
    """Whether nothing has changed since ``lock`` was installed."""
    stamp = read_stamp()
    locks = stamp.get("locks")
    fits = isinstance(locks, dict) and locks.get(lock) == lock_hash(lock)
    return fits and same_place(stamp) and venv_python().exists()


def runs(command: Sequence[str | Path], *, quiet: bool = False) -> bool:
    """Whether a command ends well."""
    out = subprocess.DEVNULL if quiet else None
    try:
        done = subprocess.run(command, env=clean_environment(), check=False, stdout=out, stderr=out)
    except OSError:
        return False
    return done.returncode == 0


def ensure_venv_module() -> None:
    """Debian cuts ``ensurepip`` out of Python; it is put back where we may."""
    if importlib.util.find_spec("ensurepip") and importlib.util.find_spec("venv"):
        return
    package = f"python{sys.version_info.major}.{sys.version_info.minor}-venv"
    if system_libraries.may_install() and system_libraries.install([package]):
        return
    line = f"sudo apt-get install {package}"
    message = f"This Python cannot make environments. Type this line, then try again:\n  {line}"
    raise SetupFailed(message)


def is_usable() -> bool:
    """Whether the ``.venv`` that stands here runs this same version of Python."""
    stamp = read_stamp()
    if stamp and not same_place(stamp):
        return False
    tag = f"import sys; sys.exit(sys.implementation.cache_tag != {sys.implementation.cache_tag!r})"
    return venv_python().exists() and runs([venv_python(), "-c", tag], quiet=True)


def make_venv() -> None:
    """Makes ``.venv`` afresh, or gives the one that stands here its pip."""
    if not is_usable():
        ensure_venv_module()
        # The Python below an activated environment, so that the new one does not hang on the old.
        base = getattr(sys, "_base_executable", sys.executable)
        if not runs([base, "-m", "venv", "--clear", VENV]):
            raise SetupFailed(
                f"The environment could not be made in {VENV}. Is the folder writable?"
            )
    elif not runs([venv_python(), "-m", "pip", "--version"], quiet=True):
        ensure_venv_module()
        if not runs([venv_python(), "-m", "ensurepip", "--default-pip"], quiet=True):
            raise SetupFailed(f"{VENV} has no pip. Remove that folder and try again.")


def install_lock(lock: str) -> None:
    """Installs exactly what the lock names, each file checked against its hash first."""
    pip: list[str | Path] = [
        venv_python(),
        "-m",
        "pip",
        "--disable-pip-version-check",
        "--no-input",
    ]
    options = ["--quiet", "--require-hashes", "--no-deps", "--only-binary=:all:", "--no-compile"]
    if not runs([*pip, "install", *options, "-r", ROOT / "packaging" / lock]):
        reason = "The packages could not be installed; the lines above say why."
        raise SetupFailed(f"{reason} The first set-up needs the network.")
    if not runs([*pip, "check"], quiet=True):
        raise SetupFailed(
            f"The packages of packaging/{lock} do not fit together; make the locks again."
        )


def site_packages() -> Path:
    """Where the environment keeps its packages."""
    if os.name == "nt":
        return VENV / "Lib" / "site-packages"
    version = f"python{sys.version_info.major}.{sys.version_info.minor}"
    return VENV / "lib" / version / "site-packages"


def join_source() -> None:
    """Puts ``src`` on the environment's path: no copy of code or resources can go stale.

    Written relative to the packages: Python reads this file in the machine's own encoding, and a
    folder's name may hold any letter.
    """
    packages = site_packages()
    line = Path(os.path.relpath(ROOT / "src", packages)).as_posix()
    (packages / "wickbench-src.pth").write_text(f"{line}\n", encoding="ascii")


def compile_bytecode() -> None:
    """Compiles everything once, on all cores: the first start is no slower than the second."""
    runs(
        [venv_python(), "-m", "compileall", "-q", "-j", "0", site_packages(), ROOT / "src"],
        quiet=True,
    )


def prepare(lock: str) -> Path:
    """Makes the environment fit ``lock``, unless it does, and returns its interpreter.

    Raises:
        SetupFailed: with a sentence that says what to do.
    """
    if is_ready(lock):
        return venv_python()
    print(f"Setting up {VENV} from packaging/{lock} (once; this needs the network) …", flush=True)
    make_venv()
    STAMP.unlink(missing_ok=True)
    install_lock(lock)
    join_source()
    compile_bytecode()
    STAMP.write_text(json.dumps(wanted_stamp(lock), indent=1) + "\n", encoding="utf-8")
    return venv_python()
