"""The system libraries that Qt loads and that no Python package brings along (Linux only).

Each is asked for by the name the loader uses: that decides whether the window opens.
"""

import ctypes
import os
import shutil
import subprocess
import sys
from collections.abc import Iterable
from typing import NamedTuple


class Library(NamedTuple):
    """A library by the name the loader asks for, and the Debian package that holds it."""

    soname: str
    package: str


# What QtGui, QtWidgets and the offscreen platform need.
FOR_QT = (
    Library("libEGL.so.1", "libegl1"),
    Library("libGL.so.1", "libgl1"),
    Library("libX11.so.6", "libx11-6"),
    Library("libdbus-1.so.3", "libdbus-1-3"),
    Library("libfontconfig.so.1", "libfontconfig1"),
    Library("libfreetype.so.6", "libfreetype6"),
    Library("libglib-2.0.so.0", "libglib2.0-0"),
    Library("libgthread-2.0.so.0", "libglib2.0-0"),
    Library("libxkbcommon.so.0", "libxkbcommon0"),
    Library("libzstd.so.1", "libzstd1"),
)

# What a window on an X display needs besides. Wayland sessions offer an X display too.
FOR_A_WINDOW = (
    *FOR_QT,
    Library("libX11-xcb.so.1", "libx11-xcb1"),
    Library("libxcb-cursor.so.0", "libxcb-cursor0"),
    Library("libxcb-icccm.so.4", "libxcb-icccm4"),
    Library("libxcb-image.so.0", "libxcb-image0"),
    Library("libxcb-keysyms.so.1", "libxcb-keysyms1"),
    Library("libxcb-randr.so.0", "libxcb-randr0"),
    Library("libxcb-render-util.so.0", "libxcb-render-util0"),
    Library("libxcb-render.so.0", "libxcb-render0"),
    Library("libxcb-shape.so.0", "libxcb-shape0"),
    Library("libxcb-shm.so.0", "libxcb-shm0"),
    Library("libxcb-sync.so.1", "libxcb-sync1"),
    Library("libxcb-util.so.1", "libxcb-util1"),
    Library("libxcb-xfixes.so.0", "libxcb-xfixes0"),
    Library("libxcb-xinerama.so.0", "libxcb-xinerama0"),
    Library("libxcb-xkb.so.1", "libxcb-xkb1"),
    Library("libxkbcommon-x11.so.0", "libxkbcommon-x11-0"),
)


def loads(soname: str) -> bool:
    """Whether the loader finds this library and everything it needs in turn."""
    try:
        ctypes.CDLL(soname)
    except OSError:
        return False
    return True


def missing(libraries: Iterable[Library]) -> list[Library]:
    """The libraries that do not load here; none on other systems than Linux."""
    if not sys.platform.startswith("linux"):
        return []
    return [library for library in libraries if not loads(library.soname)]


def may_install() -> bool:
    """Whether this is a Debian-like system on which we are root."""
    return hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get") is not None


def install(packages: Iterable[str]) -> bool:
    """Installs Debian packages, where ``may_install()``; returns whether that went well."""
    names = sorted(set(packages))
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    print("Installing system packages: " + " ".join(names), flush=True)
    subprocess.run(["apt-get", "update", "-qq"], env=quiet, check=False)
    command = ["apt-get", "install", "-y", "-qq", "--no-install-recommends", *names]
    return (
        subprocess.run(command, env=quiet, check=False, stdout=subprocess.DEVNULL).returncode == 0
    )


def line_to_type(libraries: Iterable[Library]) -> str:
    """The one line that installs these libraries on this kind of Linux."""
    absent = list(libraries)
    if shutil.which("apt-get"):
        return "sudo apt-get install " + " ".join(sorted({library.package for library in absent}))
    if shutil.which("dnf"):
        bits = "()(64bit)" if sys.maxsize > 2**32 else ""
        return "sudo dnf install " + " ".join(f"'{library.soname}{bits}'" for library in absent)
    return "(with your system's installer) " + " ".join(library.soname for library in absent)


def ensure(libraries: Iterable[Library]) -> bool:
    """Makes the libraries present where it may, or says the one line to type."""
    absent = missing(libraries)
    if absent and may_install():
        install(library.package for library in absent)
        absent = missing(absent)
    if absent:
        print("Qt needs system libraries that are missing here. Type this line, then try again:")
        print("  " + line_to_type(absent))
    return not absent
