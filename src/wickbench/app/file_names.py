"""Names of files that every system takes."""

from __future__ import annotations

from typing import Final

_NOT_IN_FILES: Final = '<>:"/\\|?*'
"""What some systems take in no name of a file."""


def file_name(words: str) -> str:
    """The words without the signs that a name of a file may not have."""
    return "".join(one for one in words if one not in _NOT_IN_FILES and one.isprintable()).strip()
