"""Files that the program brings along: icons, tables of standards, message catalogs.

In a checkout they stand in ``resources`` beside ``src``; a wheel and the frozen program carry them
as ``_resources`` inside the package. This is the only place that knows.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

from wickbench.domain.errors import DomainError

PACKAGE = Path(__file__).resolve().parent.parent


class ResourceMissing(DomainError):
    """A file that the program should have brought along is not there, or cannot be read."""


@cache
def resource_folders() -> tuple[Path, ...]:
    """Where the program's own files may stand: the installed place first, then the checkout."""
    return (PACKAGE / "_resources", PACKAGE.parent.parent / "resources")


def resource_path(*parts: str) -> Path:
    """Finds one of the program's own files or folders.

    Args:
        *parts: its path below the resource folder, for example ``"icons", "jar.svg"``.

    Raises:
        ResourceMissing: it stands in no resource folder.
    """
    for folder in resource_folders():
        path = folder.joinpath(*parts)
        if path.exists():
            return path
    raise ResourceMissing("program.resource-missing", name="/".join(parts))


def read_json(*parts: str) -> object:
    """Reads one of the program's own JSON files.

    Raises:
        ResourceMissing: it is not there or is not JSON.
    """
    path = resource_path(*parts)
    try:
        value: object = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError) as error:
        raise ResourceMissing("program.resource-damaged", name="/".join(parts)) from error
    return value
