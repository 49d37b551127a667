"""Typefaces by family and style: the two that always exist, and what is installed.

The system's font folders are read only when a family beyond the two is asked for or the list is
shown; a thousand files take about half a second.
"""

from __future__ import annotations

import os
import sys
from dataclasses import dataclass
from functools import cached_property
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, Final

from wickbench.documents.text import Typeface, read_faces
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

SANS: Final = "Source Sans Pro"
SERIF: Final = "Source Serif Pro"
REGULAR: Final = "Regular"

_PACKAGES: Final = ("font_source_sans_pro", "font_source_serif_pro")
_SUFFIXES: Final = frozenset({".ttf", ".otf", ".ttc", ".otc"})


@dataclass(frozen=True, slots=True)
class TypefaceFile:
    """Where one typeface is kept.

    Attributes:
        family: typographic family.
        style: style within it.
        path: font file.
        index: face within a collection.
        instance: named instance of a variable font, None for a static one.
    """

    family: str
    style: str
    path: Path
    index: int = 0
    instance: int | None = None


class TypefaceShelf:
    """All typefaces that can be printed with.

    Args:
        folders: where to look for installed ones; the system's own folders when not given.
    """

    def __init__(self, folders: Sequence[Path] | None = None) -> None:
        self._folders = tuple(system_font_folders() if folders is None else folders)
        self._opened: dict[TypefaceFile, Typeface] = {}
        self._lent: dict[str, Typeface | None] = {}

    def families(self) -> tuple[str, ...]:
        """Names of all families, in alphabetical order."""
        return tuple(sorted({*self._always, *self._installed}, key=str.casefold))

    def styles(self, family: str) -> tuple[str, ...]:
        """Styles of a family, Regular first; empty when there is no such family."""
        found = self._styles_of(family)
        return tuple(sorted(found, key=lambda style: (style != REGULAR, style.casefold())))

    def find(self, family: str, style: str = REGULAR) -> Typeface:
        """The typeface of exactly this family and style.

        Raises:
            DomainError: ``typeface.not-found``.
        """
        kept = self._styles_of(family).get(style)
        if kept is None:
            raise DomainError("typeface.not-found", family=family, style=style)
        return self._open(kept)

    def nearest(self, family: str, style: str = REGULAR) -> tuple[Typeface, bool]:
        """The typeface asked for and True, or one in its place and False.

        In its place stands another style of the family, else the sans that always exists.
        """
        for name in (family, SANS):
            styles = self._styles_of(name)
            for wanted in (style, REGULAR, *styles):
                if wanted in styles:
                    return self._open(styles[wanted]), (name, wanted) == (family, style)
        raise DomainError("typeface.not-found", family=SANS, style=REGULAR)

    @cached_property
    def _always(self) -> dict[str, dict[str, TypefaceFile]]:
        folders = [Path(str(resources.files(name))) / "files" for name in _PACKAGES]
        return _by_family(_font_files(folders, frozenset({".ttf"})))

    @cached_property
    def _installed(self) -> dict[str, dict[str, TypefaceFile]]:
        return _by_family(_font_files(self._folders, _SUFFIXES))

    def _styles_of(self, family: str) -> dict[str, TypefaceFile]:
        return self._always.get(family) or self._installed.get(family, {})

    def _open(self, kept: TypefaceFile) -> Typeface:
        if kept not in self._opened:
            face = Typeface(kept.path, kept.index, kept.instance)
            face.elsewhere = self.lender
            self._opened[kept] = face
        return self._opened[kept]

    def lender(self, sign: str) -> Typeface | None:
        """A typeface that has a character: the two that always exist, else the first installed."""
        if sign not in self._lent:
            self._lent[sign] = next((face for face in self._lenders() if face.has(sign)), None)
        return self._lent[sign]

    def _lenders(self) -> Iterator[Typeface]:
        """Regular styles first of what always exists, then of what is installed, by name."""
        for families in (self._always, self._installed):
            for family in sorted(families, key=str.casefold):
                styles = families[family]
                yield self._open(styles.get(REGULAR) or next(iter(styles.values())))


def system_font_folders() -> tuple[Path, ...]:
    """Folders in which this system and this person keep fonts."""
    home = Path.home()
    if sys.platform == "win32":
        local = Path(os.environ.get("LOCALAPPDATA", home / "AppData" / "Local"))
        windows = Path(os.environ.get("WINDIR", "C:/Windows"))
        return (windows / "Fonts", local / "Microsoft" / "Windows" / "Fonts")
    if sys.platform == "darwin":
        shared = (Path("/System/Library/Fonts"), Path("/Library/Fonts"))
        return (*shared, home / "Library" / "Fonts")
    data = [Path(part) for part in os.environ.get("XDG_DATA_DIRS", "").split(":") if part]
    data = data or [Path("/usr/local/share"), Path("/usr/share")]
    own = Path(os.environ.get("XDG_DATA_HOME") or home / ".local" / "share")
    return (*(folder / "fonts" for folder in (*data, own)), home / ".fonts")


def _font_files(folders: Sequence[Path], suffixes: frozenset[str]) -> Iterator[Path]:
    for folder in folders:
        for where, _, names in os.walk(folder):
            for name in sorted(names):
                if Path(name).suffix.lower() in suffixes:
                    yield Path(where) / name


def _by_family(files: Iterator[Path]) -> dict[str, dict[str, TypefaceFile]]:
    families: dict[str, dict[str, TypefaceFile]] = {}
    for path in files:
        for names in read_faces(path):
            if names.family:
                kept = TypefaceFile(names.family, names.style, path, names.index, names.instance)
                families.setdefault(names.family, {}).setdefault(names.style, kept)
    return families
