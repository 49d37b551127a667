"""Letters that no typeface has, and which typeface lends those that the chosen one lacks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.documents.text import shape

if TYPE_CHECKING:
    from wickbench.documents.text import Run, Typeface


def missing(face: Typeface, text: str) -> tuple[str, ...]:
    """Characters of the text that the typeface has no glyph for, each once, in order."""
    lost: dict[str, None] = {}
    for line in text.splitlines():
        lost.update(dict.fromkeys(_lost_in(shape(face, line))))
    return tuple(lost)


def lent(face: Typeface, text: str) -> dict[str, tuple[str, ...]]:
    """Characters that other typefaces lend, each once, by the family that lends them."""
    lenders: dict[str, dict[str, None]] = {}
    for line in text.splitlines():
        for _, part in shape(face, line).parts:
            if part.face is not face and part.text.strip():
                signs = [sign for sign in part.text if not sign.isspace()]
                lenders.setdefault(part.face.family, {}).update(dict.fromkeys(signs))
    return {family: tuple(signs) for family, signs in lenders.items()}


def _lost_in(run: Run) -> list[str]:
    if run.parts:
        return [sign for _, part in run.parts for sign in _lost_in(part)]
    lost: list[str] = []
    for at, glyph in enumerate(run.glyphs):
        if glyph.gid == 0:
            said = [other.text for other in run.glyphs[: at + 1] if other.text]
            lost += [sign for sign in (glyph.text or said[-1]) if not sign.isspace()]
    return lost
