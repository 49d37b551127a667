"""Settings of the person at this machine: language of the window, theme, recent files.

They stand in one small JSON file in the user's folder; a damaged or missing file means defaults.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Final

import platformdirs

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

MOST_RECENT: Final = 8

DEFAULTS: Final[Mapping[str, object]] = {
    "language": "en",
    "theme": "system",
    "window_geometry": "",
    "window_state": "",
    "stage": "",
    "recent_files": [],
    "backup_folder": "",
    "plan_folded": "",
    "label_folded": "",
}
"""Every setting with its default."""


class UserSettings:
    """The settings, written at each change.

    Args:
        path: the JSON file; ``None`` keeps everything in memory.
    """

    def __init__(self, path: Path | None = None) -> None:
        self._path = path
        self._values = dict(DEFAULTS) | _read(path)
        self._listeners: list[Callable[[str], None]] = []

    @classmethod
    def of_this_person(cls) -> UserSettings:
        """The settings in the user's own folder."""
        return cls(platformdirs.user_config_path("wickbench", appauthor=False) / "settings.json")

    def text(self, name: str) -> str:
        """A setting as text.

        Raises:
            KeyError: there is no such setting; a bug of ours.
        """
        default, value = DEFAULTS[name], self._values.get(name)
        return value if isinstance(value, str) else str(default)

    def set_text(self, name: str, value: str) -> None:
        """Change a setting and write the file."""
        if name not in DEFAULTS:
            raise KeyError(name)
        if self._values.get(name) == value:
            return
        self._values[name] = value
        self._write()
        for listener in tuple(self._listeners):
            listener(name)

    def subscribe(self, listener: Callable[[str], None]) -> Callable[[], None]:
        """Be told the name of each setting that changed; call what is returned to stop."""
        self._listeners.append(listener)

        def stop() -> None:
            if listener in self._listeners:
                self._listeners.remove(listener)

        return stop

    @property
    def recent_files(self) -> tuple[Path, ...]:
        """Workshop files opened lately, newest first, those that still exist."""
        listed = self._values.get("recent_files")
        names = (
            [name for name in listed if isinstance(name, str)] if isinstance(listed, list) else []
        )
        return tuple(path for path in map(Path, names) if _is_there(path))

    def remember_file(self, path: Path) -> None:
        """Put a file at the head of the recent ones."""
        kept = [str(one) for one in self.recent_files if one != path]
        self._values["recent_files"] = [str(path), *kept][:MOST_RECENT]
        self._write()

    def _write(self) -> None:
        """A folder that cannot be written costs the setting, never the work."""
        if self._path is None:
            return
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            fresh = self._path.with_suffix(".new")
            fresh.write_text(json.dumps(self._values, indent=1), encoding="utf-8")
            fresh.replace(self._path)
        except OSError:
            return


def _is_there(path: Path) -> bool:
    """Whether it is a file that can be reached; a folder that is barred counts as no."""
    try:
        return path.is_file()
    except OSError:
        return False


def _read(path: Path | None) -> dict[str, object]:
    if path is None:
        return {}
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return (
        {name: found[name] for name in DEFAULTS if name in found} if isinstance(found, dict) else {}
    )
