"""What is said once sheets are out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from pathlib import Path

    from wickbench.app.texts import Texts


def printed_text(texts: Texts, kept: str, number: int | None, path: Path | None) -> str:
    """Number of a print and where it is, with what is left of its sheets."""
    if path is None:
        said = texts(N_("Print {number} went to the printer."), number=str(number))
    else:
        words = N_("Print {number} is in {name}. Print it at actual size.")
        said = texts(words, number=str(number), name=path.name)
    return f"{said} {kept}".strip()


def proof_text(texts: Texts, _number: int | None, path: Path | None) -> str:
    """Where a proof is."""
    return texts(N_("The proof is in {name}."), name=path.name if path is not None else "")
