"""Runs put together from others that need nothing from each other, so that none is shaped anew."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.documents.text import Run, Typeface, shape

if TYPE_CHECKING:
    from collections.abc import Sequence


def is_joined(run: Run) -> bool:
    """Whether its parts are all of its own typeface."""
    return bool(run.parts) and all(part.face is run.face for _, part in run.parts)


def joined(face: Typeface, text: str, runs: Sequence[Run]) -> Run:
    """Runs of one typeface in a line, as they stand alone; see `stand_alone`."""
    parts: list[tuple[float, Run]] = []
    pen = 0.0
    for run in runs:
        parts.append((pen, run))
        pen += run.advance
    return Run(face, text, (), pen, parts=tuple(parts))


def stand_alone(face: Typeface, texts: Sequence[str]) -> bool:
    """Whether texts shaped one by one come to the same as shaped together: no kerning between."""
    whole = shape(face, "".join(texts))
    runs = [shape(face, text) for text in texts]
    if any(run.parts or run.backwards for run in (whole, *runs)):
        return False
    placed: list[tuple[int, float, float]] = []
    pen = 0.0
    for run in runs:
        placed += [(glyph.gid, glyph.x + pen, glyph.y) for glyph in run.glyphs]
        pen += run.advance
    there = [(glyph.gid, glyph.x, 0.0) for glyph in whole.glyphs]
    return placed == there and pen == whole.advance
