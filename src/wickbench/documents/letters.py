"""Runs taken apart into what moves as one: a letter with its marks, a ligature whole."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from wickbench.documents.marks import is_mark
from wickbench.documents.text import Glyph, Run

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True, slots=True)
class Letter:
    """A cluster of glyphs.

    Attributes:
        start_em: where it begins, from the start of the whole run, in ems.
        wide_em: how far the pen moves over it, kerning with what follows included.
        run: its glyphs, beginning at 0.
    """

    start_em: float
    wide_em: float
    run: Run

    @property
    def middle_em(self) -> float:
        """Its middle."""
        return self.start_em + self.wide_em / 2


@lru_cache(1024)
def letters_of(run: Run) -> tuple[Letter, ...]:
    """The clusters of a run in the order they are read; lent letters and blanks too."""
    pieces = run.parts or ((0.0, run),)
    found = [
        Letter(
            start / run.face.units_per_em + cluster[0].x / part.face.units_per_em,
            sum(glyph.advance for glyph in cluster) / part.face.units_per_em,
            _alone(part, cluster),
        )
        for start, part in pieces
        for cluster in _clusters(part)
    ]
    return tuple(found)


def _alone(run: Run, cluster: Sequence[Glyph]) -> Run:
    start = cluster[0].x
    glyphs = tuple(replace(glyph, x=glyph.x - start) for glyph in cluster)
    said = reversed(cluster) if run.backwards else cluster
    text = "".join(glyph.text for glyph in said)
    return Run(run.face, text, glyphs, sum(glyph.advance for glyph in cluster), run.backwards)


def _clusters(run: Run) -> list[list[Glyph]]:
    """Glyphs that stand together, in reading order; marks stay with their letter."""
    groups: list[list[Glyph]] = []
    for glyph in run.glyphs:
        if groups and not glyph.text:
            groups[-1].append(glyph)
        else:
            groups.append([glyph])
    joined: list[list[Glyph]] = []
    for group in reversed(groups) if run.backwards else groups:
        if joined and is_mark(group[0].text):
            joined[-1] = [*group, *joined[-1]] if run.backwards else [*joined[-1], *group]
        else:
            joined.append(group)
    return joined
