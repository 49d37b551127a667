"""Languages the program can speak: English, and those that a catalog of sentences is there for."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.resources import ResourceMissing, resource_path
from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

LANGUAGE_NAMES: Final[Mapping[str, str]] = {
    "en": N_("English"),
    "de": N_("German"),
    "fr": N_("French"),
    "es": N_("Spanish"),
}
"""Languages that labels can be in; their safety statements are data of the standards."""

LABELS_ONLY: Final = frozenset({"fr", "es"})
"""Languages whose catalogs say what stands on labels, and no more."""

OWN_NAMES: Final[Mapping[str, str]] = {
    "en": "English",
    "de": "Deutsch",
    "fr": "Français",
    "es": "Español",
}
"""What each language calls itself: so it is found by who reads nothing else."""


def catalog_folder() -> Path | None:
    """Where the catalogs stand; ``None`` when none came along."""
    try:
        return resource_path("catalogs")
    except ResourceMissing:
        return None


def available_languages(folder: Path | None) -> tuple[str, ...]:
    """Languages that windows and papers can be in, English first.

    Args:
        folder: the catalogs, as :func:`catalog_folder` finds them.
    """
    if folder is None:
        return ("en",)
    found = {path.parent.parent.name for path in folder.glob("*/LC_MESSAGES/wickbench.mo")}
    return ("en", *sorted((found & LANGUAGE_NAMES.keys()) - LABELS_ONLY - {"en"}))


def spoken_languages() -> dict[str, str]:
    """The same with the name of each (a msgid), for a list to choose from."""
    return {code: LANGUAGE_NAMES[code] for code in available_languages(catalog_folder())}
