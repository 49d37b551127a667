"""Everything that is asked of or told to the person passes one replaceable object."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from pathlib import Path


class Ask(Protocol):
    """Questions and messages; the window shows them, tests and papers answer them."""

    def tell(self, sentence: str) -> None:
        """Say something that needs no answer."""

    def confirm(self, question: str, action: str) -> bool:
        """Ask before what cannot be undone; ``action`` names the button."""

    def open_path(self, title: str, kinds: str) -> Path | None:
        """A file to read, or ``None``."""

    def save_path(self, title: str, suggested: str, kinds: str) -> Path | None:
        """A file to write, or ``None``."""

    def folder(self, title: str) -> Path | None:
        """A folder, or ``None``."""


class Silent:
    """Nobody is there: nothing is confirmed, nothing chosen; what was told is kept."""

    def __init__(self) -> None:
        self.told: list[str] = []

    def tell(self, sentence: str) -> None:
        """Keep the sentence."""
        self.told.append(sentence)

    def confirm(self, question: str, action: str) -> bool:  # noqa: ARG002 - the protocol's arguments
        """Nobody agreed."""
        return False

    def open_path(self, title: str, kinds: str) -> Path | None:  # noqa: ARG002
        """Nothing chosen."""
        return None

    def save_path(self, title: str, suggested: str, kinds: str) -> Path | None:  # noqa: ARG002
        """Nothing chosen."""
        return None

    def folder(self, title: str) -> Path | None:  # noqa: ARG002
        """Nothing chosen."""
        return None
